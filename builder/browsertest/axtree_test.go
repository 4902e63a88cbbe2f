package browsertest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/chromedp/cdproto/accessibility"
)

// axNode is a node of the accessibility tree, with no more than what a screen reader
// says: what it is, its name, what else describes it, and its state.
type axNode struct {
	role, name, description string
	states                  []string
	focused                 bool
	up                      *axNode
	nodes                   []*axNode
}

// quiet are roles that say nothing by themselves; what is in them counts.
var quiet = []string{"none", "generic", "paragraph", "StaticText", "InlineTextBox", "ListMarker", "LineBreak", "LabelText", "strong", "emphasis", "mark",
	"time", "DescriptionListDetail", "DescriptionListTerm", "definition", "term", "sectionheader", "sectionfooter", "Section", "superscript", "insertion", "SvgRoot", "MenuListPopup"}

// toldStates are those that are told, in this order, where they are not as usual.
var toldStates = []accessibility.PropertyName{
	accessibility.PropertyNameLevel, accessibility.PropertyNameChecked, accessibility.PropertyNamePressed, accessibility.PropertyNameExpanded,
	accessibility.PropertyNameDisabled, accessibility.PropertyNameInvalid, accessibility.PropertyNameRequired, accessibility.PropertyNameLive,
}

// axTree is what the page's main part holds.
func (b *tab) axTree() *axNode {
	b.t.Helper()
	command(b, accessibility.Enable, struct{}{})
	all := command(b, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{}).Nodes
	byID := map[accessibility.NodeID]*accessibility.Node{}
	for _, n := range all {
		byID[n.NodeID] = n
	}
	root := &axNode{role: "page"}
	var add func(under *axNode, n *accessibility.Node, inMain bool)
	add = func(under *axNode, n *accessibility.Node, inMain bool) {
		at := under
		if made := axOf(n); inMain && made != nil {
			made.up = under
			under.nodes = append(under.nodes, made)
			at = made
		}
		for _, id := range n.ChildIDs {
			if child := byID[id]; child != nil {
				add(at, child, inMain || textOfValue(n.Role) == "main")
			}
		}
	}
	add(root, all[0], false)
	return root
}

// axOf gives what is said of a node, or nothing.
func axOf(n *accessibility.Node) *axNode {
	role := textOfValue(n.Role)
	if n.Ignored || slices.Contains(quiet, role) {
		return nil
	}
	made := &axNode{role: role, name: oneLine(textOfValue(n.Name)), description: oneLine(textOfValue(n.Description))}
	for _, want := range toldStates {
		for _, p := range n.Properties {
			value := textOfValue(p.Value)
			if p.Name == accessibility.PropertyNameLevel && role != "heading" { // that of a list in lists, which nobody needs
				continue
			}
			if p.Name != want || value == "" || value == "false" && want != accessibility.PropertyNameChecked && want != accessibility.PropertyNamePressed && want != accessibility.PropertyNameExpanded {
				continue
			}
			made.states = append(made.states, stateOf(want, value))
		}
	}
	for _, p := range n.Properties {
		made.focused = made.focused || p.Name == accessibility.PropertyNameFocused && textOfValue(p.Value) == "true"
	}
	return made
}

func stateOf(name accessibility.PropertyName, value string) string {
	switch {
	case value == "true":
		return string(name)
	case value == "false":
		return "not " + string(name)
	}
	return fmt.Sprintf("%s %s", name, value)
}

func textOfValue(v *accessibility.Value) string {
	if v == nil || len(v.Value) == 0 {
		return ""
	}
	var s string
	if json.Unmarshal(v.Value, &s) == nil {
		return s
	}
	return strings.Trim(string(v.Value), `"`)
}

func (n *axNode) walk(do func(*axNode)) {
	for _, child := range n.nodes {
		do(child)
		child.walk(do)
	}
}

// within names the group that a control stands in, as a screen reader says it first.
func (n *axNode) within() string {
	for up := n.up; up != nil; up = up.up {
		if slices.Contains([]string{"group", "radiogroup", "form"}, up.role) && up.name != "" {
			return up.name + ": "
		}
	}
	return ""
}

func (n *axNode) String() string {
	out := n.role
	if n.name != "" {
		out += " " + short(n.name)
	}
	for _, s := range n.states {
		out += ", " + s
	}
	if n.description != "" {
		out += "; described by " + short(n.description)
	}
	return out
}

// short is a text in quotes; of a long one its beginning, which tells it from others.
func short(text string) string {
	const most = 72
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "…"
	}
	return `"` + text + `"`
}

// listen writes down what a reader who listens comes by.
func (b *tab) listen() string {
	b.t.Helper()
	title := eval[string](b, "document.title")
	status := oneLine(eval[string](b, `Array.from(document.querySelectorAll("main [role=status], main [role=alert]")).filter((e) => e.checkVisibility()).map((e) => e.textContent).join(" ")`))
	var out strings.Builder
	focus := "the page"
	root := b.axTree()
	root.walk(func(n *axNode) {
		if n.focused {
			focus = n.String()
		}
	})
	fmt.Fprintf(&out, "title: %s\nfocus: %s\n", title, focus)
	if status != "" {
		fmt.Fprintf(&out, "said: %s\n", status)
	}
	fmt.Fprintln(&out)
	write(&out, root, 0)
	return out.String()
}

// write leaves out what only holds others: a list is where its items are.
func write(out *strings.Builder, under *axNode, deep int) {
	for _, n := range under.nodes {
		below := deep
		if !bare(n) {
			fmt.Fprintf(out, "%s%s\n", strings.Repeat("  ", deep), n)
			below++
		}
		write(out, n, below)
	}
}

// bare tells whether a node only holds others.
func bare(n *axNode) bool {
	return n.name == "" && n.description == "" && len(n.states) == 0 && slices.Contains([]string{"list", "listitem", "form", "Details", "details", "blockquote", "group", "region", "figure", "Figcaption", "row", "rowgroup"}, n.role)
}
