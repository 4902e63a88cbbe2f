package publish

import (
	"bytes"
	"path"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// Each topic for patients, and the planner, has a page that leads to it at once, and by a link where a
// viewer does not follow. It runs no script and loads nothing but its picture.
func TestStart(t *testing.T) {
	l, out := load(t), builtin(t)
	want := map[string]string{"start/index.html": "../prepare/index.html"}
	for _, tr := range l.PatientTrees() {
		want["start/"+tr.ID.S+".html"] = "../prepare/index.html#take=" + tr.ID.S
	}
	for name := range out.files {
		if path.Dir(name) == "start" && want[name] == "" {
			t.Errorf("%s leads to nothing", name)
		}
	}
	for name, to := range want {
		data := out.files[name]
		n, err := html.Parse(bytes.NewReader(data))
		if err != nil || len(data) == 0 {
			t.Fatalf("%s: %v", name, err)
		}
		if len(data) > 2000 {
			t.Errorf("%s has %d bytes", name, len(data))
		}
		refresh := ""
		for _, m := range elements(n, "meta") {
			if v, _ := attr(m, "http-equiv"); v == "refresh" {
				refresh, _ = attr(m, "content")
			}
		}
		if refresh != "0; url="+to {
			t.Errorf("%s goes on by %q, want %s", name, refresh, to)
		}
		links := elements(n, "a")
		if href, _ := attr(links[0], "href"); href != to || textOf(links[0]) == "" {
			t.Errorf("%s has a link to %q, want %s", name, href, to)
		}
		if len(elements(n, "script", "style", "iframe")) > 0 {
			t.Errorf("%s is more than a way on", name)
		}
		if text := textOf(n); !strings.Contains(text, "In an emergency: Call 911 in the US") {
			t.Errorf("%s does not say whom to call: %s", name, text)
		}
		if at := slices.Index(out.order, name); at < slices.Index(out.order, plannerName) {
			t.Errorf("%s is handed on before the planner", name)
		}
	}
}
