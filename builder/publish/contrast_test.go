package publish

import (
	"io/fs"
	"math"
	"path"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"keelpath/site"
)

// luminance is the relative luminance of WCAG 2.2 for "#rrggbb" or "#rgb".
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	hex = strings.TrimPrefix(hex, "#")
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	n, err := strconv.ParseUint(hex, 16, 32)
	if err != nil || len(hex) != 6 {
		t.Fatalf("%q is no colour", hex)
	}
	linear := func(v uint64) float64 {
		c := float64(v&255) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

// contrast is the contrast ratio of WCAG 2.2: (lighter + 0.05) / (darker + 0.05).
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// The formula itself, against values worked out from WCAG 2.2 (W3C, 5 October
// 2023; facts: standards 5.4). The pairs stand on both sides of a threshold.
func TestContrastFormula(t *testing.T) {
	for _, c := range []struct {
		colour string // on white
		want   float64
	}{
		{"#000", 21},
		{"#595959", 7.0047}, // the darkest grey but one that passes 7:1
		{"#5a5a5a", 6.8969},
		{"#767676", 4.5422},
		{"#777777", 4.4781},
		{"#949494", 3.0335},
		{"#959595", 2.9953},
		{"#0000ff", 8.5925},
		{"#008000", 5.1374},
		{"#ff0000", 3.9985},
	} {
		if got := contrast(t, c.colour, "#fff"); math.Abs(got-c.want) > 0.00005 {
			t.Errorf("%s on white: %.4f, want %.4f", c.colour, got, c.want)
		}
	}
}

var (
	rootBlock = regexp.MustCompile(`(?s):root\s*\{(.*?)\}`)
	property  = regexp.MustCompile(`(--[a-z0-9]+):\s*(#[0-9a-f]{3,6})\s*;`)
	anyColour = regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\b(rgb|hsl|oklch|color-mix)a?\(`)
)

// themes reads the colours of site.css: light, dark, paper, in the file's order.
func themes(t *testing.T) []map[string]string {
	t.Helper()
	css, err := fs.ReadFile(site.Files, "style/site.css")
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, block := range rootBlock.FindAllStringSubmatch(string(css), -1) {
		theme := map[string]string{}
		for _, p := range property.FindAllStringSubmatch(block[1], -1) {
			theme[p[1]] = p[2]
		}
		out = append(out, theme)
	}
	if len(out) != 3 {
		t.Fatalf("site.css has %d blocks of colours, want light, dark and paper", len(out))
	}
	return out
}

// Every pair of the theme: text at 7:1 (WCAG 2.2, 1.4.6, AAA), borders of
// controls at 3:1 (1.4.11). --hair is ornament, and no text of --clay, --link or --stop stands on the deepest earth.
func TestThemeContrast(t *testing.T) {
	for i, theme := range themes(t) {
		name := []string{"light", "dark", "paper"}[i]
		if len(theme) != 11 {
			t.Errorf("%s: %d colours, want 11: %v", name, len(theme), theme)
		}
		for _, ground := range []string{"--paper", "--earth", "--earth2", "--earth3"} {
			texts := []string{"--ink", "--soft", "--clay", "--link", "--stop"}
			if ground == "--earth3" {
				texts = texts[:2]
			}
			for _, text := range texts {
				if got := contrast(t, theme[text], theme[ground]); got < 7 {
					t.Errorf("%s: %s on %s is %.2f, want at least 7", name, text, ground, got)
				}
			}
			if got := contrast(t, theme["--line"], theme[ground]); got < 3 {
				t.Errorf("%s: --line on %s is %.2f, want at least 3", name, ground, got)
			}
		}
	}
}

// A colour that stands anywhere else would escape the test above. Black and
// white are left to the printed sheet.
func TestColoursStandInOnePlace(t *testing.T) {
	names, err := fs.Glob(site.Files, "style/*.css")
	if err != nil || len(names) == 0 {
		t.Fatal("no style sheets", err)
	}
	for _, name := range names {
		css, err := fs.ReadFile(site.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		text := string(css)
		if path.Base(name) == "site.css" {
			text = rootBlock.ReplaceAllString(text, "")
		}
		for _, found := range anyColour.FindAllString(text, -1) {
			if found != "#000" && found != "#fff" {
				t.Errorf("%s names the colour %s outside the theme", name, found)
			}
		}
	}
}
