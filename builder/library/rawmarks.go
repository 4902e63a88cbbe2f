package library

import (
	"fmt"
	"regexp"
	"strings"

	"keelpath/builder/finding"
)

// mark is a link as explainers, endings, cautions and cards write it: "[](call:emergency)".
var mark = regexp.MustCompile(`\[[^\]]*\]\([a-z]+:[^)]*\)`)

// rawMark reports marks in texts that are shown as they are written, such as a
// question, its why or a prompt: a reader would see the mark, and not whom to call.
func (c *checker) rawMark(s said) {
	if s.at == (finding.Place{}) || c.marked[s.at] || !strings.Contains(s.text, "](") {
		return
	}
	for _, at := range mark.FindAllStringIndex(s.text, -1) {
		c.list.Add(s.place(at[0]), "raw-mark", fmt.Sprintf("%s holds the mark %q, and marks are not read there", s.who, s.text[at[0]:at[1]]),
			"a reader would see the mark itself: say it in words here, or move it to a text or a caution")
	}
}
