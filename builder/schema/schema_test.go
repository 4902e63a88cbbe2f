package schema_test

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"keelpath/builder/finding"
	"keelpath/builder/internal/corpus"
	"keelpath/builder/library"
	"keelpath/builder/schema"
)

const root = "../.."

// judges holds a compiled schema for each format.
func judges(tb testing.TB) map[string]*jsonschema.Schema {
	tb.Helper()
	out := map[string]*jsonschema.Schema{}
	for _, k := range schema.Kinds() {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(k.JSON()))
		if err != nil {
			tb.Fatalf("%s: %v", k.ID, err)
		}
		c := jsonschema.NewCompiler()
		c.DefaultDraft(jsonschema.Draft2020)
		c.AssertFormat()
		if err := c.AddResource(k.FileName(), doc); err != nil {
			tb.Fatalf("%s: %v", k.ID, err)
		}
		if out[k.ID], err = c.Compile(k.FileName()); err != nil {
			tb.Fatalf("%s: %v", k.ID, err)
		}
	}
	return out
}

// kindOf gives the format of a file by its path in a layer.
func kindOf(name string) string {
	base := strings.TrimSuffix(path.Base(name), path.Ext(name))
	switch {
	case strings.HasPrefix(name, "trees/cases/"):
		return "case"
	case strings.HasPrefix(name, "content/en/pages/"):
		return "page"
	case strings.HasSuffix(name, ".md"):
		return "explainer"
	case strings.HasPrefix(name, "content/en/figures/"):
		return "figure"
	case strings.HasPrefix(name, "content/en/trees/"):
		return "voices"
	case strings.HasPrefix(name, "content/qaa/"):
		return "translated"
	case strings.HasPrefix(name, "content/"), base == "cards", base == "prompts", base == "planner", base == "safety", base == "told":
		return base
	}
	return "tree"
}

// header gives the YAML of a file: all of it, or the header of an explainer.
func header(name string, src []byte) []byte {
	if path.Ext(name) != ".md" {
		return src
	}
	_, after, _ := bytes.Cut(src, []byte("---\n"))
	head, _, _ := bytes.Cut(after, []byte("\n---"))
	return append(head, '\n')
}

// value gives a YAML node as an editor sees it: JSON's kinds of values, and
// dates as texts.
func value(n *yaml.Node) any {
	switch n.Kind {
	case yaml.DocumentNode:
		return value(n.Content[0])
	case yaml.MappingNode:
		out := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			out[n.Content[i].Value] = value(n.Content[i+1])
		}
		return out
	case yaml.SequenceNode:
		out := []any{}
		for _, c := range n.Content {
			out = append(out, value(c))
		}
		return out
	}
	switch n.Tag {
	case "!!int", "!!float", "!!bool", "!!null":
		var v any
		if err := n.Decode(&v); err == nil {
			return v
		}
	}
	return n.Value
}

func parsed(src []byte) (*yaml.Node, error) {
	var n yaml.Node
	err := yaml.Unmarshal(src, &n)
	if err == nil && len(n.Content) == 0 {
		err = fmt.Errorf("nothing in it")
	}
	return &n, err
}

