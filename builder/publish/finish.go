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
	Ledger *ledger.Ledger           // of this program; nil where there is none that can be trusted
	Keep   func(ledger.File) bool   // takes a file over as it is; false where it is not what the ledger says
	Read   func(ledger.File) []byte // gives what a file held; nil where it is not what the ledger says

	Inputs, Due string // for the new ledger; see there

	of map[string]ledger.File // the ledger's files by what they were made for
}

// File is a finished file, as the steps behind the making of pages see it. What it holds is not in memory:
// a step that wants it reads it from where the site is built, and takes a page apart by [Paragraphs].
type File struct {
	ledger.File
	Page plan.Page // title, language, room, kind and of what; none for an asset

	by *maker
}

// Site is where a site is being built: files are written, and those that are there can be read again, also
// those that were taken over.
type Site interface {
	Write(name string, data []byte) error
	Read(name string) ([]byte, error)
}

// Step makes more files of those that are finished: once, when all of them are. It gives those that the next
// step has to know.
type Step func(m *maker, files []File, to Site) (more []File, err error)

// finishing has the steps in their order, behind all pages.
var finishing = []Step{writeSearch, writeLedger}

// Build is Render with what comes behind it, and takes over from before what has not
// changed: what was taken over is not written again. It gives the site's files, without those of the steps.
func Build(ctx context.Context, l *library.Library, list *finding.List, before Before, to Site, progress func(done, total int)) ([]File, error) {
	all, err := makers(l, list, &before)
	if err != nil {
		return nil, err
	}
	return build(ctx, &before, jobs(all), to, progress)
}

func build(ctx context.Context, before *Before, jobs []job, to Site, progress func(done, total int)) ([]File, error) {
	if before.Ledger != nil {
		before.of = map[string]ledger.File{}
		for _, f := range before.Ledger.Files {
			before.of[f.Of] = f
		}
	}
	files, err := run(ctx, jobs, to.Write, progress)
	if err != nil {
		return nil, err
	}
	for _, step := range finishing {
		more, err := step(jobs[0].by, files, to)
		if err != nil {
			return nil, err
		}
		files = append(files, more...)
	}
	return files, nil
}

// unchanged takes a file over from the build before, if all that it was made of is the same.
func (m *maker) unchanged(of string) (ledger.File, bool) {
	if m.before == nil || m.before.Ledger == nil {
		return ledger.File{}, false
	}
	f, ok := m.before.of[m.mark()+of]
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

// stands takes over a file that a step made before, where what it would write now is the same.
func (m *maker) stands(f ledger.File) bool {
	if m.before == nil {
		return false
	}
	old, ok := m.before.of[f.Of]
	return ok && old.Name == f.Name && old.Size == f.Size && old.Sum == f.Sum && m.before.Keep(old)
}

// mark stands before the names of what is made in another language or voice, for a ledger has those of all.
func (m *maker) mark() string {
	if m.voice == "" {
		return m.folder
	}
	return m.folder + m.voice + "/"
}

// noted says of what language and voice the things are that were noted.
func (m *maker) noted(notes []shelf.Note) []shelf.Note {
	if m.mark() == "" {
		return notes
	}
	var out []shelf.Note
	for _, n := range notes {
		out = append(out, shelf.Note{What: m.mark() + n.What, Of: n.Of})
	}
	return out
}

// print gives the print of a thing that a ledger notes.
func (m *maker) print(n shelf.Note) shelf.Print {
	n.What = strings.TrimPrefix(n.What, m.mark())
	return m.stock.Print(n)
}

// finished says of a file what the steps have to know.
func (m *maker) finished(j job, a asset) File {
	out := File{File: ledger.File{Of: j.of, Name: m.folder + a.name, From: m.noted(a.from)}, Page: j.page, by: m}
	if a.kept != nil {
		out.File = *a.kept
	} else {
		out.Size, out.Sum = int64(len(a.data)), sha256.Sum256(a.data)
	}
	return out
}

// writeLedger writes down what the folder holds, with what the steps before it made. That is made of nothing
// that is noted, so it is made each time.
func writeLedger(m *maker, files []File, to Site) ([]File, error) {
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
	return nil, to.Write(ledger.Name, l.Text())
}
