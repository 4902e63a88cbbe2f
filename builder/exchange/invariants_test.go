package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"keelpath/builder/internal/librarytest"
)

// free is an item as it stands in the JSON, whatever fields it has.
type free = map[string]any

var typesR4 = strings.Fields("group display boolean decimal integer date dateTime time string text url choice open-choice attachment reference quantity")

var simpleTypes = strings.Fields("boolean decimal integer string text url open-choice")

// breaks lists where a Questionnaire breaks a rule of HL7 FHIR R4 (que-0 to
// que-13, as the standard's page of the resource numbers them) or our own.
func breaks(data []byte) []string {
	var q free
	if err := json.Unmarshal(data, &q); err != nil {
		return []string{err.Error()}
	}
	c := &invariants{links: map[string]free{}}
	if name, ok := q["name"].(string); ok && !regexp.MustCompile(`^[A-Z]([A-Za-z0-9_]){0,254}$`).MatchString(name) {
		c.bad("que-0", name)
	}
	c.items(q["item"])
	c.conditions(q["item"])
	return c.found
}

type invariants struct {
	found []string
	links map[string]free
	order []string
}

func (c *invariants) bad(rule, what string) { c.found = append(c.found, rule+": "+what) }

func list(v any) []free {
	var out []free
	all, _ := v.([]any)
	for _, x := range all {
		if m, ok := x.(free); ok {
			out = append(out, m)
		}
	}
	return out
}

func has(i free, keys ...string) bool {
	return slices.ContainsFunc(keys, func(k string) bool { _, ok := i[k]; return ok })
}

func (c *invariants) items(v any) {
	for _, i := range list(v) {
		link, _ := i["linkId"].(string)
		kind, _ := i["type"].(string)
		when, initial := list(i["enableWhen"]), list(i["initial"])
		if link == "" || c.links[link] != nil {
			c.bad("que-2", link)
		}
		c.links[link] = i
		check := func(rule string, ok bool) {
			if !ok {
				c.bad(rule, link)
			}
		}
		check("type", slices.Contains(typesR4, kind))
		check("que-1", (kind != "group" || has(i, "item")) && (kind != "display" || !has(i, "item")))
		check("que-3", kind != "display" || !has(i, "code"))
		check("que-4", !has(i, "answerOption") || !has(i, "answerValueSet"))
		check("que-5", slices.Contains(strings.Fields("choice open-choice decimal integer date dateTime time string quantity"), kind) || !has(i, "answerOption", "answerValueSet"))
		check("que-6", kind != "display" || !has(i, "required", "repeats"))
		for _, w := range when {
			_, isBool := w["answerBoolean"].(bool)
			check("que-7", w["operator"] != "exists" || isBool)
		}
		check("que-8", kind != "group" && kind != "display" || !has(i, "initial"))
		check("que-9", kind != "display" || !has(i, "readOnly"))
		check("que-10", slices.Contains(simpleTypes, kind) || !has(i, "maxLength"))
		check("que-11", !has(i, "answerOption") || !has(i, "initial"))
		check("que-12", len(when) < 2 || has(i, "enableBehavior"))
		check("que-13", len(initial) < 2 || i["repeats"] == true)
		c.items(i["item"])
	}
}

// conditions holds ours-1: what a condition asks for stands earlier, takes that
// kind of answer, and has that option or that unit.
func (c *invariants) conditions(v any) {
	for _, i := range list(v) {
		for _, w := range list(i["enableWhen"]) {
			asked, _ := w["question"].(string)
			at := fmt.Sprint(i["linkId"], " asks for ", asked)
			of := c.links[asked]
			if of == nil || !slices.Contains(c.order, asked) {
				c.bad("ours-1", at+", which does not stand before it")
				continue
			}
			kind := of["type"]
			switch {
			case has(w, "answerBoolean"):
				if w["operator"] != "exists" || kind == "group" || kind == "display" {
					c.bad("ours-1", at)
				}
			case has(w, "answerCoding"):
				a := w["answerCoding"].(free)
				if kind != "choice" || !slices.ContainsFunc(list(of["answerOption"]), func(o free) bool {
					v := o["valueCoding"].(free)
					return v["system"] == a["system"] && v["code"] == a["code"]
				}) {
					c.bad("ours-1", fmt.Sprint(at, ": no option ", a))
				}
			case has(w, "answerQuantity"):
				a := w["answerQuantity"].(free)
				ext := list(of["extension"])
				if kind != "quantity" || len(ext) != 1 || ext[0]["valueCoding"].(free)["code"] != a["code"] || a["system"] != ucum {
					c.bad("ours-1", fmt.Sprint(at, ": another unit ", a))
				}
			default:
				c.bad("ours-1", at+" with no answer that is known")
			}
		}
		c.order = append(c.order, fmt.Sprint(i["linkId"]))
		c.conditions(i["item"])
	}
}

