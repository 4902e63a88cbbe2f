package main

import (
	"bytes"
	"cmp"
	gobuild "go/build"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

func change(file string, src []byte, operator string, from, to int, with string) mutant {
	start := bytes.LastIndexByte(src[:from], '\n') + 1
	end := len(src)
	if n := bytes.IndexByte(src[from:], '\n'); n >= 0 {
		end = from + n
	}
	return mutant{file: file, operator: operator, from: from, to: to, with: with, line: 1 + bytes.Count(src[:from], []byte("\n")), text: strings.TrimSpace(string(src[start:end]))}
}

// mutate gives the changed file.
func (m mutant) mutate(src []byte) []byte {
	return slices.Concat(src[:m.from], []byte(m.with), src[m.to:])
}

// draw gives all mutants of a target's files in an order that the seed settles.
func draw(root string, files []string, seed uint64) ([]mutant, error) {
	var all []mutant
	for _, file := range files {
		src, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(file)))
		if err != nil {
			return nil, err
		}
		some := tsMutants(file, src)
		if strings.HasSuffix(file, ".go") {
			if some, err = goMutants(file, src); err != nil {
				return nil, err
			}
		}
		all = append(all, some...)
	}
	slices.SortFunc(all, func(a, b mutant) int {
		return cmp.Or(cmp.Compare(a.file, b.file), cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to), cmp.Compare(a.operator, b.operator))
	})
	rnd := rand.New(rand.NewPCG(seed, 0))
	rnd.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all, nil
}

// sources gives the files of a target: those that match a pattern, tests and what is for other systems left out.
func sources(root string, patterns []string) ([]string, error) {
	var out []string
	for _, p := range patterns {
		found, err := filepath.Glob(filepath.Join(root, filepath.FromSlash(p)))
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			rel, err := filepath.Rel(root, f)
			if err != nil {
				return nil, err
			}
			here := !strings.HasSuffix(f, ".go")
			if !here {
				if here, err = gobuild.Default.MatchFile(filepath.Split(f)); err != nil {
					return nil, err
				}
			}
			if here && !strings.HasSuffix(f, "_test.go") && !slices.Contains(out, filepath.ToSlash(rel)) {
				out = append(out, filepath.ToSlash(rel))
			}
		}
	}
	return out, nil
}
