package browsertest

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// A printout is a PDF as a printer gets it.
type printout struct {
	t     testing.TB
	file  string
	Pages int
	Text  string // in reading order, on one line
}

var pagesLine = regexp.MustCompile(`(?m)^Pages:\s+(\d+)$`)

// print prints what the tab shows, and keeps a picture of it where asked to.
func (b *tab) print(paper, name string) printout {
	b.t.Helper()
	p := printout{t: b.t, file: filepath.Join(b.t.TempDir(), "page.pdf")}
	if err := os.WriteFile(p.file, b.pdf(paper), 0o644); err != nil {
		b.t.Fatal(err)
	}
	info := run(b.t, "pdfinfo", p.file)
	m := pagesLine.FindSubmatch(info)
	if m == nil {
		b.t.Fatalf("pdfinfo counts no pages: %s", info)
	}
	p.Pages, _ = strconv.Atoi(string(m[1]))
	p.Text = oneLine(string(run(b.t, "pdftotext", p.file, "-")))
	keepPicture(b.t, name+"-"+paper+".png", func() []byte { return run(b.t, "pdftoppm", "-r", "60", "-png", "-singlefile", p.file) })
	return p
}

// asWritten is the text in the order of the file: two columns side by side are not read across.
func (p printout) asWritten() string {
	p.t.Helper()
	return oneLine(string(run(p.t, "pdftotext", "-raw", p.file, "-")))
}

func run(t testing.TB, name string, args ...string) []byte {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s %v: %v", name, args, err)
	}
	return out
}

// inOrder reports which of the texts are missing, or come before the one named
// ahead of them.
func inOrder(text string, parts ...string) []string {
	var out []string
	at, before := 0, "the start"
	for _, part := range parts {
		i := strings.Index(text[at:], part)
		switch {
		case i >= 0:
			at, before = at+i+len(part), part
		case strings.Contains(text, part):
			out = append(out, fmt.Sprintf("%q does not come after %q", part, before))
		default:
			out = append(out, fmt.Sprintf("%q is missing", part))
		}
	}
	return out
}

// word is one word of a printed page with its place, in points from the top left.
type word struct {
	Top    float64 `xml:"yMin,attr"`
	Bottom float64 `xml:"yMax,attr"`
	Left   float64 `xml:"xMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Text   string  `xml:",chardata"`
}

// words gives the words of the first page and its size.
func (p printout) words() (words []word, width, height float64) {
	p.t.Helper()
	var doc struct {
		Pages []struct {
			Width  float64 `xml:"width,attr"`
			Height float64 `xml:"height,attr"`
			Words  []word  `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal(run(p.t, "pdftotext", "-bbox", p.file, "-"), &doc); err != nil || len(doc.Pages) == 0 {
		p.t.Fatalf("the words of the page cannot be read: %v", err)
	}
	return doc.Pages[0].Words, doc.Pages[0].Width, doc.Pages[0].Height
}

// lines counts the lines to write on: dark lines across nearly the whole width with
// nothing printed between them and the next, from the height of one word to another.
func (p printout) lines(from, to string) int {
	p.t.Helper()
	const dpi = 100
	words, width, _ := p.words()
	top, bottom := -1.0, -1.0
	for _, w := range words {
		if w.Text == from && top < 0 {
			top = w.Bottom
		}
		if w.Text == to && top >= 0 && w.Top > top && bottom < 0 {
			bottom = w.Top
		}
	}
	if top < 0 || bottom < 0 {
		p.t.Fatalf("the page has no part from %q to %q", from, to)
	}
	grey, w, h := readGrey(p.t, run(p.t, "pdftoppm", "-r", strconv.Itoa(dpi), "-gray", "-singlefile", p.file))
	n, inLine := 0, false
	for y := int(top * dpi / 72); y < min(h, int(bottom*dpi/72)+1); y++ {
		dark := 0
		for x := range w {
			if grey[y*w+x] < 140 {
				dark++
			}
		}
		long := float64(dark) > 0.8*(width-72)/72*dpi // margins are half an inch or so
		if long && !inLine {
			n++
		}
		inLine = long
	}
	return n
}

// A list of sources that has ten entries or more prints each number whole: what stands
// outside the printed text's edge is cut off.
func TestSourceNumbersPrint(t *testing.T) {
	t.Parallel()
	long := 0
	b := newTab(t)
	for _, name := range pages(t, siteDir) {
		n := 0
		for d := range pageOf(t, siteDir, name).Descendants() {
			if d.Data == "li" && strings.HasPrefix(attr(d, "id"), "source-") && d.Parent.Data == "ol" {
				n++
			}
		}
		if n < 10 {
			continue
		}
		long++
		b.open(onDisk(name))
		p := b.print("A4", "sources-"+name)
		_, list, ok := strings.Cut(string(run(t, "pdftotext", "-raw", p.file, "-")), "Sources\n")
		if !ok {
			t.Fatalf("%s: no list of sources is printed", name)
		}
		for i := 1; i <= n; i++ {
			if !regexp.MustCompile(fmt.Sprintf(`(?m)^\f?\s*%d\. `, i)).MatchString(list) {
				t.Errorf("%s: the source %d of %d is printed without its number", name, i, n)
			}
		}
	}
	if long < 17 {
		t.Errorf("only %d pages have ten sources or more", long)
	}
}

// readGrey reads a portable grey map.
func readGrey(t testing.TB, data []byte) (grey []byte, w, h int) {
	t.Helper()
	r := bufio.NewReader(bytes.NewReader(data))
	var most int
	if _, err := fmt.Fscanf(r, "P5\n%d %d\n%d\n", &w, &h, &most); err != nil {
		t.Fatal(err)
	}
	grey = make([]byte, w*h)
	if _, err := io.ReadFull(r, grey); err != nil {
		t.Fatal(err)
	}
	return grey, w, h
}

// furniture is what a screen shows and a sheet of paper has no use for.
var furniture = []string{
	"Skip to the text", "Get ready", "Clinics", "You are here", "Take off", "Put back", "Clear everything", "Print my sheet", "Add this question",
	"Write a question", "Take another topic", "All topics", "stars used", "Reviewed by", "Facts last checked", "Reading grade", "file:", "127.0.0.1",
}

func (p printout) furniture() []string {
	var out []string
	for _, part := range furniture {
		if strings.Contains(p.Text, part) {
			out = append(out, part)
		}
	}
	return out
}
