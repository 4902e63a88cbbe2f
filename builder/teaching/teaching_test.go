package teaching_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/teaching"
)

// shipped reads the cases of the built-in content.
func shipped(t *testing.T) []*teaching.Case {
	t.Helper()
	files, err := filepath.Glob("../../trees/cases/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	var out []*teaching.Case
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var list finding.List
		c := teaching.Read(read.Choice{}, file, src, &list)
		if c == nil || list.Errors() > 0 {
			t.Fatalf("%s: %v", file, list.Sorted())
		}
		out = append(out, c)
	}
	return out
}

// The order in which options are shown rests on their ids alone: the same in each build, and
// whichever way the file has them. Every option is shown once.
func TestShownOrder(t *testing.T) {
	seen := 0
	for _, c := range shipped(t) {
		for _, b := range c.Beats {
			if len(b.Options) == 0 || b.Format.S == teaching.Ask {
				continue
			}
			seen++
			ids := func() []string {
				var out []string
				for _, o := range b.Shown(c) {
					out = append(out, o.ID.S)
				}
				return out
			}
			before := ids()
			slices.Reverse(b.Options)
			if after := ids(); !slices.Equal(before, after) {
				t.Errorf("%s, %s: %v, and %v from a file in another order", c.ID, b.ID, before, after)
			}
			slices.Sort(before)
			if len(slices.Compact(before)) != len(b.Options) {
				t.Errorf("%s, %s: %v", c.ID, b.ID, before)
			}
		}
	}
	if seen < 4 {
		t.Errorf("only %d beats have options", seen)
	}
}

// Over many questions the key is shown in each place about as often as in any other.
func TestKeyPlaces(t *testing.T) {
	const beats, options = 2000, 4
	var at [options]int
	for i := range beats {
		b := &teaching.Beat{ID: read.Text{S: "beat-" + strings.Repeat("x", i%40) + string(rune('a'+i/40))}, Format: read.Text{S: teaching.OneBest}, Key: []read.Text{{S: "a"}}}
		for _, id := range []string{"a", "b", "c", "d"} {
			b.Options = append(b.Options, &teaching.Option{ID: read.Text{S: id}})
		}
		at[slices.IndexFunc(b.Shown(&teaching.Case{ID: read.Text{S: "case"}}), b.IsKey)]++
	}
	for place, n := range at { // 500 expected; four standard deviations are 77
		if n < 423 || n > 577 {
			t.Errorf("the key stands in place %d %d times of %d", place+1, n, beats)
		}
	}
}

// Causes stand in the trade's order, whatever the file's.
func TestInOrder(t *testing.T) {
	seen := false
	for _, c := range shipped(t) {
		for _, b := range c.Beats {
			last := -1
			for _, o := range b.InOrder() {
				if b.Format.S != teaching.Order {
					break
				}
				seen = true
				now := slices.Index(teaching.Causes, o.Cause.S)
				if now <= last {
					t.Errorf("%s, %s: %s stands behind a later cause", c.ID, b.ID, o.ID)
				}
				last = now
			}
		}
	}
	if !seen {
		t.Error("no beat has an order")
	}
}

// The blueprint counts a beat once for each of its tasks, and names what nothing covers.
func TestBlueprint(t *testing.T) {
	beat := func(format string, tasks ...string) *teaching.Beat {
		b := &teaching.Beat{ID: read.Text{S: format}, Format: read.Text{S: format}}
		for _, id := range tasks {
			b.Tasks = append(b.Tasks, read.Text{S: id})
		}
		return b
	}
	c := &teaching.Case{Limb: read.Text{S: "ankle"}, Minutes: 12, Tasks: []read.Text{{S: "gait"}, {S: "load"}}, Beats: []*teaching.Beat{
		beat(teaching.Write, "gait", "load"), beat(teaching.Shift, "load"),
	}}
	b := teaching.BlueprintOf([]*teaching.Case{c, c})
	if b.Beats["load"][teaching.Write] != 2 || b.Beats["load"][teaching.Shift] != 2 || b.Beats["gait"][teaching.Shift] != 0 {
		t.Errorf("beats: %v", b.Beats)
	}
	if b.Formats[teaching.Write] != 2 || b.Cases["gait"] != 2 || b.Limbs["ankle"] != 2 || b.Minutes != 24 {
		t.Errorf("%+v", b)
	}
	missing := b.Missing()
	if len(missing) != len(teaching.Tasks)-2+len(teaching.Formats)-2+len(teaching.Limbs)-1 || !slices.Contains(missing, "task red-flags") || slices.Contains(missing, "limb ankle") {
		t.Errorf("missing: %v", missing)
	}
	var out strings.Builder
	if err := b.Print(&out); err != nil || !strings.Contains(out.String(), "no case yet: task history") || !strings.Contains(out.String(), "minutes: 24") {
		t.Errorf("%v\n%s", err, out.String())
	}
}
