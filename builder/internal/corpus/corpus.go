// Package corpus reads testdata/bad: broken inputs, each with the findings that
// it should get. Only tests use it.
//
// A case is a txtar archive. The lines before its first file are
//
//	One or more lines that say what is broken.
//	escapes FILE ...                  in these files \x00, \u00e9 and \r are read as in Go
//	finds FILE:LINE:COL CHECK words   an error whose sentence holds the words
//	  help words                      and each of its help lines, whole and in order
//	warns FILE CHECK words            the same for a warning
//
// with a finds or warns line for every finding, in order of place. COL or
// LINE:COL is left out where the finding has none. In a help line "*" stands for
// the place in a file that the archive does not hold: that content changes. The
// files are one layer over the built-in content.
//
// "go test ./builder/library -run TestBad -refresh" writes the findings that there
// are into the archives. Read the difference: it is what people will read.
package corpus

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"keelpath/builder/finding"
)

// Case is one broken input.
type Case struct {
	Name  string
	About string
	Want  []Want
	Files []txtar.File

	path string // of the archive
}

// Want is a finding that a case should get.
type Want struct {
	Place  string
	Check  string
	Weight finding.Weight
	Text   string // part of the sentence
	Help   []string
}

// Cases reads all archives of testdata/bad, in order of name. root is the way
// to the project's folder.
func Cases(tb testing.TB, root string) []Case {
	tb.Helper()
	files, err := filepath.Glob(filepath.Join(root, "testdata", "bad", "*.txtar"))
	if err != nil || len(files) == 0 {
		tb.Fatalf("no archives in testdata/bad: %v", err)
	}
	var out []Case
	for _, f := range files {
		a, err := txtar.ParseFile(f)
		if err != nil {
			tb.Fatal(err)
		}
		c, err := parse(a)
		if err != nil {
			tb.Fatalf("%s: %v", f, err)
		}
		c.Name, c.path = strings.TrimSuffix(filepath.Base(f), ".txtar"), f
		out = append(out, c)
	}
	return out
}

func parse(a *txtar.Archive) (Case, error) {
	c := Case{Files: a.Files}
	for line := range strings.Lines(string(a.Comment)) {
		verb, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		switch verb {
		case "":
		case "escapes":
			for _, name := range strings.Fields(rest) {
				i := slices.IndexFunc(c.Files, func(f txtar.File) bool { return f.Name == name })
				if i < 0 {
					return c, fmt.Errorf("escapes names %q, and the archive lacks it", name)
				}
				c.Files[i].Data = unescape(c.Files[i].Data)
			}
		case "finds", "warns":
			parts := strings.SplitN(rest, " ", 3)
			if len(parts) < 3 {
				return c, fmt.Errorf("%q lacks a place, a check or a part of the sentence", line)
			}
			w := Want{Place: parts[0], Check: parts[1], Text: parts[2], Weight: finding.Error}
			if verb == "warns" {
				w.Weight = finding.Warning
			}
			c.Want = append(c.Want, w)
		case "help":
			if len(c.Want) == 0 {
				return c, fmt.Errorf("%q stands before any finding", line)
			}
			last := &c.Want[len(c.Want)-1]
			last.Help = append(last.Help, rest)
		default:
			c.About += line
		}
	}
	if c.About == "" || len(c.Want) == 0 || len(c.Files) == 0 {
		return c, fmt.Errorf("an archive says what is broken, what is found, and holds files")
	}
	return c, nil
}

var escape = regexp.MustCompile(`\\(x[0-9a-f]{2}|u[0-9a-f]{4}|r)`)

func unescape(src []byte) []byte {
	return escape.ReplaceAllFunc(src, func(e []byte) []byte {
		s, err := strconv.Unquote(`"` + string(e) + `"`)
		if err != nil {
			panic(err) // the pattern lets only sound escapes through
		}
		return []byte(s)
	})
}

// Errors counts the findings that stop a build.
func (c Case) Errors() int {
	n := 0
	for _, w := range c.Want {
		if w.Weight == finding.Error {
			n++
		}
	}
	return n
}

