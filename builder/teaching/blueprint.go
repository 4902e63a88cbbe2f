package teaching

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"keelpath/builder/read"
)

// items gives the one-best-answer questions that can be counted, in order.
func items(cs []*Case) iter.Seq[*Beat] {
	return func(yield func(*Beat) bool) {
		for _, c := range cs {
			for _, b := range c.Beats {
				if b.Format.S == OneBest && len(b.Options) >= MinOptions && len(b.Key) == 1 && !yield(b) {
					return
				}
			}
		}
	}
}

// Blueprint is what a bank of cases covers: how many beats there are for each task in each format,
// and how many cases for each place where a leg ends.
type Blueprint struct {
	Beats   map[string]map[string]int // by task, then by format
	Cases   map[string]int            // by task
	Formats map[string]int            // beats, each once however many tasks it has
	Limbs   map[string]int
	Minutes int
	Keys    []int // how often the key is shown first, second and so on
}

// BlueprintOf counts.
func BlueprintOf(cs []*Case) Blueprint {
	out := Blueprint{Beats: map[string]map[string]int{}, Cases: map[string]int{}, Formats: map[string]int{}, Limbs: map[string]int{}, Keys: make([]int, MaxBest)}
	for _, t := range Tasks {
		out.Beats[t] = map[string]int{}
	}
	for _, c := range cs {
		out.Limbs[c.Limb.S]++
		out.Minutes += c.Minutes
		for _, t := range c.Tasks {
			out.Cases[t.S]++
		}
		for _, b := range c.Beats {
			out.Formats[b.Format.S]++
			for _, t := range b.Tasks {
				if out.Beats[t.S] != nil {
					out.Beats[t.S][b.Format.S]++
				}
			}
			if i := slices.IndexFunc(b.Shown(c), b.IsKey); b.Format.S == OneBest && i >= 0 && i < MaxBest {
				out.Keys[i]++
			}
		}
	}
	return out
}

// Missing gives what no case covers: tasks, formats and limbs.
func (b Blueprint) Missing() []string {
	var out []string
	for _, of := range []struct {
		what string
		all  []string
		has  map[string]int
	}{{"task", Tasks, b.Cases}, {"format", Formats, b.Formats}, {"limb", Limbs, b.Limbs}} {
		for _, id := range of.all {
			if of.has[id] == 0 {
				out = append(out, of.what+" "+id)
			}
		}
	}
	return out
}

// Print writes the blueprint as a table of tasks by formats, and below it the limbs and what is missing.
func (b Blueprint) Print(to io.Writer) error {
	var out strings.Builder
	fmt.Fprintf(&out, "%-16s %5s", "task", "cases")
	for _, f := range Formats {
		fmt.Fprintf(&out, " %11s", f)
	}
	out.WriteString("\n")
	for _, t := range Tasks {
		fmt.Fprintf(&out, "%-16s %5d", t, b.Cases[t])
		for _, f := range Formats {
			fmt.Fprintf(&out, " %11s", dash(b.Beats[t][f]))
		}
		out.WriteString("\n")
	}
	fmt.Fprintf(&out, "%-16s %5s", "beats", "")
	for _, f := range Formats {
		fmt.Fprintf(&out, " %11s", dash(b.Formats[f]))
	}
	out.WriteString("\nlimbs:")
	for _, l := range Limbs {
		fmt.Fprintf(&out, " %s %d", l, b.Limbs[l])
	}
	fmt.Fprintf(&out, "\nplace of the key, first to last: %s\nminutes: %d\n", strings.Trim(fmt.Sprint(b.Keys), "[]"), b.Minutes)
	if none := b.Missing(); len(none) > 0 {
		fmt.Fprintf(&out, "no case yet: %s\n", strings.Join(none, ", "))
	}
	_, err := io.WriteString(to, out.String())
	return err
}

func dash(n int) string {
	if n == 0 {
		return "-"
	}
	return fmt.Sprint(n)
}

// Marked gives the texts that are markdown.
func (c *Case) Marked() []read.Text {
	out := slices.Clone(c.Errors)
	for _, b := range c.Beats {
		out = append(out, b.Toward, b.Away)
		for _, o := range b.Options {
			out = append(out, o.Because)
		}
	}
	for _, f := range c.Flips {
		out = append(out, f.Because)
	}
	return out
}

// Texts gives all that readers see of a case.
func (c *Case) Texts() []read.Text {
	out := []read.Text{c.Title, c.Who, c.Setting, c.Before, c.Later.Measure, c.Later.Change}
	out = append(out, c.Errors...)
	for _, f := range c.Facts {
		out = append(out, f.Says, f.Request)
	}
	for _, t := range c.Argue {
		out = append(out, t.For, t.Against)
	}
	for _, b := range c.Beats {
		out = append(out, b.Says, b.Lead, b.Feature, b.Model, b.Toward, b.Away, b.Opening, b.Feels, b.Closes)
		out = append(append(append(out, b.Checklist...), b.Never...), b.TeachBack...)
		for _, o := range b.Options {
			out = append(out, o.Text, o.Because)
		}
	}
	for _, f := range c.Flips {
		out = append(out, f.Says, f.Because)
	}
	return out
}
