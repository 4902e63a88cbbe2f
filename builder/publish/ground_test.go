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