// Write lays the case's files into a new folder.
func (c Case) Write(tb testing.TB) (dir string) {
	tb.Helper()
	dir = tb.TempDir()
	for _, f := range c.Files {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			tb.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			tb.Fatal(err)
		}
	}
	return dir
}

// Diff holds what was found in dir against what should be. It gives "" where
// they agree, and else each finding that is missing or one too many.
func (c Case) Diff(dir string, got []finding.Finding) string {
	got = c.shown(dir, got)
	var b strings.Builder
	var missing []Want
	for _, w := range c.Want {
		i := slices.IndexFunc(got, w.is)
		if i < 0 {
			missing = append(missing, w)
			continue
		}
		got = slices.Delete(got, i, i+1)
	}
	for _, w := range missing {
		fmt.Fprintf(&b, "missing: %s %s %s\n", w.Place, w.Check, w.Text)
		for _, h := range w.Help {
			fmt.Fprintf(&b, "           help %s\n", h)
		}
	}
	for _, f := range got {
		fmt.Fprintf(&b, "too many: %s %s (%s) %s\n", f.Place, f.Check, f.Weight, f.Text)
		for _, h := range f.Help {
			fmt.Fprintf(&b, "            help %s\n", h)
		}
	}
	if !slices.IsSortedFunc(c.Want, func(a, b Want) int { return cmp.Compare(a.file(), b.file()) }) {
		b.WriteString("the archive's findings are not in the order of their files\n")
	}
	return b.String()
}

// shown gives findings as archives show them: without the folder that the case was
// written to, and with "*" for places in content of another layer.
func (Case) shown(dir string, got []finding.Finding) []finding.Finding {
	dir = filepath.ToSlash(dir) + "/"
	out := slices.Clone(got)
	for i, f := range out {
		out[i].File = strings.TrimPrefix(f.File, dir)
		out[i].Help = slices.Clone(f.Help)
		for j, h := range f.Help {
			out[i].Help[j] = place.ReplaceAllStringFunc(strings.ReplaceAll(h, dir, own), func(at string) string {
				if rest, ok := strings.CutPrefix(at, own); ok {
					return rest
				}
				file, _, _ := strings.Cut(at, ":")
				return file + ":*"
			})
			out[i].Help[j] = strings.ReplaceAll(out[i].Help[j], own, "")
		}
	}
	return out
}

// own stands before the names of the archive's own files for a moment.
const own = "\x00"

var place = regexp.MustCompile(`\x00?\b(?:content|trees)/[\w./-]+:\d+(?::\d+)?`)

// Refresh writes what was found in dir into the archive. Of a sentence it keeps the
// part that stands there, where it still fits.
func (c Case) Refresh(tb testing.TB, dir string, got []finding.Finding) {
	tb.Helper()
	src, err := os.ReadFile(c.path)
	if err != nil {
		tb.Fatal(err)
	}
	about, files, _ := strings.Cut(string(src), "\n-- ")
	var b strings.Builder
	for line := range strings.Lines(about + "\n") {
		if verb, _, _ := strings.Cut(strings.TrimSpace(line), " "); !slices.Contains([]string{"", "finds", "warns", "help"}, verb) {
			b.WriteString(line)
		}
	}
	for _, f := range c.shown(dir, got) {
		verb, text := "finds", f.Text
		if f.Weight == finding.Warning {
			verb = "warns"
		}
		if i := slices.IndexFunc(c.Want, func(w Want) bool { return w.about(f) }); i >= 0 {
			text = c.Want[i].Text
		}
		fmt.Fprintf(&b, "%s %s %s %s\n", verb, f.Place, f.Check, text)
		for _, h := range f.Help {
			fmt.Fprintf(&b, "  help %s\n", h)
		}
	}
	if err := os.WriteFile(c.path, []byte(b.String()+"\n-- "+files), 0o644); err != nil {
		tb.Fatal(err)
	}
}

// about leaves the help lines aside.
func (w Want) about(f finding.Finding) bool {
	return f.Place.String() == w.Place && f.Check == w.Check && f.Weight == w.Weight && strings.Contains(f.Text, w.Text)
}

func (w Want) is(f finding.Finding) bool {
	return w.about(f) && slices.Equal(f.Help, w.Help)
}

func (w Want) file() string { file, _, _ := strings.Cut(w.Place, ":"); return file }