// Every file that is shipped, and every one of the example layer, fits its schema.
func TestGoodFilesFit(t *testing.T) {
	judge := judges(t)
	seen := map[string]int{}
	for _, dir := range []string{root, root + "/testdata/layers/alder-quay", root + "/testdata/layers/other-words"} {
		for _, part := range []string{"content", "trees"} {
			err := filepath.WalkDir(filepath.Join(dir, part), func(file string, d fs.DirEntry, err error) error {
				if errors.Is(err, fs.ErrNotExist) {
					return nil // a layer may have one of the two folders
				}
				if err != nil || d.IsDir() || filepath.Ext(file) == ".go" {
					return err
				}
				src, err := os.ReadFile(file)
				if err != nil {
					return err
				}
				name, err := filepath.Rel(dir, file)
				if err != nil {
					return err
				}
				name = filepath.ToSlash(name)
				n, err := parsed(header(name, src))
				if err != nil {
					return fmt.Errorf("%s: %w", name, err)
				}
				kind := kindOf(name)
				seen[kind]++
				if err := judge[kind].Validate(value(n)); err != nil {
					t.Errorf("%s: %v", file, err)
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, k := range schema.Kinds() {
		if seen[k.ID] == 0 {
			t.Errorf("no file of the kind %q was seen", k.ID)
		}
	}
	t.Log(seen)
}

// shape are the checks that are about the look of a file alone.
var shape = []string{
	"unknown-key", "missing-key", "wrong-type", "not-allowed", "bad-id", "no-answers", "no-questions", "no-endings", "no-way-on",
	"no-way-out", "needless-key", "helpline", "row-steps", "safety-ending", "prompt-form",
}

// elsewhere are findings of those checks that are about something else than the
// look of the one file.
var elsewhere = regexp.MustCompile(`the edition lacks|nothing is said in the drawing|the page .* has no text|the file's name is not an id|the value .* is not one of its values$`)

// Each broken input of the corpus whose findings are all about shape is refused
// by the schemas, and each file in which nothing is wrong with the shape fits.
func TestBadFiles(t *testing.T) {
	judge := judges(t)
	refused, fit := 0, 0
	for _, c := range corpus.Cases(t, root) {
		t.Run(c.Name, func(t *testing.T) {
			for _, f := range c.Files {
				var checks []string
				for _, w := range c.Want {
					if strings.Split(w.Place, ":")[0] == f.Name {
						checks = append(checks, w.Check)
						if elsewhere.MatchString(w.Text) {
							checks[len(checks)-1] = "elsewhere"
						}
					}
				}
				n, err := parsed(header(f.Name, f.Data))
				if err != nil || (!strings.HasSuffix(f.Name, ".yaml") && !strings.HasPrefix(f.Name, "content/en/")) {
					continue // an editor says so without a schema
				}
				if unread(checks) {
					continue
				}
				err = judge[kindOf(f.Name)].Validate(value(n))
				switch {
				case len(checks) > 0 && !slices.ContainsFunc(checks, func(c string) bool { return !slices.Contains(shape, c) }):
					refused++
					if err == nil {
						t.Errorf("%s: the schema finds nothing, and the checker finds %v", f.Name, checks)
					}
				case !slices.ContainsFunc(checks, func(c string) bool { return slices.Contains(shape, c) || slices.Contains(closer, c) }):
					fit++
					if err != nil {
						t.Errorf("%s: the checker finds %v, and the schema %v", f.Name, checks, err)
					}
				}
			}
		})
	}
	if refused < 25 || fit < 50 {
		t.Errorf("only %d files were refused and %d fit: is the sorting right?", refused, fit)
	}
	t.Logf("%d refused, %d fit", refused, fit)
}

// closer are checks of which a schema can see some cases and not others.
var closer = []string{"repeated-id", "reserved-id", "empty-text", "too-large", "measure", "dead-link", "formula", "unknown-answer", "no-training", "elsewhere"}

// unread tells whether the file is no plain YAML at all, which no schema sees.
func unread(checks []string) bool {
	return slices.ContainsFunc(checks, func(c string) bool {
		return slices.Contains([]string{"not-plain", "not-yaml", "not-text", "second-document", "repeated-key", "no-header", "empty-file", "unknown-file"}, c)
	})
}

// The schemas and the reader agree about every key of every format: shipped
// files with one thing changed are refused by both or by neither.
func TestReaderAgrees(t *testing.T) {
	judge := judges(t)
	seen := map[string]bool{}
	changed, refused := 0, 0
	for _, name := range sample(t) {
		src, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			t.Fatal(err)
		}
		kind := kindOf(name)
		for _, m := range mutants(t, kind, header(name, src), seen) {
			changed++
			n, err := parsed(m.src)
			if err != nil {
				t.Fatalf("%s: %v", m.what, err)
			}
			verdict := judge[kind].Validate(value(n))
			found := readerSays(t, name, m.src)
			ofShape := slices.ContainsFunc(found, func(check string) bool { return slices.Contains(shape, check) || check == "empty-text" })
			switch {
			case verdict == nil && ofShape && inOtherLayer.MatchString(m.what):
			case verdict == nil && ofShape:
				t.Errorf("%s: the reader finds %v, and the schema nothing", m.what, found)
			case verdict != nil && len(found) == 0:
				t.Errorf("%s: the reader finds nothing, and the schema %v", m.what, verdict)
			}
			if verdict != nil {
				refused++
			}
		}
	}
	if changed < 600 || refused < 300 || changed-refused < 100 {
		t.Errorf("only %d changes, %d of them refused", changed, refused)
	}
	t.Logf("%d changes, %d of them refused", changed, refused)
}

// inOtherLayer are keys that the reader wants of all layers together, so that a
// single file may lack them; and plural forms.
var inOtherLayer = regexp.MustCompile(`^edition /(name|emergency|crisis) (becomes nothing|is left out)$|` +
	`^words /ID/ID/((child|person)/)?(one|two|few|many) (becomes nothing|is left out)$`) // by the language, which a schema does not know

// sample gives a file of each kind, and all trees.
func sample(t *testing.T) []string {
	t.Helper()
	out := []string{"content/en/" + first(t, root+"/content/en"), "content/en/pages/" + first(t, root+"/content/en/pages")}
	for _, pattern := range []string{"content/*.yaml", "content/en/*.yaml", "content/en/figures/*.yaml", "trees/*.yaml", "trees/cases/*.yaml"} {
		files, err := filepath.Glob(filepath.Join(root, pattern))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v", pattern, err)
		}
		for _, f := range files {
			out = append(out, path.Join(path.Dir(pattern), filepath.Base(f)))
		}
	}
	return out
}

func first(t *testing.T, dir string) string {
	t.Helper()
	all, err := os.ReadDir(dir)
	if err != nil || len(all) == 0 {
		t.Fatalf("%s: %v", dir, err)
	}
	return all[0].Name()
}

// readerSays gives the checks that find something in one file. Names of what
// stands in other files are left aside, for the file is read alone.
func readerSays(t *testing.T, name string, src []byte) []string {
	t.Helper()
	if path.Ext(name) == ".md" {
		src = append(append([]byte("---\n"), src...), "---\n\nText.\n"...)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, src, 0o644); err != nil {
		t.Fatal(err)
	}
	var list finding.List
	layer, err := library.ReadLayer(t.Context(), dir, &list)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := library.Load(t.Context(), &list, layer); err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range list.Sorted() {
		alone := elsewhere.MatchString(f.Text) && path.Base(name) != "edition.yaml"
		if f.Check != "unknown-name" && f.Check != "uncited" && !alone {
			out = append(out, f.Check)
		}
	}
	return out
}

// mutant is a file with one thing changed.
type mutant struct {
	what string // the place, ids left out, and the change
	src  []byte
}

// mutants changes each key of a file: away, to nothing, to another kind of
// value; and adds one that no format has. What known holds was changed before.
func mutants(t *testing.T, kind string, src []byte, known map[string]bool) []mutant {
	t.Helper()
	var out []mutant
	doc, err := parsed(src)
	if err != nil {
		t.Fatal(err)
	}
	plain(doc)
	add := func(what string) {
		b, err := yaml.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, mutant{what, b})
	}
	var visit func(n *yaml.Node, at string)
	visit = func(n *yaml.Node, at string) {
		switch n.Kind {
		case yaml.DocumentNode:
			visit(n.Content[0], at)
		case yaml.SequenceNode:
			for _, c := range n.Content {
				visit(c, at+"/-")
			}
		case yaml.MappingNode:
			byID := holdsIDs.MatchString(at)
			if !byID && !known[at] {
				n.Content = append(n.Content, scalar("zebra"), scalar("x"))
				add(at + " has one more key")
				n.Content = n.Content[:len(n.Content)-2]
			}
			known[at] = true
			for i := 0; i+1 < len(n.Content); i += 2 {
				below := at + "/" + n.Content[i].Value
				if byID {
					below = at + "/ID"
				}
				if !known["key "+below] {
					known["key "+below] = true
					change(n, i, below, byID, add)
				}
				visit(n.Content[i+1], below)
			}
		}
	}
	visit(doc, kind+" ")
	return out
}

// plain leaves comments out. The writer does not find them a place again once what
// they stand beside is gone.
func plain(n *yaml.Node) {
	n.HeadComment, n.LineComment, n.FootComment = "", "", ""
	for _, c := range n.Content {
		plain(c)
	}
}

// holdsIDs are the mappings whose keys are ids.
var holdsIDs = regexp.MustCompile(`/(inputs|texts|questions|endings|answers|values|like|cards|general|themes|drawings|labels|prompts|sources|words|rows|types|cells|wishes|rated|yardsticks|parts|items|readings|readings/ID|pictures|signs|means|asked|facts|walks|beats|options|flips|groups)$|^words (/ID)?$|^voices $`)

func change(n *yaml.Node, i int, at string, isID bool, add func(string)) {
	key, old := n.Content[i], n.Content[i+1]
	for _, c := range []struct {
		what string
		to   *yaml.Node
	}{
		{"becomes a list", &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{scalar("x")}}},
		{"becomes a mapping", &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{scalar("x"), scalar("y")}}},
		{"becomes a word", scalar("x")},
		{"becomes nothing", &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null", Value: "null"}},
		{"becomes a blank", &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: " ", Style: yaml.DoubleQuotedStyle}},
	} {
		n.Content[i+1] = c.to
		add(at + " " + c.what)
	}
	n.Content[i+1] = old
	if isID {
		was := key.Value
		key.Value = "No Id"
		add(at + " has a bad id")
		key.Value = was
		return
	}
	before := n.Content
	n.Content = slices.Delete(slices.Clone(before), i, i+2)
	add(at + " is left out")
	n.Content = before
}

func scalar(s string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s} }

// Each kind of file that a layer may hold has a schema, and no schema is of another file.
func TestEachKindOfFile(t *testing.T) {
	of := map[string]string{}
	for _, k := range schema.Kinds() {
		for _, file := range strings.FieldsFunc(k.File, func(r rune) bool { return r == ',' || r == ' ' }) {
			if path.Ext(file) != "" && !strings.Contains(file, "/LL/") {
				of[strings.ReplaceAll(file, "LANGUAGE", library.FirstLanguage)] = k.ID
			}
		}
	}
	for _, k := range library.FileKinds() {
		if of[k.File] == "" {
			t.Errorf("%s has no schema", k.File)
		}
		delete(of, k.File)
	}
	for file, id := range of {
		t.Errorf("the schema %s is of %s, which no layer holds", id, file)
	}
}
