package folder

import (
	"crypto/sha256"
	"io/fs"
	"os"
	"path"
	"runtime"
	"sync"

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
			if now, info := summed(root, name, sum.Size); info == nil || now != sum.Sum || !ourMode(info) {
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
	data, info := regular(dir, name, should.Size)
	if info == nil || sha256.Sum256(data) != should.Sum || !ourMode(info) {
		return nil
	}
	return data
}

// ourMode tells whether a file has the rights that are given here.
func ourMode(info os.FileInfo) bool {
	return runtime.GOOS == "windows" || info.Mode().Perm() == fileMode
}

// buffers are what files go through whose sum alone is wanted: of thousands, room for each would cost more than
// reading it.
var buffers = sync.Pool{New: func() any { return new([64 << 10]byte) }}

// summed gives the sum of a file of that size; info is nil where there is none.
func summed(root *os.Root, name string, size int64) (sum [sha256.Size]byte, info os.FileInfo) {
	f, info := open(root, name, size)
	if info == nil {
		return sum, nil
	}
	defer f.Close()
	room := buffers.Get().(*[64 << 10]byte)
	defer buffers.Put(room)
	h := sha256.New()
	for left := size; left > 0; {
		n, err := f.Read(room[:min(left, int64(len(room)))])
		h.Write(room[:n])
		if left -= int64(n); err != nil && left > 0 {
			return sum, nil
		}
	}
	return [sha256.Size]byte(h.Sum(sum[:0])), info
}

// open opens a file of that size; info is nil where there is none.
func open(root *os.Root, name string, size int64) (f *os.File, info os.FileInfo) {
	f, err := root.Open(name)
	if err != nil {
		return nil, nil
	}
	info, err = f.Stat()
	if err != nil || !info.Mode().IsRegular() || info.Size() != size {
		f.Close()
		return nil, nil
	}
	return f, info
}

// regular reads a file of that size; info is nil where there is none.
func regular(root *os.Root, name string, size int64) (data []byte, info os.FileInfo) {
	f, info := open(root, name, size)
	if info == nil {
		return nil, nil
	}
	defer f.Close()
	data = make([]byte, size)
	if n, err := f.ReadAt(data, 0); int64(n) != size || (err != nil && n < len(data)) {
		return nil, nil
	}
	return data, info
}
