package publish

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/prose"
	"keelpath/builder/say"
)

// Every page for patients whose words stand in its template stays under the highest
// grades by both formulas; the checker holds explainers and trees to them. Pages for
// residents and teachers may be harder, and none has to be easier than it is.
func TestPagesReadEasily(t *testing.T) {
	l, out := load(t), builtin(t)
	held := map[string]bool{}
	for _, name := range out.order {
		if !strings.HasSuffix(name, ".html") || strings.HasPrefix(name, "teach/") || strings.HasPrefix(name, "start/") { // which only leads on
			continue
		}
		if e := l.Explainer(strings.TrimSuffix(strings.TrimPrefix(name, "learn/"), ".html")); e != nil && e.Audience.S != audiencePatient {
			continue
		}
		held[name] = true
		c := prose.Of(passages(mainOf(t, out, name)))
		if c.Sentences == 0 {
			t.Errorf("%s has no sentences", name)
		}
		t.Logf("%-42s Flesch-Kincaid %4.1f, SMOG %4.1f, %3d sentences of %4.1f words", name, c.Grade(), c.SMOG(), c.Sentences, float64(c.Words)/float64(c.Sentences))
		if c.Grade() > prose.MaxGrade || c.SMOG() >= prose.MaxSMOG {
			t.Errorf("%s reads at grade %.1f by Flesch-Kincaid and %.1f by SMOG", name, c.Grade(), c.SMOG())
		}
	}
	for _, name := range []string{homeName, plannerName, learnName, footTypesName, ratingsName, "learn/falls.html", "prepare/work.html"} {
		if !held[name] {
			t.Errorf("%s was not held to the highest grade", name)
		}
	}
}

// mainOf gives the markup of a page's own part.
func mainOf(t *testing.T, out output, name string) []byte {
	t.Helper()
	_, main, ok := bytes.Cut(out.files[name], []byte(`<main id="main" tabindex="-1">`))
	if !ok {
		t.Fatalf("%s has no main part", name)
	}
	main, _, _ = bytes.Cut(main, []byte("</main>"))
	return main
}

// Every page prints the grade of the text that the checker holds to its limit: for an
// explainer, a tree and a page whose words are content the library's own, for every other page its template's words.
func TestOneGradeOfAPage(t *testing.T) {
	l, out := load(t), builtin(t)
	held := map[string]prose.Counts{}
	for _, e := range l.Explainers {
		held["learn/"+e.ID+".html"] = l.PageCounts(e)
	}
	own := map[string]string{
		"clinic": clinicName, "sources": sourcesName, "ratings": ratingsName, "foot-types": footTypesName, "pulls": pullsName, "motion-push": motionPushName, "invite": inviteName, "learn": "learn/index.html",
	}
	for _, p := range l.Pages {
		held[own[p.ID]] = l.PageCounts(p)
	}
	for _, tr := range l.Trees {
		if tr.Audience.S == audiencePatient {
			held["prepare/"+tr.ID.S+".html"] = l.TreeCounts(tr)
		}
		held["teach/"+tr.ID.S+".html"] = l.TreeCounts(tr)
	}
	pages := 0
	for _, name := range out.order {
		if !strings.HasSuffix(name, ".html") || strings.HasPrefix(name, "start/") { // which only lead on
			continue
		}
		pages++
		counts, ok := held[name]
		if !ok {
			counts = prose.Of(passages(mainOf(t, out, name)))
		}
		delete(held, name)
		if said := gradeOf(say.English(), counts); !bytes.Contains(out.files[name], []byte("US school grade "+said+"</dd>")) {
			t.Errorf("%s does not print the grade %s", name, said)
		}
	}
	if pages < 60 || len(held) > 0 {
		t.Errorf("%d pages were looked at, and %d texts have none", pages, len(held))
	}
}

// A text beyond the limit is printed with the number that its finding names.
func TestFindingNamesThePrintedGrade(t *testing.T) {
	hard := "Conversations regarding prosthetic rehabilitation necessitate considerable preparation. "
	dir := t.TempDir()
	for _, name := range []string{"content/en/falls.md", "content/en/pages/clinic.md", "trees/work.yaml"} {
		data, err := os.ReadFile(filepath.Join("..", "..", filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		if strings.HasSuffix(name, ".md") {
			text += "\n" + strings.Repeat(hard, 40) + "\n"
		} else {
			text = strings.ReplaceAll(text, "\n    why: ", "\n    why: "+strings.Repeat(hard, 30))
		}
		p := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var list finding.List
	layer, err := library.ReadLayer(context.Background(), dir, &list)
	if err != nil {
		t.Fatal(err)
	}
	l, err := library.Load(context.Background(), &list, library.Builtin(), layer)
	if err != nil {
		t.Fatal(err)
	}
	out := renderAll(t, l)
	for file, page := range map[string]string{"falls.md": "learn/falls.html", "clinic.md": clinicName, "work.yaml": "prepare/work.html"} {
		found := false
		for _, f := range list.Sorted() {
			var g float64
			_, said, ok := strings.Cut(f.Text, "reads at grade ")
			if !ok || !strings.HasSuffix(f.Place.File, file) || !strings.Contains(said, "by Flesch-Kincaid") {
				continue
			}
			if _, err := fmt.Sscanf(said, "%f", &g); err != nil {
				t.Fatal(err)
			}
			found = true
			if printed := fmt.Sprintf("US school grade %.1f (Flesch-Kincaid)", g); !bytes.Contains(out.files[page], []byte(printed)) {
				t.Errorf("the finding of %s names %.1f, and %s does not print it", file, g, page)
			}
		}
		if !found {
			t.Errorf("there is no finding of %s", file)
		}
	}
}
