package ledger_test

import (
	"bytes"
	"crypto/sha256"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/ledger"
	"keelpath/builder/shelf"
)

func sample() (l *ledger.Ledger, files map[string]string) {
	files = map[string]string{"index.html": "Home\n", "learn/falls.html": "Falls\n", "assets/site.0a.css": ""}
	word, text := shelf.Note{What: "word", Of: "keel"}, shelf.Note{What: "own text", Of: "a \"b\" c\n"}
	l = &ledger.Ledger{Program: "abc", Inputs: "01", Due: "2028-11-25", Prints: map[shelf.Note]shelf.Print{word: {1, 2}, text: {3}}}
	for i, name := range []string{"assets/site.0a.css", "index.html", "learn/falls.html"} {
		f := ledger.File{Of: "made for " + name, Name: name, Size: int64(len(files[name])), Sum: sha256.Sum256([]byte(files[name]))}
		f.From = [][]shelf.Note{nil, {text}, {word, text}}[i]
		l.Files = append(l.Files, f)
	}
	return l, files
}

// A ledger says the same when it is read, and writes down the same again.
func TestRoundTrip(t *testing.T) {
	l, _ := sample()
	got, err := ledger.Read(l.Text())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(l, got); d != "" {
		t.Error(d)
	}
	if !bytes.Equal(l.Text(), got.Text()) {
		t.Error("it writes down something else")
	}
}

// A ledger that was cut short anywhere, or has another byte anywhere, is refused.
func TestBroken(t *testing.T) {
	l, _ := sample()
	text := l.Text()
	for n := range text {
		if _, err := ledger.Read(text[:n]); err == nil {
			t.Errorf("cut after %d of %d bytes, it is read", n, len(text))
		}
		other := bytes.Clone(text)
		other[n] ^= 1
		if _, err := ledger.Read(other); err == nil {
			t.Errorf("with another byte at %d, it is read", n)
		}
	}
	for _, more := range []string{" ", "\n", "x"} {
		if _, err := ledger.Read(append(bytes.Clone(text), more...)); err == nil {
			t.Errorf("with %q behind it, it is read", more)
		}
	}
}

// sha256sum reads a ledger, and sees a file that was changed.
func TestSumsByOthers(t *testing.T) {
	tool, err := exec.LookPath("sha256sum")
	if err != nil {
		t.Fatal("this test needs sha256sum of the coreutils")
	}
	l, files := sample()
	dir := t.TempDir()
	files[ledger.Name] = string(l.Text())
	for name, text := range files {
		p := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	check := func() (string, error) {
		c := exec.CommandContext(t.Context(), tool, "--check", "--quiet", "--strict", ledger.Name)
		c.Dir = dir
		said, err := c.CombinedOutput()
		return string(said), err
	}
	if said, err := check(); err != nil || said != "" {
		t.Errorf("sha256sum says of a whole folder: %v %s", err, said)
	}
	if err := os.WriteFile(filepath.Join(dir, "index.html"), []byte("Hime\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if said, err := check(); err == nil || !strings.Contains(said, "index.html: FAILED") {
		t.Errorf("sha256sum says of a changed file: %v %s", err, said)
	}
}

func TestProgram(t *testing.T) {
	if p := ledger.Program(); len(p) != 32 || p != ledger.Program() {
		t.Errorf("the program's fingerprint is %q", p)
	}
}
