package publish

import (
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"keelpath/builder/exchange"
	"keelpath/builder/quantity"
	"keelpath/builder/safety"
	"keelpath/builder/search"
)

var refresh = flag.Bool("refresh", false, "write the client's types anew from the structs")

// blocks are what the build writes as JSON for the client.
var blocks = []any{data{}, part{}, dataPulls{}, figureData{}, groundPart{}, dataSearch{}, search.First{}, search.Text{}, exchange.Form{}}

// Of types that hold less than Go can say, what they hold.
var spelled = map[string]string{
	"formula.Coded":    `number | boolean | string | [string, ...Coded[]]`,
	"figure.codedPart": `string | ["n", formula.Coded]`,
	"quantity.Kind":    oneOf(slices.Sorted(maps.Keys(quantity.Table().Kinds))),
	"safety.When":      oneOf(safety.Whens),
}

func oneOf[S ~string](all []S) string {
	var out []string
	for _, one := range all {
		out = append(out, fmt.Sprintf("%q", one))
	}
	return strings.Join(out, " | ")
}

// The client's types of what the build writes are made of the structs' tags, one file
// a package.
func TestClientTypes(t *testing.T) {
	w := typeWriter{t: t, files: map[string]*typeFile{}, seen: map[reflect.Type]bool{}}
	for _, b := range blocks {
		w.name(reflect.TypeOf(b), "")
	}
	dir := "../../site/client/types"
	names, err := filepath.Glob(dir + "/*.ts")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if w.files[strings.TrimSuffix(filepath.Base(name), ".ts")] == nil {
			t.Errorf("%s holds types that nothing is written by; delete it", name)
		}
	}
	for room, f := range w.files {
		name, want := filepath.Join(dir, room+".ts"), f.text(room)
		if *refresh {
			if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := os.ReadFile(name); err != nil || string(got) != want {
			t.Errorf("%s does not say what builder/%s writes (%v); run this test with -refresh", name, room, err)
		}
	}
}

// typeWriter writes the types that are asked for, and those that they need.
type typeWriter struct {
	t     *testing.T
	files map[string]*typeFile // by the last word of the package's path
	seen  map[reflect.Type]bool
}

type typeFile struct {
	uses  map[string]bool // other packages
	types map[string]string
}

func (f *typeFile) text(room string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "// What builder/%s gives the client as JSON. A test writes this with -refresh (builder/publish/types_test.go)\n// from the structs there, which say what each field is.\n", room)
	if len(f.uses) > 0 {
		b.WriteString("\n")
	}
	for _, other := range slices.Sorted(maps.Keys(f.uses)) {
		fmt.Fprintf(&b, "import * as %s from \"./%s\";\n", other, other)
	}
	for _, name := range slices.Sorted(maps.Keys(f.types)) {
		b.WriteString("\n" + f.types[name])
	}
	return b.String()
}

// name gives what a type is called in the file of a package, and sees that it is written.
func (w *typeWriter) name(of reflect.Type, in string) string {
	room := path.Base(of.PkgPath())
	if w.files[room] == nil {
		w.files[room] = &typeFile{map[string]bool{}, map[string]string{}}
	}
	first, rest := []rune(of.Name())[0], of.Name()[1:]
	name := string(unicode.ToUpper(first)) + rest
	if !w.seen[of] {
		w.seen[of] = true
		w.files[room].types[name] = w.declared(of, name, room)
	}
	if in == room || in == "" {
		return name
	}
	w.files[in].uses[room] = true
	return room + "." + name
}

func (w *typeWriter) declared(of reflect.Type, name, room string) string {
	if says, ok := spelled[of.String()]; ok {
		if strings.Contains(says, "formula.") {
			w.files[room].uses["formula"] = true
		}
		return fmt.Sprintf("export type %s = %s;\n", name, says)
	}
	head, body := "export interface "+name, ""
	for i := range of.NumField() {
		f := of.Field(i)
		if f.Anonymous {
			head += " extends " + w.name(f.Type, room)
			continue
		}
		key, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
		if key == "" || key == "-" {
			w.t.Errorf("%s.%s has no name in JSON", of, f.Name)
		}
		if rest == "omitempty" {
			key += "?"
		}
		body += fmt.Sprintf("  %s: %s;\n", key, w.typed(f.Type, room))
	}
	return head + " {\n" + body + "}\n"
}

// typed says a field's type in the words of TypeScript.
func (w *typeWriter) typed(of reflect.Type, in string) string {
	if _, ok := spelled[of.String()]; ok || of.Kind() == reflect.Struct {
		return w.name(of, in)
	}
	switch of.Kind() {
	case reflect.Bool:
		return "boolean"
	case reflect.String:
		return "string"
	case reflect.Int, reflect.Int64, reflect.Float64:
		return "number"
	case reflect.Pointer:
		return w.typed(of.Elem(), in)
	case reflect.Map:
		return "{ [key: string]: " + w.typed(of.Elem(), in) + " }"
	case reflect.Array:
		return "[" + strings.Repeat(", "+w.typed(of.Elem(), in), of.Len())[2:] + "]"
	case reflect.Slice:
		if one := w.typed(of.Elem(), in); strings.Contains(one, " ") {
			return "(" + one + ")[]"
		} else {
			return one + "[]"
		}
	}
	w.t.Errorf("no word for %s", of)
	return "unknown"
}

// A list or a map that is nil would be null, which no type of the client's allows.
func TestNothingForTheClientIsNull(t *testing.T) {
	for page, id := range map[string]string{plannerName: "planner-data", pullsName: "pulls-data", "workbench/heel-change.html": "figure-data"} {
		var block any
		if err := json.Unmarshal([]byte(byID(t, pageNamed(t, builtin(t), page), id).FirstChild.Data), &block); err != nil {
			t.Fatal(err)
		}
		for _, at := range nulls(block, "") {
			t.Errorf("%s: %s%s is null", page, id, at)
		}
	}
	texts, _ := partJSON(t, builtin(t))
	for name, text := range texts {
		var block any
		if err := json.Unmarshal(text, &block); err != nil {
			t.Fatal(err)
		}
		for _, at := range nulls(block, "") {
			t.Errorf("part %s: %s is null", name, at)
		}
	}
}

// nulls gives the places of what is null.
func nulls(v any, at string) (out []string) {
	switch v := v.(type) {
	case nil:
		return []string{at}
	case []any:
		for i, one := range v {
			out = append(out, nulls(one, fmt.Sprintf("%s[%d]", at, i))...)
		}
	case map[string]any:
		for key, one := range v {
			out = append(out, nulls(one, at+"."+key)...)
		}
	}
	return out
}
