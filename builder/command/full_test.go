package command_test

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"keelpath/builder/command"
)

// full is where nothing can be written any more.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// What a command has to say and cannot is a failure, also where its work is done.
func TestWordsThatCannotBeWritten(t *testing.T) {
	ours := "../../testdata/readme/our-clinic"
	site := filepath.Join(t.TempDir(), "site")
	for _, args := range [][]string{
		{}, {"--help"}, {"check"}, {"check", "--json"}, {"check", "--layer", ours}, {"compile", "--out", site},
		{"walk", "heel-height"}, {"walk", "gait-observation", "safety=yes"}, {"walk", "gait-observation", "--json", "safety=yes"},
		{"schema", "tree"}, {"schema", "--out", filepath.Join(t.TempDir(), "schemas")}, {"exchange", "--out", filepath.Join(t.TempDir(), "forms")},
	} {
		var errs strings.Builder
		got := command.Run(t.Context(), args, command.Streams{In: strings.NewReader(strings.Repeat("1\n", 50)), Out: full{}, Err: &errs, Today: day("")})
		if got != command.CouldNotRun || !strings.Contains(errs.String(), "no space left on device") {
			t.Errorf("%q ended with %d and %q", args, got, errs.String())
		}
	}
	if _, err := os.Stat(filepath.Join(site, "index.html")); err != nil {
		t.Errorf("the site was not built: %v", err)
	}
	// Findings go to the other stream there, and so does what is wrong with a call.
	for _, args := range [][]string{{"compile", "--layer", ours, "--out", site}, {"walk", "no-such-tree"}} {
		var out strings.Builder
		if got := command.Run(t.Context(), args, command.Streams{In: strings.NewReader(""), Out: &out, Err: full{}, Today: day("")}); got != command.CouldNotRun {
			t.Errorf("%q ended with %d", args, got)
		}
	}
}
