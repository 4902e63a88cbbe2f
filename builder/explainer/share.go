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

func (s share) place(key string) int {
	if v, ok := s.values[key]; ok {
		return v.start
	}
	return s.at
}

// shares reads such a listing, and tells what is wrong with it.
func shares(n *ast.FencedCodeBlock, src []byte, wrong func(at int, check, text string, help ...string)) []share {
	var out []share
	open := false
	for i := range n.Lines().Len() {
		segment := n.Lines().At(i)
		line := segment.Value(src)
		words := bytes.TrimSpace(line)
		at := segment.Start + max(bytes.Index(line, words), 0)
		switch {
		case len(words) == 0:
			open = false
			continue
		case words[0] == '#':
			continue
		}
		if !open {
			out, open = append(out, share{at: at, values: map[string]shareValue{}}), true
		}
		name, text, ok := strings.Cut(string(words), ":")
		name = strings.TrimSpace(name)
		switch _, twice := out[len(out)-1].values[name]; {
		case !ok:
			wrong(at, "wrong-type", fmt.Sprintf("the line %q of a share is no key with a value", words), `write it as "key: value"`)
		case !slices.Contains(shareKeys, name):
			help := finding.NearestHelp(name, shareKeys, nil)
			if help == nil {
				help = []string{"keys here: " + strings.Join(shareKeys, ", ")}
			}
			wrong(at, "unknown-key", fmt.Sprintf("a share has no key %q", name), help...)
		case twice:
			wrong(at, "repeated-key", fmt.Sprintf("the share has the key %q twice", name), "keep one of them, or put an empty line between two shares")
		default:
			value := strings.TrimSpace(text)
			out[len(out)-1].values[name] = shareValue{value, at, at + len(words) - len(value)}
		}
	}
	for i := range out {
		out[i].read(wrong)
	}
	return out
}

// read takes the values of a share, and holds its words against its numbers.
func (s *share) read(wrong func(at int, check, text string, help ...string)) {
	for _, key := range []string{"count", "of", "says"} {
		v, ok := s.values[key]
		if !ok {
			wrong(s.at, "missing-key", fmt.Sprintf("the share lacks %q", key), fmt.Sprintf(`add a line "%s: ..."`, key))
		} else if v.text == "" {
			wrong(v.key, "empty-text", fmt.Sprintf("%q of the share has no value", key), "write it behind the colon")
		}
	}
	number := func(key string) (int, bool) {
		text := s.values[key].text
		k, err := strconv.Atoi(text)
		if text != "" && (err != nil || k < 0) {
			wrong(s.place(key), "wrong-type", fmt.Sprintf("%q is %q, and a whole number was expected", key, text), "write it in figures")
		}
		return k, text != "" && err == nil && k >= 0
	}
	count, counted := number("count")
	of, known := number("of")
	known = known && of > 0
	says, within := s.values["says"].text, s.values["within"]
	switch {
	case s.values["of"].text == "0", known && of > drawing.ShareFew && of != drawing.ShareOf:
		wrong(s.place("of"), "share", fmt.Sprintf("the share is of %s people, and a picture of so many cannot be taken in", s.values["of"].text),
			fmt.Sprintf("give it as a share of %d, or of all that there were if they are at most %d", drawing.ShareOf, drawing.ShareFew))
	case counted && known && count > of:
		wrong(s.place("count"), "share", fmt.Sprintf("the share counts %d people of %d", count, of), `"of" is how many there are in all`)
	}
	for _, n := range []struct {
		key string
		ok  bool
	}{{"count", counted}, {"of", known}} {
		if n.ok && says != "" && !slices.Contains(inFigures.FindAllString(says, -1), s.values[n.key].text) {
			wrong(s.place("says"), "share", fmt.Sprintf("the words of the share do not name its %q, which is %s", n.key, s.values[n.key].text),
				`say the same as the picture: "58 in 100 people fell within a year"`)
		}
	}
	if within.text != "" && says != "" && !strings.Contains(says, within.text) {
		wrong(s.place("says"), "share", fmt.Sprintf("the words of the share do not say %q, which is its time", within.text), "say within what time people were counted")
	}
	s.drawn = drawing.Share{Count: count, Of: of, Says: says}
}

var inFigures = regexp.MustCompile(`\d+`)

// share holds a listing marked "share" against what a picture can show fairly.
func (c *checker) share(n *ast.FencedCodeBlock, at finding.Place) {
	all := shares(n, c.doc.src, func(at int, check, text string, help ...string) { c.list.Add(c.doc.at(at), check, text, help...) })
	if len(all) == 0 {
		c.list.Add(at, "empty-text", "the listing of shares has nothing in it", "write the lines "+strings.Join(shareKeys, ", "))
		return
	}
	for _, s := range all {
		says := s.values["says"]
		if says.text != "" {
			c.doc.Plain = append(c.doc.Plain, says.text)
			c.doc.Blocks = append(c.doc.Blocks, Block{Kind: Picture, Text: says.text, at: c.doc.at, from: []step{{0, says.start}}})
		}
		if c.doc.drawn["share "+says.text] && says.text != "" {
			c.list.Add(c.doc.at(says.start), "repeated-id", fmt.Sprintf("the page shows the share %q twice", says.text), "keep one of them")
		}
		c.doc.drawn["share "+says.text] = true
		if len(all) == 1 {
			break
		}
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
	class := "share"
	if len(all) > 1 {
		class = "shares"
	}
	fmt.Fprintf(w, "<figure class=\"%s\">\n", class)
	for _, s := range all {
		fmt.Fprintf(w, "<div>%s<p>%s</p></div>\n", s.drawn.SVG("share-"+headingIDs{}.next(s.drawn.Says)), util.EscapeHTML([]byte(s.drawn.Says)))
	}
	fmt.Fprintf(w, "<figcaption>Each figure is one person in %d. Those counted are filled.</figcaption></figure>\n", all[0].drawn.Of)
}
