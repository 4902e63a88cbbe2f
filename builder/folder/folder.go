// Package folder keeps an output folder that is replaced whole.
//
// A build never writes into the folder that readers see. It fills a staging
// folder beside it and then puts the one in the place of the other, so that the
// folder always holds one whole build: the last good one until the swap, the
// new one after it. A build that fails, is cancelled or is killed changes nothing.
//
// Only a folder that is missing, empty, or carries the [Marker] is replaced;
// everything else is refused with [ErrNotOurs].
//
// Files end up with mode 0644 and folders with 0755, whatever the umask says:
// what is built is meant to be read by a web server under another name, and the
// same input should give the same folder on every machine.
//
// Nothing is flushed to the disk by force. After a power cut the folder may have
// to be built again, which costs less than a flush for each file of each build.
package folder

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// Marker is the file that says that a folder is made by Keelpath. It has the
// same bytes every time, and a folder that holds it may be replaced whole.
const Marker = "keelpath-made.txt"

const markerText = `This folder is made by Keelpath and replaced whole at each build.
Keep nothing of your own in it: the next build would remove it.
`

const (
	fileMode   fs.FileMode = 0o644
	folderMode fs.FileMode = 0o755
)

// Renew lets fill write a new folder and then puts it in the place of dir. fill gets the folder that is to be
// replaced too, for [Keep]: old is nil where there is none that was made by Keelpath. Nothing may be written into old.
//
// The folders above dir are made where they are missing, and stay. The root that fill
// gets is the staging folder, open only while fill runs; fill should stop early
// when ctx ends. When Renew returns an error, dir is as it was before, and
// nothing is left beside it unless the error says so. The one exception is a
// [Left]: the new folder is in place, and the old one could not be removed.
//
// Two calls for the same dir at the same time are safe; the later swap wins.
func Renew(ctx context.Context, dir string, fill func(root, old *os.Root) error) (err error) {
	t, err := locate(dir)
	if err != nil {
		return err
	}
	if err := t.prepare(ctx); err != nil {
		return err
	}
	s, err := t.stage()
	if err != nil {
		return err
	}
	defer func() { err = s.end(err) }()

	if err := s.fill(func(root *os.Root) error { return t.beside(root, fill) }); err != nil {
		return err
	}
	// The world may have changed while fill ran.
	if err := t.ready(ctx); err != nil {
		return err
	}
	return t.publish(s)
}

// beside opens the folder that is to be replaced while the new one is filled.
func (t target) beside(root *os.Root, fill func(root, old *os.Root) error) error {
	var old *os.Root
	if marked(t.path) {
		// Where it cannot be opened, everything is made anew.
		if old, _ = os.OpenRoot(t.path); old != nil {
			defer old.Close()
		}
	}
	return fill(root, old)
}

// WriteFile writes one file and makes the folders above it. The name uses
// slashes on every system.
func WriteFile(root *os.Root, name string, data []byte) error {
	name = filepath.FromSlash(name)
	err := writeNew(root, name, data)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err = root.MkdirAll(filepath.Dir(name), folderMode); err == nil {
			err = writeNew(root, name, data)
		}
	case errors.Is(err, fs.ErrExist): // it may be the same file as in another folder, and that one stays as it is
		if info, _ := root.Lstat(name); info != nil && info.Mode().IsRegular() {
			if err = root.Remove(name); err == nil {
				err = writeNew(root, name, data)
			}
		}
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", filepath.ToSlash(name), bare(err))
	}
	return nil
}

// writeNew writes a file that is not there yet.
func writeNew(root *os.Root, name string, data []byte) error {
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// bare takes the path off an error of the system: it lies in a folder that nobody
// knows of, and the message around it names what the caller knows.
func bare(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	}
	return err
}

// Left is the error for a new folder that is in place while the old one could not
// be removed, say because it is another user's. The next build tries again.
type Left struct {
	Path string // where the old folder lies now
	Err  error
}

func (l *Left) Error() string {
	return fmt.Sprintf("the old folder could not be removed, and what is left of it lies at %s: %v", l.Path, bare(l.Err))
}

func (l *Left) Unwrap() error { return l.Err }

// prepare makes the folders above the target and clears away what killed runs left.
func (t target) prepare(ctx context.Context) error {
	if err := os.MkdirAll(t.parent, folderMode); err != nil {
		return fmt.Errorf("cannot make the folder above %q: %w", t.shown, err)
	}
	t.rescue()
	if err := t.ready(ctx); err != nil {
		return err
	}
	t.tidy()
	return nil
}

// ready says whether the target may be replaced now.
func (t target) ready(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return t.check()
}

// A stage is a staging folder and the lock that shows that its maker is alive.
// After the swap its path holds the old folder, or nothing.
type stage struct {
	path string
	lock io.Closer
}

// stage makes a staging folder that this process holds. Another run may tidy the
// new folder away before the lock is on it; then the next try makes another one.
func (t target) stage() (*stage, error) {
	for range 10 {
		path, err := os.MkdirTemp(t.parent, t.prefix+"*")
		if err != nil {
			return nil, fmt.Errorf("cannot make a folder beside %q: %w", t.shown, bare(err))
		}
		lock, err := hold(path)
		if errors.Is(err, errTaken) {
			continue
		}
		if err != nil {
			return nil, errors.Join(err, os.Remove(path))
		}
		return &stage{path, lock}, nil
	}
	return nil, fmt.Errorf("cannot keep a folder beside %q: other runs remove it", t.shown)
}

// fill marks the staging folder, lets the caller fill it, and sets the modes.
func (s *stage) fill(fill func(root *os.Root) error) error {
	root, err := os.OpenRoot(s.path)
	if err != nil {
		return err
	}
	// Closed before the swap: some systems do not move a folder that is open.
	defer root.Close()
	if err := WriteFile(root, Marker, []byte(markerText)); err != nil {
		return err
	}
	if err := fill(root); err != nil {
		return err
	}
	return setModes(s.path)
}

// end removes what the stage still holds: the unfinished folder after a failure,
// the old folder after a swap.
func (s *stage) end(err error) error {
	left := discard(s.path)
	s.lock.Close()
	switch {
	case left == nil:
		return err
	case err == nil:
		return &Left{s.path, left}
	}
	return fmt.Errorf("%w; the unfinished folder could not be removed and lies at %s: %v", err, s.path, bare(left))
}

// setModes gives all files and folders under dir the modes of the package comment.
func setModes(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // has no such modes
	}
	return filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		switch {
		case d.IsDir():
			return setMode(path, d, folderMode)
		case d.Type().IsRegular():
			return setMode(path, d, fileMode)
		}
		return nil
	})
}

func setMode(path string, d fs.DirEntry, mode fs.FileMode) error {
	info, err := d.Info()
	if err != nil || info.Mode().Perm() == mode {
		return err
	}
	return os.Chmod(path, mode)
}
