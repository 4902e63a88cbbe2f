package folder

import (
	"errors"

	"golang.org/x/sys/unix"
)

// exchange swaps two names in one step. Some file systems cannot; they say so in
// different ways.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) {
		return errors.ErrUnsupported
	}
	return err
}