func TestInvariants(t *testing.T) {
	for _, w := range written(t, librarytest.Load(t)) {
		if bad := breaks(w.JSON); len(bad) > 0 {
			t.Errorf("%s: %v", w.Tree.ID.S, bad)
		}
	}
}

// Each rule is broken once, so that a rule which finds nothing is found out.
func TestInvariantsFindFaults(t *testing.T) {
	const base = `{"name":"%s","item":[{"linkId":"a","type":"choice","repeats":true,"answerOption":[{"valueCoding":{"system":"s","code":"x"}}]%s},{"linkId":"b","type":"display"%s},{"linkId":"c","type":"group"%s}]}`
	child := `,"item":[{"linkId":"d","type":"display"}]`
	for _, c := range []struct{ rule, name, a, b, c string }{
		{"", "Good", "", `,"enableWhen":[{"question":"a","operator":"=","answerCoding":{"system":"s","code":"x"}}]`, child},
		{"que-0", "small", "", "", child},
		{"que-1", "Good", "", `,"item":[{"linkId":"e","type":"display"}]`, child},
		{"que-1", "Good", "", "", ""},
		{"que-2", "Good", "", "", `,"item":[{"linkId":"a","type":"display"}]`},
		{"que-3", "Good", "", `,"code":[]`, child},
		{"que-4", "Good", `,"answerValueSet":"v"`, "", child},
		{"que-5", "Good", "", `,"answerOption":[]`, child},
		{"que-6", "Good", "", `,"required":true`, child},
		{"que-7", "Good", "", `,"enableWhen":[{"question":"a","operator":"exists","answerCoding":{"system":"s","code":"x"}}]`, child},
		{"que-8", "Good", "", `,"initial":[]`, child},
		{"que-9", "Good", "", `,"readOnly":true`, child},
		{"que-10", "Good", `,"maxLength":3`, "", child},
		{"que-11", "Good", `,"initial":[{}]`, "", child},
		{"que-12", "Good", "", `,"enableWhen":[{"question":"a","operator":"exists","answerBoolean":true},{"question":"a","operator":"exists","answerBoolean":true}]`, child},
		{"que-13", "Good", `,"repeats":false,"initial":[{},{}]`, "", child},
		{"ours-1", "Good", "", `,"enableWhen":[{"question":"c","operator":"exists","answerBoolean":true}]`, child},
		{"ours-1", "Good", "", `,"enableWhen":[{"question":"a","operator":"=","answerCoding":{"system":"s","code":"y"}}]`, child},
		{"ours-1", "Good", "", `,"enableWhen":[{"question":"a","operator":">","answerQuantity":{"value":1,"code":"mm"}}]`, child},
	} {
		got := breaks([]byte(fmt.Sprintf(base, c.name, c.a, c.b, c.c)))
		if c.rule == "" && len(got) > 0 || c.rule != "" && !slices.ContainsFunc(got, func(s string) bool { return strings.HasPrefix(s, c.rule+":") }) {
			t.Errorf("%s was broken, and found was %v", c.rule, got)
		}
	}
}

// The same content gives the same bytes; other content another version.
func TestSameBytes(t *testing.T) {
	l := librarytest.Load(t)
	one, two := written(t, l), written(t, librarytest.Load(t))
	for i := range one {
		if !bytes.Equal(one[i].JSON, two[i].JSON) {
			t.Errorf("%s: two builds differ", one[i].Tree.ID.S)
		}
	}
	tr := l.Trees[0]
	tr.Title.S += "!"
	other, err := write(l, tr, &sync.Map{})
	if err != nil {
		t.Fatal(err)
	}
	if other.Form.Questionnaire == one[0].Form.Questionnaire {
		t.Error("another title, and the version is the same")
	}
}

// No order, no score, no level, no person: neither as a field nor as a resource.
func TestNoOrderNoScoreNoPerson(t *testing.T) {
	for _, w := range written(t, librarytest.Load(t)) {
		for _, word := range []string{`"subjectType"`, `"subject"`, `"author"`, `"publisher"`, `"date"`, `"contact"`, "ServiceRequest", "DeviceRequest", "ordinalValue", `"initial"`, `"code": "score`} {
			if bytes.Contains(w.JSON, []byte(word)) {
				t.Errorf("%s: the form holds %s", w.Tree.ID.S, word)
			}
		}
	}
}
