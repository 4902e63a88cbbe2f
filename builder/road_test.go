package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// row is a row of the table of rooms: what stands between back quotes in its first cell.
var row = regexp.MustCompile("(?m)^\\| (`builder/[^|]+) \\| (.*) \\|$")

// Every room stands in the table of DEVELOPERS.md, and imports only rooms that
// stand above it. Tests may look anywhere; a room for tests only is imported by no other.
func TestRoad(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	place := map[string]int{} // of each room in the table, from the top
	testing := map[string]bool{}
	for _, r := range row.FindAllSubmatch(text, -1) {
		for _, name := range strings.Split(string(r[1]), ", ") {
			name = strings.Trim(name, "`")
			if place[name] > 0 {
				t.Errorf("%s stands in the table twice", name)
			}
			place[name] = len(place) + 1
			testing[name] = strings.Contains(string(r[2]), "tests only")
		}
	}
	rooms := map[string]map[string]string{} // room: what it imports, and a file that does
	err = filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.Contains(name, "testdata") {
			return err
		}
		room := path.Join("builder", filepath.ToSlash(filepath.Dir(name)))
		if rooms[room] == nil {
			rooms[room] = map[string]string{}
		}
		if strings.HasSuffix(name, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, i := range f.Imports {
			if to, ours := strings.CutPrefix(strings.Trim(i.Path.Value, `"`), "keelpath/"); ours {
				rooms[room][to] = name
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(rooms) < 30 {
		t.Errorf("only %d rooms were found", len(rooms))
	}
	for room, imports := range rooms {
		if room == "builder" {
			continue // the program itself, which imports the last room
		}
		if place[room] == 0 {
			t.Errorf("%s does not stand in the table of DEVELOPERS.md", room)
			continue
		}
		for to, file := range imports {
			if strings.HasPrefix(to, "builder/") && place[to] >= place[room] {
				t.Errorf("%s imports %s, which stands below its own room", file, to)
			}
			if testing[to] && !testing[room] {
				t.Errorf("%s imports %s, which is for tests only", file, to)
			}
		}
	}
	for name := range place {
		if rooms[name] == nil {
			t.Errorf("the table has the room %s, and there is none", name)
		}
	}
}
