package browsertest

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

const searchPage = "learn/search.html"

// searchState is the page with what was found.
func searchState(name, question string) state {
	return state{"search-" + name, func(b *tab, address func(string) string) { b.t.Helper(); b.search(question, address) }}
}

// search opens the page and types a question; it waits for what is found.
func (b *tab) search(question string, address func(string) string) {
	b.t.Helper()
	b.openPage(searchPage, address)
	b.ask(question)
}

func (b *tab) ask(question string) {
	b.t.Helper()
	b.run(fmt.Sprintf(`(() => { const f = document.getElementById("seek"); document.querySelector('[data-slot="list"]').textContent = ""; f.value = %q; f.dispatchEvent(new Event("input", { bubbles: true })) })()`, question))
	b.waitFor(`!!document.querySelector(".found li") || !document.querySelector('[data-slot="says"]').hidden`)
}

type searchSeen struct {
	Headings, Addresses, Texts []string
	Marked                     int
	Cautions                   []string
	Calls                      []string // numbers to call, in order
	Topic                      string
	Browse                     bool
	Above                      bool // the cautions stand above all results
}

func (b *tab) found() searchSeen {
	b.t.Helper()
	return eval[searchSeen](b, `(() => {
const all = (s) => [...document.querySelectorAll(s)];
const shown = (e) => e.getClientRects().length > 0;
const signs = document.querySelector('[data-slot="signs"]'), list = document.querySelector('[data-slot="list"]'), topic = document.querySelector('[data-slot="topic"]');
return {
	Headings: all(".found a").map((a) => a.textContent), Addresses: all(".found a").map((a) => a.href), Texts: all(".found .text").map((p) => p.textContent), Marked: all(".found mark").length,
	Cautions: all(".signs-found h3").filter(shown).map((h) => h.textContent), Calls: all(".signs-found .call-row a").filter(shown).map((a) => a.getAttribute("href")),
	Topic: topic.hidden ? "" : topic.querySelector("a").href, Browse: shown(document.querySelector('[data-slot="browse"]')),
	Above: !shown(signs) || !list.children.length || signs.getBoundingClientRect().bottom <= Math.min(list.getBoundingClientRect().top, shown(topic) ? topic.getBoundingClientRect().top : Infinity),
};
})()`)
}

// What is found shows the page's heading and paragraph, with the words marked, and leads to its place, from disk and on the web.
func TestSearchShowsPlaces(t *testing.T) {
	for name, address := range map[string]func(string) string{"disk": onDisk, "web": onWeb} {
		t.Run(name, func(t *testing.T) {
			b := newTab(t)
			b.search("my stump is sweaty", address)
			got := b.found()
			if len(got.Headings) != 10 || got.Marked == 0 || len(got.Cautions) > 0 || got.Browse {
				t.Fatalf("%+v", got)
			}
			i := slices.Index(got.Headings, "How do I stop the sweat?")
			if i < 0 || !strings.HasPrefix(got.Addresses[i], address("learn/skin-sweat-and-liners.html")+"#how-do-i-stop-the-sweat") || got.Texts[i] == "" {
				t.Errorf("%+v", got)
			}
			if !strings.HasSuffix(got.Topic, "prepare/index.html#take=sore-skin-sweat-and-rash") {
				t.Errorf("the topic is %q", got.Topic)
			}
			b.ask("xyzzyq")
			if got := b.found(); len(got.Headings) > 0 || !got.Browse {
				t.Errorf("where nothing is found, %+v", got)
			}
		})
	}
}

// By key alone: the first letter needs no mouse, Enter goes to the first place, Enter there to its paragraph, and back shows what was asked.
func TestSearchByKey(t *testing.T) {
	b := newTab(t)
	b.openPage(searchPage, onDisk)
	if at := eval[string](b, `document.activeElement.id`); at != "seek" {
		t.Fatalf("the focus is on %q", at)
	}
	b.write("golf")
	b.waitFor(`!!document.querySelector(".found li")`)
	b.press("Enter")
	b.waitFor(`document.activeElement.closest(".found") !== null`)
	first := eval[string](b, `document.activeElement.href`)
	b.press("Enter")
	b.waitFor(`!location.href.includes("search.html") && document.readyState === "complete"`)
	place, _, _ := strings.Cut(first, ":~:")
	if at := eval[string](b, `location.href`); at != place {
		t.Errorf("it led to %s, and not to %s", at, place)
	}
	b.back()
	b.waitFor(`!!document.querySelector(".found li")`)
	if asked := eval[string](b, `document.getElementById("seek").value`); asked != "golf" {
		t.Errorf("after going back %q is asked", asked)
	}
}

// A sign that is named shows its caution and whom to call above all that was found, and Enter stays there.
func TestSearchShowsCautionsFirst(t *testing.T) {
	b := newTab(t)
	b.size(360, 740)
	b.search("my chest hurts and I cant go on", onDisk)
	got := b.found()
	if !slices.Equal(got.Cautions, []string{"Chest pain or pressure", "Thoughts of ending your life", "Feeling hopeless"}) || !got.Above || !slices.Equal(got.Calls, []string{"tel:988", "tel:911"}) {
		t.Errorf("%+v", got)
	}
	b.press("Enter")
	b.waitFor(`document.activeElement.matches(".signs-found")`)
	b.ask("what is a keel")
	if got := b.found(); len(got.Cautions) > 0 || len(got.Calls) > 0 {
		t.Errorf("without a sign, %+v", got)
	}
	// Where no file of the index can be had, the caution is shown all the same.
	c := newTab(t)
	c.openPage(searchPage, onDisk)
	c.run(`document.querySelector("form.seek").dataset.root = "nowhere/"; document.head.appendChild = () => { throw new Error("no file") }`)
	c.run(`(() => { const f = document.getElementById("seek"); f.value = "chest pain"; f.dispatchEvent(new Event("input", { bubbles: true })) })()`)
	c.waitFor(`document.querySelector(".signs-found h3") !== null && document.querySelector(".signs-found").getClientRects().length > 0`)
	c.forgive()
}

