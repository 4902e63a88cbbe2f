package library

import (
	"cmp"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/drawing"
	"keelpath/builder/read"
	"keelpath/builder/told"
	"keelpath/builder/translation"
	"keelpath/builder/tree"
)

// FileKind is a kind of input file.
type FileKind struct {
	// File is where one lies in a layer: "content/sources.yaml". "ID" stands for a name, and
	// "PAGE" for that of one of PageForms.
	File string
	// Spoken tells whether another language says what stands in it, in a file of the same name.
	Spoken bool

	read func(*loader, Layer, string) // reads the file of that name; nil where that is done apart
}

// FileKinds gives all kinds, in the order in which a layer's files are read.
func FileKinds() []FileKind { return fileKinds() }

var fileKinds = sync.OnceValue(func() []FileKind {
	return []FileKind{
		{"content/edition.yaml", true, nil}, // read before all else; see editions
		{"content/en/words.yaml", true, nil},
		{"content/sources.yaml", true, table((*loader).sources)},
		{"content/glossary.yaml", true, table((*loader).words)},
		{"trees/told.yaml", true, table((*loader).facts)},
		{"trees/prompts.yaml", true, table((*loader).prompts)},
		{"trees/cards.yaml", true, table((*loader).cards)},
		{"content/foot-types.yaml", true, table((*loader).footTypes)},
		{DrawingsFile, true, table((*loader).readDrawings)},
		{"content/wishes.yaml", true, table((*loader).wishes)},
		{"content/self-ratings.yaml", true, table((*loader).selfRatings)},
		{"content/first-reading.yaml", true, table(func(l *loader, m *read.Map) { l.reading(&l.First, m) })},
		{"content/second-reading.yaml", true, table(func(l *loader, m *read.Map) { l.reading(&l.Second, m) })},
		{"trees/planner.yaml", false, table((*loader).plannerOrder)},
		{safetyFile, true, (*loader).safetyScreen},
		{"trees/ID.yaml", true, (*loader).readTree},
		{caseFile, true, (*loader).readCase},
		{explainerFile, true, (*loader).readExplainer},
		{pagesFolder + "PAGE.md", true, (*loader).readPageText},
		{figureFile, true, (*loader).readFigure},
		{SearchWordsFile, true, table((*loader).searchWords)},
		{voicesFile, false, nil}, // read with each voice; see voices
		{"content/learn.yaml", true, table(func(l *loader, m *read.Map) { l.learn = append(l.learn, m) })},
	}
})

// isExplainer tells whether a file is that of an explainer.
func isExplainer(name string) bool {
	i := fileKindOf(name)
	return i >= 0 && FileKinds()[i].File == explainerFile
}

// figureFile is the kind of the files of figures.
const figureFile = "content/en/figures/ID.yaml"

func isFigure(name string) bool {
	i := fileKindOf(name)
	return i >= 0 && FileKinds()[i].File == figureFile
}

// explainerFile is the kind of the files of explainers.
const explainerFile = "content/en/ID.md"

// table reads a file that holds a table; one that cannot be read at all was reported.
func table(to func(*loader, *read.Map)) func(*loader, Layer, string) {
	return func(l *loader, y Layer, name string) {
		if m := l.open(y, name); m != nil {
			to(l, m)
		}
	}
}

// many tells whether there may be several files of the kind.
func (k FileKind) many() bool {
	return strings.HasSuffix(stem(k.File), "ID") || strings.HasSuffix(stem(k.File), "PAGE")
}

func stem(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

// fileKindOf gives the place of an input file's kind in FileKinds; -1 where it is none. What has a
// kind of its own, such as trees/cards.yaml, is of no other.
func fileKindOf(name string) int {
	if i, ok := fixedKinds()[name]; ok {
		return i
	}
	return slices.IndexFunc(FileKinds(), func(k FileKind) bool {
		if strings.HasSuffix(stem(k.File), "PAGE") {
			return formOf(name) != nil
		}
		return k.many() && path.Dir(name) == path.Dir(k.File) && path.Ext(name) == path.Ext(k.File)
	})
}

// fixedKinds are the kinds of which there is one file, by its name.
var fixedKinds = sync.OnceValue(func() map[string]int {
	out := map[string]int{}
	for i, k := range FileKinds() {
		if !k.many() {
			out[k.File] = i
		}
	}
	return out
})

// tables are the input files with a name of their own, as messages list them.
func tables() []string {
	return slices.SortedFunc(maps.Keys(fixedKinds()), func(a, b string) int {
		top := func(s string) string { s, _, _ = strings.Cut(s, "/"); return s }
		return cmp.Or(cmp.Compare(top(a), top(b)), cmp.Compare(strings.Count(a, "/"), strings.Count(b, "/")), cmp.Compare(a, b))
	})
}

// speaks tells whether a file of another language's words, by what stands behind content/LL/ in
// its name, speaks for a kind of file.
func speaks(name string) bool {
	return slices.ContainsFunc([]string{name, "content/" + name, "content/" + FirstLanguage + "/" + name}, func(file string) bool {
		i := fileKindOf(file)
		return i >= 0 && FileKinds()[i].Spoken && translation.Name(file) == name
	})
}

func (l *loader) readDrawings(m *read.Map) {
	for _, w := range drawing.ReadWords(m, l.list) {
		put(&l.Drawings, w, func(w *drawing.Words) string { return w.ID.S })
	}
}

func (l *loader) readTree(y Layer, name string) {
	id := stem(path.Base(name))
	t := tree.Read(l.whole(name), y.name(name), y.files[name], l.list)
	if t == nil {
		l.unread["tree "+id] = true
		return
	}
	// Where the tree says another name, that was reported, and the file's counts.
	t.ID.S, t.ID.At.File = id, y.name(name)
	if l.by.trees[id] != nil { // what the sheet says of the old one's answers may not be true of these
		l.About.Lines = slices.DeleteFunc(l.About.Lines, func(line *told.Line) bool { return line.Tree.S == id && line.Tree.At.File != y.name("trees/told.yaml") })
	}
	enter(&l.Trees, &l.by.trees, t.ID.S, t)
}

func (l *loader) readExplainer(y Layer, name string) {
	if p := l.parseExplainer(y, name); p != nil {
		l.explainer(p)
	} else {
		l.unread["explainer "+stem(path.Base(name))] = true
	}
}
