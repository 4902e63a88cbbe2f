// Package layer writes a layer in which all of the built-in content is said in a language that
// nobody speaks. For tests only.
package layer

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"keelpath/builder/internal/pseudo"
	"keelpath/builder/library"
	"keelpath/builder/say"
	"keelpath/content"
)

// Languages are those that it knows, of the ones that BCP 47 keeps for private use.
var Languages = []string{"qaa", "qab-Hebr", "qac"}

var letters = map[string]pseudo.Letters{Languages[0]: pseudo.Accented, Languages[1]: pseudo.Leftward, Languages[2]: pseudo.Numbered}

// Letters says how the letters of a language are changed.
func Letters(lang string) pseudo.Letters { return letters[lang] }

// Write writes the layer into a folder, which need not be there.
func Write(ctx context.Context, dir, lang string) error {
	texts, pages, err := library.Texts(ctx, library.Builtin())
	if err != nil {
		return err
	}
	bodies := func(file string) []byte {
		src, _ := content.FS.ReadFile(strings.TrimPrefix(file, "content/")) // all pages are there
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
