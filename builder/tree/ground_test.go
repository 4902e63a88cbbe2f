package tree_test

import (
	"os"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/tree"
)

// What an answer or a measure is shown as reaches the browser's table, and an unknown name does not.
func TestGround(t *testing.T) {
	src, err := os.ReadFile("../../trees/hills-and-ramps.yaml")
	if err != nil {
		t.Fatal(err)
	}
	read := func(src string) (tree.Table, string) {
		var list finding.List
		tr := tree.Parse("trees/hills-and-ramps.yaml", []byte(src), &list)
		found := ""
		for _, f := range list.Sorted() {
			found += f.Text + " " + strings.Join(f.Help, " ") + "\n"
		}
		return tr.Table(nil), found
	}
	table, found := read(string(src))
	if found != "" {
		t.Fatal(found)
	}
	if got := table.Questions["where"].Answers[0].Ground; got != "ramp-door" {
		t.Errorf("the first place is shown as %q", got)
	}
	if got := table.Questions["steepness"].Measure.Ground; got != "slope" {
		t.Errorf("a steepness is shown as %q", got)
	}
	table, found = read(strings.Replace(string(src), "ground: ramp-door", "ground: ramp-dor", 1))
	if got := table.Questions["where"].Answers[0].Ground; got != "" || !strings.Contains(found, `nearest: "ramp-door"`) {
		t.Errorf("shown as %q, and found: %s", got, found)
	}
}
