package command_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"keelpath/builder/command"
	"keelpath/builder/finding"
)

// FuzzLayer spoils several valid files of a layer at once and runs commands on
// it. None may panic or go on without end, every finding has a place, and what
// check finds fine, compile and exchange take.
//
//	go test ./builder/command -run '^$' -fuzz FuzzLayer -fuzztime 10m
func FuzzLayer(f *testing.F) {
	valid := validLayer(f)
	for seed := range uint64(3) {
		f.Add(seed, uint8(1+seed), []byte(nil))
	}
	f.Add(uint64(7), uint8(2), []byte("x: [\"\u202e\", *a, {b: \x00}]\n"))
	f.Fuzz(func(t *testing.T, seed uint64, spoils uint8, patch []byte) {
		layer := spoiled(valid, seed, int(spoils%12), patch)
		tryLayer(t, layer, fmt.Sprintf("seed %d, %d spoils, patch %q", seed, spoils%12, patch), int(seed%4))
	})
}

// TestSpoiledLayers does a little of that in every run, with seeds of its own.
func TestSpoiledLayers(t *testing.T) {
	valid := validLayer(t)
	began := time.Now()
	n, fine := 0, 0
	for seed := uint64(1000); n < 4 || n < 60 && time.Since(began) < 3*time.Second; seed++ {
		n++
		if tryLayer(t, spoiled(valid, seed, int(seed%5), nil), fmt.Sprintf("seed %d", seed), int(seed%4)) {
			fine++
		}
	}
	t.Logf("%d spoiled layers, %d of them fine", n, fine)
}

// validLayer gives files that a layer may hold: the example layer's, and the
// built-in ones, which a layer may lay over themselves.
func validLayer(tb testing.TB) map[string][]byte {
	tb.Helper()
	out := map[string][]byte{}
	for _, root := range []string{"../..", "../../testdata/layers/alder-quay"} {
		for _, part := range []string{"content", "trees"} {
			err := fs.WalkDir(os.DirFS(root), part, func(name string, d fs.DirEntry, err error) error {
				if err != nil || d.IsDir() || filepath.Ext(name) == ".go" {
					return err
				}
				data, err := os.ReadFile(filepath.Join(root, name))
				out[name] = data
				return err
			})
			if err != nil {
				tb.Fatal(err)
			}
		}
	}
	if len(out) < 40 {
		tb.Fatalf("only %d files", len(out))
	}
	return out
}

// spoiled draws one to five files and spoils them so many times.
func spoiled(valid map[string][]byte, seed uint64, times int, patch []byte) map[string][]byte {
	rnd := rand.New(rand.NewPCG(seed, 2))
	names := slices.Sorted(maps.Keys(valid))
	out := map[string][]byte{}
	for range 1 + rnd.IntN(5) {
		name := names[rnd.IntN(len(names))]
		out[name] = valid[name]
	}
	for range times {
		have := slices.Sorted(maps.Keys(out))
		name := have[rnd.IntN(len(have))]
		other := valid[names[rnd.IntN(len(names))]]
		switch kind := rnd.IntN(10); {
		case kind == 0:
			renamed(rnd, out, name)
		case kind < 3:
			out[name] = spoilBytes(rnd, out[name])
		case kind < 6 && strings.HasSuffix(name, ".md"):
			out[name] = spoilMarkdown(rnd, out[name])
		default:
			out[name] = spoilLines(rnd, out[name], other)
		}
	}
	if len(patch) > 0 {
		have := slices.Sorted(maps.Keys(out))
		name := have[rnd.IntN(len(have))]
		at := rnd.IntN(len(out[name]) + 1)
		out[name] = slices.Concat(out[name][:at], patch, out[name][at:])
	}
	return out
}

// renamed gives a file another name, a second one, or another folder.
func renamed(rnd *rand.Rand, all map[string][]byte, name string) {
	ext := filepath.Ext(name)
	to := []string{
		"con" + ext, "..", "Ä b" + ext, strings.Repeat("n", 200) + ext, "trees" + ext, ".hidden" + ext, "a" + strings.ToUpper(ext), "index" + ext, "a\nb" + ext, "deep/er" + ext,
	}[rnd.IntN(10)]
	if to == ".." {
		to = strings.TrimSuffix(filepath.Base(name), ext)
	}
	to = []string{"content/", "content/en/", "trees/", "other/"}[rnd.IntN(4)] + to
	all[to] = all[name]
	if rnd.IntN(2) == 0 {
		delete(all, name)
	}
}

func spoilBytes(rnd *rand.Rand, data []byte) []byte {
	if len(data) == 0 {
		return []byte{0}
	}
	from := rnd.IntN(len(data))
	to := min(from+1+rnd.IntN(40), len(data))
	switch rnd.IntN(6) {
	case 0:
		return data[:from]
	case 1:
		return slices.Concat(data[:from], data[to:])
	case 2:
		return slices.Concat(data[:to], data[from:])
	case 3:
		return append([]byte("\ufeff"), bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))...)
	case 4:
		return slices.Concat(data[:from], bytes.Repeat(data[from:to], 300), data[to:])
	}
	out := slices.Clone(data)
	out[from] = byte(rnd.IntN(256))
	return out
}

