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

	"golang.org/x/sync/errgroup"

	"keelpath/builder/explainer"
	"keelpath/builder/library"
	"keelpath/site"
)

// Render makes every file of the site and hands each to emit, by its slash
// separated name inside the site. progress may be nil; it hears of each file
// once it is handed on. The library must be free of errors.
func Render(ctx context.Context, l *library.Library, emit func(name string, data []byte) error, progress func(done, total int)) error {
	return render(ctx, l, site.Files, emit, progress)
}

// render is Render with the site's own files from elsewhere.
func render(ctx context.Context, l *library.Library, files fs.FS, emit func(string, []byte) error, progress func(int, int)) error {
	m, err := newMaker(ctx, l, files)
	if err != nil {
		return err
	}
	jobs, err := m.jobs()
	if err != nil {
		return err
	}
	return run(ctx, jobs, emit, progress)
}

// maker holds what all pages share. Nothing in it changes while pages render.
type maker struct {
	lib       *library.Library
	templates *template.Template
	words     *explainer.Words
	site      asset // style of every page
	planner   asset // style of trees and of the sheet
	script    asset // the planner's
	workbench asset // style of figures
	figures   asset // the script of figures
	carry     asset // the script that takes a sheet along; the planner loads it when asked
	mark      asset // the small picture in a browser's tab

	wishStyle, wishScript asset // of the pages about wishes
	feetStyle             asset // of the page of all kinds of feet
}

func newMaker(ctx context.Context, l *library.Library, files fs.FS) (*maker, error) {
	m := &maker{lib: l, words: wordsOf(l)}
	var err error
	if m.templates, err = template.New("pages").Funcs(functions).ParseFS(files, "pages/*.html"); err != nil {
		return nil, fmt.Errorf("read the page templates: %w", err)
	}
	for entry, to := range map[string]*asset{
		"style/site.css": &m.site, "style/planner.css": &m.planner, "client/planner/planner.ts": &m.script,
		"style/figure.css": &m.workbench, "client/figures/workbench.ts": &m.figures,
		"style/wishes.css": &m.wishStyle, "client/wishes/wishes.ts": &m.wishScript, "style/feet.css": &m.feetStyle,
	} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if *to, err = bundle(files, entry); err != nil {
			return nil, err
		}
	}
	if m.carry, err = carryScript(files, l, m.patientTrees()); err != nil {
		return nil, err
	}
	mark, err := fs.ReadFile(files, "drawings/mark.svg")
	if err != nil {
		return nil, err
	}
	m.mark = asset{hashedName("mark", ".svg", mark), mark}
	return m, nil
}

// job makes one file.
type job struct {
	name string
	make func() ([]byte, error)
}

// jobs lists every file of the site, assets first. No two have the same name.
func (m *maker) jobs() ([]job, error) {
	var out []job
	for _, a := range []asset{m.site, m.planner, m.script, m.workbench, m.figures, m.carry, m.mark, m.wishStyle, m.wishScript, m.feetStyle} {
		out = append(out, job{a.name, func() ([]byte, error) { return a.data, nil }})
	}
	for _, p := range m.pages() {
		out = append(out, job{p.name, func() ([]byte, error) { return m.html(p) }})
	}
	taken := map[string]bool{}
	for _, j := range out {
		if taken[j.name] {
			return nil, fmt.Errorf("two pages would both be %s; give the explainer or the tree another id", j.name)
		}
		taken[j.name] = true
	}
	return out, nil
}

// run makes the files on all processors and hands them on in the jobs' order.
// The error it gives is that of the first job that failed, in that order.
func run(ctx context.Context, jobs []job, emit func(string, []byte) error, progress func(int, int)) error {
	ctx, cancel := context.WithCancel(ctx)
	type made struct {
		data []byte
		err  error
	}
	results := make([]chan made, len(jobs))
	for i := range results {
		results[i] = make(chan made, 1)
	}
	var workers errgroup.Group
	workers.SetLimit(runtime.GOMAXPROCS(0) + 1) // one is taken by the loop that starts the others
	workers.Go(func() error {
		for i, j := range jobs {
			workers.Go(func() error {
				if ctx.Err() != nil {
					results[i] <- made{err: ctx.Err()}
					return nil
				}
				data, err := j.make()
				results[i] <- made{data, err}
				return nil
			})
		}
		return nil
	})
	defer func() { cancel(); _ = workers.Wait() }()
	for i, j := range jobs {
		r := <-results[i]
		if r.err != nil {
			return fmt.Errorf("render %s: %w", j.name, r.err)
		}
		if err := emit(j.name, r.data); err != nil {
			return err
		}
		if progress != nil {
			progress(i+1, len(jobs))
		}
	}
	return nil
}

// html renders one page: its own part first, then the layout around it.
func (m *maker) html(p page) ([]byte, error) {
	v := m.pageView(p)
	model, err := p.model(viewer{maker: m, addresses: addresses{m.lib, v.Root, p.name}, newTab: p.newTab}, v)
	if err != nil {
		return nil, err
	}
	var main bytes.Buffer
	if err := m.templates.ExecuteTemplate(&main, p.template, model); err != nil {
		return nil, err
	}
	v.Main = template.HTML(main.String())
	text := p.text
	if text == nil {
		text = func() []string { return passages(main.Bytes()) }
	}
	v.Grade = gradeOf(text())
	var whole bytes.Buffer
	if err := m.templates.ExecuteTemplate(&whole, "layout", v); err != nil {
		return nil, err
	}
	return whole.Bytes(), nil
}

func wordsOf(l *library.Library) *explainer.Words {
	var entries []explainer.Entry
	for _, w := range l.Words {
		e := explainer.Entry{ID: w.ID.S, Forms: []string{w.Word.S}}
		for _, f := range w.Also {
			e.Forms = append(e.Forms, f.S)
		}
		entries = append(entries, e)
	}
	return explainer.NewWords(entries)
}
