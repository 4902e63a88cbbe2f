package publish

import (
	"encoding/json"
	"strings"
	"testing"

	"keelpath/builder/drawing"
)

// Each topic's script of drawings has every tile that its answers name, and no other; the first has one for each topic.
func TestGroundParts(t *testing.T) {
	l := load(t)
	read := func(data []byte, err error) groundPart {
		t.Helper()
		text, ok := strings.CutSuffix(strings.TrimPrefix(string(data), "keelpathGround.take("), ");\n")
		var p groundPart
		if err == nil {
			err = json.Unmarshal([]byte(text), &p)
		}
		if err != nil || !ok {
			t.Fatalf("%v in %.80s", err, data)
		}
		return p
	}
	parts := groundParts(l.PatientTrees())
	if len(parts) < 10 {
		t.Errorf("only %d topics show anything", len(parts))
	}
	of := map[string]groundPart{}
	for _, e := range parts {
		of[e.from] = read(e.behind(nil))
	}
	for _, tr := range l.PatientTrees() {
		names := tr.Grounds()
		got := of[groundOfTree(tr.ID.S)]
		if len(got.Tiles) != len(names) {
			t.Errorf("%s names %d tiles, and its script has %d", tr.ID.S, len(names), len(got.Tiles))
		}
		for _, name := range names {
			if got.Tiles[name].Body == "" {
				t.Errorf("%s: no tile %q", tr.ID.S, name)
			}
		}
	}
	for _, name := range firstTiles(l.PatientTrees()) {
		if _, ok := drawing.TileShape(name); !ok {
			t.Errorf("no tile %q", name)
		}
	}
}

// Each kind of foot that an ending names can be shown cut open.
func TestKindsAtEndingsHaveCuts(t *testing.T) {
	l := load(t)
	named := map[string]string{}
	for _, tr := range l.PatientTrees() {
		for _, e := range tr.Endings {
			for _, talk := range e.Types {
				named[talk.Type.S] = tr.ID.S + "/" + e.ID.S
			}
		}
	}
	if len(named) < 10 {
		t.Errorf("endings name only %d kinds of feet", len(named))
	}
	data, err := (&maker{lib: l}).cuts()
	if err != nil {
		t.Fatal(err)
	}
	text, ok := strings.CutSuffix(strings.TrimPrefix(string(data), "keelpathCuts = "), ";\n")
	cuts := map[string]groundShape{}
	if err := json.Unmarshal([]byte(text), &cuts); err != nil || !ok {
		t.Fatalf("%v in %.80s", err, data)
	}
	for kind, at := range named {
		if cuts[kind].Body == "" {
			t.Errorf("%s names the kind %q, which has no cutaway", at, kind)
		}
	}
}

// Each drawing of what to do that an ending or a card names comes when it is asked for, and stands whole on the paper page; the topic's own part has its name alone.
func TestShownDrawings(t *testing.T) {
	l := load(t)
	data, err := (&maker{lib: l}).shown()
	if err != nil {
		t.Fatal(err)
	}
	text, ok := strings.CutSuffix(strings.TrimPrefix(string(data), "keelpathShown = "), ";\n")
	shown := map[string]string{}
	if err := json.Unmarshal([]byte(text), &shown); err != nil || !ok {
		t.Fatalf("%v in %.80s", err, data)
	}
	out, named, times := builtin(t), 0, map[[2]string]int{}
	of := func(tr, called, id string) {
		if id == "" {
			return
		}
		named++
		times[[2]string{tr, id}]++
		if !strings.HasPrefix(shown[id], "<svg") {
			t.Errorf("%s names the drawing %q, and the script has %.20q", called, id, shown[id])
		}
	}
	for _, tr := range l.PatientTrees() {
		for _, e := range tr.Endings {
			of(tr.ID.S, "at-"+tr.ID.S+"-"+e.ID.S, e.Drawing.S)
		}
		for _, id := range tr.Cards() {
			of(tr.ID.S, "card-"+id, l.Card(id).Drawing.S)
		}
	}
	for at, n := range times {
		page, id := string(out.files["prepare/"+at[0]+".html"]), at[1]
		if strings.Count(page, `<figure class="shown" id="drawn-`+id+`">`) != 1 || strings.Count(page, `href="#drawn-`+id+`"`) != n-1 {
			t.Errorf("the paper page of %s does not show %q once, with a link from each of %d others that name it", at[0], id, n-1)
		}
	}
	if named < 20 {
		t.Errorf("only %d endings and cards name a drawing", named)
	}
	for _, one := range []string{"up-from-the-floor", "seat-and-grips", "over-ice", "sole-in-a-mirror", "slope-with-a-phone", "heel-with-a-ruler"} {
		if shown[one] == "" {
			t.Errorf("no ending names the drawing %q", one)
		}
	}
}
