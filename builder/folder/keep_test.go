package folder

import (
	"context"
	"crypto/sha256"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// twice builds a folder with one file, changes it by hand, and builds it again, keeping the
// file if it is still what it was.
func twice(t *testing.T, change func(dir string)) (kept bool, dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "site")
	fill := func(root, _ *os.Root) error { return WriteFile(root, "learn/a.html", []byte("first")) }
	if err := Renew(context.Background(), dir, fill); err != nil {
		t.Fatal(err)
	}
	change(dir)
	err := Renew(context.Background(), dir, func(root, old *os.Root) error {
		if old == nil {
			return errors.New("the old folder was not handed over")
		}
		if kept = Keep(root, old, "learn/a.html", 5, sha256.Sum256([]byte("first"))); !kept {
			return WriteFile(root, "learn/a.html", []byte("anew"))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return kept, dir
}

func inode(t *testing.T, name string) os.FileInfo {
	t.Helper()
	info, err := os.Stat(name)
	if err != nil {
		t.Fatal(err)
	}
	return info
}

func holds(t *testing.T, name, want string) {
	t.Helper()
	if got, err := os.ReadFile(name); err != nil || string(got) != want {
		t.Errorf("%s holds %q, %v; %q was expected", name, got, err, want)
	}
}

// An unchanged file is the same file in the new folder.
func TestKeep(t *testing.T) {
	var was os.FileInfo
	kept, dir := twice(t, func(dir string) { was = inode(t, filepath.Join(dir, "learn/a.html")) })
	if !kept || !os.SameFile(was, inode(t, filepath.Join(dir, "learn/a.html"))) {
		t.Errorf("kept: %t, and it is another file", kept)
	}
}

// Where the system has no such links, the file is copied.
func TestKeepByCopy(t *testing.T) {
	linkFile = func(string, string) error { return errors.ErrUnsupported }
	defer func() { linkFile = os.Link }()
	var was os.FileInfo
	kept, dir := twice(t, func(dir string) { was = inode(t, filepath.Join(dir, "learn/a.html")) })
	if !kept || os.SameFile(was, inode(t, filepath.Join(dir, "learn/a.html"))) {
		t.Errorf("kept: %t, or it is the same file", kept)
	}
	holds(t, filepath.Join(dir, "learn/a.html"), "first")
}

// A file that was changed by hand is made again; so is one that is a link to elsewhere, or
// lies behind one, or is gone.
func TestKeepNotTrusted(t *testing.T) {
	for name, change := range map[string]func(file string) error{
		"of the same size": func(f string) error { return os.WriteFile(f, []byte("fIrst"), 0o644) },
		"longer":           func(f string) error { return os.WriteFile(f, []byte("first "), 0o644) },
		"gone":             os.Remove,
		"a folder": func(f string) error {
			return errors.Join(os.Remove(f), os.Mkdir(f, 0o755))
		},
		"a link to elsewhere": func(f string) error {
			elsewhere := filepath.Join(filepath.Dir(filepath.Dir(filepath.Dir(f))), "elsewhere")
			return errors.Join(os.Rename(f, elsewhere), os.Symlink(elsewhere, f))
		},
		"behind a link": func(f string) error {
			elsewhere := filepath.Join(filepath.Dir(filepath.Dir(filepath.Dir(f))), "elsewhere")
			return errors.Join(os.Rename(filepath.Dir(f), elsewhere), os.Symlink(elsewhere, filepath.Dir(f)))
		},
	} {
		kept, dir := twice(t, func(dir string) {
			if err := change(filepath.Join(dir, "learn/a.html")); err != nil {
				t.Fatal(err)
			}
		})
		if kept {
			t.Errorf("%s: the file was taken over", name)
		}
		holds(t, filepath.Join(dir, "learn/a.html"), "anew")
	}
}

// A file with other rights is copied: to give the new one its own would change the old one's.
func TestKeepOtherMode(t *testing.T) {
	kept, dir := twice(t, func(dir string) {
		if err := os.Chmod(filepath.Join(dir, "learn/a.html"), 0o600); err != nil {
			t.Fatal(err)
		}
	})
	if mode := inode(t, filepath.Join(dir, "learn/a.html")).Mode().Perm(); !kept || mode != fileMode {
		t.Errorf("kept: %t, mode %v", kept, mode)
	}
}

// A build that keeps files and fails changes nothing of the old folder, and what is written
// over a kept file leaves the old one as it was.
func TestKeepAndFail(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	if err := Renew(context.Background(), dir, func(root, _ *os.Root) error { return WriteFile(root, "a.html", []byte("first")) }); err != nil {
		t.Fatal(err)
	}
	was := inode(t, filepath.Join(dir, "a.html"))
	failed := errors.New("failed")
	err := Renew(context.Background(), dir, func(root, old *os.Root) error {
		if !Keep(root, old, "a.html", 5, sha256.Sum256([]byte("first"))) {
			t.Error("the file was not taken over")
		}
		if err := WriteFile(root, "a.html", []byte("other")); err != nil {
			t.Error(err)
		}
		holds(t, filepath.Join(dir, "a.html"), "first")
		return failed
	})
	if !errors.Is(err, failed) {
		t.Fatal(err)
	}
	holds(t, filepath.Join(dir, "a.html"), "first")
	if now := inode(t, filepath.Join(dir, "a.html")); !os.SameFile(was, now) || now.Mode() != was.Mode() {
		t.Error("the old file is another")
	}
}

// A folder is whole where it holds what it should, and nothing else.
func TestWhole(t *testing.T) {
	files := map[string]Sum{"a.html": {5, sha256.Sum256([]byte("first"))}, "learn/more/b.html": {0, sha256.Sum256(nil)}}
	for name, c := range map[string]struct {
		change func(dir string) error
		want   bool
	}{
		"as it was built":      {func(string) error { return nil }, true},
		"a file changed":       {func(d string) error { return os.WriteFile(filepath.Join(d, "a.html"), []byte("fIrst"), 0o644) }, false},
		"a file cut":           {func(d string) error { return os.Truncate(filepath.Join(d, "a.html"), 4) }, false},
		"a file more":          {func(d string) error { return os.WriteFile(filepath.Join(d, "learn", "c.html"), nil, 0o644) }, false},
		"a file less":          {func(d string) error { return os.Remove(filepath.Join(d, "learn/more/b.html")) }, false},
		"a folder more":        {func(d string) error { return os.Mkdir(filepath.Join(d, "letters"), 0o755) }, false},
		"other rights":         {func(d string) error { return os.Chmod(filepath.Join(d, "a.html"), 0o600) }, false},
		"the marker says else": {func(d string) error { return os.WriteFile(filepath.Join(d, Marker), []byte("mine"), 0o644) }, false},
		"no marker":            {func(d string) error { return os.Remove(filepath.Join(d, Marker)) }, false},
		"a link in its place": {func(d string) error {
			return errors.Join(os.Rename(filepath.Join(d, "a.html"), d+"-a"), os.Symlink(d+"-a", filepath.Join(d, "a.html")))
		}, false},
	} {
		dir := filepath.Join(t.TempDir(), "site")
		err := Replace(context.Background(), dir, func(root *os.Root) error {
			return errors.Join(WriteFile(root, "a.html", []byte("first")), WriteFile(root, "learn/more/b.html", nil))
		})
		if err := errors.Join(err, c.change(dir)); err != nil {
			t.Fatal(err)
		}
		if got := Whole(dir, files); got != c.want {
			t.Errorf("%s: whole is %t", name, got)
		}
	}
}
