package command_test

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/command"
)

// Every line to type that the help and the README print does what it says, where
// "our-clinic" is a layer.
func TestEveryExampleRuns(t *testing.T) {
	lines := slices.Concat(helpLines(t), readmeLines(t))
	slices.Sort(lines)
	lines = slices.Compact(lines)
	if len(lines) < 11 {
		t.Fatalf("only %d lines were found: %q", len(lines), lines)
	}
	layer, err := filepath.Abs("../../testdata/layers/alder-quay")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines {
		t.Run(line, func(t *testing.T) {
			t.Chdir(t.TempDir())
			if err := os.CopyFS("our-clinic", os.DirFS(layer)); err != nil {
				t.Fatal(err)
			}
			builds := 0
			for one := range strings.SplitSeq(line, " && ") {
				args := strings.Fields(one)
				if args[0] == "compile" || args[0] == "show" {
					builds++
				}
				if got, said := typed(t, args); got != command.Fine {
					t.Errorf("%q ended with %d\n%s", one, got, said)
				}
			}
			if builds > 1 {
				t.Errorf("the line builds the site %d times", builds)
			}
		})
	}
}

// typed runs one command as a person would: to each question the first answer is
// given, and what shows the site is stopped once it does.
func typed(t *testing.T, args []string) (command.Exit, string) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	out := &until{words: "showing the site at", then: cancel}
	got := command.Run(ctx, args, command.Streams{In: strings.NewReader(strings.Repeat("1\n", 100)), Out: out, Err: out, Today: day("")})
	return got, out.String()
}

// until calls then once the words were written.
type until struct {
	strings.Builder
	words string
	then  func()
}

func (u *until) Write(b []byte) (int, error) {
	n, err := u.Builder.Write(b)
	if strings.Contains(u.String(), u.words) {
		u.then()
	}
	return n, err
}

// helpLines gives the lines of all helps that begin with the program's name, each
// once and without that name.
func helpLines(t *testing.T) (lines []string) {
	t.Helper()
	for _, name := range []string{"", "compile", "check", "walk", "show", "schema", "exchange"} {
		got, help := typed(t, []string{name, "--help"})
		if name == "" {
			got, help = typed(t, []string{"--help"})
		}
		if got != command.Fine {
			t.Fatalf("%q has no help", name)
		}
		found := 0
		for _, m := range regexp.MustCompile(`(?m)^  keelpath ([a-z].*)$`).FindAllStringSubmatch(help, -1) {
			line := strings.ReplaceAll(m[1], "&& keelpath ", "&& ")
			if found++; !strings.Contains(line, "[") && !slices.Contains(lines, line) { // a usage line has brackets
				lines = append(lines, line)
			}
		}
		if found == 0 {
			t.Errorf("the help of %q shows no line to type", name)
		}
	}
	return lines
}

// readmeLines gives the lines of the README that run the program.
func readmeLines(t *testing.T) (lines []string) {
	t.Helper()
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^    go run \./builder (.*?)(?: +#.*)?$`).FindAllStringSubmatch(string(readme), -1) {
		lines = append(lines, m[1])
	}
	if len(lines) < 5 {
		t.Errorf("only %q were found in the README", lines)
	}
	return lines
}
