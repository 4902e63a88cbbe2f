package main

import (
	_ "embed"
	"fmt"
	"strings"
)

// equivalents.txt lists mutants that change nothing that can be seen: a line of
// file, operator and the line changed, then an indented line with the reason.
//
//go:embed equivalents.txt
var equivalentsText string

type key struct{ file, operator, text string }

func (m mutant) key() key { return key{m.file, m.operator, m.text} }

func (k key) String() string { return k.file + " | " + k.operator + " | " + k.text }

// equivalents reads the list.
func equivalents(text string) (map[key]string, error) {
	out := map[key]string{}
	var last key
	for i, line := range strings.Split(text, "\n") {
		switch parts := strings.SplitN(line, " | ", 3); {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "    ") && last != key{}:
			out[last] = strings.TrimSpace(line)
			last = key{}
		case len(parts) == 3 && last == key{}:
			last = key{parts[0], parts[1], parts[2]}
		default:
			return nil, fmt.Errorf("equivalents.txt:%d: a line of \"file | operator | line\", and below it the reason, was expected", i+1)
		}
	}
	return out, nil
}
