package finding

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"keelpath/builder/internal/unseen"
)

// Print writes the findings for a person: the place and the sentence, the
// source line with a caret under the column, then the help lines. source gives
// a file's text; it may be nil or give nil, and then the source line is left out.
func Print(w io.Writer, list []Finding, source func(file string) []byte) error {
	lines := linesOf(source)
	for _, f := range list {
		if _, err := io.WriteString(w, text(f, lines)); err != nil {
			return err
		}
	}
	return nil
}

// linesOf gives a file's lines. Each file is split once: a file may have as many
// findings as lines.
func linesOf(source func(string) []byte) func(file string) []string {
	known := map[string][]string{}
	return func(file string) []string {
		lines, ok := known[file]
		if !ok && source != nil {
			lines = strings.Split(string(source(file)), "\n")
			known[file] = lines
		}
		return lines
	}
}

func text(f Finding, lines func(file string) []string) string {
	var b strings.Builder
	weight := ""
	if f.Weight == Warning {
		weight = "warning: "
	}
	fmt.Fprintf(&b, "%s: %s%s [%s]\n", printable(f.Place.String()), weight, printable(f.Text), f.Check)
	b.WriteString(excerpt(lines(f.File), f.Line, f.Col))
	for _, h := range f.Help {
		fmt.Fprintf(&b, "    %s\n", printable(h))
	}
	return b.String()
}

// printable keeps a terminal safe from what the input may hold: control
// characters, and signs that turn the direction of the text around. A character
// that cannot be seen gets a sign, so that it is seen.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unseen.Is(r) || r == '\t' || r == '\n' || r == utf8.RuneError {
			return '?'
		}
		return r
	}, s)
}

// longest is how much of a source line is shown, in runes.
const longest = 110

// excerpt gives the source line and a caret line, or "" where there is none to
// show. A long line is cut so that the column stays in view.
func excerpt(lines []string, line, col int) string {
	if line < 1 || line > len(lines) {
		return ""
	}
	runes := []rune(printable(strings.ReplaceAll(strings.TrimRight(lines[line-1], "\r"), "\t", " ")))
	col = min(col, len(runes)+1)
	start := 0
	if col > longest-20 {
		start = min(col-longest/2, max(0, len(runes)-longest))
	}
	shown := string(runes[min(start, len(runes)):min(start+longest, len(runes))])
	if strings.TrimSpace(shown) == "" {
		return ""
	}
	out := fmt.Sprintf("    | %s\n", shown)
	if col > 0 {
		out += fmt.Sprintf("    | %s^\n", strings.Repeat(" ", col-1-start))
	}
	return out
}
