// Command pseudolayer writes a layer in which all of the built-in content is said in a language
// that nobody speaks, to look at a site with longer words, with lines that run from right to
// left, or with digits of its own:
//
//	go run ./builder/internal/pseudolayer FOLDER [qaa | qab-Hebr | qac]
//	go run ./builder compile --layer FOLDER --out OUT
package main

import (
	"context"
	"fmt"
	"os"
	"slices"

	"keelpath/builder/internal/pseudo/layer"
)

func main() {
	lang := layer.Languages[0]
	if len(os.Args) > 2 {
		lang = os.Args[2]
	}
	if len(os.Args) < 2 || !slices.Contains(layer.Languages, lang) {
		fmt.Fprintln(os.Stderr, "usage: pseudolayer FOLDER [qaa | qab-Hebr | qac]")
		os.Exit(2)
	}
	if err := layer.Write(context.Background(), os.Args[1], lang); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
