package publish

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/proof"
	"keelpath/builder/sheetcode"
	"keelpath/builder/tree"
)

// A code carries who the reader speaks for and what they took off "About me": some hundred sheets of up to four topics, of each
// of which some lines are off. The client writes the code of what it would save, Go and the client read it alike, and
// the sheet that is opened with it says the same of the reader.
func TestCodeCarriesVoiceAndLines(t *testing.T) {
	l := load(t)
	book := sheetcode.BookOf(l, l.PatientTrees())
	script := clienttest.LoadAll(t, "state/state.ts", "state/kept.ts", "sheet/about.ts", "carry/sheetcode.ts")
	data, err := json.Marshal(plannerJSON(t, builtin(t)))
	if err != nil {
		t.Fatal(err)
	}
	carry, err := json.Marshal(map[string]any{"edition": book.Edition, "paths": book.Paths(), "voices": book.Voices()})
	if err != nil {
		t.Fatal(err)
	}
	if err := script.Run(fmt.Sprintf(`var data = %s, carry = %s;
var book = {...carry, trees: data.trees, general: data.general, cards: {}, facts: data.facts, fits: data.prompts, units: data.units, about: data.about};
book.prompts = data.themes.reduce((ids, t) => ids.concat(t.prompts), data.general.slice());
for (const id of Object.keys(data.cards)) book.cards[id] = {prompts: data.cards[id]};
function stateOf(kept, of) {
  const s = new script.State({...data, tells: (carry.voices.find((v) => v.id === of.voice) || {}).tells});
  s.open(kept);
  s.voice = of.voice;
  s.sitting.answerLeg(of.leg);
  return s;
}
const says = (s) => script.onSheet(s).map((one) => one.id).sort();
function carried(of) {
  const s = stateOf({...script.nothing(), voice: of.voice || undefined}, of);
  for (const topic of of.topics) { s.begin(topic.tree); for (const q of Object.keys(topic.given)) s.answer(topic.tree, q, topic.given[q]); }
  const leg = [].concat(...Object.keys(data.safety.leg).map((a) => data.safety.leg[a])); // in no code
  const all = script.sentences(s).map((one) => one.id).filter((id) => leg.indexOf(id) < 0);
  all.forEach((id, i) => { if (i %% of.each === 0) script.say(s, id, false); });
  const code = script.encode(book, s.toTake());
  const sheet = script.decode(book, code);
  const opened = stateOf({...script.nothing(), ...sheet}, of);
  return {code, all, off: (s.kept.unsaid || []).slice().sort(), voice: sheet.voice || "", unsaid: sheet.unsaid || [], said: says(s), again: says(opened)};
}
true`, data, carry), new(any)); err != nil {
		t.Fatal(err)
	}
	trees := l.PatientTrees()
	given := map[string][]tree.Answers{}
	for i, tr := range trees {
		for a := range proof.SomePaths(tr, 30, uint64(i)) {
			given[tr.ID.S] = append(given[tr.ID.S], a)
		}
	}
	type topic struct {
		Tree  string       `json:"tree"`
		Given tree.Answers `json:"given"`
	}
	type one struct {
		Topics []topic `json:"topics"`
		Voice  string  `json:"voice"`
		Leg    string  `json:"leg"`
		Each   int     `json:"each"`
	}
	rnd := rand.New(rand.NewPCG(12, 1))
	voices := []string{""}
	for _, v := range book.Voices() {
		voices = append(voices, v.ID)
	}
	if len(voices) != 3 {
		t.Fatalf("the edition has the voices %q", voices)
	}
	seen := map[string]bool{}
	for i := range 300 {
		of := one{Topics: []topic{}, Voice: voices[i%3], Leg: []string{"worn", "not-yet", "not-now"}[rnd.IntN(3)], Each: 1 + rnd.IntN(4)}
		at := rnd.Perm(len(trees))[:rnd.IntN(5)]
		slices.Sort(at) // in another order, other facts of a set may be the first that is told
		for _, k := range at {
			id := trees[k].ID.S
			of.Topics = append(of.Topics, topic{id, given[id][rnd.IntN(len(given[id]))]})
		}
		text, err := json.Marshal(of)
		if err != nil {
			t.Fatal(err)
		}
		var out struct {
			Code, Voice                   string
			All, Off, Unsaid, Said, Again []string
		}
		if err := script.Run("carried("+string(text)+")", &out); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		read, err := book.Decode(out.Code)
		switch {
		case err != nil || read.Voice != of.Voice || out.Voice != of.Voice:
			t.Fatalf("%s: %s is read as %v and by the client in the voice %q: %v", text, out.Code, read, out.Voice, err)
		case !slices.Equal(out.Off, read.Unsaid) || !slices.Equal(out.Off, out.Unsaid):
			t.Fatalf("%s: %s: off are %q, and Go reads %q, the client %q", text, out.Code, out.Off, read.Unsaid, out.Unsaid)
		case !slices.Equal(out.Said, out.Again):
			t.Fatalf("%s: %s: the sheet says %q, and once opened %q", text, out.Code, out.Said, out.Again)
		}
		for _, id := range out.Off {
			seen[id] = true
		}
	}
	if len(seen) < 150 {
		t.Errorf("only %d lines were off in any sheet", len(seen))
	}
	t.Logf("%d lines", len(seen))
}
