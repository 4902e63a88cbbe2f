//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package folder

import (
	"errors"
	"io"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// A process shows that it is alive by an advisory lock (flock) on the staging
// folder itself. The kernel lets go of it when the process ends, in whatever way.
// So no lock file can be left over or published, and no process number can come
// back as another process or mean another one inside a container.

// flock is another in tests, which stand in for a file system without locks.
var flock = unix.Flock

var errNoLocks = errors.New("this file system has no locks on folders")

// hold locks a folder for this process. Where the file system has no such locks
// it goes on without: claim finds none there either, and so removes nothing.
func hold(dir string) (io.Closer, error) {
	f, err := lock(dir)
	switch {
	case errors.Is(err, errNoLocks):
		return io.NopCloser(nil), nil
	case err != nil:
		return nil, err
	}
	return f, nil
}

// claim locks a folder that no live process holds.
func claim(dir string) (io.Closer, bool) {
	f, err := lock(dir)
	return f, err == nil
}

func lock(dir string) (*os.File, error) {
	f, err := os.Open(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errTaken
	}
	if err != nil {
		return nil, err
	}
	if err := lockOpen(f, dir); err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// lockOpen notices when the folder was removed before the lock was on it.
func lockOpen(f *os.File, dir string) error {
	err := flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		return errTaken
	}
	if err != nil {
		return errNoLocks
	}
	open, err := f.Stat()
	if err != nil {
		return err
	}
	named, err := os.Lstat(dir)
	if err != nil || !os.SameFile(open, named) {
		return errTaken
	}
	return nil
}
