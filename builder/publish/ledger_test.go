package publish

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/finding"
	"keelpath/builder/ledger"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/search"
	"keelpath/content"
	"keelpath/trees"
)

// folderOf is a built folder in memory.
type folderOf map[string][]byte

// inMemory is a folder in memory, and what writes to it.
type inMemory struct {
	folderOf
	write func(name string, data []byte) error
	read  func(name string) // hears of each file that is read
}

func (m inMemory) Write(name string, data []byte) error { return m.write(name, data) }

func (m inMemory) Read(name string) ([]byte, error) {
	m.read(name)
	data, ok := m.folderOf[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return data, nil
}

// built builds a library, with what can be taken over from another build. It gives how many
// files were taken over.
func built(t *testing.T, l *library.Library, before folderOf) (now folderOf, kept int) {
	t.Helper()
	return builtOf(t, l, before, func(plan.Kind) bool { return true })
}

// builtOf is built for pages of some kinds.
func builtOf(t *testing.T, l *library.Library, before folderOf, kinds func(plan.Kind) bool) (now folderOf, kept int) {
	t.Helper()
	return builtAndRead(t, l, before, kinds, func(string) {})
}

// builtAndRead is builtOf where read hears of each file that a step reads.
func builtAndRead(t *testing.T, l *library.Library, before folderOf, kinds func(plan.Kind) bool, read func(name string)) (now folderOf, kept int) {
	t.Helper()
	now = folderOf{}
	var mu sync.Mutex
	var b Before
	if before != nil {
		var err error
		if b.Ledger, err = ledger.Read(before[ledger.Name]); err != nil {
			t.Fatal(err)
		}
	}
	put := func(name string, data []byte) error {
		mu.Lock()
		defer mu.Unlock()
		if _, twice := now[name]; twice {
			t.Errorf("%s is written twice", name)
		}
		now[name] = data
		return nil
	}
	b.Keep = func(f ledger.File) bool {
		data := before[f.Name]
		if int64(len(data)) != f.Size || sha256.Sum256(data) != f.Sum {
			t.Errorf("%s is not what the ledger says", f.Name)
		}
		mu.Lock()
		kept++
		mu.Unlock()
		return put(f.Name, data) == nil
	}
	b.Read = func(f ledger.File) []byte { return before[f.Name] }
	all, err := makers(l, &finding.List{}, &b)
	if err != nil {
		t.Fatal(err)
	}
	of := slices.DeleteFunc(jobs(all), func(j job) bool { return j.page.Kind != "" && !kinds(j.page.Kind) })
	if _, err := build(context.Background(), &b, of, inMemory{now, put, read}, nil); err != nil {
		t.Fatal(err)
	}
	return now, kept
}

// loadAgain loads layers with what is known from a build before, and holds the findings against those of a load
// that knows nothing. It gives both libraries; they are nil where the content has errors.
func loadAgain(t *testing.T, before folderOf, layers ...library.Layer) (again, clean *library.Library) {
	t.Helper()
	read := func(known []byte) (*library.Library, []finding.Finding) {
		var list finding.List
		l, err := library.LoadAgain(context.Background(), &list, known, layers...)
		if err != nil {
			t.Fatal(err)
		}
		if list.Errors() > 0 {
			l = nil
		}
		return l, list.Sorted()
	}
	again, found := read(before[library.KnownName])
	clean, want := read(nil)
	if d := cmp.Diff(want, found); d != "" {
		t.Errorf("with what is known from before there are other findings:\n%s", d)
	}
	return again, clean
}

// layerOf writes a layer's files and reads them.
func layerOf(t *testing.T, files map[string]string) library.Layer {
	t.Helper()
	y, err := library.ReadLayer(t.Context(), folderWith(t, files), &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// same reports the files in which a build differs from a clean one.
func same(t *testing.T, round int, now, clean folderOf) {
	t.Helper()
	for _, name := range slices.Sorted(maps.Keys(clean)) {
		if string(now[name]) != string(clean[name]) {
			t.Errorf("round %d: %s is not as a clean build makes it", round, name)
		}
	}
	for name := range now {
		if _, ok := clean[name]; !ok {
			t.Errorf("round %d: %s should not be there", round, name)
		}
	}
}

// editor edits a layer at random, as authors do.
type editor struct {
	rand  *rand.Rand
	layer map[string]string
	past  []map[string]string
}

func builtinText(t *testing.T, name string) string {
	t.Helper()
	var text []byte
	var err error
	if rest, ok := strings.CutPrefix(name, "content/"); ok {
		text, err = content.FS.ReadFile(rest)
	} else {
		text, err = trees.FS.ReadFile(strings.TrimPrefix(name, "trees/"))
	}
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// edit changes one thing and says which.
func (e *editor) edit(t *testing.T) string {
	pages := []string{"falls", "stairs", "work", "children", "hydraulic-ankles", "words-you-will-hear", "motion-against-push"}
	topics := []string{"work", "hills-and-ramps", "level-reasoning", "water-and-weather"}
	n := e.rand.IntN(1000)
	page, topic := pages[e.rand.IntN(len(pages))], topics[e.rand.IntN(len(topics))]
	pageFile, topicFile := "content/en/"+page+".md", "trees/"+topic+".yaml"
	get := func(name string) string {
		if text, ok := e.layer[name]; ok {
			return text
		}
		return builtinText(t, name)
	}
	if e.rand.IntN(3) == 0 {
		e.past = append(e.past, maps.Clone(e.layer))
	}
	switch what := e.rand.IntN(12); what {
	case 0, 1:
		e.layer[pageFile] = get(pageFile) + fmt.Sprintf("\nThis line has the number %d.\n", n)
		return "a page's text: " + page
	case 2:
		e.layer[pageFile] = strings.Replace(get(pageFile), "\naudience:", fmt.Sprintf(" %d\naudience:", n), 1)
		return "a page's title: " + page
	case 3:
		delete(e.layer, pageFile)
		return "a page as it was: " + page
	case 4, 5:
		id := fmt.Sprintf("copy-%d", n%3)
		e.layer["content/en/"+id+".md"] = builtinText(t, pageFile)
		return "a new page " + id
	case 6:
		for name := range e.layer {
			if strings.HasPrefix(name, "content/en/copy-") {
				delete(e.layer, name)
				e.layer[fmt.Sprintf("content/en/copied-%d.md", n%3)] = builtinText(t, pageFile)
				return "a page has another name"
			}
		}
		return "nothing"
	case 7:
		e.layer[topicFile] = strings.Replace(get(topicFile), "\naudience:", fmt.Sprintf(" %d\naudience:", n), 1)
		return "a tree's title: " + topic
	case 8:
		delete(e.layer, topicFile)
		delete(e.layer, "trees/copied.yaml")
		return "a tree as it was: " + topic
	case 9:
		e.layer["trees/copied.yaml"] = strings.Replace(builtinText(t, topicFile), "tree: "+topic+"\n", "tree: copied\n", 1)
		return "a new tree, like " + topic
	case 10:
		if n%2 == 0 {
			e.layer["content/glossary.yaml"] = fmt.Sprintf("words:\n  number:\n    word: number\n    meaning: A sign for how many there are, such as %d.\n", n)
			return "a word that pages use"
		}
		e.layer["content/edition.yaml"] = fmt.Sprintf("name: Keelpath\nphone: 555 0%03d\n", n)
		return "the edition's phone"
	default:
		if len(e.past) > 0 {
			e.layer = maps.Clone(e.past[e.rand.IntN(len(e.past))])
		}
		return "back to what it was before"
	}
}

// After any edits, a build that takes over what has not changed gives what a clean build
// gives, byte for byte. KEELPATH_ROUNDS asks for more of them.
func TestEditsInAnyOrder(t *testing.T) {
	rounds := 2
	if more, err := strconv.Atoi(os.Getenv("KEELPATH_ROUNDS")); err == nil {
		rounds = more
	}
	e := &editor{rand: rand.New(rand.NewPCG(uint64(rounds), 7)), layer: map[string]string{}}
	_, l := loadAgain(t, nil, library.Builtin())
	now, _ := built(t, l, nil)
	l, _ = loadAgain(t, now, library.Builtin())
	again, kept := built(t, l, now)
	same(t, 0, again, now)
	if want := len(now) - 2; kept != want { // all but the ledger and what is known of explainers
		t.Errorf("nothing was edited, and %d of %d files were taken over", kept, want)
	}
	taken := 0
	for round := 1; round <= rounds && !t.Failed(); round++ {
		var what []string
		for range 1 + e.rand.IntN(3) {
			what = append(what, e.edit(t))
		}
		layers := []library.Layer{library.Builtin()}
		if len(e.layer) > 0 {
			layers = append(layers, layerOf(t, e.layer))
		}
		l, anew := loadAgain(t, now, layers...)
		if l == nil {
			t.Fatalf("round %d: %s: the content has errors", round, strings.Join(what, "; "))
		}
		clean, _ := built(t, anew, nil)
		now, kept = built(t, l, now)
		taken += kept
		same(t, round, now, clean)
		t.Logf("round %d: %s: %d of %d files were taken over", round, strings.Join(what, "; "), kept, len(clean))
	}
	if taken == 0 {
		t.Error("nothing was ever taken over")
	}
}

// A page is made again for what it shows, and for no more.
func TestWhatIsMadeAgain(t *testing.T) {
	was, _ := built(t, load(t), nil)
	text := builtinText(t, "content/en/falls.md") + "\nOne more line.\n"
	l := load(t, map[string]string{"content/en/falls.md": text})
	now, kept := built(t, l, was)
	var changed []string
	for name, data := range now {
		if string(was[name]) != string(data) && name != ledger.Name {
			changed = append(changed, name)
		}
	}
	slices.Sort(changed)
	// The index is of all pages: where words stand counts in order, and how long texts are on the whole counts for what is first.
	pages := slices.DeleteFunc(slices.Clone(changed), func(name string) bool {
		return name == "search/"+search.FirstFile || strings.HasPrefix(name, "search/places-")
	})
	if !slices.Equal(pages, []string{saidName, "learn/falls.html", "search/learn/falls.js"}) {
		t.Errorf("a line more on one page changed %q", changed)
	}
	if made := len(now) - 1 - kept; made != len(changed) {
		t.Errorf("a line more on one page, and %d files were made", made)
	}
}

// What steps behind the pages get is what was written: names, sizes and sums, of each page what the plan says of it, and
// what it says to readers, also where a page was taken over. A step like that of an index of words needs no more.
func TestFinishedFiles(t *testing.T) {
	l := load(t)
	want, err := plan.Of(l)
	if err != nil {
		t.Fatal(err)
	}
	asked := 0
	step := func(_ *maker, files []File, to Site) ([]File, error) {
		asked++
		pages := 0
		for _, f := range files {
			data, err := to.Read(f.Name)
			if err != nil || f.Size != int64(len(data)) || f.Sum != sha256.Sum256(data) {
				t.Errorf("%s is not what was written, %v", f.Name, err)
			}
			if p, ok := want.Named(f.Name); ok != strings.HasSuffix(f.Name, ".html") || f.Page != p {
				t.Errorf("%s is said to be the page %+v", f.Name, f.Page)
			}
			if f.Page.Kind == "" {
				continue
			}
			pages++
			first := Paragraph{}
			for p := range Paragraphs(data) {
				first = p
				break
			}
			if !first.Heading || first.Text == "" {
				t.Errorf("%s begins with %+v", f.Name, first)
			}
		}
		if pages != len(want.Pages) {
			t.Errorf("the step got %d pages of %d", pages, len(want.Pages))
		}
		return nil, to.Write("index", []byte("words"))
	}
	steps := finishing
	finishing = append(slices.Clone(finishing), step)
	defer func() { finishing = steps }()
	was, _ := built(t, l, nil)
	now, kept := built(t, load(t), was)
	if asked != 2 || kept < len(want.Pages) || now["index"] == nil {
		t.Errorf("the step was asked %d times, and %d files were taken over", asked, kept)
	}
}