func spoilMarkdown(rnd *rand.Rand, data []byte) []byte {
	pieces := []string{
		"```figure\nslope\nsteepness: 900 %\n```\n", "```drawing\nnone\n```\n", "```share\ncount: 9\nof: 3\nsays: x\n```\n", "> **Careful.** Now.\n", "[](source:none)", "[x](explainer:heel)",
		"[](support:well)", "[](call:emergency)", "| a | b |\n|---|---|\n| c |\n", "<script>x</script>\n", "![](x.png)", strings.Repeat("> ", 200) + "x\n", strings.Repeat("- ", 200) + "x\n",
		"{needed}", "---\n", "# ", strings.Repeat("[", 500), strings.Repeat("*", 501), "\\", "&#0;", "^",
	}
	lines := strings.SplitAfter(string(data), "\n")
	at := rnd.IntN(len(lines))
	lines[at] = pieces[rnd.IntN(len(pieces))] + lines[at]
	return []byte(strings.Join(lines, ""))
}

// spoilLines spoils a file as a person might who edits it in a hurry, or a person who means harm.
func spoilLines(rnd *rand.Rand, data, other []byte) []byte {
	values := []string{
		"", "~", "[]", "{}", "-1", "1e99", "0.0000001", "99999999999999999999", "\"\"", "&a [*a]", "*a", "!!binary eA==", "{needed}", "on", "2026-13-45", "\"\\0\"", "|", ">-",
		"[[[[[[[[a]]]]]]]]", "\"" + strings.Repeat("long ", 400) + "\"", "q0 > 3*mm", "a && b", "skip", "unsure", "'", "{ go: done, if: 1 == 1 }",
	}
	lines := strings.SplitAfter(string(data), "\n")
	others := strings.SplitAfter(string(other), "\n")
	i, j := rnd.IntN(len(lines)), rnd.IntN(len(lines))
	key, value, keyed := strings.Cut(lines[i], ": ")
	switch kind := rnd.IntN(9); {
	case kind == 0:
		lines[i] = ""
	case kind == 1:
		lines[i] += lines[i]
	case kind == 2:
		lines[i] = "  " + lines[i]
	case kind == 3:
		lines[i] = strings.TrimPrefix(lines[i], "  ")
	case kind == 4:
		lines[i], lines[j] = lines[j], lines[i]
	case kind == 5:
		lines[i] += others[rnd.IntN(len(others))]
	case kind == 6 && keyed:
		lines[i] = key + ": " + values[rnd.IntN(len(values))] + "\n"
	case kind == 7 && keyed:
		if _, second, ok := strings.Cut(lines[j], ": "); ok {
			lines[i] = key + ": " + second
		}
	case keyed:
		lines[i] = strings.ToUpper(key) + ": " + value
	}
	return []byte(strings.Join(lines, ""))
}

// within is how long one command may take. Alone on a machine each takes a second or two.
const within = 2 * time.Minute

// tryLayer runs check on a layer, and one more command. It tells whether check is fine.
func tryLayer(t *testing.T, files map[string][]byte, name string, kind int) bool {
	t.Helper()
	dir := t.TempDir()
	for file, data := range files {
		to := filepath.Join(dir, "layer", filepath.FromSlash(file))
		if os.MkdirAll(filepath.Dir(to), 0o755) != nil || os.WriteFile(to, data, 0o644) != nil {
			continue // no file may have that name here
		}
	}
	layer := filepath.Join(dir, "layer")
	if os.MkdirAll(layer, 0o755) != nil {
		t.Fatal("no layer")
	}
	run := func(args ...string) (command.Exit, string) {
		exit, said := runWithin(t, name, append(args, "--layer", layer)...)
		return exit, strings.ReplaceAll(said, dir, "DIR")
	}
	checked, said := run("check", "--json")
	if checked != command.Fine && checked != command.Findings {
		t.Fatalf("%s: check ends with %d: %s", name, checked, said)
	}
	if findings := placed(t, name, said); checked == command.Findings && findings == 0 {
		t.Fatalf("%s: check ends with findings and names none", name)
	}
	want := map[bool]command.Exit{true: command.Fine, false: command.Findings}[checked == command.Fine]
	var second command.Exit
	switch out := filepath.Join(dir, "out"); kind {
	case 0:
		second, said = run("compile", "--out", out)
	case 1:
		second, said = run("exchange", "--out", out)
	case 2:
		second, said = run("walk", "heel-height", "usual=skip")
		want = second // the tree may be another now; only a panic or an endless walk is wrong
	default:
		second, said = run("check")
	}
	if second != want {
		t.Fatalf("%s: check ends with %d, and command %d with %d: %s", name, checked, kind, second, said)
	}
	return checked == command.Fine
}

// placed holds every finding of a check against the rule that it has a place, and counts the errors.
func placed(t *testing.T, name, said string) int {
	t.Helper()
	var report struct{ Findings []finding.Finding }
	if err := json.Unmarshal([]byte(said), &report); err != nil {
		t.Fatalf("%s: check --json is no JSON: %v\n%s", name, err, said)
	}
	n := 0
	for _, f := range report.Findings {
		if f.File == "" || f.Text == "" || f.Check == "" {
			t.Fatalf("%s: a finding without a place: %+v", name, f)
		}
		if f.Weight == finding.Error {
			n++
		}
	}
	return n
}

// runWithin runs a command line. It fails the test on a panic, and where the command goes on without end.
func runWithin(t *testing.T, name string, args ...string) (command.Exit, string) {
	t.Helper()
	var out, said bytes.Buffer
	done := make(chan any, 1)
	var exit command.Exit
	go func() {
		defer func() { done <- recover() }()
		exit = command.Run(context.Background(), args, command.Streams{In: strings.NewReader("1\n\nskip\nq\n"), Out: &out, Err: &said, Today: day("")})
	}()
	select {
	case wrong := <-done:
		if wrong != nil {
			t.Fatalf("%s: %v panics: %v", name, args, wrong)
		}
	case <-time.After(within):
		t.Fatalf("%s: %v goes on without end", name, args)
	}
	return exit, out.String() + said.String()
}
