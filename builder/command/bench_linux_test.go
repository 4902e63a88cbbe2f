package command_test

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/yuin/goldmark"
	"golang.org/x/sync/errgroup"

	"keelpath/content"
	"keelpath/trees"
)

// benchVar makes the test binary the floor or the program, each in a process of its own,
// so that what the one takes of time and memory is not mixed with the other's.
const benchVar = "KEELPATH_COMMAND_BENCH"

func bench(what string) {
	switch what {
	case "floor":
		debug.SetGCPercent(200) // as the program has it
		if err := floor(os.Args[1], os.Args[2]); err != nil {
			panic(err)
		}
	default:
		keelpath()
	}
	os.Exit(0)
}

// floor is the least that any program does for a site of so many pages: it reads each
// one, converts it with goldmark and no extension, and writes it.
func floor(from, to string) error {
	names, err := filepath.Glob(filepath.Join(from, "content/en/*.md"))
	if err != nil {
		return err
	}
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	md := goldmark.New()
	for _, n := range names {
		g.Go(func() error {
			src, err := os.ReadFile(n)
			if err != nil {
				return err
			}
			var b bytes.Buffer
			if err := md.Convert(src, &b); err != nil {
				return err
			}
			return os.WriteFile(filepath.Join(to, filepath.Base(n)+".html"), b.Bytes(), 0o644)
		})
	}
	return g.Wait()
}

// used is what a process took: seconds of CPU and the most memory, in MB.
type used struct{ cpu, memory float64 }

// measured runs the test binary as what benchVar says.
func measured(b *testing.B, what string, args ...string) used {
	b.Helper()
	c := exec.CommandContext(context.Background(), os.Args[0], args...)
	c.Env = append(os.Environ(), benchVar+"="+what)
	if said, err := c.CombinedOutput(); err != nil {
		b.Fatalf("%s: %v\n%s", what, err, said)
	}
	r := c.ProcessState.SysUsage().(*syscall.Rusage)
	return used{(c.ProcessState.UserTime() + c.ProcessState.SystemTime()).Seconds(), float64(r.Maxrss) / 1024}
}

// ram gives a folder that is held in memory where the system has one.
func ram(b *testing.B) string {
	b.Helper()
	above := "/dev/shm"
	if info, err := os.Stat(above); err != nil || !info.IsDir() {
		above = ""
	}
	dir, err := os.MkdirTemp(above, "keelpath-bench-")
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// bigLayer writes a layer of copies of the built-in pages and trees under new ids.
func bigLayer(b *testing.B, dir string, pages, trees int) {
	b.Helper()
	texts, inside := builtinFiles(b)
	write := func(name string, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	for _, part := range []string{"content/en", "trees"} {
		if err := os.MkdirAll(filepath.Join(dir, part), 0o755); err != nil {
			b.Fatal(err)
		}
	}
	for i := range pages {
		p := texts[i%len(texts)]
		write(fmt.Sprintf("content/en/%s-copy-%d.md", p.id, i), p.text)
	}
	for i := range trees {
		t := inside[i%len(inside)]
		id := fmt.Sprintf("%s-copy-%d", t.id, i)
		write("trees/"+id+".yaml", strings.Replace(t.text, "tree: "+t.id+"\n", "tree: "+id+"\n", 1))
	}
}

// oneMore adds a line to one page of a layer.
func oneMore(b *testing.B, layer string) {
	b.Helper()
	names, err := filepath.Glob(filepath.Join(layer, "content/en/*.md"))
	if err != nil || len(names) == 0 {
		b.Fatal(names, err)
	}
	text, err := os.ReadFile(names[0])
	if err == nil {
		err = os.WriteFile(names[0], append(text, "\nThis is one more line.\n"...), 0o644)
	}
	if err != nil {
		b.Fatal(err)
	}
}

type benchFile struct{ id, text string }

// builtinFiles are the explainers and the trees that the program carries.
func builtinFiles(b *testing.B) (explainers, all []benchFile) {
	b.Helper()
	take := func(from fs.FS, pattern string, to *[]benchFile, keep func(text string) bool) {
		names, err := fs.Glob(from, pattern)
		if err != nil || len(names) == 0 {
			b.Fatal(pattern, err)
		}
		for _, n := range names {
			text, err := fs.ReadFile(from, n)
			if err != nil {
				b.Fatal(err)
			}
			if id, _, _ := strings.Cut(filepath.Base(n), "."); keep(string(text)) {
				*to = append(*to, benchFile{id, string(text)})
			}
		}
	}
	take(content.FS, "en/*.md", &explainers, func(string) bool { return true })
	take(trees.FS, "*.yaml", &all, func(text string) bool { return strings.HasPrefix(text, "tree: ") })
	return explainers, all
}

// A clean build, with all that is checked, beside the floor: how many times the floor's
// CPU time it takes, and how much memory at most. Both run in turn, in processes of their own, with
// the same settings of the collector; what counts are the ratios of one run. A second build with nothing edited,
// and a third with one page edited, stand beside the first as a share of it. Benchmarks time, and no test does:
//
//	go test ./builder/command -run '^$' -bench Clean -benchtime 3x -timeout 1h
func BenchmarkClean(b *testing.B) {
	for _, c := range []struct {
		name         string
		pages, trees int
	}{
		{"shipped", 0, 0}, {"pages-100", 100, 0}, {"pages-2000", 2000, 0}, {"pages-2000-trees-200", 2000, 200}, {"pages-10000", 10_000, 0},
	} {
		b.Run(c.name, func(b *testing.B) {
			dir := ram(b)
			args := []string{"compile", "--quiet"}
			if c.pages > 0 {
				bigLayer(b, filepath.Join(dir, "layer"), c.pages, c.trees)
				args = append(args, "--layer", filepath.Join(dir, "layer"))
			}
			var floors, builds, agains, edits []used
			for i := 0; b.Loop(); i++ {
				to := filepath.Join(dir, fmt.Sprint("floor-", i))
				if err := os.MkdirAll(to, 0o755); err != nil {
					b.Fatal(err)
				}
				floors = append(floors, measured(b, "floor", filepath.Join(dir, "layer"), to))
				out := filepath.Join(dir, fmt.Sprint("site-", i))
				args := append(args, "--out", out)
				builds = append(builds, measured(b, "program", args...))
				agains = append(agains, measured(b, "program", args...))
				if c.pages > 0 {
					oneMore(b, filepath.Join(dir, "layer"))
					edits = append(edits, measured(b, "program", args...))
				}
				for _, d := range []string{to, out} {
					if err := os.RemoveAll(d); err != nil {
						b.Fatal(err)
					}
				}
			}
			f, p := middle(floors), middle(builds)
			b.ReportMetric(p.cpu*1000, "cpu-ms")
			b.ReportMetric(p.memory, "MB")
			b.ReportMetric(100*middle(agains).cpu/p.cpu, "%-nothing-edited")
			if c.pages > 0 {
				b.ReportMetric(f.cpu*1000, "floor-ms")
				b.ReportMetric(p.cpu/f.cpu, "x-floor")
				b.ReportMetric(100*middle(edits).cpu/p.cpu, "%-one-page-edited")
				b.ReportMetric(p.cpu*1e6/float64(c.pages), "cpu-us/page")
			}
		})
	}
}

// middle is the median of each.
func middle(all []used) used {
	var cpu, memory []float64
	for _, u := range all {
		cpu, memory = append(cpu, u.cpu), append(memory, u.memory)
	}
	slices.Sort(cpu)
	slices.Sort(memory)
	return used{cpu[len(cpu)/2], memory[len(memory)/2]}
}
