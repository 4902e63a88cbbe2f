package publish

import (
	"bytes"
	"path"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// Each language has every page, in a folder with all that its pages load; each page says its
// language and leads to the same one in the others; and no link inside leads nowhere.
func TestPagesInTwoLanguages(t *testing.T) {
	l := inTwo(t)
	made, _ := built(t, l, nil)
	pages := 0
	for name, data := range made {
		if path.Ext(name) != ".html" || path.Base(path.Dir(name)) == "start" { // what only leads on, leads on in its language
			continue
		}
		pages++
		lang, other := "en", nobodys+"/"+name
		if in, ok := strings.CutPrefix(name, nobodys+"/"); ok {
			lang, other = nobodys, in
		}
		doc, err := html.Parse(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		led := map[string]bool{}
		eachLink(doc, func(to string) {
			to = path.Join(path.Dir(name), to)
			led[to] = true
			if made[to] == nil {
				t.Errorf("%s leads to %s, and there is none", name, to)
			}
			if in := strings.HasPrefix(to, nobodys+"/"); in != (lang == nobodys) && to != other {
				t.Errorf("%s leads to %s, which is in another language", name, to)
			}
		})
		if !led[other] || !led[name] || !bytes.Contains(data, []byte(`<html lang="`+lang+`"`)) {
			t.Errorf("%s does not lead to %s, or does not say that it is in %s", name, other, lang)
		}
	}
	judged := func(page string) bool { return bytes.Contains(made[page], []byte("Flesch-Kincaid")) }
	if !judged("learn/stairs.html") || judged(nobodys+"/learn/stairs.html") {
		t.Error("a page is judged by the formulas of another language, or by none of its own")
	}
	if pages < 2*len(l.Trees) {
		t.Errorf("there are %d pages", pages)
	}
	again, kept := built(t, l, made)
	if made := len(again) - kept; made != 1 {
		t.Errorf("%d files are made again where nothing has changed, and only the ledger should be", made)
	}
}

// eachLink gives the addresses, without a place on the page, to which a page leads inside the site.
func eachLink(n *html.Node, do func(string)) {
	for _, a := range n.Attr {
		if to, _, _ := strings.Cut(a.Val, "#"); (a.Key == "href" || a.Key == "src") && to != "" && !strings.Contains(to, ":") {
			do(to)
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		eachLink(c, do)
	}
}
