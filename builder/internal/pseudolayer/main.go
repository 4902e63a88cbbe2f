// Command pseudolayer writes a layer in which all of the built-in content is said in a language
// that nobody speaks, to look at a site with longer words, or with lines that run from right to
// left. It reads the content of the folder in which it runs:
//
//	go run ./builder/internal/pseudolayer FOLDER [qaa | qab-Hebr]
//	go run ./builder compile --layer FOLDER --out OUT
package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"keelpath/builder/internal/pseudo"
	"keelpath/builder/library"
	"keelpath/builder/say"
)

var letters = map[string]pseudo.Letters{"qaa": pseudo.Accented, "qab-Hebr": pseudo.Leftward}

func main() {
	lang := "qaa"
	if len(os.Args) > 2 {
		lang = os.Args[2]
	}
	if _, known := letters[lang]; len(os.Args) < 2 || !known {
		fmt.Fprintln(os.Stderr, "usage: pseudolayer FOLDER [qaa | qab-Hebr]")
		os.Exit(2)
	}
	if err := write(os.Args[1], lang); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func write(dir, lang string) error {
	texts, pages, err := library.Texts(context.Background(), library.Builtin())
	if err != nil {
		return err
	}
	bodies := func(file string) []byte {
		src, err := os.ReadFile(filepath.FromSlash(file))
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		return src
	}
	files, err := pseudo.Files(lang, letters[lang], texts, pages, bodies)
	if err != nil {
		return err
	}
	files[say.File(lang)] = letters[lang].Words(lang, say.English())
	files["content/edition.yaml"] = fmt.Appendf(nil, "languages: [%s]\n", lang)
	for name, src := range files {
		to := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(to, src, 0o644); err != nil {
			return err
		}
	}
	return nil
}
