package publish

import (
	"encoding/json"
	"fmt"

	"keelpath/builder/exchange"
	"keelpath/builder/sheetcode"
)

// carry is what the script that takes a sheet along has behind it: what this
// edition's codes and forms rest on.
func (m *maker) carry() ([]byte, error) {
	trees := m.lib.PatientTrees()
	forms := map[string]exchange.Form{}
	// A tree that no form can say stays out.
	for _, w := range exchange.Write(m.lib, trees, m.found) {
		forms[w.Tree.ID.S] = w.Form
	}
	table, err := json.Marshal(forms)
	if err != nil {
		return nil, err
	}
	book := sheetcode.BookOf(m.lib, trees)
	paths, err := json.Marshal(book.Paths())
	return fmt.Appendf(nil, "keelpathCarry.edition=%d;keelpathCarry.paths=%s;keelpathCarry.forms=%s;\n", book.Edition, paths, table), err
}
