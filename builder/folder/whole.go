package folder

import (
	"crypto/sha256"
	"io/fs"
	"os"
	"path"
	"runtime"

	"golang.org/x/sync/errgroup"
)

// Sum is what a file should hold.
type Sum struct {
	Size int64
	Sum  [sha256.Size]byte
}

// Whole tells whether a folder made by Keelpath holds these files, by their slash-separated
// names, as they should be, beside the [Marker], and nothing else.
func Whole(dir string, files map[string]Sum) bool {
	if !marked(dir) {
		return false
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return false
	}
	defer root.Close()
	want := map[string]Sum{Marker: {int64(len(markerText)), sha256.Sum256([]byte(markerText))}}
	folders := map[string]bool{}
	for name, sum := range files {
		want[name] = sum
		for up := path.Dir(name); !folders[up]; up = path.Dir(up) {
			folders[up] = true
		}
	}
	var workers errgroup.Group
	workers.SetLimit(runtime.GOMAXPROCS(0))
	met := 0
	err = fs.WalkDir(root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != "." && !folders[name] {
				return fs.ErrInvalid
			}
			return nil
		}
		sum, known := want[name]
		if !known || !d.Type().IsRegular() {
			return fs.ErrInvalid
		}
		met++
		workers.Go(func() error {
			if _, ok := whole(root, name, sum.Size, sum.Sum); !ok {
				return fs.ErrInvalid
			}
			return nil
		})
		return nil
	})
	return workers.Wait() == nil && err == nil && met == len(want)
}

// Read reads a file of a folder; nil where it is not what it should be.
func Read(dir *os.Root, name string, should Sum) []byte {
	data, ok := whole(dir, name, should.Size, should.Sum)
	if !ok {
		return nil
	}
	return data
}

// whole gives a file that is what it should be, its rights among it.
func whole(root *os.Root, name string, size int64, sum [sha256.Size]byte) (data []byte, ok bool) {
	data, info := regular(root, name, size)
	return data, info != nil && sha256.Sum256(data) == sum && (runtime.GOOS == "windows" || info.Mode().Perm() == fileMode)
}

// regular reads a file of that size; info is nil where there is none.
func regular(root *os.Root, name string, size int64) (data []byte, info os.FileInfo) {
	f, err := root.Open(name)
	if err != nil {
		return nil, nil
	}
	defer f.Close()
	info, err = f.Stat()
	if err != nil || !info.Mode().IsRegular() || info.Size() != size {
		return nil, nil
	}
	data = make([]byte, size)
	if n, err := f.ReadAt(data, 0); int64(n) != size || (err != nil && n < len(data)) {
		return nil, nil
	}
	return data, info
}
