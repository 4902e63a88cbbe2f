// Package schema describes every YAML format as a JSON Schema, so that an editor
// can complete and check a file while it is written. It says what a file may
// look like; what names mean, and where a tree leads, only the checker knows.
//
// The formats stand in formats.go as tables. Tests hold them against the
// reader: what the one refuses for its shape, the other refuses too.
package schema

import (
	"bytes"
	"encoding/json"

	"keelpath/builder/read"
)

// Kind is one format.
type Kind struct {
	ID   string // "tree"
	File string // where such a file lies: "trees/ID.yaml"
	Says string // what it is for, in one line
	form form
}

// Kinds gives all formats, trees first.
func Kinds() []Kind { return kinds() }

// Find gives the format with that id.
func Find(id string) (Kind, bool) {
	for _, k := range kinds() {
		if k.ID == id {
			return k, true
		}
	}
	return Kind{}, false
}

// FileName is the name of the schema's file.
func (k Kind) FileName() string { return k.ID + ".schema.json" }

// JSON gives the schema, the same bytes each time.
func (k Kind) JSON() []byte {
	top := form{
		"$schema":     "https://json-schema.org/draft/2020-12/schema",
		"title":       "Keelpath " + k.ID,
		"description": k.Says + " File: " + k.File,
	}
	for key, v := range k.form {
		top[key] = v
	}
	top["$defs"] = form{"spoken": spoken()}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(top); err != nil {
		panic(err) // a table of texts and numbers can always be written
	}
	return b.Bytes()
}

// form is a schema as it is written out.
type form map[string]any

// key is one key of a mapping. A key that is not needed may be left empty.
type key struct {
	name string
	need bool
	says string
	is   form
}

const (
	need = true
	may  = false
)

// keys is a mapping with exactly these keys.
func keys(all ...key) form {
	props, needed := form{}, []string{}
	for _, k := range all {
		is := form{"description": k.says}
		for name, v := range k.is {
			is[name] = v
		}
		if k.need {
			needed = append(needed, k.name)
		} else {
			is = orNothing(is)
		}
		props[k.name] = is
	}
	out := form{"type": "object", "properties": props, "additionalProperties": false}
	if len(needed) > 0 {
		out["required"] = needed
	}
	return out
}

// orNothing lets a key stand with no value behind it, which counts as left out.
func orNothing(f form) form {
	switch t := f["type"].(type) {
	case string:
		f["type"] = []string{t, "null"}
	case []string:
		f["type"] = append(append([]string{}, t...), "null")
	}
	if all, ok := f["enum"].([]any); ok {
		f["enum"] = append(append([]any{}, all...), nil)
	}
	if any, ok := f["anyOf"].([]form); ok {
		f["anyOf"] = append(append([]form{}, any...), form{"type": "null"})
	}
	return f
}

// with adds rules to a form.
func (f form) with(more form) form {
	out := form{}
	for name, v := range f {
		out[name] = v
	}
	for name, v := range more {
		out[name] = v
	}
	return out
}

// The single values. YAML takes 12 for a number and the reader takes it for a
// text, so a text may be either.

func text() form {
	return form{"type": []string{"string", "number", "boolean"}, "pattern": `\S`}
}

// line is a text that may be empty.
func line() form { return form{"type": []string{"string", "number", "boolean"}} }

// words is a text that readers see: one, or one in each voice, or several, each for a place.
func words() form {
	return form{"anyOf": []form{text(), {"$ref": spokenRef}, some(form{"$ref": spokenRef})}}
}

// wordsOrNone is words that may be empty.
func wordsOrNone() form {
	return form{"anyOf": []form{line(), {"$ref": spokenRef}, some(form{"$ref": spokenRef})}}
}

// wordsOrNull is words, or a key that says nothing.
func wordsOrNull() form {
	return form{"anyOf": []form{text(), {"$ref": spokenRef}, some(form{"$ref": spokenRef}), {"type": "null"}}}
}

const spokenRef = "#/$defs/spoken"

// spoken is a text for a place, or in each voice.
func spoken() form {
	place := key{"place", may, "The place that it is for, or a list of them; for all where it is left out.", oneOrMore()}
	voices := []key{place}
	for _, v := range read.Voices {
		voices = append(voices, key{v, need, "The text in the voice " + v + ".", text()})
	}
	return anyOf(keys(place, key{"says", need, "The text, in a voice that suits all.", text()}), keys(voices...))
}

const (
	idForm  = `^[a-z0-9]+(-[a-z0-9]+)*$`
	idLimit = 60
)

func id() form {
	return form{"type": []string{"string", "number", "boolean"}, "pattern": idForm, "maxLength": idLimit}
}

func date() form {
	return form{"type": "string", "format": "date", "pattern": `^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`}
}

func yesNo() form { return form{"type": "boolean"} }

func number() form { return form{"type": "number"} }

func whole(low, high int) form { return form{"type": "integer", "minimum": low, "maximum": high} }

func oneOf(allowed ...string) form {
	all := make([]any, len(allowed))
	for i, a := range allowed {
		all[i] = a
	}
	return form{"enum": all}
}

// list holds any number of values, at most as many as the reader takes.
func list(of form) form { return form{"type": "array", "items": of, "maxItems": 1000} }

// set is a list in which nothing stands twice.
func set(of form) form { return list(of).with(form{"uniqueItems": true}) }

// some is a list with at least one value.
func some(of form) form { return list(of).with(form{"minItems": 1}) }

// each is a mapping of ids to entries of one form.
func each(of form) form {
	return form{"type": "object", "propertyNames": form{"pattern": idForm, "maxLength": idLimit}, "additionalProperties": of}
}

// has tells whether a mapping has a key with something behind it.
func has(name string) form {
	return form{"required": []string{name}, "properties": form{name: form{"not": form{"type": "null"}}}}
}

func not(f form) form { return form{"not": f} }

func anyOf(all ...form) form { return form{"anyOf": all} }

func allOf(all ...form) form { return form{"allOf": all} }
