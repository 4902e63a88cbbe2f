package folder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// The site of the Alder Quay Limb Clinic, as far as this package cares.
func pages(version string) map[string]string {
	return map[string]string{
		"index.html":             "Alder Quay " + version,
		"learn/ramps/index.html": "ramps " + version,
		Marker:                   markerText,
	}
}

func writePages(root *os.Root, version string) error {
	for name, text := range pages(version) {
		if name == Marker {
			continue
		}
		if err := WriteFile(root, name, []byte(text)); err != nil {
			return err
		}
	}
	return nil
}

func build(t *testing.T, dir, version string) {
	t.Helper()
	err := Replace(t.Context(), dir, func(root *os.Root) error { return writePages(root, version) })
	if err != nil {
		t.Fatal(err)
	}
}

func readAll(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		got[filepath.ToSlash(name)], err = content(path, d)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func content(path string, d fs.DirEntry) (string, error) {
	if d.Type()&fs.ModeSymlink != 0 {
		to, err := os.Readlink(path)
		return "link to " + to, err
	}
	data, err := os.ReadFile(path)
	return string(data), err
}

func wantFiles(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	if got := readAll(t, dir); !maps.Equal(got, want) {
		t.Errorf("%s holds %q, want %q", dir, got, want)
	}
}

func wantEntries(t *testing.T, dir string, want ...string) {
	t.Helper()
	var got []string
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s holds %q, want %q", dir, got, want)
	}
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestReplace(t *testing.T) {
	for _, test := range []struct {
		name   string
		dir    string // below a temporary folder
		before func(t *testing.T, dir string)
	}{
		{"missing", "out", func(*testing.T, string) {}},
		{"missing with its parents", "build/site/out", func(*testing.T, string) {}},
		{"empty", "out", func(t *testing.T, dir string) { os.Mkdir(dir, 0o700) }},
		{"made before", "out", func(t *testing.T, dir string) { build(t, dir, "first") }},
		{"made before, with a stray file", "out", func(t *testing.T, dir string) {
			build(t, dir, "first")
			write(t, filepath.Join(dir, "old/page.html"), "gone after this")
		}},
		{"made by an earlier keelpath with another text", "out", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, Marker), "older words")
		}},
		{"slash at the end", "out/", func(t *testing.T, dir string) { build(t, dir, "first") }},
		{"detour", "x/../out/.", func(*testing.T, string) {}},
		{"star in the name", "out*", func(*testing.T, string) {}},
	} {
		t.Run(test.name, func(t *testing.T) {
			dir := t.TempDir() + "/" + test.dir
			test.before(t, dir)
			build(t, dir, "second")
			dir = filepath.Clean(dir)
			wantFiles(t, dir, pages("second"))
			wantEntries(t, filepath.Dir(dir), filepath.Base(dir))
		})
	}
}

func TestRefused(t *testing.T) {
	for _, test := range []struct {
		name   string
		dir    string
		before func(t *testing.T, top string)
		says   []string
	}{
		{"foreign folder", "out", func(t *testing.T, top string) {
			write(t, top+"/out/thesis.txt", "five years")
		}, []string{`out" holds "thesis.txt"`, "choose a new or empty folder"}},
		{"foreign folder with a slash", "out/", func(t *testing.T, top string) {
			write(t, top+"/out/thesis.txt", "five years")
		}, []string{`out/" holds "thesis.txt"`}},
		{"a folder in the marker's name", "out", func(t *testing.T, top string) {
			write(t, top+"/out/"+Marker+"/thesis.txt", "five years")
		}, []string{`out" holds`}},
		{"file", "out", func(t *testing.T, top string) {
			write(t, top+"/out", "five years")
		}, []string{`out" is a file`, "choose another name"}},
		{"link to a folder of ours", "out", func(t *testing.T, top string) {
			build(t, top+"/real", "first")
			symlink(t, top+"/real", top+"/out")
		}, []string{`out" is a link`, "name the folder itself"}},
		{"link with a slash at the end", "out/", func(t *testing.T, top string) {
			build(t, top+"/real", "first")
			symlink(t, top+"/real", top+"/out")
		}, []string{`out/" is a link`}},
		{"dead link", "out", func(t *testing.T, top string) {
			symlink(t, top+"/nowhere", top+"/out")
		}, []string{`out" is a link`}},
	} {
		t.Run(test.name, func(t *testing.T) {
			top := t.TempDir()
			test.before(t, top)
			before := readAll(t, top)
			wantRefusal(t, top+"/"+test.dir, test.says...)
			wantFiles(t, top, before)
		})
	}
}

