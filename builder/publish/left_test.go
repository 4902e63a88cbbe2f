package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"keelpath/builder/exchange"
	"keelpath/builder/finding"
	"keelpath/builder/internal/pseudo"
	"keelpath/builder/library"
	"keelpath/builder/read"
	"keelpath/builder/say"
	"keelpath/site"
)

const nobodys = "qaa" // BCP 47 keeps it for private use

// inNobodys is the built-in content, and what the program says, in a language that nobody speaks.
func inNobodys(t *testing.T) *library.Library {
	t.Helper()
	return inTwo(t).Others[0]
}

// inTwo is the built-in content in English and in that language.
func inTwo(t *testing.T) *library.Library {
	t.Helper()
	return inTwoWith(t, pseudo.Accented)
}

func inTwoWith(t *testing.T, letters pseudo.Letters) *library.Library {
	t.Helper()
	texts, pages, err := library.Texts(t.Context(), library.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	source := func(file string) []byte {
		src, err := os.ReadFile(filepath.Join("../..", filepath.FromSlash(file)))
		if err != nil {
			t.Fatal(err)
		}
		return src
	}
	words, err := pseudo.Files(nobodys, letters, texts, pages, source)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{
		say.File(nobodys):      string(letters.Words(nobodys, say.English())),
		"content/edition.yaml": fmt.Sprintf("languages: [%s]\n", nobodys),
	}
	for name, src := range words {
		files[name] = string(src)
	}
	return load(t, files)
}

// readOut are the attributes that readers see or hear.
var readOut = []string{"aria-label", "title", "alt", "placeholder", "aria-valuetext", "data-title"}

// eachSaid calls do for each text of a page that readers see or hear, and for its description.
func eachSaid(n *html.Node, do func(string)) {
	switch n.Type {
	case html.TextNode:
		do(n.Data)
	case html.ElementNode:
		another := n.Data != "html" && slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "lang" }) // says so itself
		if another || n.Data == "script" || n.Data == "style" || n.Data == "code" || n.Data == "pre" || n.Data == "cite" {
			return
		}
		for _, a := range n.Attr {
			if slices.Contains(readOut, a.Key) || n.Data == "meta" && a.Key == "content" && slices.Contains(n.Attr, html.Attribute{Key: "name", Val: "description"}) {
				do(a.Val)
			}
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		eachSaid(c, do)
	}
}

// names are what stands as it is in every language: who wrote what and where it stands, people, and
// the words that an edition gives of itself.
func names(l *library.Library) *strings.Replacer {
	var all []string
	for _, s := range l.Sources {
		all = append(all, s.Title.S, s.By.S, s.Where.S)
	}
	for _, c := range shelfCredits(l) {
		all = append(all, read.Strings(slices.Concat(c.Authors, c.Reviewers))...)
	}
	all = slices.DeleteFunc(append(all, l.Edition.Name.S), func(s string) bool { return s == "" })
	slices.SortFunc(all, func(a, b string) int { return len(b) - len(a) })
	var pairs []string
	for _, s := range all {
		pairs = append(pairs, s, " ")
	}
	return strings.NewReplacer(pairs...)
}

func shelfCredits(l *library.Library) []read.Credits {
	out := creditsOf(l.Trees)
	for _, p := range l.Explainers {
		out = append(out, p.Credits)
	}
	return out
}

// formulas are the names of two, which are the same in every language.
var formulas = regexp.MustCompile(`\b(Flesch-Kincaid|SMOG)\b`)

// In a language that nobody speaks no word of English is left, but for names.
func TestLeft(t *testing.T) {
	l := inNobodys(t)
	m, err := newMaker(l, site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	names, left := names(l), map[string]string{}
	for _, p := range m.plan.Pages {
		data, _, err := m.html(p)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := html.Parse(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		eachSaid(doc, func(s string) {
			s = strings.Join(strings.Fields(formulas.ReplaceAllString(names.Replace(s), " ")), " ")
			if word := pseudo.Left(s); word != "" {
				left[s] = p.Name
			}
		})
	}
	for _, s := range slices.Sorted(maps.Keys(left)) {
		t.Errorf("%s says %q", left[s], s)
	}
}

// texts are the keys of a form under which words stand.
var texts = []string{"title", "description", "purpose", "text", "display"}

// eachText calls do for each text of a form, but for the names of units of UCUM, whose signs are the same in every language.
func eachText(at any, do func(string)) {
	switch v := at.(type) {
	case []any:
		for _, one := range v {
			eachText(one, do)
		}
	case map[string]any:
		for key, one := range v {
			if s, ok := one.(string); ok && slices.Contains(texts, key) && v["system"] != "http://unitsofmeasure.org" {
				do(s)
			}
			eachText(one, do)
		}
	}
}

// The forms for a clinic's program have no word of English left either.
func TestFormsLeft(t *testing.T) {
	l := inNobodys(t)
	names, left := names(l), map[string]string{}
	var found finding.List
	for _, f := range exchange.Write(l, l.Trees, &found) {
		var form map[string]any
		if err := json.Unmarshal(f.JSON, &form); err != nil {
			t.Fatal(err)
		}
		if form["language"] != nobodys {
			t.Errorf("%s is in %v", f.Tree.ID.S, form["language"])
		}
		eachText(form, func(s string) {
			if word := pseudo.Left(names.Replace(s)); word != "" {
				left[s] = f.Tree.ID.S
			}
		})
	}
	for _, s := range slices.Sorted(maps.Keys(left)) {
		t.Errorf("%s says %q", left[s], s)
	}
}

// In a language with digits of its own no page has a number in others.
func TestDigitsLeft(t *testing.T) {
	l := inTwoWith(t, pseudo.Numbered).Others[0]
	m, err := newMaker(l, site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	names, left := names(l), map[string]string{}
	codes := strings.NewReplacer(l.Edition.Version.S, " ", l.Edition.Lines.Emergency.Number.S, " ", l.Edition.Lines.Crisis.Number.S, " ") // what is dialled stays as it is
	for _, p := range m.plan.Pages {
		data, _, err := m.html(p)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := html.Parse(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		eachSaid(doc, func(s string) {
			s = strings.Join(strings.Fields(codes.Replace(names.Replace(s))), " ")
			if strings.ContainsAny(s, "0123456789") {
				left[s] = p.Name
			}
		})
	}
	for _, s := range slices.Sorted(maps.Keys(left)) {
		t.Errorf("%s: %q", left[s], s)
	}
}
