package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// publish puts the filled staging folder in the place of the target.
func (t target) publish(s *stage) error {
	err := t.swap(s.path)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, syscall.EBUSY), errors.Is(err, syscall.EXDEV):
		return fmt.Errorf("cannot replace %q: %w; when it is a mounted folder, name a folder inside it", t.shown, bare(err))
	}
	return fmt.Errorf("cannot put the new folder in the place of %q: %w", t.shown, bare(err))
}

// swapNames is another in tests, which stand in for a system that cannot.
var swapNames = exchange

// swap leaves the old folder, if there was one, at the staging path. Where the
// system can exchange two names in one step, no reader ever misses the folder.
// The second round is for a target that came into being in the middle of the first.
func (t target) swap(staged string) error {
	var err error
	for range 2 {
		err = swapNames(staged, t.path)
		if errors.Is(err, errors.ErrUnsupported) {
			return t.swapInSteps(staged)
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		err = os.Rename(staged, t.path)
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	return err
}

// swapInSteps moves the old folder aside and the new one in. When the second
// step fails the first is taken back; when the process is killed between them,
// the next run does so (see rescue). The lock tells that run to wait while this
// one is alive.
func (t target) swapInSteps(staged string) error {
	if lock, err := hold(t.path); err == nil {
		defer lock.Close()
	}
	err := os.Rename(t.path, t.aside)
	if errors.Is(err, fs.ErrNotExist) {
		return os.Rename(staged, t.path)
	}
	if err != nil {
		return err
	}
	if err := os.Rename(staged, t.path); err != nil {
		return errors.Join(err, os.Rename(t.aside, t.path))
	}
	// Where this fails, the next run tidies the folder away under this name.
	_ = os.Rename(t.aside, staged)
	return nil
}
