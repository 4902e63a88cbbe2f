// Package publish renders a library to the files of a site: pages from the
// templates of package site, and the bundled styles and script. It writes no
// file itself; each one is handed on, always in the same order and with the
// same bytes from the same library.
package publish

import (
	"bytes"
	"context"
	"fmt"
	"html/template"
	"io/fs"
	"runtime"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/prose"
	"keelpath/builder/shelf"
	"keelpath/site"
)

// Render makes every file of the site and hands each to emit, by its slash
// separated name inside the site. progress may be nil; it hears of each file
// once it is handed on. The library must be free of errors; what the site goes without is
// a warning in list.
func Render(ctx context.Context, l *library.Library, list *finding.List, emit func(name string, data []byte) error, progress func(done, total int)) error {
	all, err := makers(l, list, nil)
	if err != nil {
		return err
	}
	_, err = run(ctx, jobs(all), emit, progress)
	return err
}

// makers gives one for each language. The first language's pages lie at the top of the site, any
// other's in a folder with all that they need, so that it can also be hosted alone.
func makers(l *library.Library, list *finding.List, before *Before) ([]*maker, error) {
	var out []*maker
	for _, in := range append([]*library.Library{l}, l.Others...) {
		m, err := newMaker(in, site.Files, list)
		if err != nil {
			return nil, err
		}
		m.before = before
		if in != l {
			m.folder = in.Lang + "/"
		}
		if err := m.inVoices(site.Files); err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

// maker holds what all pages share. Nothing in it changes while pages render.
type maker struct {
	lib       *library.Library
	voice     string   // of read.Voices, where it makes what the planner says in another than the reader's own
	others    []*maker // of the other voices
	folder    string   // in which its files lie, with a slash behind it; empty for the first language
	plan      *plan.Plan
	stock     *shelf.Stock
	templates *template.Template
	assets    map[string]func() (asset, error) // by the file that each is made of
	found     *finding.List                    // only the asset "carry" adds to it
	before    *Before                          // nil where everything is made
	alike     sync.Map                         // what several pages show alike, template.HTML by alike
}

func newMaker(l *library.Library, files fs.FS, list *finding.List) (*maker, error) {
	m := &maker{lib: l, found: list}
	var err error
	if m.plan, err = plan.Of(l); err != nil {
		return nil, err
	}
	if m.templates, err = template.New("pages").Funcs(functions(l.Say)).ParseFS(files, "pages/*.html"); err != nil {
		return nil, fmt.Errorf("read the page templates: %w", err)
	}
	if err := sayable(m.templates, l.Say); err != nil {
		return nil, fmt.Errorf("read the page templates: %w", err)
	}
	m.templates.Funcs(template.FuncMap{"source": m.source, "prompt": m.prompt})
	m.assets = m.later(files)
	m.stock = shelf.NewStock(l, m.plan, func(from string) (string, error) {
		a, err := m.asset(from)
		return a.name, err
	})
	return m, nil
}

// job makes one file. The name of an asset is known once it is made.
type job struct {
	by   *maker
	of   string    // what it makes: the name of the page, or the file that the asset is made of
	page plan.Page // none for an asset
	make func() (asset, error)
}

// jobs lists every file of the language, assets first, and what the next build need not find out again last.
func (m *maker) jobs() []job {
	var out []job
	for _, by := range append([]*maker{m}, m.others...) {
		for _, e := range by.entries() {
			out = append(out, job{by: by, of: by.mark() + e.of(), make: by.assets[e.from]})
		}
	}
	for _, p := range m.plan.Pages {
		out = append(out, job{m, m.folder + p.Name, p, func() (asset, error) { return m.pageFile(p) }})
	}
	if m.lib.Remembers() {
		out = append(out, job{by: m, of: "what is known of explainers", make: func() (asset, error) { return asset{name: library.KnownName, data: m.lib.Known()}, nil }})
	}
	return out
}

// pageFile makes a page, or takes it over where nothing of what it is made of has changed.
func (m *maker) pageFile(p plan.Page) (asset, error) {
	if f, ok := m.unchanged(p.Name); ok {
		return asset{name: strings.TrimPrefix(f.Name, m.folder), kept: &f, from: f.From}, nil
	}
	data, noted, err := m.html(p)
	return asset{name: p.Name, data: data, from: noted}, err
}

// jobs lists every file of a site.
func jobs(all []*maker) []job {
	var out []job
	for _, m := range all {
		out = append(out, m.jobs()...)
	}
	return out
}

// mostAhead is how many files are made before they are handed on, so that those of a big
// site do not wait in memory for a slow disk.
const mostAhead = 64

// run makes the files on all processors and hands them on in the jobs' order; what is taken
// over is not handed on. It gives all files. The error it gives is that of the first job that failed, in that order.
func run(ctx context.Context, jobs []job, emit func(string, []byte) error, progress func(int, int)) ([]File, error) {
	ctx, cancel := context.WithCancel(ctx)
	type made struct {
		asset
		file File
		err  error
	}
	results := make([]chan made, len(jobs))
	for i := range results {
		results[i] = make(chan made, 1)
	}
	ahead := make(chan struct{}, mostAhead)
	var workers errgroup.Group
	workers.SetLimit(runtime.GOMAXPROCS(0) + 1) // one is taken by the loop that starts the others
	workers.Go(func() error {
		for i, j := range jobs {
			select {
			case ahead <- struct{}{}:
			case <-ctx.Done():
				results[i] <- made{err: ctx.Err()}
				continue
			}
			workers.Go(func() error {
				if ctx.Err() != nil {
					results[i] <- made{err: ctx.Err()}
					return nil
				}
				a, err := j.make()
				results[i] <- made{a, j.by.finished(j, a), err}
				return nil
			})
		}
		return nil
	})
	defer func() { cancel(); _ = workers.Wait() }()
	files := make([]File, 0, len(jobs))
	for i, j := range jobs {
		r := <-results[i]
		if r.err != nil {
			return nil, fmt.Errorf("render %s: %w", j.of, r.err)
		}
		<-ahead
		if r.kept == nil {
			if err := emit(r.file.Name, r.data); err != nil {
				return nil, err
			}
		}
		files = append(files, r.file)
		if progress != nil {
			progress(i+1, len(jobs))
		}
	}
	return files, nil
}

// shared renders the parts of the layout that many pages have alike, each once for all that
// it hangs on beside the edition and the words, which are the same for all pages.
func (m *maker) shared(v *PageView) error {
	for _, p := range []struct {
		template string
		on       string
		to       *template.HTML
	}{
		{"layout-top", fmt.Sprintf("%q %q %t", v.Root, v.Room, v.Search == v.Root+v.Name), &v.Top},
		{"layout-stance", "", &v.Stance},
		{"layout-credits", fmt.Sprintf("%q", v.Credits), &v.CreditLines},
		{"layout-last", fmt.Sprintf("%q %q", v.Root, v.Clinic), &v.Last},
	} {
		var err error
		if *p.to, err = m.once(p.template, p.on, m.shows(p.template, *v)); err != nil {
			return err
		}
	}
	return nil
}

// alike is what several pages show alike: what it is, and all that it hangs on.
type alike struct {
	what string
	on   any
}

// once makes a part of pages once for all that it hangs on.
func (m *maker) once(what string, on any, html func() (template.HTML, error)) (template.HTML, error) {
	key := alike{what, on}
	if made, ok := m.alike.Load(key); ok {
		return made.(template.HTML), nil
	}
	made, err := html()
	if err == nil {
		m.alike.Store(key, made)
	}
	return made, err
}

// shows gives what makes a template's HTML, for once.
func (m *maker) shows(name string, view any) func() (template.HTML, error) {
	return func() (template.HTML, error) {
		made, err := m.made(name, view)
		return template.HTML(made), err
	}
}

// source shows a source without its number, and with no address on the site.
func (m *maker) source(s SourceView) (template.HTML, error) {
	s.Number, s.URL = 0, ""
	return m.once("source", s, m.shows("source", s))
}

// prompt shows a prompt without what it rests on.
func (m *maker) prompt(p PromptView) (template.HTML, error) {
	p.ID, p.Sources = "", nil
	return m.once("prompt", [3]string{p.Ask, p.Why, fmt.Sprintf("%q", p.Whom)}, m.shows("prompt", p))
}

// fill executes the template of a gap or a slot in the text of one of the site's own pages.
func (m *maker) fill(name string, view any) (template.HTML, error) {
	var b bytes.Buffer
	err := m.templates.ExecuteTemplate(&b, name, view)
	return template.HTML(b.String()), err
}

// viewer gives a page's, with a shelf of its own.
func (m *maker) viewer(p plan.Page) (viewer, error) {
	k, s := kinds[p.Kind], m.stock.Shelf()
	s.Find(p.Kind, p.Of) // the page's own title and what it is about are off the shelf too
	view, err := pageView(s, p, k)
	return viewer{addresses: addresses{s, view.Root, p}, view: view, kind: k, once: m.once, part: m.part}, err
}

// rooms are for the parts of pages while they are made.
var rooms = sync.Pool{New: func() any { return &bytes.Buffer{} }}

// html renders one page: its own part first, then the layout around it. It gives the notes
// of all that it is made of too.
func (m *maker) html(p plan.Page) (page []byte, from []shelf.Note, err error) {
	k := kinds[p.Kind]
	v, err := m.viewer(p)
	if err != nil {
		return nil, nil, err
	}
	view := v.view
	v.view.Text = v.pageText(p, m.fill)
	model, err := k.model(v, p)
	if err != nil {
		return nil, nil, err
	}
	if v.view.Text != nil {
		v.view.Text.view = model
	}
	main := rooms.Get().(*bytes.Buffer)
	defer rooms.Put(main)
	main.Reset()
	if err := m.templates.ExecuteTemplate(main, k.template, model); err != nil {
		return nil, nil, err
	}
	if k.alone {
		return bytes.Clone(main.Bytes()), v.shelf.Noted(), nil
	}
	view.Main = template.HTML(main.String())
	switch {
	case !prose.Judges(p.Lang):
		view.NotJudged = true
	case k.text != nil:
		view.Grade = gradeOf(v.say(), k.text(v.shelf, p.Of))
	case v.view.Text != nil:
		view.Grade = gradeOf(v.say(), v.shelf.OwnCounts(string(p.Kind)))
	default:
		view.Grade = gradeOf(v.say(), prose.Of(passages(main.Bytes())))
	}
	if err := m.shared(&view); err != nil {
		return nil, nil, err
	}
	var whole bytes.Buffer
	whole.Grow(main.Len() + main.Len()/8 + 8<<10) // what stands around it is shorter
	if err := m.templates.ExecuteTemplate(&whole, "layout", view); err != nil {
		return nil, nil, err
	}
	return whole.Bytes(), v.shelf.Noted(), nil
}
