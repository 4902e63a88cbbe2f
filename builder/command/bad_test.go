package command_test

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/command"
	"keelpath/builder/folder"
	"keelpath/builder/internal/corpus"
)

// A broken input stops the build: the exit code says so, the last good site
// stays as it was to the byte, and nothing is written beside it. What is found in
// each input is held by the library's tests; whether a site is written depends on
// that alone, so one in eight is enough here. KEELPATH_BAD=all tries each.
func TestBadInputWritesNothing(t *testing.T) {
	all := os.Getenv("KEELPATH_BAD") == "all"
	for i, c := range corpus.Cases(t, "../..") {
		if c.Errors() == 0 || (!all && i%8 != 0) {
			continue // warnings do not stop a build
		}
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			layer, place := c.Write(t), t.TempDir()
			site := filepath.Join(place, "site")
			goodSite(t, site)
			before, input := photograph(t, place), photograph(t, layer)

			var out, said bytes.Buffer
			got := command.Run(context.Background(), []string{"compile", "--layer", layer, "--out", site}, command.Streams{Out: &out, Err: &said, Today: day("")})
			if got != command.Findings {
				t.Errorf("exit code %d, and %d was expected\n%s", got, command.Findings, said.String())
			}
			if out.Len() > 0 {
				t.Errorf("it says %q, as if it had built something", out.String())
			}
			if diff := cmp.Diff(before, photograph(t, place)); diff != "" {
				t.Errorf("the output changed:\n%s", diff)
			}
			if diff := cmp.Diff(input, photograph(t, layer)); diff != "" {
				t.Errorf("the input changed:\n%s", diff)
			}
		})
	}
}

func goodSite(t *testing.T, dir string) {
	t.Helper()
	err := folder.Renew(context.Background(), dir, func(root, _ *os.Root) error {
		if err := folder.WriteFile(root, "index.html", []byte("<title>The last good site</title>\n")); err != nil {
			return err
		}
		return folder.WriteFile(root, "prepare/index.html", []byte("<title>Its planner</title>\n"))
	})
	if err != nil {
		t.Fatal(err)
	}
}

// photograph gives all that can be seen of a folder: names, modes, times and bytes.
func photograph(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		var text []byte
		if d.Type().IsRegular() {
			if text, err = os.ReadFile(name); err != nil {
				return err
			}
		}
		out[name] = info.Mode().String() + " " + info.ModTime().String() + "\n" + string(text)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
