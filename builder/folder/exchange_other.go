//go:build !linux

package folder

import "errors"

// exchange is not to be had here; swap goes on in two steps.
func exchange(a, b string) error { return errors.ErrUnsupported }