func symlink(t *testing.T, to, at string) {
	t.Helper()
	if err := os.Symlink(to, at); err != nil {
		t.Fatal("these tests need a file system with links:", err)
	}
}

func wantRefusal(t *testing.T, dir string, says ...string) {
	t.Helper()
	err := Replace(t.Context(), dir, func(*os.Root) error {
		t.Error("fill was called")
		return nil
	})
	if !errors.Is(err, ErrNotOurs) {
		t.Fatalf("got %v, want ErrNotOurs", err)
	}
	for _, words := range says {
		if !strings.Contains(err.Error(), words) {
			t.Errorf("the message lacks %q: %v", words, err)
		}
	}
}

// A folder that somebody stands in would be gone under their feet.
func TestRefusesTheFolderOneStandsIn(t *testing.T) {
	top := t.TempDir()
	build(t, top+"/out", "first")
	os.MkdirAll(top+"/out/sub", 0o755)
	link := top + "/way-in"
	symlink(t, top+"/out/sub", link)
	for _, test := range []struct{ in, dir string }{
		{top + "/out", "."},
		{top + "/out", "./"},
		{top + "/out", ""},
		{top + "/out", "../out"},
		{top + "/out/sub", ".."},
		{link, top + "/out"},
		{top, "/"},
	} {
		t.Run(test.dir, func(t *testing.T) {
			t.Chdir(test.in)
			wantRefusal(t, test.dir, fmt.Sprintf("%q is the folder you are in", test.dir), `such as "out"`)
		})
	}
	wantEntries(t, top, "out", "way-in")
}

func TestFailureLeavesTheOldFolder(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	broken := errors.New("page 3 is broken")
	for _, test := range []struct {
		name string
		end  func(dir string, root *os.Root) error
		want error
	}{
		{"error", func(string, *os.Root) error { return broken }, broken},
		{"cancelled while filling", func(string, *os.Root) error { cancel(); return nil }, context.Canceled},
		{"cancelled before", func(string, *os.Root) error { t.Error("fill was called"); return nil }, context.Canceled},
	} {
		t.Run(test.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			build(t, dir, "good")
			err := Replace(ctx, dir, func(root *os.Root) error {
				return errors.Join(writePages(root, "bad"), test.end(dir, root))
			})
			if !errors.Is(err, test.want) {
				t.Errorf("got %v, want %v", err, test.want)
			}
			wantFiles(t, dir, pages("good"))
			wantEntries(t, filepath.Dir(dir), "out")
		})
	}
}

func TestPanicLeavesTheOldFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	build(t, dir, "good")
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was swallowed")
			}
		}()
		_ = Replace(t.Context(), dir, func(root *os.Root) error {
			_ = writePages(root, "bad")
			panic("a mistake in a page")
		})
	}()
	wantFiles(t, dir, pages("good"))
	wantEntries(t, filepath.Dir(dir), "out")
}

// Somebody puts a file of their own into the folder while the build runs.
func TestLooksAgainBeforeTheSwap(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	err := Replace(t.Context(), dir, func(root *os.Root) error {
		write(t, filepath.Join(dir, "thesis.txt"), "five years")
		return nil
	})
	if !errors.Is(err, ErrNotOurs) {
		t.Errorf("got %v, want ErrNotOurs", err)
	}
	wantFiles(t, dir, map[string]string{"thesis.txt": "five years"})
	wantEntries(t, filepath.Dir(dir), "out")
}

