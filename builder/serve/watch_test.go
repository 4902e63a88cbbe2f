package serve

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/fsnotify/fsnotify"
)

// watching runs a watcher over real folders; the watch is set up when it returns.
// Each call of changed hands over a value, and the watcher goes on when it is taken.
func watching(t *testing.T, dirs ...string) (calls <-chan bool, ended <-chan error) {
	t.Helper()
	w := open(t, dirs...)
	ctx, cancel := context.WithCancel(t.Context())
	c, e, done := make(chan bool), make(chan error, 1), make(chan bool)
	go func() {
		defer close(done)
		e <- w.run(ctx, func() {
			select {
			case c <- true:
			case <-ctx.Done():
			}
		})
	}()
	t.Cleanup(func() {
		cancel()
		<-done
	})
	return c, e
}

func open(t *testing.T, dirs ...string) *watcher {
	t.Helper()
	w, err := newWatcher(dirs)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { w.inner.Close() })
	return w
}

func TestWatchSees(t *testing.T) {
	for _, test := range []struct {
		name string
		do   func(t *testing.T, dir string)
	}{
		{"a new file", func(t *testing.T, dir string) { write(t, dir+"/new.md", "new") }},
		{"a written file", func(t *testing.T, dir string) { write(t, dir+"/ramps.md", "again") }},
		{"a file in a folder below", func(t *testing.T, dir string) { write(t, dir+"/en/learn/hills.md", "again") }},
		{"a removed file", func(t *testing.T, dir string) { os.Remove(dir + "/ramps.md") }},
		{"a file moved into its place", func(t *testing.T, dir string) {
			write(t, dir+"/.ramps.md.tmp", "again")
			os.Rename(dir+"/.ramps.md.tmp", dir+"/ramps.md")
		}},
		{"a new folder", func(t *testing.T, dir string) { os.Mkdir(dir+"/nl", 0o755) }},
		{"a removed folder", func(t *testing.T, dir string) { os.RemoveAll(dir + "/en") }},
	} {
		t.Run(test.name, func(t *testing.T) {
			dir := contentFolder(t)
			calls, _ := watching(t, dir)
			test.do(t, dir)
			<-calls
		})
	}
}

