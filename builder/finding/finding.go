// Package finding holds what the checker reports: one type for a problem, one
// order, and one printer. It knows places in files and nothing about trees.
package finding

import (
	"cmp"
	"fmt"
	"slices"
)

// Place is a position in an input file. Line and Col count from 1; a zero Line
// means the whole file, a zero Col the whole line. File is a slash-separated
// path inside the edition ("trees/heel-height.yaml").
type Place struct {
	File string `json:"file"`
	Line int    `json:"line,omitempty"`
	Col  int    `json:"column,omitempty"`
}

// String gives "file:line:col", leaving out what is not known.
func (p Place) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Weight says whether a finding stops the build.
type Weight string

const (
	Error   Weight = "error"   // the build stops
	Warning Weight = "warning" // the build goes on
)

// Finding is one thing that the checker reports. Text is a sentence without a
// capital or a full stop that quotes what the author wrote. Help lines stand
// below it: the nearest name, the other half's place, what to do. Check is the
// short name of the check, the same for all findings of a kind.
type Finding struct {
	Place
	Check  string   `json:"check"`
	Weight Weight   `json:"weight"`
	Text   string   `json:"text"`
	Help   []string `json:"help,omitempty"`
}

// List collects findings while the reading goes on. The zero value is ready.
type List struct {
	all []Finding
}

// Add reports an error at p.
func (l *List) Add(p Place, check, text string, help ...string) {
	l.all = append(l.all, Finding{Place: p, Check: check, Weight: Error, Text: text, Help: help})
}

// Warn reports a warning at p.
func (l *List) Warn(p Place, check, text string, help ...string) {
	l.all = append(l.all, Finding{Place: p, Check: check, Weight: Warning, Text: text, Help: help})
}

// Harden makes errors of the warnings that a check gave.
func (l *List) Harden(check string) {
	for i, f := range l.all {
		if f.Check == check {
			l.all[i].Weight = Error
		}
	}
}

// Append adds findings that were made elsewhere.
func (l *List) Append(fs ...Finding) { l.all = append(l.all, fs...) }

// Sorted gives the findings by file, line and column; exact repeats are left out.
func (l *List) Sorted() []Finding {
	out := slices.Clone(l.all)
	slices.SortStableFunc(out, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File),
			cmp.Compare(a.Line, b.Line),
			cmp.Compare(a.Col, b.Col),
			cmp.Compare(a.Text, b.Text),
		)
	})
	return slices.CompactFunc(out, func(a, b Finding) bool {
		return a.Place == b.Place && a.Check == b.Check && a.Text == b.Text
	})
}

// MaxShown is how many findings are shown at once. Nobody mends more in one sitting,
// and what stands further down often follows from what stands above.
const MaxShown = 200

// Shown gives the findings to show, in order, and how many more there are. Where
// there are too many, errors go before warnings.
func (l *List) Shown() (shown []Finding, more int) {
	all := l.Sorted()
	if len(all) <= MaxShown {
		return all, 0
	}
	room := max(0, MaxShown-l.Errors()) // for warnings
	for _, f := range all {
		if f.Weight == Warning {
			if room == 0 {
				continue
			}
			room--
		}
		if len(shown) < MaxShown {
			shown = append(shown, f)
		}
	}
	return shown, len(all) - len(shown)
}

// Len gives how many findings there are so far; with Since, what one step found.
func (l *List) Len() int { return len(l.all) }

// Since gives the findings that were added after Len gave n.
func (l *List) Since(n int) []Finding { return l.all[n:] }

// Errors counts the findings that stop a build, exact repeats left out.
func (l *List) Errors() int {
	n := 0
	for _, f := range l.Sorted() {
		if f.Weight == Error {
			n++
		}
	}
	return n
}