func TestFillCannotLeaveItsRoot(t *testing.T) {
	top := t.TempDir()
	for _, name := range []string{"../thesis.txt", "/thesis.txt", "a/../../thesis.txt"} {
		err := Replace(t.Context(), top+"/out", func(root *os.Root) error {
			return WriteFile(root, name, []byte("no"))
		})
		if err == nil {
			t.Errorf("%s was written", name)
		}
	}
	wantEntries(t, top)
}

// Two runs may clear away the same old folder: what the other one took is gone as well.
func TestDiscardedByTwo(t *testing.T) {
	top := t.TempDir()
	for i := range 300 {
		dir := filepath.Join(top, fmt.Sprint(i))
		write(t, filepath.Join(dir, Marker), markerText)
		write(t, filepath.Join(dir, "index.html"), "old")
		var wg sync.WaitGroup
		for range 4 {
			wg.Go(func() {
				if err := discard(dir); err != nil {
					t.Error(err)
				}
			})
		}
		wg.Wait()
	}
	wantEntries(t, top)
}

func TestTwoBuildsAtOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	for range 20 {
		var wg sync.WaitGroup
		for i := range 4 {
			wg.Go(func() {
				version := fmt.Sprint(i)
				err := Replace(t.Context(), dir, func(root *os.Root) error { return writePages(root, version) })
				if err != nil {
					t.Error(err)
				}
			})
		}
		wg.Wait()
		version := strings.TrimPrefix(readAll(t, dir)["index.html"], "Alder Quay ")
		wantFiles(t, dir, pages(version))
		wantEntries(t, filepath.Dir(dir), "out")
		if err := discard(dir); err != nil { // so that each round begins without a folder
			t.Fatal(err)
		}
	}
}

func TestSwapInSteps(t *testing.T) {
	for _, test := range []struct {
		name   string
		before bool
		staged bool // false: the second step must fail
		want   string
	}{
		{"first build", false, true, "new"},
		{"next build", true, true, "new"},
		{"second step fails", true, false, "old"},
	} {
		t.Run(test.name, func(t *testing.T) {
			top := t.TempDir()
			to, err := locate(top + "/out")
			if err != nil {
				t.Fatal(err)
			}
			staged := to.path + "-staged"
			if test.before {
				write(t, to.path+"/index.html", "old")
			}
			if test.staged {
				write(t, staged+"/index.html", "new")
			}
			if err := to.swapInSteps(staged); (err == nil) != test.staged {
				t.Errorf("got error %v", err)
			}
			wantFiles(t, to.path, map[string]string{"index.html": test.want})
			if test.before && test.staged {
				wantFiles(t, staged, map[string]string{"index.html": "old"})
			}
			if _, err := os.Lstat(to.aside); !errors.Is(err, fs.ErrNotExist) {
				t.Errorf("something is left aside (%v)", err)
			}
		})
	}
}

