package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// errTaken says that another process holds a staging folder or has removed it.
var errTaken = errors.New("held by another process")

// rescue puts the last good folder back where a run was killed between the two
// steps of a swap.
func (t target) rescue() {
	if _, err := os.Lstat(t.path); !errors.Is(err, fs.ErrNotExist) {
		return
	}
	if _, err := os.Lstat(t.aside); err != nil {
		return
	}
	lock, err := hold(t.aside) // held already: that swap is still going on
	if err != nil {
		return
	}
	defer lock.Close()
	_ = os.Rename(t.aside, t.path) // where it fails, the folder is missing as before
}

// tidy removes what killed runs left beside the target, and leaves what a live
// process holds. What cannot be removed does not stop the build.
func (t target) tidy() {
	entries, _ := os.ReadDir(t.parent) // those that it names in spite of an error are left over all the same
	for _, e := range entries {
		if e.IsDir() && t.leftOver(e.Name()) {
			t.tidyOne(filepath.Join(t.parent, e.Name()))
		}
	}
}

func (t target) tidyOne(path string) {
	lock, ok := claim(path)
	if !ok {
		return
	}
	defer lock.Close()
	_ = discard(path)
}

// leftOver knows the names that stage and swapInSteps give.
func (t target) leftOver(name string) bool {
	end, ok := strings.CutPrefix(name, t.prefix)
	if !ok {
		return false
	}
	return end == "old" || end != "" && strings.Trim(end, "0123456789") == ""
}

// discard removes a folder that is empty or marked, and no other. The marker goes
// last, so that a removal cut short can be taken up again. Another run may remove
// the same folder meanwhile; what is gone is as it should be.
func discard(dir string) error {
	var err error
	if marked(dir) {
		err = discardEntries(dir)
	}
	if err == nil {
		err = os.Remove(dir)
	}
	if errors.Is(err, fs.ErrNotExist) {
		if _, at := os.Lstat(dir); errors.Is(at, fs.ErrNotExist) {
			return nil
		}
	}
	return err
}

func discardEntries(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if e.Name() == Marker {
			continue
		}
		if err := os.RemoveAll(filepath.Join(dir, e.Name())); err != nil {
			return err
		}
	}
	return os.RemoveAll(filepath.Join(dir, Marker))
}
