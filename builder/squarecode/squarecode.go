// Package squarecode makes the square code of an address, which a phone's camera reads: ISO/IEC
// 18004, "QR code". What a browser makes of a reader's own picks (site/client/invite/square.ts) is the same,
// module by module.
package squarecode

import (
	"fmt"
	"image/color"
	"strings"

	"github.com/boombuler/barcode/qr"
)

// Quiet is how many light modules have to stay free on each side (the standard; so does its
// maker say: facts, language-and-offline 4).
const Quiet = 4

// Most is how long an address can be: what the largest code that is made holds, of 57 modules.
const Most = 213

// Code is a code's modules.
type Code struct {
	rows [][]bool
}

// Of gives the code of an address, at level M: about 15 % of it may be dirty. The address is ASCII, for
// programs that read codes do not agree on anything else.
func Of(address string) (Code, error) {
	for _, r := range address {
		if r <= ' ' || r > '~' {
			return Code{}, fmt.Errorf("the address %q has %q, which is no sign of plain ASCII", address, r)
		}
	}
	if len(address) > Most {
		return Code{}, fmt.Errorf("the address %q has %d signs, and %d have room in a code", address, len(address), Most)
	}
	made, err := qr.Encode(address, qr.M, qr.Unicode)
	if err != nil {
		return Code{}, fmt.Errorf("the code of %q: %w", address, err)
	}
	size := made.Bounds().Dx()
	c := Code{rows: make([][]bool, size)}
	for y := range size {
		c.rows[y] = make([]bool, size)
		for x := range size {
			c.rows[y][x] = color.GrayModel.Convert(made.At(x, y)).(color.Gray).Y < 128
		}
	}
	return c, nil
}

// Size is how many modules it has along its side, without the quiet zone.
func (c Code) Size() int { return len(c.rows) }

// Side is that with the quiet zone.
func (c Code) Side() int { return len(c.rows) + 2*Quiet }

// Dark tells of a module, by column and row.
func (c Code) Dark(x, y int) bool { return c.rows[y][x] }

// Path draws its dark modules in a picture whose unit is one module, with the quiet zone
// around: the runs of each row.
func (c Code) Path() string {
	var b strings.Builder
	for y, row := range c.rows {
		for x := 0; x < len(row); x++ {
			end := x
			for end < len(row) && row[end] {
				end++
			}
			if end > x {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", x+Quiet, y+Quiet, end-x, end-x)
			}
			x = end
		}
	}
	return b.String()
}
