package command_test

import (
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// limited runs the program where no file may grow beyond 40,000 bytes, as on a disk
// that is almost full.
func limited() {
	signal.Ignore(syscall.SIGXFSZ) // so that the write fails, as on a full disk
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 40_000, Max: 40_000}); err != nil {
		panic(err)
	}
	keelpath()
}

// A disk that is full in the middle of a build is told by the name that the file has
// on the site, and the old site is whole.
func TestFullDisk(t *testing.T) {
	place := t.TempDir()
	site := filepath.Join(place, "site")
	goodSite(t, site)
	before := photograph(t, site)
	for _, args := range [][]string{{"compile"}, {"exchange"}} {
		c := exec.CommandContext(t.Context(), os.Args[0], append(args, "--out", site)...)
		c.Env = append(os.Environ(), limitedVar+"=1")
		said, err := c.CombinedOutput()
		if c.ProcessState.ExitCode() != 3 {
			t.Errorf("%q ended with %v\n%s", args, err, said)
		}
		want := `(?m)^keelpath: cannot write [\w./-]+: file too large; ` + regexp.QuoteMeta(site) + ` is as it was$`
		if !regexp.MustCompile(want).Match(said) || strings.Contains(string(said), ".keelpath-") {
			t.Errorf("%q says %s", args, said)
		}
	}
	if diff := cmp.Diff(before, photograph(t, site)); diff != "" {
		t.Errorf("the old site changed:\n%s", diff)
	}
	if left, _ := filepath.Glob(filepath.Join(place, ".*")); len(left) > 0 {
		t.Errorf("%q is left beside it", left)
	}
}
