package firefoxtest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Another sheet asks before it takes a sheet's place, and the earlier one comes back; a
// file that holds no sheet is refused in words.
func TestAnotherSheetAsks(t *testing.T) {
	b := newTab(t)
	b.openPlanner()
	b.openText(`{"form":"keelpath-sheet-2","kept":{"day":"Walk the dog.","own":[{"id":"own 1","ask":"May I climb?"}],"stars":["own 1"]}}`)
	b.waitFor(`document.querySelector("#planner .sheet")`)
	want := b.sheet()
	file := func(text string) {
		b.hand(`button("bar-topics")`)
		b.openText(text)
	}
	file(`{"form":"keelpath-sheet-1"}`)
	b.waitFor(`document.getElementById("planner-file-problem").textContent.startsWith("There is nothing on the sheet")`)
	b.hand(`button("bar-sheet")`)
	b.same("a file that holds nothing", want)

	const another = `{"form":"keelpath-sheet-2","kept":{"day":"Another day."}}`
	const asks = `!document.querySelector('[data-slot="replacing"]').hidden`
	file(another)
	b.waitFor(asks)
	b.hand(`button("leave"); button("bar-sheet")`)
	b.same("keeping it", want)
	file(another)
	b.waitFor(asks)
	b.hand(`button("replace")`)
	if day := b.sheet().Day; day != "Another day." {
		t.Errorf("the opened sheet's day reads %q", day)
	}
	b.openPlanner() // a reload forgets neither
	b.hand(`button("bar-sheet"); button("bring-back")`)
	b.same("bringing it back", want)
	b.hand(`button("clear"); button("clear-now")`)
}

// openText opens a text as a saved file.
func (b *tab) openText(text string) {
	b.t.Helper()
	name := filepath.Join(b.t.TempDir(), "sheet.json")
	b.must(os.WriteFile(name, []byte(text), 0o644))
	b.hand(`fold(".open-file")`)
	b.write("#planner-file", name)
}

// Own words beyond the limit stay in their field and are refused; a word of any length
// breaks, on the screen and on paper.
func TestLongWords(t *testing.T) {
	b := newTab(t)
	b.openPlanner()
	b.openText(`{"form":"keelpath-sheet-2","kept":{"day":"Walk the dog."}}`)
	b.waitFor(`document.querySelector("#planner .sheet")`)
	long := strings.Repeat("Donaudamp", 22)
	add := `const field = document.getElementById("planner-own"); field.value = arguments[0]; field.dispatchEvent(new Event("input", { bubbles: true })); press(planner.querySelector('[data-slot="add"] button'), "add")`
	b.hand(add, strings.Repeat("too long ", 60))
	if got := eval[string](b, `return document.getElementById("planner-own-count").textContent`); !strings.HasPrefix(got, "This is too long by 39 characters") || len(b.sheet().Own) != 0 {
		t.Errorf("beyond the limit it says %q and has %q", got, b.sheet().Own)
	}
	b.hand(add, long)
	if wide := eval[int](b, `return document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
		t.Errorf("the page is wider than its window by %d", wide)
	}
	if p := b.print(); p.Pages != "1" || !strings.Contains(strings.Join(strings.Fields(p.Text), ""), long) {
		t.Errorf("the print has %s pages: %s", p.Pages, p.Text)
	}
	b.hand(`button("clear"); button("clear-now")`)
}
