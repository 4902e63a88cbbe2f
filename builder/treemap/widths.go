package treemap

import (
	_ "embed"
	"fmt"
	"strings"
)

// widths has a line for each letter of the site's typeface: its code, and how far the text weight and the heavy one
// go on after it, in thousandths of the size. TestWidths of room browsertest measures each in a browser again.
//
//go:embed widths.txt
var widths string

// advance is how far a letter takes a line, in thousandths of the size, by weight.
type advance struct{ text, heavy int }

var advances = func() map[rune]advance {
	out := map[rune]advance{}
	for line := range strings.Lines(widths) {
		var letter rune
		var a advance
		if _, err := fmt.Sscanf(line, "%x %d %d", &letter, &a.text, &a.heavy); err != nil {
			panic("treemap: widths.txt: " + err.Error())
		}
		out[letter] = a
	}
	return out
}()

// Unknown letters are as wide as a wide one, so that a text never takes more room than is left for it.
const unknown = 1000

// Width is how wide a line of text is at a size, in the unit of the size. Kerning, which mostly brings letters
// nearer, is not counted.
func Width(text string, heavy bool, size float64) float64 {
	sum := 0
	for _, letter := range text {
		a, ok := advances[letter]
		switch {
		case !ok:
			sum += unknown
		case heavy:
			sum += a.heavy
		default:
			sum += a.text
		}
	}
	return float64(sum) * size / 1000
}

// wrap breaks a text into lines of at most that width. A word that is wider has a line of its own.
func wrap(text string, heavy bool, size, room float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if line != "" && Width(longer, heavy, size) > room {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// widest is the width of the widest word.
func widest(text string, heavy bool, size float64) float64 {
	most := 0.0
	for _, word := range strings.Fields(text) {
		most = max(most, Width(word, heavy, size))
	}
	return most
}
