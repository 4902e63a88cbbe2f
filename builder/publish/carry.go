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
	table, err := json.Marshal(exchange.Forms(m.lib, trees, m.found)) // a tree that no form can say stays out
	if err != nil {
		return nil, err
	}
	book := sheetcode.BookOf(m.lib, trees)
	paths, err := json.Marshal(book.Paths())
	if err != nil {
		return nil, err
	}
	voices, err := json.Marshal(book.Voices())
	return fmt.Appendf(nil, "keelpathCarry.edition=%d;keelpathCarry.paths=%s;keelpathCarry.voices=%s;keelpathCarry.forms=%s;\n", book.Edition, paths, voices, table), err
}
