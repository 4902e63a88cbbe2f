package say

import (
	"fmt"
	"sync"

	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/content"
)

// File is where the words of a language stand.
func File(lang string) string { return "content/" + lang + "/words.yaml" }

// English gives the words of the program's own language, which every other is held against.
var English = sync.OnceValue(func() *Words {
	file := File("en")
	src, err := content.FS.ReadFile("en/words.yaml")
	if err != nil {
		panic(err) // an embedded file can always be read
	}
	var list finding.List
	w := Read(read.YAML(file, src, 0, &list), "en", &list)
	for _, f := range list.Sorted() {
		panic(fmt.Sprintf("%s: %s", f.Place, f.Text)) // a test holds that there is none
	}
	return w
})
