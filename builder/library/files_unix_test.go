//go:build unix

package library_test

import (
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"keelpath/builder/finding"
	"keelpath/builder/library"
)

// What is no file is not opened: a pipe would keep the reader waiting for good.
func TestOnlyFilesAreRead(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(at string) error
		want string
	}{
		{"a pipe", func(at string) error { return syscall.Mkfifo(at, 0o644) }, "not-a-file"},
		{"a link to a pipe", func(at string) error {
			if err := syscall.Mkfifo(filepath.Join(filepath.Dir(at), ".pipe"), 0o644); err != nil {
				return err
			}
			return os.Symlink(".pipe", at)
		}, "not-a-file"},
		{"a socket", func(at string) error {
			l, err := net.ListenUnix("unix", &net.UnixAddr{Name: at, Net: "unix"})
			if err == nil {
				t.Cleanup(func() { l.Close() })
			}
			return err
		}, "not-a-file"},
		{"a link to a folder", func(at string) error { return os.Symlink(".", at) }, "not-a-file"},
		{"a link to a file of the layer", func(at string) error {
			if err := os.WriteFile(filepath.Join(filepath.Dir(at), ".words"), []byte("name: Ours\n"), 0o644); err != nil {
				return err
			}
			return os.Symlink(".words", at)
		}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir, err := os.MkdirTemp("", "kp") // a socket's name must be short
			if err != nil {
				t.Fatal(err)
			}
			defer os.RemoveAll(dir)
			if err := os.Mkdir(filepath.Join(dir, "content"), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := c.make(filepath.Join(dir, "content", "edition.yaml")); err != nil {
				t.Fatal(err)
			}
			var list finding.List
			done := make(chan error, 1)
			go func() {
				_, err := library.ReadLayer(t.Context(), dir, &list)
				done <- err
			}()
			select {
			case err = <-done:
			case <-time.After(20 * time.Second):
				t.Fatal("it waits for somebody who writes")
			}
			found := slices.ContainsFunc(list.Sorted(), func(f finding.Finding) bool {
				return f.Check == c.want && f.Weight == finding.Error && strings.HasSuffix(f.File, "content/edition.yaml")
			})
			if err != nil || found != (c.want != "") || list.Len() > 1 {
				t.Errorf("%v, %v", err, list.Sorted())
			}
		})
	}
}