// tempDir has no links in its name, so that events carry the same one.
func tempDir(t *testing.T) string {
	t.Helper()
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func contentFolder(t *testing.T) string {
	t.Helper()
	dir := tempDir(t)
	write(t, dir+"/ramps.md", "ramps")
	write(t, dir+"/en/learn/hills.md", "hills")
	return dir
}

// until takes events up to the first that counts and is about path, and returns
// the names of all that counted before.
func until(t *testing.T, w *watcher, path string) (before []string) {
	t.Helper()
	limit := time.After(30 * time.Second)
	for {
		select {
		case e := <-w.inner.Events:
			if !w.counts(e) {
				continue
			}
			if e.Name == path {
				return before
			}
			before = append(before, e.Name)
		case <-limit:
			t.Fatalf("no event about %s, only %q", path, before)
		}
	}
}

// Folders that are made, moved, replaced, while the watch goes on.
func TestWatchGoesIntoNewFolders(t *testing.T) {
	dir := contentFolder(t)
	w := open(t, dir)
	move := func(from, to string) {
		if err := os.Rename(dir+from, dir+to); err != nil {
			t.Fatal(err)
		}
	}
	for _, step := range []struct {
		name  string
		do    func()
		about string // the event that shows it
		then  string // a file that must be seen afterwards
	}{
		{"made", func() { os.MkdirAll(dir+"/nl/learn/more", 0o755) }, "/nl", "/nl/learn/more/hills.md"},
		{"moved", func() { move("/nl", "/fy") }, "/fy", "/fy/learn/more/hills.md"},
		{"made below a moved one", func() { os.Mkdir(dir+"/fy/learn/less", 0o755) }, "/fy/learn/less", "/fy/learn/less/hills.md"},
		{"removed", func() { os.RemoveAll(dir + "/fy/learn") }, "/fy/learn", "/fy/ramps.md"},
		{"made again", func() { os.MkdirAll(dir+"/fy/learn/more", 0o755) }, "/fy/learn", "/fy/learn/more/hills.md"},
		{"moved, and another in its place", func() { move("/fy", "/de"); os.MkdirAll(dir+"/fy/learn", 0o755) }, "/fy", "/de/learn/more/hills.md"},
		{"as before", func() { os.Mkdir(dir+"/it", 0o755) }, "/it", "/fy/learn/hills.md"},
	} {
		t.Run(step.name, func(t *testing.T) {
			step.do()
			until(t, w, dir+step.about)
			if !w.stale {
				t.Error("the watcher did not notice")
			}
			if err := w.renew(); err != nil {
				t.Fatal(err)
			}
			write(t, dir+step.then, "words")
			until(t, w, dir+step.then)
		})
	}
}

// A change of branch may take a watched folder away and bring it back.
func TestWatchOutlivesAFolderThatComesBack(t *testing.T) {
	dir := filepath.Join(tempDir(t), "content")
	os.Mkdir(dir, 0o755)
	w := open(t, dir)
	os.Remove(dir)
	until(t, w, dir)
	os.Mkdir(dir, 0o755)
	if err := w.renew(); err != nil {
		t.Fatal(err)
	}
	write(t, dir+"/ramps.md", "ramps")
	until(t, w, dir+"/ramps.md")
}

// The names to pass over come first and one that counts after them.
func TestWatchPassesOver(t *testing.T) {
	dir := contentFolder(t)
	os.Mkdir(dir+"/.git", 0o755)
	w := open(t, dir)
	for _, name := range []string{".git/index", ".ramps.md.swp", "#ramps.md#", "ramps.md~", "~$ramps.docx", "ramps.TMP", "old.bak"} {
		write(t, filepath.Join(dir, name), "not content")
	}
	os.Chmod(dir+"/ramps.md", 0o600)
	write(t, dir+"/last.md", "content")
	if before := until(t, w, dir+"/last.md"); len(before) > 0 {
		t.Errorf("%q count", before)
	}
	if w.stale {
		t.Error("a file is taken for a folder")
	}
}

func TestPassing(t *testing.T) {
	for name, want := range map[string]bool{
		"ramps.md": false, "hills-and-ramps.yaml": false, "template": false, "a~b.md": false, "tmp": false, "50%.md": false,
		".hidden": true, "ramps.md~": true, "#ramps#": true, "x.swp": true, "x.tmp": true, "X.BAK": true,
	} {
		if passing(name) != want {
			t.Errorf("%s: %v, want %v", name, !want, want)
		}
	}
}

// A folder that is moved away is told of, once, and waited for; when it is back, or
// another is in its place, that is told as well, and its files are seen.
func TestWatchWaitsForAFolderThatIsGone(t *testing.T) {
	for name, end := range map[string]struct{ away, back func(dir string) error }{
		"removed and made": {os.RemoveAll, func(dir string) error { return os.Mkdir(dir, 0o755) }},
		"moved for a moment": {
			func(dir string) error { return os.Rename(dir, dir+"-elsewhere") },
			func(dir string) error { return os.Rename(dir+"-elsewhere", dir) },
		},
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(tempDir(t), "content")
			os.Mkdir(dir, 0o755)
			calls, ended := watching(t, dir)
			if err := end.away(dir); err != nil {
				t.Fatal(err)
			}
			<-calls
			select {
			case <-calls:
				t.Error("it is told twice")
			case err := <-ended:
				t.Fatalf("ended with %v", err)
			case <-time.After(3 * again):
			}
			if err := end.back(dir); err != nil {
				t.Fatal(err)
			}
			<-calls
			write(t, dir+"/ramps.md", "again")
			<-calls
		})
	}
}