// Killed between the two steps, a run leaves the last good folder aside and no
// folder in place. A failing build afterwards must bring it back all the same.
func TestRescue(t *testing.T) {
	top := t.TempDir()
	dir := top + "/out"
	build(t, dir, "good")
	to, err := locate(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(to.path, to.aside); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken")
	if err := Replace(t.Context(), dir, func(*os.Root) error { return broken }); !errors.Is(err, broken) {
		t.Errorf("got %v, want %v", err, broken)
	}
	wantFiles(t, dir, pages("good"))
	wantEntries(t, top, "out")
}

func TestWriteFileSaysWhatFailed(t *testing.T) {
	top := t.TempDir()
	write(t, top+"/learn", "a file where a folder is wanted")
	root, err := os.OpenRoot(top)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	// The folder that it is written in has a name that nobody knows.
	if err := WriteFile(root, "learn/index.html", nil); err == nil || !strings.HasPrefix(err.Error(), "cannot write learn/index.html: ") || strings.Contains(err.Error(), top) {
		t.Errorf("got %v, want an error that names the file as the site does", err)
	}
}

func TestMarkerIsPlain(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	build(t, dir, "first")
	got, err := os.ReadFile(filepath.Join(dir, "keelpath-made.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"made by Keelpath", "replaced whole at each build"} {
		if !strings.Contains(string(got), words) {
			t.Errorf("the marker lacks %q", words)
		}
	}
}

// What cannot be looked at is not taken for a folder that is missing.
func TestTargetBelowAFile(t *testing.T) {
	top := t.TempDir()
	write(t, top+"/learn", "a file where a folder is wanted")
	to, err := locate(filepath.Join(top, "learn", "out"))
	if err != nil {
		t.Fatal(err)
	}
	if err := to.check(); err == nil || errors.Is(err, ErrNotOurs) {
		t.Errorf("got %v, want an error of the system", err)
	}
}

// Each step says so when the folder that it needs is gone.
func TestFoldersThatAreGone(t *testing.T) {
	top := t.TempDir()
	to, err := locate(filepath.Join(top, "missing", "out"))
	if err != nil {
		t.Fatal(err)
	}
	if s, err := to.stage(); s != nil || err == nil || !strings.HasPrefix(err.Error(), "cannot make a folder beside ") || !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("staged %v, %v", s, err)
	}
	gone := &stage{path: filepath.Join(top, "gone")}
	err = gone.fill(func(*os.Root) error {
		t.Error("a folder that is gone was filled")
		return nil
	})
	if !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("filled: %v", err)
	}
	if err := to.publish(gone); err == nil || !strings.HasPrefix(err.Error(), "cannot put the new folder in the place of ") {
		t.Errorf("published: %v", err)
	}
}

// Where two names cannot be exchanged in one step, a build goes on in two.
func TestSystemThatCannotExchange(t *testing.T) {
	asked := 0
	swapNames = func(string, string) error { asked++; return fmt.Errorf("here: %w", errors.ErrUnsupported) }
	t.Cleanup(func() { swapNames = exchange })
	out := filepath.Join(t.TempDir(), "out")
	for _, text := range []string{"first", "second"} {
		build(t, out, text)
		wantFiles(t, out, pages(text))
	}
	if asked != 2 {
		t.Errorf("it was asked %d times in two builds", asked)
	}
}

// An old folder that cannot be moved aside stays where it is, and the build says so.
func TestSwapThatCannotMoveAside(t *testing.T) {
	top := t.TempDir()
	to, err := locate(top + "/out")
	if err != nil {
		t.Fatal(err)
	}
	write(t, to.path+"/index.html", "old")
	write(t, to.aside+"/index.html", "in the way")
	write(t, to.path+"-staged/index.html", "new")
	if err := to.swapInSteps(to.path + "-staged"); err == nil {
		t.Error("it says that all went well")
	}
	wantFiles(t, to.path, map[string]string{"index.html": "old"})
}

// entry is what a listing gave of a file that is gone by now.
type entry struct{ fs.DirEntry }

func (entry) Info() (fs.FileInfo, error) { return nil, fs.ErrNotExist }

func TestModeOfAFileThatIsGone(t *testing.T) {
	if err := setMode("gone", entry{}, fileMode); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got %v", err)
	}
}

// The folder above the target may be a file.
func TestTargetInAFile(t *testing.T) {
	top := t.TempDir()
	write(t, top+"/learn", "a file where a folder is wanted")
	to, err := locate(filepath.Join(top, "learn", "out"))
	if err != nil {
		t.Fatal(err)
	}
	if err := to.prepare(t.Context()); err == nil || !strings.HasPrefix(err.Error(), "cannot make the folder above ") {
		t.Errorf("got %v", err)
	}
}
