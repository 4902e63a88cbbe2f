package publish

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"keelpath/builder/library"
	"keelpath/builder/say"
	"keelpath/builder/shelf"
)

// bare makes assets of files that are no site, and speaks English.
func bare() *maker {
	l := &library.Library{Say: say.English()}
	return &maker{lib: l, stock: shelf.NewStock(l, nil, nil)}
}

func TestBundleScript(t *testing.T) {
	a, err := bare().assetOf(os.DirFS("testdata/site"), entry{from: "client/planner.ts"})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(a.name, "assets/planner.") || !strings.HasSuffix(a.name, ".js") {
		t.Errorf("name %q, want assets/planner.HASH.js", a.name)
	}
	text := string(a.data)
	if !strings.Contains(text, "hello ") {
		t.Errorf("the imported file is not in the bundle: %s", text)
	}
	if !strings.HasPrefix(text, "(()=>{") {
		t.Errorf("the bundle is not wrapped, so its names would be global: %s", text)
	}
	if strings.Contains(text, "import ") || strings.Contains(text, ": string") {
		t.Errorf("the bundle still holds imports or types: %s", text)
	}
}

func TestBundleStyle(t *testing.T) {
	files := fstest.MapFS{
		"style/site.css": {Data: []byte("@import \"./more.css\";\nmain { inset: 0; }\n")},
		"style/more.css": {Data: []byte("p { a: b }")},
	}
	a, err := bare().assetOf(files, entry{from: "style/site.css"})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.TrimSpace(string(a.data)), "p{a:b}main{top:0;right:0;bottom:0;left:0}"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// The name changes with what is inside, and with nothing else.
func TestBundleNames(t *testing.T) {
	of := func(css string) asset {
		a, err := bare().assetOf(fstest.MapFS{"style/site.css": {Data: []byte(css)}}, entry{from: "style/site.css"})
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	one, same, other := of("p{color:red}"), of("p { color: red }"), of("p{color:blue}")
	if one.name != same.name || !bytes.Equal(one.data, same.data) {
		t.Errorf("the same style has two names, %s and %s", one.name, same.name)
	}
	if one.name == other.name {
		t.Errorf("two styles share the name %s", one.name)
	}
}

func TestBundleErrors(t *testing.T) {
	for _, c := range []struct {
		name, entry string
		files       map[string]string
		want        string
	}{
		{"syntax", "client/planner.ts", map[string]string{"client/planner.ts": "let a = 1;\nlet b = ;\n"}, "site/client/planner.ts:2:9: Unexpected \";\""},
		{"missing import", "client/planner.ts", map[string]string{"client/planner.ts": "import \"./gone\";\n"}, "site/client/planner.ts:1:8: there is no file site/client/gone.ts"},
		{"missing entry", "client/planner.ts", nil, "there is no file site/client/planner.ts"},
		{"package from elsewhere", "client/planner.ts", map[string]string{"client/planner.ts": "import \"left\";\n"}, "site/client/planner.ts:1:8: there is no file site/client/left.ts"},
		{"style warning", "style/site.css", map[string]string{"style/site.css": "p { colr: red; }\na { b\n"}, "site/style/site.css:2:"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := fstest.MapFS{}
			for n, text := range c.files {
				files[n] = &fstest.MapFile{Data: []byte(text)}
			}
			_, err := bare().assetOf(files, entry{from: c.entry})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want it to say %q", err, c.want)
			}
		})
	}
}
