package tree_test

import (
	"os"
	"path/filepath"
	"slices"
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

// No two answers of one question are shown as the same thing, and no "not sure" or "no" is shown as any.
func TestGroundTellsAnswersApart(t *testing.T) {
	files, err := filepath.Glob("../../trees/*.yaml")
	if err != nil || len(files) < 15 {
		t.Fatalf("%d trees, %v", len(files), err)
	}
	shown := 0
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var list finding.List
		tr := tree.Parse(file, src, &list)
		if tr == nil {
			continue
		}
		for _, q := range tr.Questions {
			seen := map[string]string{}
			for _, a := range q.Answers {
				ground := a.Ground.S
				if ground == "" {
					continue
				}
				shown++
				if other, ok := seen[ground]; ok {
					t.Errorf("%s: %q and %q of %q are both shown as %q", file, other, a.ID.S, q.ID.S, ground)
				}
				if a.ID.S == tree.Unsure || a.ID.S == "no" || a.ID.S == "yes" {
					t.Errorf("%s: %q of %q is no thing, and is shown as %q", file, a.ID.S, q.ID.S, ground)
				}
				seen[ground] = a.ID.S
			}
		}
	}
	if shown < 100 {
		t.Errorf("only %d answers are shown as anything", shown)
	}
}

// An ending's picture goes with the questions that tell its amounts, in the picture's order and not in that of their names.
func TestOwnPictures(t *testing.T) {
	for file, want := range map[string]struct {
		ending, picture string
		of              []string
	}{
		"heel-height":      {"small-gap", "heels", []string{"usual", "other"}},
		"hills-and-ramps":  {"own-knee", "slope", []string{"steepness"}},
		"loads-and-weight": {"heavy-load", "load", []string{"carried"}},
		"uneven-ground":    {"side-slope", "side-slope", []string{"across"}},
	} {
		src, err := os.ReadFile("../../trees/" + file + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		var list finding.List
		tr := tree.Parse("trees/"+file+".yaml", src, &list)
		own := tr.Table(nil).Endings[want.ending].Own
		if own == nil || own.Name != want.picture || !slices.Equal(own.Of, want.of) {
			t.Errorf("%s ends at %q with %+v, want %s of %v", file, want.ending, own, want.picture, want.of)
		}
	}
}
