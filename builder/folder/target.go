package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrNotOurs is what errors.Is finds in the error for a folder that Replace will
// not replace. The error itself names the folder and says what to do.
var ErrNotOurs = errors.New("not a folder made by keelpath")

// A refusal says why a folder is not replaced, and what to do.
type refusal struct{ text string }

func (r *refusal) Error() string        { return r.text }
func (r *refusal) Is(target error) bool { return target == ErrNotOurs }

func refuse(format string, args ...any) error {
	return &refusal{fmt.Sprintf(format, args...)}
}

// A target is the folder to replace, and the names that are ours beside it.
type target struct {
	shown  string // as the caller wrote it
	path   string // absolute and clean
	parent string
	prefix string // of the names of staging folders, which end in digits
	aside  string // where the old folder waits while it is replaced in two steps
}

func locate(dir string) (target, error) {
	path, err := filepath.Abs(dir)
	if err != nil {
		return target{}, err
	}
	parent, base := filepath.Split(path)
	if base == "" {
		return target{}, refuseStanding(dir)
	}
	prefix := "." + base + ".keelpath-"
	return target{
		shown:  dir,
		path:   path,
		parent: parent,
		prefix: prefix,
		aside:  filepath.Join(parent, prefix+"old"),
	}, nil
}

// check refuses a target that may hold something of somebody else.
func (t target) check() error {
	info, err := os.Lstat(t.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.Mode()&fs.ModeSymlink != 0:
		return refuse("%q is a link to another place; name the folder itself, or remove the link", t.shown)
	case !info.IsDir():
		return refuse("%q is a file, and the site needs a folder; choose another name, or move the file away", t.shown)
	case isMount(t.path):
		return refuse("%q is a mounted folder, and a build replaces its folder whole; name a folder inside it, such as %q", t.shown, filepath.Join(t.shown, "out"))
	case holdsWorkingFolder(info):
		return refuseStanding(t.shown)
	}
	return t.checkEntries()
}

func (t target) checkEntries() error {
	if marked(t.path) {
		return nil
	}
	entries, err := os.ReadDir(t.path)
	if err != nil || len(entries) == 0 {
		return err
	}
	return refuse("%q holds %q and no %s, so keelpath did not make this folder and leaves it alone; "+
		"choose a new or empty folder, or move what is in it away", t.shown, entries[0].Name(), Marker)
}

// refuseStanding is for a folder that the command runs in: replaced, it would
// leave the reader's terminal in a folder that is no longer there.
func refuseStanding(shown string) error {
	return refuse("%q is the folder you are in, or one above it, and a build replaces its folder whole; "+
		`name a folder inside it, such as "out"`, shown)
}

// holdsWorkingFolder compares files, not names, so that links do not matter.
func holdsWorkingFolder(dir fs.FileInfo) bool {
	path, err := os.Getwd()
	if err != nil {
		return false
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	for {
		if info, err := os.Stat(path); err == nil && os.SameFile(info, dir) {
			return true
		}
		up := filepath.Dir(path)
		if up == path {
			return false
		}
		path = up
	}
}

// marked goes by the name alone, so that the text may change one day.
func marked(dir string) bool {
	info, err := os.Lstat(filepath.Join(dir, Marker))
	return err == nil && info.Mode().IsRegular()
}
