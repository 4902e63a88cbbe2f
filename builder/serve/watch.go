package serve

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	// quiet is how long nothing may happen before changed is called: saving one
	// file makes several events, and changing a branch makes many.
	quiet = 150 * time.Millisecond
	// brief is quiet while all that happened was about one file: then somebody has saved it, and waits to see it.
	brief = 40 * time.Millisecond
	// patience is how long a change waits at most, however restless the folder is.
	patience = time.Second
	// again is how often a folder that is gone is looked for.
	again = 500 * time.Millisecond
)

// Watch calls changed after something changed in the folders dirs or in a folder
// below them, until ctx ends, which is no error. Hidden files and those that
// editors make for a moment do not count, and links below dirs are not followed.
// The calls come one at a time; what changes during one leads to another.
//
// A folder of dirs may go and come back, as it does when somebody moves it for a
// moment: changed is called both times.
//
// The folder that changed writes to must not be among dirs or below them.
func Watch(ctx context.Context, dirs []string, changed func()) error {
	w, err := newWatcher(dirs)
	if err != nil {
		return err
	}
	defer func() { w.inner.Close() }() // by then it may be another one
	return w.run(ctx, changed)
}

// A watcher watches each folder by its name. When folders come, go or move, it
// is made anew rather than mended: the watch of a moved folder keeps the old name,
// and so does that of each folder below it.
type watcher struct {
	dirs    []string
	inner   *fsnotify.Watcher
	folders map[string]bool // all that are watched
	stale   bool            // other folders are there now
	gone    bool            // a folder of dirs is missing, and changed was told
}

func newWatcher(dirs []string) (*watcher, error) {
	inner, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, fmt.Errorf("cannot watch folders on this machine: %w", err)
	}
	w := &watcher{dirs: dirs, inner: inner, folders: map[string]bool{}}
	for _, dir := range dirs {
		if err := w.addDir(dir); err != nil {
			inner.Close()
			return nil, fmt.Errorf("cannot watch %q: %w", dir, err)
		}
	}
	return w, nil
}

// addDir follows a link, which the walk below it would not.
func (w *watcher) addDir(dir string) error {
	dir, err := filepath.EvalSymlinks(dir)
	if err != nil {
		return err
	}
	if !isFolder(dir) {
		return errors.New("it is a file; name the folder that it is in")
	}
	return w.addTree(dir)
}

// addTree watches a folder and all below it. Each folder is watched before it is
// read, so that a folder made in between is found in one way or the other. What
// is gone again by then is no error.
func (w *watcher) addTree(dir string) error {
	return filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil
		case err != nil:
			return err
		case !d.IsDir():
			return nil
		case path != dir && passing(d.Name()):
			return fs.SkipDir
		}
		return w.add(path)
	})
}

func (w *watcher) add(path string) error {
	err := w.inner.Add(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case errors.Is(err, syscall.ENOSPC):
		return fmt.Errorf("%s is one folder more than this system watches at a time: %w", path, err)
	}
	w.folders[path] = true
	return err
}

// run waits for events, and then until they pause.
func (w *watcher) run(ctx context.Context, changed func()) error {
	var p pause
	for {
		select {
		case <-ctx.Done():
			return nil
		case e := <-w.inner.Events:
			if w.counts(e) {
				p.begin(e.Name)
			}
		case err := <-w.inner.Errors:
			if !errors.Is(err, fsnotify.ErrEventOverflow) {
				return fmt.Errorf("cannot watch any longer: %w", err)
			}
			w.stale = true // events were lost, and folders with them
			p.begin("")
		case <-p.over:
			p = pause{}
			err := w.renew()
			switch {
			case errors.Is(err, fs.ErrNotExist):
				if !w.gone {
					w.gone = true
					changed() // it will say what is missing
				}
				p.over = time.After(again)
			case err != nil:
				return err
			default:
				changed()
			}
		}
	}
}

// counts says whether an event is about content, and notices other folders.
func (w *watcher) counts(e fsnotify.Event) bool {
	switch {
	case e.Op == fsnotify.Chmod:
		return false
	case w.folders[e.Name]:
		w.stale = true
		return true
	case passing(filepath.Base(e.Name)):
		return false
	}
	w.stale = w.stale || isFolder(e.Name)
	return true
}

// renew watches the folders that are there now. It comes before the call of
// changed, which so finds all that was written before, and the new watch sees all
// that is written after. Where a folder of dirs is missing, the old watch stays, and it
// is an error.
func (w *watcher) renew() error {
	if !w.stale {
		return nil
	}
	next, err := newWatcher(w.dirs)
	if err != nil {
		return err
	}
	w.inner.Close()
	*w = *next
	return nil
}

func isFolder(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && info.IsDir()
}

// passing knows the names of hidden files, and of those that editors make beside
// the file that is being saved.
func passing(name string) bool {
	for _, start := range []string{".", "#", "~$"} {
		if strings.HasPrefix(name, start) {
			return true
		}
	}
	switch strings.ToLower(filepath.Ext(name)) {
	case ".tmp", ".temp", ".bak", ".swp", ".swx", ".swo":
		return true
	}
	return strings.HasSuffix(name, "~")
}

// A pause runs from the first event until nothing has come for a while.
type pause struct {
	over <-chan time.Time
	last time.Time // when patience ends

	file string // the one that all events so far were about; "" where they were about several
}

// begin takes an event about a file in; "" is for one that may be about any.
func (p *pause) begin(file string) {
	now := time.Now()
	if p.over == nil {
		p.last, p.file = now.Add(patience), file
	}
	wait := quiet
	if p.file != file {
		p.file = ""
	}
	if p.file != "" {
		wait = brief
	}
	p.over = time.After(min(wait, p.last.Sub(now)))
}
