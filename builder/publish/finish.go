package publish

import (
	"context"
	"crypto/sha256"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/ledger"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/shelf"
)

// Before is what a build may take over from the one before.
type Before struct {
	Ledger *ledger.Ledger         // of this program; nil where there is none that can be trusted
	Keep   func(ledger.File) bool // takes a file over as it is; false where it is not what the ledger says

	Inputs, Due string // for the new ledger; see there

	of map[string]ledger.File // the ledger's files by what they were made for
}

// File is a finished file, as the steps behind the making of pages see it.
type File struct {
	ledger.File
	Title, Lang string // of a page

	// Text gives the running text of an explainer and of a tree's page, as its grade is taken of it. It is nil for
	// all else, whose words stand in a template.
	Text func() []string

	by *maker
}

// Step makes more files of those that are finished: once, when all of them are.
type Step func(m *maker, files []File, emit func(name string, data []byte) error) error

// finishing has the steps in their order, behind all pages.
var finishing = []Step{writeLedger}

// Build is Render with what comes behind it, and takes over from before what has not
// changed: what was taken over is not handed to emit. It gives the site's files, without those of the steps.
func Build(ctx context.Context, l *library.Library, list *finding.List, before Before, emit func(name string, data []byte) error, progress func(done, total int)) ([]File, error) {
	all, err := makers(l, list, &before)
	if err != nil {
		return nil, err
	}
	return build(ctx, &before, jobs(all), emit, progress)
}

func build(ctx context.Context, before *Before, jobs []job, emit func(name string, data []byte) error, progress func(done, total int)) ([]File, error) {
	if before.Ledger != nil {
		before.of = map[string]ledger.File{}
		for _, f := range before.Ledger.Files {
			before.of[f.Of] = f
		}
	}
	files, err := run(ctx, jobs, emit, progress)
	if err != nil {
		return nil, err
	}
	for _, step := range finishing {
		if err := step(jobs[0].by, files, emit); err != nil {
			return nil, err
		}
	}
	return files, nil
}

// unchanged takes a file over from the build before, if all that it was made of is the same.
func (m *maker) unchanged(of string) (ledger.File, bool) {
	if m.before == nil || m.before.Ledger == nil {
		return ledger.File{}, false
	}
	f, ok := m.before.of[m.folder+of]
	if !ok || len(f.From) == 0 {
		return f, false
	}
	for _, n := range f.From {
		if m.print(n) != m.before.Ledger.Prints[n] {
			return f, false
		}
	}
	return f, m.before.Keep(f)
}

// noted says of what language the things are that were noted, for a ledger has those of all.
func (m *maker) noted(notes []shelf.Note) []shelf.Note {
	if m.folder == "" {
		return notes
	}
	var out []shelf.Note
	for _, n := range notes {
		out = append(out, shelf.Note{What: m.folder + n.What, Of: n.Of})
	}
	return out
}

// print gives the print of a thing that a ledger notes.
func (m *maker) print(n shelf.Note) shelf.Print {
	n.What = strings.TrimPrefix(n.What, m.folder)
	return m.stock.Print(n)
}

// finished says of a file what the steps have to know.
func (m *maker) finished(j job, a asset) File {
	out := File{File: ledger.File{Of: j.of, Name: m.folder + a.name, From: m.noted(a.from)}, Title: j.page.Title, Lang: j.page.Lang, by: m}
	if a.kept != nil {
		out.File = *a.kept
	} else {
		out.Size, out.Sum = int64(len(a.data)), sha256.Sum256(a.data)
	}
	switch j.page.Kind {
	case plan.Explainer:
		out.Text = func() []string { return m.lib.PageText(m.lib.Explainer(j.page.Of)) }
	case plan.Paper, plan.Inside:
		out.Text = func() []string { return m.lib.TreeText(m.lib.Tree(j.page.Of)) }
	}
	return out
}

// writeLedger writes down what the folder holds. It is the first step, so what other steps
// make is made each time.
func writeLedger(m *maker, files []File, emit func(name string, data []byte) error) error {
	l := ledger.Ledger{Program: ledger.Program(), Prints: map[shelf.Note]shelf.Print{}}
	if m.found.Len() == 0 {
		l.Inputs, l.Due = m.before.Inputs, m.before.Due
	}
	for _, f := range files {
		l.Files = append(l.Files, f.File)
		for _, n := range f.From {
			if _, known := l.Prints[n]; !known {
				l.Prints[n] = f.by.print(n)
			}
		}
	}
	return emit(ledger.Name, l.Text())
}
