package say

import (
	"bytes"
	"fmt"
	"strings"

	"golang.org/x/text/language"
)

// For gives the file of another language, with all that the program says and the forms that the
// language has. do makes its texts out of these.
func (w *Words) For(lang string, do func(name Name, text string) string) []byte {
	var b bytes.Buffer
	group, forms := "", formsOf(language.Make(lang))
	for _, n := range w.names {
		if g := n.group(); g != group {
			group = g
			fmt.Fprintf(&b, "%s:\n", group)
		}
		e := w.entries[n]
		fmt.Fprintf(&b, "  %s:\n    of: %q\n", strings.TrimPrefix(string(n), group+"."), e.print())
		if !e.plural {
			fmt.Fprintf(&b, "    text: %q\n", do(n, e.forms[Other].String()))
			continue
		}
		for _, f := range forms {
			t, ok := e.forms[f]
			if !ok {
				t = e.forms[Other]
			}
			fmt.Fprintf(&b, "    %s: %q\n", f, do(n, t.String()))
		}
	}
	return b.Bytes()
}
