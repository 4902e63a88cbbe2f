package publish

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"io/fs"
	"maps"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/net/html"

	"keelpath/builder/finding"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/library"
	"keelpath/builder/wording"
	"keelpath/trees"
)

// load reads the built-in content, and layers of the given files over it.
func load(t *testing.T, layers ...map[string]string) *library.Library {
	t.Helper()
	var dirs []string
	for _, files := range layers {
		dirs = append(dirs, folderWith(t, files))
	}
	return librarytest.Load(t, dirs...)
}

// folderWith gives a folder with some files.
func folderWith(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		p := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// output is a rendered site: its files, and their names in the order they came.
type output struct {
	files map[string][]byte
	order []string
}

func renderAll(t *testing.T, l *library.Library) output {
	t.Helper()
	out := output{files: map[string][]byte{}}
	err := Render(context.Background(), l, &finding.List{}, func(name string, data []byte) error {
		out.files[name] = data
		out.order = append(out.order, name)
		return nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

var builtinOnce sync.Once
var builtinSite output

// builtin is the site of the built-in content.
func builtin(t *testing.T) output {
	t.Helper()
	builtinOnce.Do(func() { builtinSite = renderAll(t, load(t)) })
	if len(builtinSite.files) == 0 {
		t.Fatal("the built-in site was not rendered")
	}
	return builtinSite
}

// pagesOf gives the parsed pages by name, but for those that only lead on (TestStart has these).
func pagesOf(t *testing.T, out output) map[string]*html.Node {
	t.Helper()
	pages := map[string]*html.Node{}
	for name, data := range out.files {
		if path.Ext(name) != ".html" || path.Dir(name) == "start" {
			continue
		}
		if name == plannerName {
			data = wholePlanner(t, out)
		}
		n, err := html.Parse(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		pages[name] = n
	}
	return pages
}

// elements gives all elements below n with one of these names, or all.
func elements(n *html.Node, names ...string) []*html.Node {
	var out []*html.Node
	for d := range n.Descendants() {
		if d.Type == html.ElementNode && (len(names) == 0 || slices.Contains(names, d.Data)) {
			out = append(out, d)
		}
	}
	return out
}

func attr(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
			b.WriteByte(' ')
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

func ids(n *html.Node) []string {
	var out []string
	for _, e := range elements(n) {
		if id, ok := attr(e, "id"); ok {
			out = append(out, id)
		}
	}
	return out
}

func TestNames(t *testing.T) {
	out := builtin(t)
	for _, want := range []string{
		"index.html", "prepare/index.html", "prepare/heel-height.html", "learn/index.html", "learn/spring-feet.html",
		"learn/foot-types.html", "learn/glossary.html", "learn/questions.html", "teach/index.html",
		"teach/heel-height.html", "clinic/index.html", "clinic/sources.html", pullsName, motionPushName,
	} {
		if out.files[want] == nil {
			t.Errorf("there is no %s", want)
		}
	}
	var assets []string
	for name := range out.files {
		if path.Dir(name) == "assets" {
			assets = append(assets, name)
		}
	}
	trees := load(t).PatientTrees()
	// As parts the prompts and the words about a reader in three voices, what the page says in two, three figures in three, the cutaways, the
	// drawings of what to do, each topic in three voices, and what shows its answers.
	if parts := 19 + 3*len(trees) + len(groundParts(trees)); len(assets) != 32+parts {
		t.Errorf("%d assets: %v, want seventeen styles, twelve scripts, the mark, two weights of the typeface, and %d parts", len(assets), assets, parts)
	}
}

func TestLinksResolve(t *testing.T) {
	out := builtin(t)
	pages := pagesOf(t, out)
	known := map[string][]string{}
	for name, n := range pages {
		known[name] = ids(n)
	}
	links := 0
	for name, n := range pages {
		for _, e := range elements(n) {
			for _, key := range []string{"href", "src"} {
				to, ok := attr(e, key)
				if !ok {
					continue
				}
				links++
				u, err := url.Parse(to)
				switch {
				case err != nil || to == "":
					t.Errorf("%s: bad address %q", name, to)
				case u.Scheme == "https" || u.Scheme == "http":
					if e.Data != "a" {
						t.Errorf("%s: <%s> loads %s from elsewhere", name, e.Data, to)
					}
				case u.Scheme == "tel":
					if e.Data != "a" || u.Opaque != "911" && u.Opaque != "988" {
						t.Errorf("%s: <%s> leads to the number %s", name, e.Data, to)
					}
				case u.Scheme != "" || u.Host != "" || u.RawQuery != "" || strings.HasPrefix(u.Path, "/"):
					t.Errorf("%s: the address %q is not a relative one", name, to)
				default:
					target := name
					if u.Path != "" {
						target = path.Join(path.Dir(name), u.Path)
					}
					if out.files[target] == nil {
						t.Errorf("%s: %q leads to no file", name, to)
					} else if strings.HasPrefix(u.Fragment, "own=") && target == plannerName {
						// a question for the sheet, which the planner reads
					} else if id, is := strings.CutPrefix(u.Fragment, "take="); is && target == plannerName {
						// a topic, which the planner starts; without script the list there leads on
						if out.files["prepare/"+id+".html"] == nil {
							t.Errorf("%s: %q starts no topic", name, to)
						}
					} else if u.Fragment != "" && !slices.Contains(known[target], u.Fragment) {
						t.Errorf("%s: %q leads to no place on %s", name, to, target)
					}
				}
			}
		}
	}
	if links < 1000 {
		t.Errorf("only %d links were looked at", links)
	}
}

const wantPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'"

// checkedOn is a day as pages say it: a page keeps its own, for not all are checked at once.
var checkedOn = regexp.MustCompile(`Facts last checked [A-Z][a-z]+ \d{1,2}, 20\d\d Next`)

// What holds of every page, whatever is on it.
func TestEveryPage(t *testing.T) {
	titles := map[string]string{}
	for name, n := range pagesOf(t, builtin(t)) {
		t.Run(name, func(t *testing.T) {
			policy := ""
			for _, m := range elements(n, "meta") {
				if v, _ := attr(m, "http-equiv"); v == "Content-Security-Policy" {
					policy, _ = attr(m, "content")
				}
			}
			if policy != wantPolicy {
				t.Errorf("policy %q", policy)
			}
			checkScripts(t, n)
			checkIDs(t, n)
			checkHeadings(t, n)
			if lang, _ := attr(elements(n, "html")[0], "lang"); lang != "en" {
				t.Errorf("lang %q", lang)
			}
			title := textOf(elements(n, "title")[0])
			if other := titles[title]; other != "" {
				t.Errorf("title %q is also that of %s", title, other)
			}
			titles[title] = name
			foot := textOf(elements(n, "footer")[0])
			for _, want := range []string{
				"This page teaches and helps you ask. It does not replace your care team.", "Call 911 in the US, or your local emergency number.",
				"Written by Keelpath editors", "Not yet reviewed by a clinician", "Next check due",
				"No outside funding. No advertising.", "Reading grade", "Version 2026.11", "Sources",
			} {
				if !strings.Contains(foot, want) {
					t.Errorf("the foot does not say %q: %s", want, foot)
				}
			}
			if !checkedOn.MatchString(foot) {
				t.Errorf("the foot does not say on which day its facts were last checked: %s", foot)
			}
		})
	}
}

// Of what a reader moves among by its name, each name stands once on a page: landmarks,
// tables and groups.
func TestNamesStandOnce(t *testing.T) {
	for name, n := range pagesOf(t, builtin(t)) {
		seen := map[string]bool{}
		for _, e := range elements(n) {
			kind, called := kindOf(e), calledBy(t, n, e)
			if kind == "" || called == "" || inTemplate(e) {
				continue
			}
			if key := kind + " " + called; seen[key] {
				t.Errorf("%s: two parts are called %q", name, key)
			} else {
				seen[key] = true
			}
		}
	}
	twice := parsed(t, `<nav aria-label="A"></nav><nav aria-label="A"></nav>`)
	if all := elements(twice, "nav"); kindOf(all[0])+calledBy(t, twice, all[1]) != "navA" {
		t.Error("a name that stands twice would not be seen")
	}
}

// kindOf is the role under which a reader's software lists an element; of an inner table
// the box around it has the role.
func kindOf(e *html.Node) string {
	if role, ok := attr(e, "role"); ok {
		return role
	}
	if slices.Contains([]string{"nav", "section", "table"}, e.Data) {
		return e.Data
	}
	return ""
}

// calledBy is an element's accessible name, by the attributes and the caption that give one.
func calledBy(t *testing.T, page, e *html.Node) string {
	t.Helper()
	if label, ok := attr(e, "aria-label"); ok {
		return label
	}
	if by, ok := attr(e, "aria-labelledby"); ok {
		var parts []string
		for _, id := range strings.Fields(by) {
			parts = append(parts, textOf(byID(t, page, id)))
		}
		return strings.Join(parts, " ")
	}
	for c := range e.ChildNodes() {
		if c.Data == "caption" {
			return textOf(c)
		}
	}
	return ""
}

func parsed(t *testing.T, text string) *html.Node {
	t.Helper()
	n, err := html.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func checkScripts(t *testing.T, n *html.Node) {
	t.Helper()
	scripts := map[string]bool{}
	for _, e := range elements(n) {
		for _, a := range e.Attr {
			if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
				t.Errorf("<%s> has the attribute %s", e.Data, a.Key)
			}
		}
		if e.Data == "style" {
			t.Error("the page has a style of its own")
		}
		if e.Data != "script" {
			continue
		}
		if kind, _ := attr(e, "type"); kind == "application/json" {
			continue
		}
		from, src := attr(e, "src")
		if scripts[from] {
			t.Errorf("%s is loaded twice", from)
		}
		scripts[from] = true
		_, later := attr(e, "defer")
		if !src || !later || e.FirstChild != nil {
			t.Error("a script is inline, or not deferred")
		}
	}
	if len(scripts) > 3 { // figures, reading aloud, looking up
		t.Errorf("%d scripts, want at most three", len(scripts))
	}
}

func checkIDs(t *testing.T, n *html.Node) {
	t.Helper()
	seen := map[string]int{}
	for _, id := range ids(n) {
		seen[id]++
	}
	for id, count := range seen {
		// Only one view of the planner is in the page at a time, and each may
		// have its own place for a problem.
		if count > 1 && id != "planner-problem" {
			t.Errorf("the id %q is there %d times", id, count)
		}
	}
	for _, e := range elements(n) {
		for _, key := range []string{"aria-labelledby", "aria-describedby", "for"} {
			to, _ := attr(e, key)
			for id := range strings.FieldsSeq(to) {
				if seen[id] == 0 {
					t.Errorf("<%s %s=%q> names no element", e.Data, key, to)
				}
			}
		}
	}
}

// checkHeadings wants one h1, first, and no level skipped. What lies in a
// template is not in the page yet.
func checkHeadings(t *testing.T, n *html.Node) {
	t.Helper()
	level, firsts := 0, 0
	for _, h := range elements(n, "h1", "h2", "h3", "h4", "h5", "h6") {
		if inTemplate(h) {
			continue
		}
		l := int(h.Data[1] - '0')
		if l == 1 {
			firsts++
		}
		if l > level+1 {
			t.Errorf("<%s>%s</%s> comes after a heading of level %d", h.Data, textOf(h), h.Data, level)
		}
		level = l
	}
	if firsts != 1 {
		t.Errorf("%d headings of level 1, want one", firsts)
	}
}

func inTemplate(n *html.Node) bool {
	for a := range n.Ancestors() {
		if a.Data == "template" {
			return true
		}
	}
	return false
}

// No page may choose for the reader. Titles of published sources keep their words.
func TestNoPageChooses(t *testing.T) {
	for name, n := range pagesOf(t, builtin(t)) {
		if name == "clinic/sources.html" {
			continue // it lists what others published, in their words
		}
		var cites []*html.Node
		for _, e := range elements(n, "cite", "script", "pre") {
			cites = append(cites, e)
		}
		for _, e := range elements(n, "a") { // links that carry a source's title
			class, _ := attr(e, "class")
			if to, _ := attr(e, "href"); strings.Contains(to, "#source-") || class == "address" {
				cites = append(cites, e)
			}
		}
		for _, c := range cites {
			c.Parent.RemoveChild(c)
		}
		text := textOf(n)
		for _, h := range wording.In(text) {
			t.Errorf("%s says %q: %s", name, h.Words, text[max(0, h.From-60):min(len(text), h.To+60)])
		}
	}
}

// What templates and the program say on patients' pages uses the words that were
// settled, as their content does. Other names that search knows, and what others
// published, stand as they are.
func TestPagesUseSettledWords(t *testing.T) {
	l := load(t)
	held := 0
	for name, n := range pagesOf(t, builtin(t)) {
		room, file := path.Split(name)
		page := l.Explainer(strings.TrimSuffix(file, ".html"))
		if !slices.Contains([]string{"", "prepare/", "learn/", "workbench/"}, room) || (page != nil && page.Audience.S != "patient") {
			continue
		}
		if name == "learn/search.html" {
			continue // it lists residents' questions too, and all names of the glossary
		}
		held++
		text := " " + strings.Join(spoken(n), "\n") + " "
		for _, h := range wording.Settled(text, l.Edition.Lines.Emergency.Where.S) {
			// The end of one block and the start of the next are no phrase.
			if !strings.Contains(text[h.From:h.To], "\n\n") {
				t.Errorf("%s says %q: %s: %q", name, h.Words, h.Instead, text[max(0, h.From-60):min(len(text), h.To+60)])
			}
		}
	}
	if held < 60 {
		t.Errorf("only %d pages were held: are these the rooms?", held)
	}
}

// spoken gives the texts of a page, without what others published, the words that a list
// explains and their other names.
func spoken(n *html.Node) []string {
	if n.Type == html.TextNode {
		return []string{n.Data}
	}
	if n.Type == html.ElementNode {
		class, _ := attr(n, "class")
		to, _ := attr(n, "href")
		if slices.Contains([]string{"cite", "script", "style", "pre", "dt"}, n.Data) || slices.Contains([]string{"also", "sources"}, class) || strings.Contains(to, "#source-") {
			return nil
		}
	}
	var out []string
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		out = append(out, spoken(c)...)
	}
	return out
}

func zipped(t *testing.T, data []byte) int {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

// A page with all it loads, compressed: 60 kB. The planner until its first question: 45 kB, and with each
// topic that is taken 12 kB more. A script 20 kB, and the planner's, which has the safety screen and
// reads amounts, 23.5 kB. (It was 139 kB while the page held all topics.)
func TestWeight(t *testing.T) {
	out := builtin(t)
	for name, n := range pagesOf(t, out) {
		sum := zipped(t, out.files[name])
		for _, e := range elements(n, "link", "script") {
			for _, key := range []string{"href", "src"} {
				if to, ok := attr(e, key); ok {
					sum += zipped(t, out.files[path.Join(path.Dir(name), to)])
				}
			}
		}
		limit := 60_000
		if name == plannerName {
			limit = 45_000
		}
		if sum > limit {
			t.Errorf("%s weighs %d bytes with what it loads, want at most %d", name, sum, limit)
		}
	}
	for name, data := range out.files {
		limit := 20_000
		switch {
		case strings.HasPrefix(name, "assets/planner."):
			limit = 23_500
		case strings.HasPrefix(name, "assets/tree-"):
			limit = 12_000
		}
		if path.Ext(name) == ".js" && zipped(t, data) > limit {
			t.Errorf("%s weighs %d bytes, want at most %d", name, zipped(t, data), limit)
		}
	}
}

// The same input gives the same bytes in the same order, on one processor or
// many and in any time zone.
func TestSameBytes(t *testing.T) {
	first := builtin(t)
	local, procs := time.Local, runtime.GOMAXPROCS(1)
	defer func() { time.Local = local; runtime.GOMAXPROCS(procs) }()
	time.Local = time.FixedZone("far east", 14*60*60)
	second := renderAll(t, load(t))
	if !slices.Equal(first.order, second.order) {
		t.Errorf("the order changed: %v and %v", first.order, second.order)
	}
	for name := range maps.Keys(first.files) {
		if !bytes.Equal(first.files[name], second.files[name]) {
			t.Errorf("%s differs from one build to the next", name)
		}
	}
}

func TestProgress(t *testing.T) {
	var calls, total int
	emitted := 0
	err := Render(context.Background(), load(t), &finding.List{}, func(string, []byte) error { emitted++; return nil }, func(done, all int) {
		calls++
		if done != calls || done != emitted {
			t.Errorf("call %d says %d done, and %d were handed on", calls, done, emitted)
		}
		total = all
	})
	if err != nil || calls != total || total != len(builtin(t).order) {
		t.Errorf("%d calls, total %d, error %v", calls, total, err)
	}
}

func TestRenderStops(t *testing.T) {
	full := errors.New("the disk is full")
	n := 0
	err := Render(context.Background(), load(t), &finding.List{}, func(string, []byte) error {
		if n++; n == 3 {
			return full
		}
		return nil
	}, nil)
	if !errors.Is(err, full) || n != 3 {
		t.Errorf("after a failed write: error %v, %d files handed on", err, n)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	err = Render(ctx, load(t), &finding.List{}, func(string, []byte) error { return nil }, nil)
	if !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled build gives %v", err)
	}
}

// Where a layer lies, and how its place was typed, is not for readers: the same
// files give the same bytes.
func TestLayersPlaceIsNotTold(t *testing.T) {
	top := t.TempDir()
	src, err := fs.ReadFile(trees.FS, "heel-height.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{"one/trees", "a place/of its own/trees"} {
		if err := os.MkdirAll(filepath.Join(top, dir), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(top, dir, "heel-height.yaml"), src, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(top)
	first := renderAll(t, librarytest.Load(t, "one"))
	for _, typed := range []string{"./one/../one", filepath.Join(top, "one"), "a place/of its own"} {
		got := renderAll(t, librarytest.Load(t, typed))
		for name, data := range got.files {
			if !bytes.Equal(data, first.files[name]) {
				t.Errorf("%s differs where the layer is typed %q", name, typed)
			}
			if bytes.Contains(data, []byte("of its own/")) || bytes.Contains(data, []byte(top)) {
				t.Errorf("%s tells where the layer lies", name)
			}
		}
	}
	if page := first.files["teach/heel-height.html"]; !bytes.Contains(page, []byte("<code>trees/heel-height.yaml</code>")) {
		t.Error("the page does not name the tree's file")
	}
}

// An explainer or a tree cannot take the name of a page that the site has of its
// own: the library knows those names.
func TestOwnPagesAreReserved(t *testing.T) {
	l := load(t)
	own := map[string]bool{}
	for _, p := range l.Explainers {
		own["learn/"+p.ID+".html"] = true
	}
	for _, tr := range l.Trees {
		own["prepare/"+tr.ID.S+".html"], own["teach/"+tr.ID.S+".html"] = true, true
	}
	kinds := map[string]string{"learn": "explainer", "prepare": "tree", "teach": "tree"}
	found := 0
	for name := range renderAll(t, l).files {
		kind := kinds[path.Dir(name)]
		if kind == "" || own[name] {
			continue
		}
		found++
		if id := strings.TrimSuffix(path.Base(name), ".html"); !library.Reserved(kind, id) {
			t.Errorf("%s is a page of the site, and the library lets an %s have that name", name, kind)
		}
	}
	if found < 7 {
		t.Errorf("only %d pages of its own were found", found)
	}
}
