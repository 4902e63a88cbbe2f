package browsertest

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/internal/pseudo/layer"
	"keelpath/builder/internal/sitetest"
	"keelpath/builder/library"
	"keelpath/builder/read"
)

// In languages that nobody speaks, one with longer words, one from right to left and one with digits of its own: no word
// of English, and no digit of it, is left on a page or a screen of the planner, nothing is cut off, and nothing is wider than a
// window of 320 px. With KEELPATH_ROUNDS set every page is looked at, and else one of each kind.
func TestInLanguagesOfNobody(t *testing.T) {
	for _, lang := range layer.Languages {
		t.Run(lang, func(t *testing.T) {
			dir := t.TempDir()
			if err := layer.Write(t.Context(), filepath.Join(dir, "layer"), lang); err != nil {
				t.Fatal(err)
			}
			site := filepath.Join(dir, "site")
			l, err := sitetest.Build(t.Context(), site, filepath.Join(dir, "layer"))
			if err != nil {
				t.Fatal(err)
			}
			names, tight := notWords(), tightLabels(l.Others[0])
			all := states
			if os.Getenv("KEELPATH_ROUNDS") != "" {
				all = slices.Concat(all, everyPage(t))
			}
			b := newTab(t)
			b.size(320, 640)
			for _, s := range all {
				if s.name == "search-sign" {
					continue // it shows what was typed, in English, and the names of published sources
				}
				address := func(name string) string { return sitetest.OnDisk(site, path.Join(l.Others[0].Lang, name)) }
				if path.Ext(s.name) == ".html" {
					b.open(address(s.name)) // what it loads has other names than in English
				} else {
					s.reach(b, address)
				}
				for _, wrong := range eval[[]string](b, layout) {
					if !warned(tight, wrong) {
						t.Errorf("%s: %s", s.name, wrong)
					}
				}
				for _, said := range eval[[]string](b, allSaid) {
					if left := layer.Letters(lang).Left(names.Replace(said)); left != "" {
						t.Errorf("%s: %q has %q as in English", s.name, said, left)
					}
				}
				keepPicture(t, fmt.Sprintf("%s-%s.png", lang, s.name), b.picture)
			}
		})
	}
}

// tightLabels are the lines of those labels of which the checker warns that a drawing has no room for them.
func tightLabels(l *library.Library) map[string]bool {
	out := map[string]bool{}
	for _, w := range l.Drawings {
		d, _ := l.Drawing(w.ID.S)
		tight := d.Tight()
		for _, label := range w.Labels {
			for _, line := range label.Lines {
				out[line.S] = out[line.S] || tight[label.ID.S] != ""
			}
		}
	}
	return out
}

var inQuotes = regexp.MustCompile(`"([^"]*)"`)

// warned tells whether something is wrong with a label that the checker warns of. Where labels stand is a drawing's
// own, so whoever says them in another language breaks such a one into lines.
func warned(tight map[string]bool, wrong string) bool {
	return strings.Contains(wrong, ": text.d-") && slices.ContainsFunc(inQuotes.FindAllStringSubmatch(wrong, -1), func(m []string) bool { return tight[m[1]] })
}

// allSaid gives what a reader sees or hears of a page, other languages' names aside.
const allSaid = `(() => {
const out = [];
for (const e of document.body.querySelectorAll("*")) {
  if (e.closest(".languages, code, pre, cite, template") || !e.checkVisibility({ visibilityProperty: true })) continue;
  for (const n of e.childNodes) if (n.nodeType === Node.TEXT_NODE && n.data.trim()) out.push(n.data.trim());
  for (const a of ["aria-label", "title", "alt", "placeholder", "aria-valuetext"]) if (e.hasAttribute(a)) out.push(e.getAttribute(a));
}
return Array.from(new Set(out));
})()`

// notWords takes out what stands as it is in every language: titles of sources and who wrote them, people,
// the edition's name, names of formulas, and what readers wrote themselves.
func notWords() *strings.Replacer {
	all := []string{lib.Edition.Version.S, lib.Edition.Lines.Emergency.Number.S, lib.Edition.Lines.Crisis.Number.S, lib.Edition.Name.S, "Flesch-Kincaid", "SMOG", ownQuestion, strings.TrimSpace(longQuestion), "Walk."} // the last three are what readers of states wrote
	for _, s := range lib.Sources {
		all = append(all, s.Title.S, s.By.S, s.Where.S)
	}
	for _, tr := range lib.Trees {
		all = append(all, read.Strings(slices.Concat(tr.Credits.Authors, tr.Credits.Reviewers))...)
	}
	for _, p := range lib.Explainers {
		all = append(all, read.Strings(slices.Concat(p.Credits.Authors, p.Credits.Reviewers))...)
	}
	all = slices.DeleteFunc(all, func(s string) bool { return s == "" })
	slices.SortFunc(all, func(a, b string) int { return len(b) - len(a) })
	var pairs []string
	for _, s := range all {
		pairs = append(pairs, s, " ")
	}
	return strings.NewReplacer(pairs...)
}
