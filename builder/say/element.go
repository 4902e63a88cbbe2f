package say

import (
	"fmt"
	"html/template"
	"slices"
	"strings"
)

// Element goes around words of a text.
type Element struct{ open, close string }

// elements are those that may stand in a sentence.
var elements = []string{"a", "b", "bdi", "cite", "code", "em", "i", "span", "strong", "time"}

// Tag makes an element with attributes: their names, each followed by its value.
func Tag(name string, attributes ...string) (Element, error) {
	if !slices.Contains(elements, name) {
		return Element{}, fmt.Errorf("a text has no place for the element %q", name)
	}
	if len(attributes)%2 != 0 {
		return Element{}, fmt.Errorf("an attribute of %q has no value", name)
	}
	open := "<" + name
	for i := 0; i < len(attributes); i += 2 {
		attr, value := attributes[i], attributes[i+1]
		if !allowed(attr, value) {
			return Element{}, fmt.Errorf("a text has no place for the attribute %s=%q", attr, value)
		}
		open += fmt.Sprintf(` %s="%s"`, attr, template.HTMLEscapeString(value))
	}
	return Element{open + ">", "</" + name + ">"}, nil
}

// allowed tells whether an attribute can do no harm: no script, no style, no address but a
// page's.
func allowed(attr, value string) bool {
	switch {
	case attr == "href":
		scheme, _, has := strings.Cut(value, ":")
		return !has || strings.ContainsAny(scheme, "/#?") || slices.Contains([]string{"https", "http", "tel"}, scheme)
	case attr == "class", attr == "id", attr == "lang", attr == "dir", attr == "datetime":
		return true
	}
	return strings.HasPrefix(attr, "data-")
}

// Link makes an element that leads to an address.
func Link(to string) (Element, error) { return Tag("a", "href", to) }
