package folder

import (
	"crypto/sha256"
	"os"
	"path/filepath"
)

// linkFile is another in tests, which stand in for a system that cannot.
var linkFile = os.Link

// Keep takes a file over from the folder that is to be replaced: it is there under its name
// in both until the old folder is gone, or copied where the system has no such links. ok is false where the file is not
// what it should be, or cannot be read; then there is nothing under its name. It may be
// called from several sides at once.
//
// The two are one file, so neither may ever be written in place: [WriteFile] makes a new
// one each time.
func Keep(root, old *os.Root, name string, size int64, sum [sha256.Size]byte) (ok bool) {
	name = filepath.FromSlash(name)
	now, info := summed(old, name, size)
	if info == nil || now != sum {
		return false
	}
	if info.Mode().Perm() == fileMode && link(root, old, name, info) {
		return true
	}
	data, info := regular(old, name, size)
	return info != nil && sha256.Sum256(data) == sum && WriteFile(root, filepath.ToSlash(name), data) == nil
}

// link gives the file a second name. The names of folders above it may be links to
// elsewhere, so what has the new name is looked at.
func link(root, old *os.Root, name string, was os.FileInfo) bool {
	from, to := filepath.Join(old.Name(), name), filepath.Join(root.Name(), name)
	err := linkFile(from, to)
	if os.IsNotExist(err) {
		if root.MkdirAll(filepath.Dir(name), folderMode) != nil {
			return false
		}
		err = linkFile(from, to)
	}
	if err != nil {
		return false
	}
	now, err := root.Lstat(name)
	return err == nil && os.SameFile(was, now)
}
