"""Makes the site's typeface out of Atkinson Hyperlegible Next (SIL Open Font License 1.1).

    python3 make.py PACKAGE

PACKAGE is the unpacked npm package @fontsource/atkinson-hyperlegible-next, 5.3.0. Debian's
fonttools and python3-brotli are needed. It keeps the letters of western European languages,
draws a plain zero in place of the slashed one, which may be read as an 8 or as crossed out,
and gives the result a name of its own, as the licence asks of changed fonts.
"""
import sys

from fontTools import subset
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib.tables._g_l_y_f import GlyphCoordinates

LETTERS = [*range(0x20, 0x7F), *range(0xA0, 0x100), 0x152, 0x153, 0x2013, 0x2014, 0x2018, 0x2019, 0x201A, 0x201C,
           0x201D, 0x201E, 0x2022, 0x2026, 0x2039, 0x203A, 0x20AC, 0x2212]

# The inside of each weight's zero: the left half of the slashed one and its mirror.
INSIDE = {
    400: [(324, 62), [(383, 62), (460, 126), (497, 248), (497, 335)], [(497, 401), (476, 502), (433, 572), (368, 608), (324, 608)],
          [(280, 608), (215, 572), (172, 502), (151, 401), (151, 335)], [(151, 248), (188, 126), (265, 62), (324, 62)]],
    600: [(328, 84), [(376, 84), (443, 138), (477, 249), (477, 335)], [(477, 387), (461, 478), (426, 546), (369, 585), (328, 585)],
          [(287, 585), (230, 546), (195, 478), (179, 387), (179, 335)], [(179, 249), (213, 138), (280, 84), (328, 84)]],
}


def plain_zero(font, weight):
    glyphs = font["glyf"]
    slashed = glyphs["zero"]
    outside = slashed.endPtsOfContours[0] + 1
    pen = TTGlyphPen(None)
    start, *curves = INSIDE[weight]
    pen.moveTo(start)
    for curve in curves:
        pen.qCurveTo(*curve)
    pen.closePath()
    inside = pen.glyph()
    slashed.coordinates = GlyphCoordinates([*slashed.coordinates[:outside], *inside.coordinates])
    slashed.flags = slashed.flags[:outside] + inside.flags
    slashed.endPtsOfContours = [outside - 1, outside + len(inside.coordinates) - 1]
    slashed.numberOfContours = 2
    slashed.program.fromBytecode(b"")


def make(package, weight):
    options = subset.Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "tnum"]
    options.hinting = False
    options.name_IDs = [0, 1, 2, 4, 6, 13, 14]
    font = subset.load_font(f"{package}/files/atkinson-hyperlegible-next-latin-{weight}-normal.woff2", options)
    plain_zero(font, weight)
    cut = subset.Subsetter(options)
    cut.populate(unicodes=LETTERS)
    cut.subset(font)
    for record in font["name"].names:
        if record.nameID in (1, 4, 6):
            record.string = "KeelpathText" if record.nameID == 6 else "Keelpath Text"
    subset.save_font(font, f"keelpath-text-{weight}.woff2", options)


for weight in INSIDE:
    make(sys.argv[1], weight)
