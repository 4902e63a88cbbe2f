package browsertest

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/sitetest"
	"keelpath/builder/library"
)

// What every test looks at: the built-in content, and the site made of it, in a
// folder and on a plain web server.
var (
	lib      *library.Library
	siteDir  string
	siteHTTP string
	toolsDir string
)

func TestMain(m *testing.M) {
	code, err := runAll(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

func runAll(m *testing.M) (code int, err error) {
	if err := findTools(); err != nil {
		return 0, err
	}
	dir, err := os.MkdirTemp("", "keelpath-browser-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	siteDir = filepath.Join(dir, "site")
	if lib, err = sitetest.Build(context.Background(), siteDir); err != nil {
		return 0, err
	}
	server := httptest.NewServer(http.FileServerFS(os.DirFS(siteDir)))
	defer server.Close()
	siteHTTP = server.URL

	stop, err := startBrowser(filepath.Join(dir, "profile"))
	if err != nil {
		return 0, err
	}
	defer stop()
	return m.Run(), nil
}

func findTools() error {
	toolsDir = os.Getenv("KEELPATH_TOOLS")
	if toolsDir == "" {
		toolsDir = filepath.Join("..", "..", ".ci") // tests run in their own folder
	}
	for _, name := range []string{axeFile, vnuFile} {
		if _, err := os.Stat(tool(name)); err != nil {
			return fmt.Errorf("these tests need %s below %s: run `bash .ci/test`, which sets it up, or name the folder that holds node_modules in KEELPATH_TOOLS", name, toolsDir)
		}
	}
	for command, from := range map[string]string{"pdfinfo": "poppler-utils", "pdftotext": "poppler-utils", "pdftoppm": "poppler-utils", "java": "default-jre-headless"} {
		if _, err := exec.LookPath(command); err != nil {
			return fmt.Errorf("these tests need the command %s: install Debian's package %s, or run `bash .ci/test`", command, from)
		}
	}
	return nil
}

// The tools below node_modules.
const (
	axeFile = "axe-core/axe.min.js"
	vnuFile = "vnu-jar/build/dist/vnu.jar"
)

func tool(name string) string {
	return filepath.Join(toolsDir, "node_modules", filepath.FromSlash(name))
}

// onDisk gives the address of a page as a double-click opens it.
func onDisk(name string) string { return sitetest.OnDisk(siteDir, name) }

// onWeb gives the address of a page on a web server. A folder's first page goes by
// the folder's name there; servers lead from the file's name to it.
func onWeb(name string) string {
	if path.Base(name) == "index.html" {
		name = strings.TrimSuffix(name, "index.html")
	}
	return siteHTTP + "/" + name
}

// everywhere runs a test on both.
func everywhere(t *testing.T, test func(t *testing.T, address func(name string) string)) {
	t.Helper()
	t.Run("on disk", func(t *testing.T) { test(t, onDisk) })
	t.Run("on the web", func(t *testing.T) { test(t, onWeb) })
}

// files gives the names of the site's files that end so, in order.
func files(t testing.TB, dir string, ends ...string) []string {
	t.Helper()
	var out []string
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && (len(ends) == 0 || slices.Contains(ends, path.Ext(name))) {
			out = append(out, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) == 0 {
		t.Fatalf("%s has no file that ends in %v", dir, ends)
	}
	return out
}

// pages gives the names of the site's pages, but for those that only lead on.
func pages(t testing.TB, dir string) []string {
	t.Helper()
	return slices.DeleteFunc(files(t, dir, ".html"), func(name string) bool { return path.Dir(name) == "start" })
}

// brokenSite copies the site and changes one file, so that a test can show that
// it would notice. The text must be there.
func brokenSite(t testing.TB, name, from, to string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(siteDir)); err != nil {
		t.Fatal(err)
	}
	place := filepath.Join(dir, filepath.FromSlash(name))
	data, err := os.ReadFile(place)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), from) {
		t.Fatalf("%s does not hold %q, so it cannot be broken there", name, from)
	}
	if err := os.WriteFile(place, []byte(strings.Replace(string(data), from, to, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

// keepPicture leaves a picture for people to look at, where one was asked for.
func keepPicture(t testing.TB, name string, data func() []byte) {
	t.Helper()
	dir := os.Getenv("KEELPATH_PICTURES")
	if dir == "" {
		return
	}
	err := errors.Join(os.MkdirAll(dir, 0o755), os.WriteFile(filepath.Join(dir, strings.ReplaceAll(name, "/", "-")), data(), 0o644))
	if err != nil {
		t.Fatal(err)
	}
}
