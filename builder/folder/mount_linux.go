package folder

import "golang.org/x/sys/unix"

// isMount tells whether something is mounted at a path. Such a folder cannot be put
// in the place of another one. A kernel that does not say counts as no, and then
// the swap fails.
func isMount(path string) bool {
	var s unix.Statx_t
	if err := unix.Statx(unix.AT_FDCWD, path, unix.AT_SYMLINK_NOFOLLOW, 0, &s); err != nil {
		return false
	}
	return s.Attributes_mask&s.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0
}
