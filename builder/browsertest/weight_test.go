package browsertest

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// What a reader on a slow line may be asked to load, in bytes.
const (
	pageLimit    = 60_000 // with style and script, compressed
	plannerLimit = 45_000 // until the first question, with all of the safety screen, however many topics there are
	topicLimit   = 12_000 // more, for each topic that is taken
	scriptLimit  = 20_000 // compressed
	guardLimit   = 23_500 // of the planner's script, which has the safety screen and what was told in it
	lookupLimit  = 30_000 // a part of what is looked up in, which comes when a reader looks for something; builder/publish holds all of it to a share of the text
	imageLimit   = 30_000
	fontLimit    = 24_000 // all typefaces together, once for the whole site; text stands before they come
)

func TestWeight(t *testing.T) {
	for _, heavy := range tooHeavy(t, siteDir) {
		t.Error(heavy)
	}
}

// Too heavy things must be found: a padded page, a padded planner, a topic, a picture, a font.
func TestWeightSeesFaults(t *testing.T) {
	dir := brokenSite(t, "learn/index.html", "</main>", "<p>"+noise(61_000)+"</p></main>")
	page := filepath.Join(dir, filepath.FromSlash(plannerName))
	data, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(page, append(data, noise(plannerLimit/10)...), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, size := range map[string]int{"assets/big.png": imageLimit + 1, "assets/type.woff2": fontLimit, "assets/tree-big.js": topicLimit * 3 / 2} {
		if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), []byte(noise(size)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got := tooHeavy(t, dir); len(got) != 5 {
		t.Errorf("five things are too heavy, and these were found: %q", got)
	}
}

func tooHeavy(t testing.TB, dir string) []string {
	t.Helper()
	var out []string
	fonts := 0
	limit := func(name string, size, most int) {
		if size > most {
			out = append(out, fmt.Sprintf("%s weighs %d bytes, want at most %d", name, size, most))
		}
	}
	for _, name := range files(t, dir) {
		switch path.Ext(name) {
		case ".html":
			sum, most := 0, pageLimit
			for _, part := range loads(t, dir, name) {
				if !isFont(part.file) {
					sum += zipped(t, dir, part.file)
				}
			}
			if name == plannerName {
				most = plannerLimit
			}
			limit(name, sum, most)
		case ".js":
			most := scriptLimit
			switch {
			case strings.HasPrefix(name, "assets/planner."):
				most = guardLimit
			case strings.HasPrefix(name, "assets/tree-"), strings.HasPrefix(name, "assets/ground-"): // a topic, and what shows its answers
				most = topicLimit
			case strings.HasPrefix(name, "search/"):
				most = lookupLimit
			}
			limit(name, zipped(t, dir, name), most)
		case ".png", ".jpg", ".jpeg", ".svg", ".webp", ".avif", ".gif", ".ico":
			limit(name, sizeOf(t, dir, name), imageLimit)
		default:
			if isFont(name) {
				fonts += sizeOf(t, dir, name)
			}
		}
	}
	limit("all typefaces", fonts, fontLimit)
	return out
}

func isFont(name string) bool {
	return slices.Contains([]string{".woff", ".woff2", ".ttf", ".otf", ".eot"}, path.Ext(name))
}

func sizeOf(t testing.TB, dir, name string) int {
	t.Helper()
	info, err := os.Stat(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return int(info.Size())
}

func zipped(t testing.TB, dir, name string) int {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, 6)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

// noise is text that no compression makes smaller than about three quarters.
func noise(n int) string {
	out := make([]byte, 0, n*3/2)
	for x := uint32(1); len(out) < cap(out); {
		x = x*1664525 + 1013904223
		out = append(out, "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-_"[x>>26])
	}
	return string(slices.Clip(out))
}