// A field on another page takes the question along, behind the "#", from where it is taken out.
func TestSearchFromAField(t *testing.T) {
	for _, from := range []string{"index.html", "learn/index.html"} {
		b := newTab(t)
		b.openPage(from, onDisk)
		b.run(`document.getElementById("seek").focus()`)
		b.write("phantom pain")
		b.press("Enter")
		b.waitFor(`!!document.querySelector(".found li")`)
		if at := eval[string](b, `location.href`); at != onDisk(searchPage) {
			t.Errorf("%s: the address is %s", from, at)
		}
		if asked := eval[string](b, `document.getElementById("seek").value`); asked != "phantom pain" {
			t.Errorf("%s: %q is asked", from, asked)
		}
	}
}

// Without script the page lists what people ask and the words.
func TestSearchWithoutScript(t *testing.T) {
	b := newTab(t)
	b.scriptOff()
	b.open(onDisk(searchPage))
	got := eval[[]int](b, `[document.querySelectorAll('[data-slot="browse"] details li a').length, document.querySelectorAll(".word-list a").length]`)
	if got[0] < 120 || got[1] < 80 {
		t.Errorf("%d questions and %d words", got[0], got[1])
	}
}

// BenchmarkSearch tells how long it takes to look up and show one question after the other, at four times the time, with all files
// loaded. 95 of 100 are to fit into a frame of 16 ms.
func BenchmarkSearch(bench *testing.B) {
	b := newTab(bench)
	for bench.Loop() {
		b.search("foot", onDisk)
		var took []float64
		for round := range 2 { // the first loads what is needed
			for _, q := range []string{"my stump is sweaty", "how long does a foot last", "will my plan pay for a second leg", "hydralic ankle on a slope", "golf", "what can i do about phantom pain at night", "prosthetsit", "which foot is best for hills", "how do i get up from the floor", "can i drive with my right leg gone"} {
				b.ask(q)
				time.Sleep(50 * time.Millisecond)
				ms := eval[float64](b, `(async () => { const f = document.getElementById("seek"), list = document.querySelector('[data-slot="list"]'); list.textContent = "";
					const start = performance.now(); f.dispatchEvent(new Event("input", { bubbles: true }));
					while (!list.children.length && performance.now() - start < 1000) await Promise.resolve();
					list.getBoundingClientRect(); return performance.now() - start })()`)
				if round > 0 {
					took = append(took, 4*ms)
				}
			}
		}
		bench.ReportMetric(percentile(took, 95), "ms/95of100at4x")
		bench.ReportMetric(percentile(took, 50), "ms/50of100at4x")
	}
}

// How many of the 100 questions of testdata/questions.txt are answered within the first phone screen of where the first of the
// three results leads that is the right place: the paragraph or row that answers begins on it. The aim is 70. It was 62 while links named
// words that do not stand together on the page, for which the browser shows its top, and is 75.
const answeredOnScreen = 74

func TestSearchAnswersOnTheFirstScreen(t *testing.T) {
	src, err := os.ReadFile("../../testdata/questions.txt")
	if err != nil {
		t.Fatal(err)
	}
	b := newTab(t)
	b.size(360, 640)
	answered := 0
	for line := range strings.Lines(string(src)) {
		parts := strings.Split(strings.TrimSpace(line), "\t")
		if len(parts) != 4 {
			continue
		}
		b.open(onDisk(searchPage)) // what it asks for is held elsewhere; the page left behind may still be asking for its own
		b.ask(parts[1])
		places := b.found().Addresses
		i := slices.IndexFunc(places[:min(3, len(places))], func(a string) bool { a, _, _ = strings.Cut(a, ":~:"); return strings.HasSuffix(a, "/"+parts[2]) })
		if i < 0 {
			continue
		}
		b.open(places[i])
		seen := eval[bool](b, fmt.Sprintf(`(() => { const bare = (s) => s.replace(/\s+/g, ""), words = bare(%q);
			return [...document.querySelectorAll("main p, main li, main tr, main figcaption, main caption")].some((e) => { const box = e.getBoundingClientRect();
				return bare(e.textContent).startsWith(words) && box.height > 0 && box.top >= 0 && box.top < 640; }) })()`, parts[3]))
		if seen {
			answered++
		} else {
			t.Logf("%q leads to %s, and %q is not on the first screen", parts[1], places[i], parts[3])
		}
	}
	t.Logf("%d are answered on the first screen", answered)
	if answered < answeredOnScreen {
		t.Errorf("%d are answered on the first screen, and it was %d", answered, answeredOnScreen)
	}
}

// What is cut from a long paragraph ends with a sentence, since whom to call often stands at the end of one.
func TestSearchShowsWholeSentences(t *testing.T) {
	t.Parallel()
	b := newTab(t)
	cut := 0
	for _, question := range []string{"how many socks", "my limb is swollen", "I fell in the shower", "can I drive", "blister under the liner", "what do I pay"} {
		b.search(question, onDisk)
		for _, shown := range b.found().Texts {
			if !strings.HasSuffix(shown, " …") {
				continue
			}
			cut++
			if text := strings.TrimRight(strings.TrimSuffix(shown, " …"), `"”')`); !strings.ContainsRune(".?!", rune(text[len(text)-1])) {
				t.Errorf("%q shows %q", question, shown)
			}
		}
	}
	if cut == 0 {
		t.Error("no paragraph was cut")
	}
}
