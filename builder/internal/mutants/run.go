package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// came is what became of a mutant.
type came string

const (
	killed      came = "killed"
	endless     came = "endless" // the tests went on too long, which is noticed as well
	survived    came = "survived"
	notCompiled came = "not compiled"
)

// bench runs the tests of one target on mutants. It works on a copy of the
// program, so that what it does to a file is seen by scripts that read it, and
// whoever works on the program is not disturbed.
type bench struct {
	target
	root string // of the copy
	most time.Duration
	bins []string
	env  []string // of the tests
	said []byte   // by tests that failed
}

// least is the shortest time that tests are given before they count as endless.
var least = 20 * time.Second

// newBench runs the unchanged tests, which must pass, and takes their time.
func newBench(root string, t target) (*bench, error) {
	b := &bench{target: t, root: root, most: 20 * time.Minute}
	if is, said := b.build(""); is != "" {
		return nil, fmt.Errorf("%s: the tests do not compile: %s", t.name, said)
	}
	began := time.Now()
	if is := b.run(); is != survived {
		return nil, fmt.Errorf("%s: the tests fail on the unchanged program: %s", t.name, b.said)
	}
	b.most = max(least, 5*time.Since(began))
	return b, nil
}

// build compiles the tests, with an overlay where one is named.
func (b *bench) build(overlay string) (came, string) {
	b.bins = nil
	for i, pkg := range b.tests {
		bin := filepath.Join(b.root, fmt.Sprintf("mutants-%d.test", i))
		args := []string{"test", "-c", "-vet=off", "-gcflags=-e", "-o", bin}
		if overlay != "" {
			args = append(args, "-overlay", overlay)
		}
		cmd := exec.Command("go", append(args, pkg)...)
		cmd.Dir = b.root
		if said, err := cmd.CombinedOutput(); err != nil {
			return notCompiled, string(said)
		}
		b.bins = append(b.bins, bin)
	}
	return "", ""
}

// run gives survived where every test passes.
func (b *bench) run() came {
	ctx, cancel := context.WithTimeout(context.Background(), b.most)
	defer cancel()
	for i, bin := range b.bins {
		args := []string{"-test.failfast", "-test.short=false"}
		if b.skip != "" {
			args = append(args, "-test.skip", b.skip)
		}
		if b.target.run != "" {
			args = append(args, "-test.run", b.target.run)
		}
		cmd := exec.CommandContext(ctx, bin, args...)
		cmd.Dir = filepath.Join(b.root, filepath.FromSlash(b.tests[i]))
		cmd.Env, cmd.WaitDelay = append(os.Environ(), b.env...), time.Second
		said, err := cmd.CombinedOutput()
		b.said = said
		var left *exec.ExitError
		switch {
		case ctx.Err() != nil:
			return endless
		case errors.As(err, &left):
			return killed
		case err != nil:
			return notCompiled
		}
	}
	return survived
}

// try makes a mutant, runs the tests, and takes the change back.
func (b *bench) try(m mutant) (came, error) {
	file := filepath.Join(b.root, filepath.FromSlash(m.file))
	src, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	if !strings.HasSuffix(m.file, ".go") { // read as the tests run
		if err := os.WriteFile(file, m.mutate(src), 0o644); err != nil {
			return "", err
		}
		is := b.run()
		return is, os.WriteFile(file, src, 0o644)
	}
	overlay, err := b.overlay(map[string][]byte{m.file: m.mutate(src)})
	if err != nil {
		return "", err
	}
	if is, _ := b.build(overlay); is != "" {
		return is, nil
	}
	return b.run(), nil
}

// overlay writes files that stand in for others, by their names below the root.
func (b *bench) overlay(files map[string][]byte) (string, error) {
	replace := map[string]string{}
	for file, data := range files {
		to := filepath.Join(b.root, fmt.Sprintf("mutants-%d.txt", len(replace)))
		replace[filepath.Join(b.root, filepath.FromSlash(file))] = to
		if err := os.WriteFile(to, data, 0o644); err != nil {
			return "", err
		}
	}
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	to := filepath.Join(b.root, "mutants-overlay.json")
	return to, os.WriteFile(to, data, 0o644)
}

// copied copies the program into a new folder, without what its tests never read.
func copied(root string) (string, error) {
	to, err := os.MkdirTemp("", "keelpath-mutants-")
	if err != nil {
		return "", err
	}
	for _, part := range []string{"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "builder", "content", "site", "trees", "testdata"} {
		from := filepath.Join(root, part)
		is, err := os.Stat(from)
		if err == nil && is.IsDir() {
			err = os.CopyFS(filepath.Join(to, part), os.DirFS(from))
		} else if err == nil {
			var data []byte
			if data, err = os.ReadFile(from); err == nil {
				err = os.WriteFile(filepath.Join(to, part), data, 0o644)
			}
		}
		if err != nil {
			return to, err
		}
	}
	return to, nil
}
