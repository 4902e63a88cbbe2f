package explainer

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/say"
)

// A listing marked "share" shows shares of people as pictures: lines "key: value",
// and an empty line between one share and the next. "#" begins a remark.
//
//	count: 58
//	of: 100
//	within: a year
//	says: 58 in 100 people fell within a year
//
// Shares that stand in one listing are there to be compared. So they are of the
// same number of people, and within the same time.
var shareKeys = []string{"count", "of", "within", "says"}

// share is one share as an author wrote it.
type share struct {
	at     int // where it begins in the text
	values map[string]shareValue
	drawn  drawing.Share
}

type shareValue struct {
	text       string
	key, start int // where the key and the value stand in the text
}

// place is where the value of a key stands, or the share where it has none.
func (s share) place(key string) int {
	if v, ok := s.values[key]; ok {
		return v.start
	}
	return s.at
}

// id names the picture on its page.
func (s share) id() string { return "share-" + headingIDs{}.next(s.values["says"].text) }

// complaint takes what is wrong at a place in the text.
type complaint func(at int, check, text string, help ...string)

// shares reads such a listing, and tells what is wrong with it.
func shares(n *ast.FencedCodeBlock, src []byte, wrong complaint) []share {
	var out []share
	open := false // the next line belongs to the last share
	for i := range n.Lines().Len() {
		segment := n.Lines().At(i)
		line := segment.Value(src)
		words := bytes.TrimSpace(line)
		switch {
		case len(words) == 0:
			open = false
			continue
		case words[0] == '#':
			continue
		}
		at := segment.Start + bytes.Index(line, words)
		if !open {
			out, open = append(out, share{at: at, values: map[string]shareValue{}}), true
		}
		out[len(out)-1].take(at, string(words), wrong)
	}
	for i := range out {
		out[i].read(wrong)
	}
	return out
}

// take keeps the value of one line.
func (s *share) take(at int, line string, wrong complaint) {
	key, text, ok := strings.Cut(line, ":")
	key, text = strings.TrimSpace(key), strings.TrimSpace(text)
	switch _, twice := s.values[key]; {
	case !ok:
		wrong(at, "wrong-type", fmt.Sprintf("the line %q of a share is no key with a value", line), `write it as "key: value"`)
	case !slices.Contains(shareKeys, key):
		wrong(at, "unknown-key", fmt.Sprintf("a share has no key %q", key), finding.NearestOrAll(key, shareKeys, "keys here")...)
	case twice:
		wrong(at, "repeated-key", fmt.Sprintf("the share has the key %q twice", key), "keep one of them, or put an empty line between two shares")
	default:
		s.values[key] = shareValue{text, at, at + len(line) - len(text)}
	}
}

// read takes the values of a share, and holds its words against its numbers.
func (s *share) read(wrong complaint) {
	for _, key := range []string{"count", "of", "says"} {
		v, ok := s.values[key]
		if !ok {
			wrong(s.at, "missing-key", fmt.Sprintf("the share lacks %q", key), fmt.Sprintf(`add a line "%s: ..."`, key))
		} else if v.text == "" {
			wrong(v.key, "empty-text", fmt.Sprintf("%q of the share has no value", key), "write it behind the colon")
		}
	}
	count, counted := s.number("count", wrong)
	of, known := s.number("of", wrong)
	s.drawn = drawing.Share{Count: count, Of: of, Says: s.values["says"].text}
	switch {
	case known && (of == 0 || of > drawing.ShareFew && of != drawing.ShareOf):
		wrong(s.place("of"), "share", fmt.Sprintf("the share is of %d people, and a picture of so many cannot be taken in", of),
			fmt.Sprintf("give it as a share of %d, or of all that there were if they are at most %d", drawing.ShareOf, drawing.ShareFew))
	case counted && known && count > of:
		wrong(s.place("count"), "share", fmt.Sprintf("the share counts %d people of %d", count, of), `"of" is how many there are in all`)
	}
	if s.drawn.Says == "" {
		return
	}
	if counted {
		s.saysNumber("count", count, wrong)
	}
	if known && of > 0 {
		s.saysNumber("of", of, wrong)
	}
	if within := s.values["within"].text; within != "" && !strings.Contains(s.drawn.Says, within) {
		wrong(s.place("says"), "share", fmt.Sprintf("the words of the share do not say %q, which is its time", within), "say within what time people were counted")
	}
}

