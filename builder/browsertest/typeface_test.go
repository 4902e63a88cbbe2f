package browsertest

import (
	"fmt"
	"math"
	"testing"

	"keelpath/builder/treemap"
)

// A map's words are measured by a table. It says of each letter what the browser says of the typeface that the site has.
func TestWidths(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	b.open(onDisk("teach/index.html"))
	letters := "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,:;?!%/()-\u00e9\u00fc\u00f1\u00df\u2019\u201c\u201d"
	for weight, heavy := range map[int]bool{400: false, 600: true} {
		got := eval[[]float64](b, fmt.Sprintf(`(() => { const c = document.createElement("canvas").getContext("2d");
c.fontKerning = "none"; c.font = "%d 1000px " + getComputedStyle(document.body).fontFamily;
return Array.from(%q).map((letter) => c.measureText(letter).width); })()`, weight, letters))
		for i, letter := range []rune(letters) {
			if want := treemap.Width(string(letter), heavy, 1000); math.Abs(got[i]-want) > 1 {
				t.Errorf("%q at %d is %v wide, and the table says %v", letter, weight, got[i], want)
			}
		}
	}
}
