package say

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// scriptImport is where the client's script names the texts that it says.
var scriptImport = regexp.MustCompile(`(?s)\b(?:import|export) \{([^{}]*)\} from "\./said";`)

var identifier = regexp.MustCompile(`(?m)^\s*(\w+)(?: as \w+)?,?$`)

// InScript gives the names of the texts that a script takes from "./said", in order. The error
// is about one that is not there.
func (w *Words) InScript(script string) ([]Name, error) {
	byID := map[string]Name{}
	for _, n := range w.names {
		byID[scriptID(n)] = n
	}
	var out []Name
	for _, m := range scriptImport.FindAllStringSubmatch(script, -1) {
		for _, id := range identifier.FindAllStringSubmatch(m[1], -1) {
			n, ok := byID[id[1]]
			switch {
			case ok:
				out = append(out, n)
			case id[1] != "lang":
				return nil, fmt.Errorf("the script says %s, and there is no text of that name", id[1])
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

// scriptID is a text's name as a script writes it: "script.no-answer" is scriptNoAnswer.
func scriptID(n Name) string {
	var b strings.Builder
	for i, part := range strings.FieldsFunc(string(n), func(r rune) bool { return r == '.' || r == '-' }) {
		if i > 0 {
			part = strings.ToUpper(part[:1]) + part[1:]
		}
		b.WriteString(part)
	}
	return b.String()
}

// Script gives the module "said" with the texts of those names, and the language.
func (w *Words) Script(names []Name) []byte {
	var b strings.Builder
	b.WriteString("// Made from " + File("en") + " by: go test ./builder/publish -run TestSaidScript -refresh\n\n")
	b.WriteString("/** A text by the plural forms of its language. */\nexport type Forms = { [form: string]: string; other: string };\n\n")
	fmt.Fprintf(&b, "export const lang = %q;\n", w.Lang)
	for _, n := range names {
		e := w.entries[n]
		if n == dateAny {
			e = w.entries[w.date]
		}
		if !e.plural {
			fmt.Fprintf(&b, "export const %s = %q;\n", scriptID(n), e.forms[Other].String())
			continue
		}
		fmt.Fprintf(&b, "export const %s: Forms = {\n", scriptID(n))
		for _, f := range Forms {
			if t, ok := e.forms[f]; ok {
				fmt.Fprintf(&b, "  %s: %q,\n", f, t.String())
			}
		}
		b.WriteString("};\n")
	}
	return []byte(b.String())
}