// number gives a count; ok is false where it is missing, which was told, or wrong.
func (s share) number(key string, wrong complaint) (n int, ok bool) {
	text := s.values[key].text
	if text == "" {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		wrong(s.place(key), "wrong-type", fmt.Sprintf("%q is %q, and a whole number was expected", key, text), "write it in figures")
		return 0, false
	}
	return n, true
}

// inFigures finds whole numbers and others, so that the 5 of 2.5 is none by itself.
var inFigures = regexp.MustCompile(`\d+(?:[.,]\d+)*`)

func (s share) saysNumber(key string, n int, wrong complaint) {
	if !slices.Contains(inFigures.FindAllString(say.Western(s.drawn.Says), -1), strconv.Itoa(n)) {
		wrong(s.place("says"), "share", fmt.Sprintf("the words of the share do not name its %q, which is %d", key, n),
			`say the same as the picture: "58 in 100 people fell within a year"`)
	}
}

// share holds a listing marked "share" against what a picture can show fairly.
func (c *checker) share(n *ast.FencedCodeBlock, at finding.Place) {
	all := shares(n, c.doc.src, func(at int, check, text string, help ...string) { c.list.Add(c.doc.at(at), check, text, help...) })
	if len(all) == 0 {
		c.list.Add(at, "empty-text", "the listing of shares has nothing in it", "write the lines "+strings.Join(shareKeys, ", "))
		return
	}
	for _, s := range all {
		says := s.values["says"]
		if says.text == "" {
			continue
		}
		c.doc.Plain = append(c.doc.Plain, says.text)
		c.doc.Blocks = append(c.doc.Blocks, Block{Kind: Picture, Text: says.text, at: c.doc.at, from: []step{{0, says.start}}})
		if c.doc.drawn[s.id()] {
			c.list.Add(c.doc.at(says.start), "repeated-id", fmt.Sprintf("the page shows the share %q twice", says.text), "keep one of them")
		}
		c.doc.drawn[s.id()] = true
	}
	if len(all) > 1 {
		c.sideBySide(all)
	}
}

// sideBySide reports shares of one listing that cannot be compared fairly.
func (c *checker) sideBySide(all []share) {
	for _, s := range all {
		if s.values["within"].text == "" {
			c.list.Add(c.doc.at(s.at), "share", `the share stands beside another, and does not say "within" what time people were counted`,
				"give all of them the same time, or show each in a listing of its own")
		}
		for _, key := range []string{"of", "within"} {
			if a, b := all[0].values[key].text, s.values[key].text; a != "" && b != "" && a != b {
				c.list.Add(c.doc.at(s.place(key)), "share", fmt.Sprintf("%q is %q, and %q in the share above: side by side the two would not be compared fairly", key, b, a),
					"give both the same, or show each in a listing of its own")
			}
		}
	}
}

// share renders such a listing.
func (nodes) share(w util.BufWriter, src []byte, n *ast.FencedCodeBlock) {
	sound := true
	all := shares(n, src, func(int, string, string, ...string) { sound = false })
	if !sound || len(all) == 0 {
		return // the checker has reported it
	}
	class, words := "share", sayOf(n)
	if len(all) > 1 {
		class = "shares"
	}
	fmt.Fprintf(w, "<figure class=\"%s\">\n", class)
	for _, s := range all {
		fmt.Fprintf(w, "<div>%s<p>%s</p></div>\n", s.drawn.SVG(words, s.id()), util.EscapeHTML([]byte(s.drawn.Says)))
	}
	fmt.Fprintf(w, "<figcaption>%s</figcaption></figure>\n", words.HTML("share.caption", "of", all[0].drawn.Of))
}
