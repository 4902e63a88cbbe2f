package library

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/content"
	"keelpath/trees"
)

// Layer is a set of input files by their slash-separated path: trees/ID.yaml,
// content/glossary.yaml and so on. A later layer adds to an earlier one and
// replaces what has the same path (trees, explainers, texts of pages, figures) or the same id (entries
// of the tables).
type Layer struct {
	Dir   string // where the layer lies, as the user named it; empty for the built-in one
	files map[string][]byte
	sums  *sync.Map // print by name, as they were asked for; nil where none is kept
	read  bool      // from the folder Dir
}

// again gives what reads a file of a layer once more, and fails where it does not hold what it held. It keeps
// hold of no file. It is nil where the layer was not read from a folder.
func (y Layer) again(name string) func() ([]byte, error) {
	if !y.read {
		return nil
	}
	dir, shown, want := y.Dir, y.name(name), y.sum(name)
	return func() ([]byte, error) {
		file, err := os.OpenInRoot(dir, filepath.FromSlash(name))
		if err != nil {
			return nil, fmt.Errorf("read %s once more: %w", shown, err)
		}
		defer file.Close()
		src, err := io.ReadAll(io.LimitReader(file, read.MaxBytes+1))
		if err == nil && sha256.Sum256(src) != want {
			err = errors.New("it has changed while the site was built")
		}
		if err != nil {
			return nil, fmt.Errorf("read %s once more: %w", shown, err)
		}
		return src, nil
	}
}

// Len is how many files the layer has.
func (y Layer) Len() int { return len(y.files) }

func newLayer(dir string, files map[string][]byte) Layer {
	return Layer{Dir: dir, files: files, sums: &sync.Map{}}
}

// sum gives the SHA-256 of a file, which is taken once.
func (y Layer) sum(name string) print {
	if y.sums == nil {
		return sha256.Sum256(y.files[name])
	}
	s, ok := y.sums.Load(name)
	if !ok {
		s, _ = y.sums.LoadOrStore(name, print(sha256.Sum256(y.files[name])))
	}
	return s.(print)
}

// name gives a file's path as findings show it.
func (y Layer) name(file string) string { return path.Join(filepath.ToSlash(y.Dir), file) }

// Builtin gives the content that the program carries.
func Builtin() Layer {
	y := newLayer("", map[string][]byte{})
	for prefix, f := range map[string]fs.FS{"content": content.FS, "trees": trees.FS} {
		if err := y.add(context.Background(), prefix, f, ".", nil); err != nil {
			panic(err) // an embedded file can always be read
		}
	}
	return y
}

// ReadLayer reads a layer from a folder that holds content/, trees/ or both.
// Files that are not part of a layer are reported as warnings. The error is
// about the folder itself, or that of ctx.
func ReadLayer(ctx context.Context, dir string, list *finding.List) (Layer, error) {
	y := newLayer(dir, map[string][]byte{})
	y.read = true
	root, err := os.OpenRoot(dir)
	if err != nil {
		return y, fmt.Errorf("read the layer: %w", err)
	}
	defer root.Close()
	found := false
	for _, part := range []string{"content", "trees"} {
		if info, err := fs.Stat(root.FS(), part); err != nil || !info.IsDir() {
			continue
		}
		found = true
		if err := y.add(ctx, "", root.FS(), part, list); err != nil {
			return y, fmt.Errorf("read the layer %s: %w", dir, err)
		}
	}
	if !found {
		return y, fmt.Errorf("the layer %s has no folder content/ and no folder trees/", dir)
	}
	return y, nil
}

// add takes the files of f, from a folder down, that belong to a layer. prefix
// stands before their names there.
func (y *Layer) add(ctx context.Context, prefix string, f fs.FS, from string, list *finding.List) error {
	return fs.WalkDir(f, from, func(p string, d fs.DirEntry, err error) error {
		if err := cmp.Or(err, ctx.Err()); err != nil {
			return err
		}
		name := path.Join(prefix, p)
		if strings.HasPrefix(path.Base(p), ".") && p != from {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if d.IsDir() {
			return nil
		}
		if !isInput(name) {
			if list != nil {
				list.Warn(finding.Place{File: y.name(name)}, "unknown-file", "this file is not part of a layer and is not read", nearestInput(name)...)
			}
			return nil
		}
		src, err := readLimited(f, p)
		if errors.Is(err, errNoFile) {
			list.Add(finding.Place{File: y.name(name)}, "not-a-file", "this is no file but a pipe, a device or a folder, and it is not read",
				"put a file of this name in its place, or remove it")
			return nil
		}
		if err != nil {
			return err
		}
		y.files[name] = src
		return nil
	})
}

// errNoFile says that what stands under a name holds no bytes of its own.
var errNoFile = errors.New("not a regular file")

// readLimited reads a file, but only a little more than the reader will take,
// so that a huge one costs no memory before it is refused. A pipe is not opened:
// that would wait for somebody who writes into it.
func readLimited(f fs.FS, p string) ([]byte, error) {
	info, err := fs.Stat(f, p)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errNoFile
	}
	file, err := f.Open(p)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	// Of many files, room that is not needed would come to a large part of the memory.
	src := make([]byte, min(info.Size(), read.MaxBytes+1)+1)
	n, err := io.ReadFull(file, src)
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return src[:n:n], nil
	case err == nil && n <= read.MaxBytes: // it has grown since
		return io.ReadAll(io.MultiReader(bytes.NewReader(src), io.LimitReader(file, int64(read.MaxBytes+1-n))))
	}
	return src[:n:n], err
}

// Print is the fingerprint of all files of some layers. Where the layers lie has no part in it.
func Print(layers []Layer) string {
	sum := sha256.New()
	for _, y := range layers {
		names := y.names(func(string) bool { return true })
		fmt.Fprintf(sum, "layer %d\n", len(names))
		for _, n := range names {
			s := y.sum(n)
			fmt.Fprintf(sum, "%q\n", n)
			sum.Write(s[:])
		}
	}
	return hex.EncodeToString(sum.Sum(nil)[:16])
}

func isInput(name string) bool {
	if _, _, ok := ofLanguage(name); ok {
		return true
	}
	return fileKindOf(name) >= 0
}

func nearestInput(name string) []string {
	named := tables()
	for _, f := range PageForms {
		named = append(named, pagesFolder+f.ID+".md")
	}
	help := finding.NearestHelp(name, named, nil)
	return append(help, "a layer holds trees/ID.yaml, trees/cases/ID.yaml, content/en/ID.md, content/en/pages/PAGE.md, content/en/figures/ID.yaml, content/en/trees/ID.yaml, "+strings.Join(tables(), ", "))
}

// names gives the layer's files that pass keep, sorted.
func (y Layer) names(keep func(string) bool) []string {
	var out []string
	for n := range y.files {
		if keep(n) {
			out = append(out, n)
		}
	}
	slices.Sort(out)
	return out
}
