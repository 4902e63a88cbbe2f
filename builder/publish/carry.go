package publish

import (
	"encoding/json"
	"fmt"
	"io/fs"

	"keelpath/builder/exchange"
	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/sheetcode"
	"keelpath/builder/tree"
)

// carryScript is the script that takes a sheet along, with what this edition's
// codes and forms rest on written behind it.
func carryScript(files fs.FS, l *library.Library, trees []*tree.Tree) (asset, error) {
	script, err := bundle(files, "client/carry/carry.ts")
	if err != nil {
		return asset{}, err
	}
	forms := map[string]exchange.Form{}
	// A tree that no form can say stays out; the command "exchange" reports it.
	for _, w := range exchange.Write(l, trees, &finding.List{}) {
		forms[w.Tree.ID.S] = w.Form
	}
	table, err := json.Marshal(forms)
	if err != nil {
		return asset{}, err
	}
	data := append(script.data, fmt.Sprintf("keelpathCarry.edition=%d;keelpathCarry.forms=%s;\n", sheetcode.BookOf(l, trees).Edition, table)...)
	return asset{name: hashedName("carry", ".js", data), data: data}, nil
}