func TestWatchRefuses(t *testing.T) {
	dir := contentFolder(t)
	for name, words := range map[string]string{
		dir + "/missing":  "cannot watch",
		dir + "/ramps.md": "name the folder that it is in",
	} {
		err := Watch(t.Context(), []string{dir, name}, func() {})
		if err == nil || !strings.Contains(err.Error(), words) || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestWatchFollowsItsOwnLink(t *testing.T) {
	dir := contentFolder(t)
	link := filepath.Join(tempDir(t), "content")
	if err := os.Symlink(dir, link); err != nil {
		t.Fatal("this test needs a file system with links:", err)
	}
	calls, _ := watching(t, link)
	write(t, dir+"/en/learn/hills.md", "again")
	<-calls
}

// Through the front door; the first events may come before the watch is set up.
func TestWatch(t *testing.T) {
	dir := contentFolder(t)
	ctx, cancel := context.WithCancel(t.Context())
	ended, tick := make(chan error), time.NewTicker(5*time.Millisecond)
	defer tick.Stop()
	go func() { ended <- Watch(ctx, []string{dir}, cancel) }()
	for {
		select {
		case <-tick.C:
			write(t, dir+"/ramps.md", "again")
		case err := <-ended:
			if err != nil {
				t.Error(err)
			}
			return
		}
	}
}

// The pause, with a clock of its own and events made by hand.
func TestPause(t *testing.T) {
	ms := time.Millisecond
	for _, test := range []struct {
		name   string
		files  int // that the events are about, by turns
		events []time.Duration
		want   []time.Duration
	}{
		{"one", 1, []time.Duration{0}, []time.Duration{40 * ms}},
		{"a burst about one file", 1, []time.Duration{0, 10 * ms, 20 * ms, 100 * ms}, []time.Duration{60 * ms, 140 * ms}},
		{"no rest about one file", 1, every(30*ms, 40), []time.Duration{1000 * ms, 1210 * ms}},
		{"a burst", 2, []time.Duration{0, 10 * ms, 20 * ms, 100 * ms}, []time.Duration{250 * ms}},
		{"two saves", 1, []time.Duration{0, 400 * ms}, []time.Duration{40 * ms, 440 * ms}},
		{"no rest", 2, every(30*ms, 60), []time.Duration{1000 * ms, 1920 * ms}},
	} {
		t.Run(test.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				start := time.Now()
				events := make(chan fsnotify.Event)
				w := &watcher{inner: &fsnotify.Watcher{Events: events}}
				var got []time.Duration
				ctx, cancel := context.WithCancel(t.Context())
				go w.run(ctx, func() { got = append(got, time.Since(start)) })
				for i, at := range test.events {
					time.Sleep(time.Until(start.Add(at))) // the test's own clock: no time passes
					events <- fsnotify.Event{Name: fmt.Sprintf("ramps-%d.md", i%test.files), Op: fsnotify.Write}
				}
				time.Sleep(time.Hour)
				cancel()
				synctest.Wait()
				if len(got) != len(test.want) {
					t.Fatalf("called at %v, want %v", got, test.want)
				}
				for i := range got {
					if got[i] != test.want[i] {
						t.Errorf("called at %v, want %v", got, test.want)
					}
				}
			})
		})
	}
}

func every(step time.Duration, n int) (times []time.Duration) {
	for i := range n {
		times = append(times, time.Duration(i)*step)
	}
	return times
}

// Lost events may have been about folders; any other fault ends the watch.
func TestFaults(t *testing.T) {
	dir := contentFolder(t)
	w := open(t, dir)
	w.inner.Errors = make(chan error) // in place of the system's
	os.Mkdir(dir+"/missed", 0o755)
	until(t, w, dir+"/missed")
	w.stale = false // as if that event had been lost

	faults, called, ended := w.inner.Errors, make(chan bool), make(chan error)
	go func() { ended <- w.run(t.Context(), func() { called <- w.folders[dir+"/missed"] }) }()
	faults <- fsnotify.ErrEventOverflow
	if !<-called {
		t.Error("the folder is missed after lost events")
	}

	broken := errors.New("broken")
	w.inner.Errors <- broken
	if err := <-ended; !errors.Is(err, broken) {
		t.Errorf("ended with %v, want %v", err, broken)
	}
}
