package command_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/testscript"

	"keelpath/builder/command"
)

// keelpath is the program, on the day of the tests.
func keelpath() {
	os.Exit(int(command.Run(context.Background(), os.Args[1:], command.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Today: day(os.Getenv("TODAY"))})))
}

// limitedVar makes the test binary the program where files cannot grow.
const limitedVar = "KEELPATH_COMMAND_LIMITED"

func TestMain(m *testing.M) {
	if os.Getenv(limitedVar) != "" {
		limited()
	}
	if what := os.Getenv(benchVar); what != "" {
		bench(what)
	}
	testscript.Main(m, map[string]func(){
		"keelpath": keelpath,
		"many": func() { // a file with 50,000 keys that no edition has
			keys := []byte("name: Ours\n")
			for i := range 50_000 {
				keys = fmt.Appendf(keys, "key%d: x\n", i)
			}
			if err := errors.Join(os.MkdirAll(filepath.Dir(os.Args[1]), 0o755), os.WriteFile(os.Args[1], keys, 0o644)); err != nil {
				panic(err)
			}
		},
	})
}

// day reads a date; without one it is the day the built-in content was reviewed,
// so that the tests do not fail by the mere passing of time.
func day(s string) time.Time {
	if s == "" {
		s = "2026-11-25"
	}
	d, err := time.Parse(time.DateOnly, s)
	if err != nil {
		panic(err)
	}
	return d
}

// The command as a person uses it, files and all.
func TestScripts(t *testing.T) {
	layers, err := filepath.Abs("../../testdata/layers")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/scripts",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("LAYERS", layers)
			return nil
		},
	})
}

// Each kind of end has its exit code.
func TestExitCodes(t *testing.T) {
	ours := "../../testdata/readme/our-clinic"
	foreign := t.TempDir()
	if err := os.WriteFile(filepath.Join(foreign, "letter.txt"), []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		want command.Exit
	}{
		{"a check without findings", []string{"check"}, command.Fine},
		{"help", []string{"--help"}, command.Fine},
		{"a walk to an ending", []string{"walk", "foot-shell-and-toes", "--json", "about=unsure"}, command.Fine},
		{"findings", []string{"check", "--layer", ours}, command.Findings},
		{"findings as JSON", []string{"check", "--json", "--layer", ours}, command.Findings},
		{"findings stop a build", []string{"compile", "--layer", ours, "--out", filepath.Join(t.TempDir(), "out")}, command.Findings},
		{"findings stop a walk", []string{"walk", "heel-height", "--layer", ours}, command.Findings},
		{"a schema", []string{"schema", "tree"}, command.Fine},
		{"all schemas", []string{"schema", "--out", filepath.Join(t.TempDir(), "schemas")}, command.Fine},
		{"a schema of no kind", []string{"schema"}, command.WrongCall},
		{"a schema of a kind that is none", []string{"schema", "trees"}, command.WrongCall},
		{"schemas into a folder that is not ours", []string{"schema", "--out", foreign}, command.CouldNotRun},
		{"an unknown command", []string{"compil"}, command.WrongCall},
		{"an unknown option", []string{"compile", "--outt", "x"}, command.WrongCall},
		{"too many arguments", []string{"check", "now"}, command.WrongCall},
		{"a walk without a tree", []string{"walk"}, command.WrongCall},
		{"a walk through a tree that is not there", []string{"walk", "heel-hight"}, command.WrongCall},
		{"a walk with an answer that is none", []string{"walk", "heel-height", "knee=perhaps"}, command.WrongCall},
		{"a walk that stops half-way", []string{"walk", "heel-height", "knee=none"}, command.WrongCall},
		{"a port that is none", []string{"show", "--port", "70000"}, command.WrongCall},
		{"a layer that is not there", []string{"check", "--layer", "no-such-folder"}, command.CouldNotRun},
		{"a folder that is not ours", []string{"compile", "--out", foreign}, command.CouldNotRun},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs strings.Builder
			got := command.Run(t.Context(), c.args, command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs, Today: day("")})
			if got != c.want {
				t.Errorf("%q ended with %d, want %d\nout: %s\nerr: %s", c.args, got, c.want, out.String(), errs.String())
			}
			if got != command.Fine && out.Len()+errs.Len() == 0 {
				t.Errorf("%q failed without a word", c.args)
			}
		})
	}
}

// No command at all gives help, and the arguments of this test are none.
func TestNoCommandGivesHelp(t *testing.T) {
	defer func(before []string) { os.Args = before }(os.Args)
	os.Args = []string{"keelpath", "nonsense"}
	for name, args := range map[string][]string{"none": nil, "an empty list": {}} {
		var out, errs strings.Builder
		got := command.Run(t.Context(), args, command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs})
		if got != command.Fine || errs.Len() > 0 || !strings.Contains(out.String(), "To build the site:") || !strings.Contains(out.String(), "Exit codes:") {
			t.Errorf("%s: ended with %d, %q and %q", name, got, out.String(), errs.String())
		}
	}
}

// What the README shows of the checker is what the checker says.
func TestReadme(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile("(?s)```(\\w*)\n(.*?)```").FindAllStringSubmatch(string(readme), -1)
	block := func(lang string) string {
		for _, b := range blocks {
			if b[1] == lang {
				return b[2]
			}
		}
		t.Fatalf("README.md has no block marked %q", lang)
		return ""
	}
	t.Chdir("../../testdata/readme")
	src, err := os.ReadFile("our-clinic/trees/at-night.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(src), strings.TrimSpace(block("yaml"))) {
		t.Error("the broken tree in README.md is not part of testdata/readme/our-clinic/trees/at-night.yaml")
	}
	var out strings.Builder
	command.Run(t.Context(), []string{"check", "--layer", "our-clinic"}, command.Streams{Out: &out, Err: &out, Today: day("")})
	if diff := cmp.Diff(block("text"), out.String()); diff != "" {
		t.Errorf("README.md shows other findings than the checker gives:\n%s", diff)
	}
}
