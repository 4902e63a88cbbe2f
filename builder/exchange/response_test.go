package exchange

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/clienttest"
	"keelpath/builder/internal/librarytest"
	"keelpath/builder/proof"
	"keelpath/builder/quantity"
	"keelpath/builder/tree"
)

type responseItem struct {
	LinkID string           `json:"linkId"`
	Answer []responseAnswer `json:"answer"`
	Item   []responseItem   `json:"item"`
}

type responseAnswer struct {
	ValueCoding   *coding `json:"valueCoding"`
	ValueQuantity *amount `json:"valueQuantity"`
	Item          []any   `json:"item"`
}

// What the page's script writes of a reader's answers: typed parsers take it,
// it fits the Questionnaire item by item, and the form filled with it shows the
// questions and the ending of the path.
func TestResponses(t *testing.T) {
	l := librarytest.Load(t)
	c := newChecker(t)
	script := clienttest.Load(t, "carry/response.ts")
	units := script.Value(quantity.Table())
	rnd := rand.New(rand.NewPCG(6, 6))
	files := map[string][]byte{}
	measured := 0
	for _, w := range written(t, l) {
		table, form := script.Value(w.Tree.Table(nil)), script.Value(w.Form)
		f := newFiller(t, w.JSON)
		n := 0
		for given := range proof.SomePaths(w.Tree, 400, 12) {
			p, err := w.Tree.Walk(given)
			if err != nil {
				t.Fatal(err)
			}
			if n++; n%5 == 0 { // a path that is left open
				delete(given, p.Steps[rnd.IntN(len(p.Steps))].Question)
				p, _ = w.Tree.Walk(given)
			}
			by := []string{"", "A parent, for their child"}[n%2]
			v, err := script.Call("response", table, form, script.Value(given), units, script.Value(by))
			if err != nil {
				t.Fatal(err)
			}
			text := v.String()
			if n <= 40 {
				files[fmt.Sprint(w.Tree.ID.S, n)] = []byte(text)
				for _, fault := range c.faults([]byte(text)) {
					t.Fatalf("%s\n%s", fault, text)
				}
			}
			replies, has := fits(t, f, w, text, p.Ending != "", by)
			measured += has
			if diff := cmp.Diff(walked(p), f.seen(w.Tree, replies)); diff != "" {
				t.Fatalf("%v: the path (-) and the form filled with the response (+):\n%s\n%s", given, diff, text)
			}
		}
	}
	if measured < 75 {
		t.Errorf("only %d amounts were among the answers", measured)
	}
	for name, found := range c.validate(files) {
		for _, fault := range found {
			t.Errorf("%s: npm fhir: %s\n%s", name, fault, files[name])
		}
	}
}

// fits holds a response against its Questionnaire and against who gave the answers for another, and gives them.
func fits(t *testing.T, f *filler, w Written, text string, whole bool, by string) (replies map[string]reply, amounts int) {
	t.Helper()
	var r struct {
		ResourceType, Questionnaire, Status string
		Source                              map[string]string
		Item                                []responseItem
	}
	var all map[string]any
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		t.Fatal(err)
	}
	var source map[string]string
	if by != "" {
		source = map[string]string{"type": "RelatedPerson", "display": by}
	}
	if diff := cmp.Diff(source, r.Source); diff != "" {
		t.Fatalf("who answered:\n%s", diff)
	}
	for key := range all {
		if !slices.Contains([]string{"resourceType", "questionnaire", "status", "source", "item"}, key) {
			t.Fatalf("the response holds %q", key)
		}
	}
	if want := map[bool]string{true: "completed", false: "in-progress"}[whole]; r.Status != want || r.Questionnaire != w.Form.Questionnaire {
		t.Fatalf("status %q of %q", r.Status, r.Questionnaire)
	}
	replies = map[string]reply{}
	byID := map[string]*shownItem{}
	for _, i := range f.items {
		byID[i.LinkID] = i
	}
	var visit func(in []responseItem, around *shownItem)
	visit = func(in []responseItem, around *shownItem) {
		for _, i := range in {
			of := byID[i.LinkID]
			if of == nil || of.around != around {
				t.Fatalf("the form has no item %q there:\n%s", i.LinkID, text)
			}
			if len(i.Answer) > 1 && !of.Repeats {
				t.Fatalf("%q has several answers", i.LinkID)
			}
			for _, a := range i.Answer {
				if len(i.Item) > 0 && len(a.Item) > 0 {
					t.Fatalf("qrs-1: %q has items of both kinds", i.LinkID)
				}
				switch {
				case a.ValueCoding != nil:
					if !slices.ContainsFunc(of.AnswerOption, func(o option) bool {
						return o.ValueCoding.System == a.ValueCoding.System && o.ValueCoding.Code == a.ValueCoding.Code
					}) {
						t.Fatalf("%q has no option %v", i.LinkID, a.ValueCoding)
					}
					replies[i.LinkID] = reply{codes: append(replies[i.LinkID].codes, a.ValueCoding.Code)}
				case a.ValueQuantity != nil:
					unit := of.Extension[0].ValueCoding
					if of.Type != "quantity" || a.ValueQuantity.Code != unit.Code || a.ValueQuantity.System != ucum {
						t.Fatalf("%q does not take %v", i.LinkID, a.ValueQuantity)
					}
					x, err := strconv.ParseFloat(string(a.ValueQuantity.Value), 64)
					if err != nil {
						t.Fatal(err)
					}
					replies[i.LinkID] = reply{amount: &x}
					amounts++
				default:
					t.Fatalf("%q has an answer of another kind", i.LinkID)
				}
			}
			visit(i.Item, of)
		}
	}
	visit(r.Item, nil)
	return replies, amounts
}

// The words of the planner's data go along where they are there; an empty
// response has no items.
func TestResponseWords(t *testing.T) {
	script := clienttest.Load(t, "carry/response.ts")
	table := script.Value(map[string]any{
		"id": "t", "start": "q", "endings": map[string]any{"e": map[string]any{}},
		"questions": map[string]any{"q": map[string]any{"text": "So?", "left": 0, "answers": []any{map[string]any{"id": "yes", "text": "Yes", "go": "e"}}}},
	})
	form := script.Value(Form{Questionnaire: "urn:x|1", System: "urn:x"})
	for _, c := range []struct {
		given tree.Answers
		want  string
	}{
		{tree.Answers{"q": {"yes"}}, `{"resourceType":"QuestionnaireResponse","questionnaire":"urn:x|1","status":"completed","item":[{"linkId":"q","text":"So?","answer":[{"valueCoding":{"system":"urn:x:q","code":"yes","display":"Yes"}}]}]}`},
		{tree.Answers{}, `{"resourceType":"QuestionnaireResponse","questionnaire":"urn:x|1","status":"in-progress"}`},
	} {
		v, err := script.Call("response", table, form, script.Value(c.given))
		if err != nil {
			t.Fatal(err)
		}
		var got, want any
		if err := json.Unmarshal([]byte(v.String()), &got); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(c.want), &want); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Error(diff)
		}
	}
}
