package main

import (
	"flag"
	"fmt"
	"os"
	"os/signal"
	"slices"
	"syscall"
)

func main() {
	n := flag.Int("n", 60, "mutants to try of each target")
	seed := flag.Uint64("seed", 1, "that the draw goes by")
	flag.Parse()
	ok, err := report(*n, *seed, flag.Args())
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	if !ok || err != nil {
		os.Exit(1)
	}
}

// report tries the targets that are named, or all, and tells whether each is as it should be.
func report(n int, seed uint64, names []string) (bool, error) {
	root, err := copied(".")
	if root != "" {
		defer os.RemoveAll(root)
		stopped := make(chan os.Signal, 1)
		signal.Notify(stopped, os.Interrupt, syscall.SIGTERM)
		go func() {
			<-stopped
			os.RemoveAll(root)
			os.Exit(1)
		}()
	}
	if err != nil {
		return false, err
	}
	known, err := equivalents(equivalentsText)
	if err != nil {
		return false, err
	}
	fine := true
	for _, t := range targets {
		if len(names) > 0 && !slices.Contains(names, t.name) {
			continue
		}
		tried, err := tryTarget(root, t, n, seed)
		if err != nil {
			return false, err
		}
		fine = tell(t, tried, known) && fine
	}
	return fine, nil
}

// outcome is a mutant and what became of it.
type outcome struct {
	mutant
	came
}

func tryTarget(root string, t target, n int, seed uint64) ([]outcome, error) {
	files, err := sources(root, t.sources)
	if err != nil {
		return nil, err
	}
	all, err := draw(root, files, seed)
	if err != nil {
		return nil, err
	}
	b, err := newBench(root, t)
	if err != nil {
		return nil, err
	}
	guarded, err := b.guarded(all[:min(n, len(all))])
	if err != nil {
		return nil, err
	}
	var out []outcome
	for i, m := range all {
		is, known := guarded[i]
		if !known {
			if is, err = b.try(m); err != nil {
				return nil, err
			}
		}
		if out = append(out, outcome{m, is}); len(out)%10 == 0 {
			fmt.Fprintf(os.Stderr, "%s: %d tried\n", t.name, len(out))
		}
		if count(out, killed, endless, survived) == n {
			break
		}
	}
	return out, nil
}

func count(all []outcome, kinds ...came) int {
	n := 0
	for _, o := range all {
		if slices.Contains(kinds, o.came) {
			n++
		}
	}
	return n
}

// least percent of the mutants that fast tests must kill.
const leastKilled = 90

// tell prints a target's figures and its survivors, and tells whether it is as it should be.
func tell(t target, all []outcome, known map[key]string) bool {
	tried, dead := count(all, killed, endless, survived), count(all, killed, endless)
	listed := 0
	for _, o := range all {
		if o.came != survived {
			continue
		}
		if known[o.key()] != "" {
			listed++
			continue
		}
		fmt.Printf("survived: %s:%d | %s | %s\n    as %q\n", o.file, o.line, o.operator, o.text, o.with)
	}
	fmt.Printf("%-10s %3d mutants: %3d killed, %2d of them by going on without end; %2d survive as equivalent, %2d survive; %d more did not compile\n",
		t.name, tried, dead, count(all, endless), listed, tried-dead-listed, count(all, notCompiled))
	return tried-dead == listed && dead*100 >= tried*leastKilled
}
