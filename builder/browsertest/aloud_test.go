package browsertest

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/clienttest"
)

// speech stands for the device's voices, which no headless browser has. What is said is noted, and the test ends each
// sentence by finish(). "far" is a voice that sends its text away.
const speech = `(() => {
	const voice = (name, lang, localService) => ({ name, lang, localService, default: name === "far", voiceURI: name });
	window.voices = [voice("far", "en-US", false), voice("other", "es-US", true), voice("near", "en_GB", true)];
	window.said = [];
	let now;
	const over = (how, event) => { const was = now; now = undefined; if (was && was[how]) was[how](event); };
	window.dumb = false;
	window.finish = () => over("onend", {});
	Object.defineProperty(window, "speechSynthesis", { value: {
		getVoices: () => window.voices,
		speak(u) { now = u; said.push(u.text + "|" + (u.voice && u.voice.name) + "|" + u.lang); if (!window.dumb && u.onstart) u.onstart({}); },
		cancel() { over("onerror", { error: "canceled" }); },
	} });
	window.SpeechSynthesisUtterance = function (text) { this.text = text; };
})();`

// readToEnd lets the voice say all that is left, and gives it.
const readToEnd = `(() => {
	for (let n = 0; n < 2000 && document.querySelector("button.aloud[data-reads]"); n++) finish();
	return said.map((s) => s.split("|")[0]);
})()`

// asShown is what the browser itself takes for the visible text of the page's main part, without what is not read: marks of sources,
// drawings, and the button. It is innerText, by which the HTML standard says what of an element is rendered.
const asShown = `(() => {
	const sheet = new CSSStyleSheet();
	sheet.replaceSync("main svg, main .cite, main .aloud, main .unseen, main .jump { display: none !important } * { text-transform: none !important }");
	document.adoptedStyleSheets = [sheet];
	const text = document.querySelector("main").innerText;
	document.adoptedStyleSheets = [];
	return text;
})()`

// A page is read from its name to its end, every word that is shown once and in order, by a voice of the device itself.
func TestPageIsReadAloud(t *testing.T) {
	for _, name := range []string{"learn/spring-feet.html", "learn/glossary.html", "learn/everyday-first-leg.html"} {
		t.Run(name, func(t *testing.T) {
			b := newTab(t)
			b.atStart(speech)
			b.open(onDisk(name))
			b.waitFor(`!!document.querySelector("p.aloud button")`)
			shown := strings.Fields(eval[string](b, asShown))
			b.run(`document.querySelector("p.aloud button").click()`)
			if got := eval[string](b, `said[0]`); got != eval[string](b, `document.querySelector("h1").textContent`)+"|near|en_GB" {
				t.Errorf("it begins with %q", got)
			}
			if marked := eval[string](b, `[...CSS.highlights.get("being-read")].map(String).join()`); marked != eval[string](b, `document.querySelector("h1").textContent`) {
				t.Errorf("while the name is read, %q is marked", marked)
			}
			said := strings.Fields(strings.Join(eval[[]string](b, readToEnd), " "))
			if len(shown) < 200 {
				t.Errorf("only %d words are shown", len(shown))
			}
			if at := firstApart(shown, said); at >= 0 {
				t.Errorf("from word %d on, the page shows %q and %q is read", at, some(shown, at), some(said, at))
			}
			if eval[bool](b, `CSS.highlights.has("being-read")`) {
				t.Error("a sentence is still marked when all was read")
			}
		})
	}
}

var ratio = regexp.MustCompile(`(\d):(\d)`)

// firstApart is the first place where two lists of words differ, and -1 where they do not. A ratio is said in words.
func firstApart(shown, said []string) int {
	shown = strings.Fields(ratio.ReplaceAllString(strings.Join(shown, " "), "$1 to $2"))
	for i := range max(len(shown), len(said)) {
		if i >= len(shown) || i >= len(said) || shown[i] != said[i] {
			return i
		}
	}
	return -1
}

func some(words []string, from int) string {
	return strings.Join(words[min(max(0, from-3), len(words)):min(from+8, len(words))], " ")
}

// A reading ends by its button, by a tap elsewhere, by Escape and by another screen; then nothing more is said or marked.
func TestReadingStops(t *testing.T) {
	for how, script := range map[string]string{
		"its button":     `document.querySelector("button.aloud").click()`,
		"a tap":          `document.querySelector("h1").click()`,
		"Escape":         `document.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true }))`,
		"leaving":        `window.dispatchEvent(new Event("pagehide"))`,
		"another reader": `document.querySelector("button.aloud").click(); document.querySelector("button.aloud").click(); document.body.click()`,
	} {
		t.Run(how, func(t *testing.T) {
			b := newTab(t)
			b.atStart(speech)
			b.open(onDisk("learn/spring-feet.html"))
			b.waitFor(`!!document.querySelector("button.aloud")`)
			b.run(`document.querySelector("button.aloud").click(); finish()`)
			b.run(script)
			n := eval[int](b, `said.length`)
			b.run(`finish(); finish()`)
			if eval[int](b, `said.length`) != n || eval[bool](b, `CSS.highlights.has("being-read")`) || eval[bool](b, `!!document.querySelector("[data-reads]")`) {
				t.Errorf("after %s it reads on", how)
			}
		})
	}
}

// In the planner every screen of a topic can be read: question, reason and answers; nothing that only leads on. The next
// screen ends it, and is not read by itself.
func TestScreensAreReadAloud(t *testing.T) {
	b := newTab(t)
	b.atStart(speech)
	b.open(onDisk(plannerName))
	b.waitFor(`!document.getElementById("planner").hidden`)
	b.run(`document.querySelector('button[data-topic], button.row[value="heel-height"]') && document.querySelector('button.row[value="heel-height"]').click()`)
	b.waitFor(`!!document.querySelector(".screen.safety .line button.aloud")`)
	b.run(`document.querySelector(".line button.aloud").click()`)
	said := eval[[]string](b, readToEnd)
	for _, want := range []string{lib.Safety.Leg.Text.S, "Yes", "Not yet"} {
		if !slices.Contains(said, want) {
			t.Errorf("%q is not read of the first screen; it reads %q", want, said)
		}
	}
	if slices.Contains(said, "Back") || slices.Contains(said, "Read it to me") {
		t.Errorf("what leads on is read: %q", said)
	}
	b.run(`document.querySelector(".line button.aloud").click()`)
	n := eval[int](b, `said.length`)
	b.run(`document.querySelector('[data-leg="worn"]').click()`)
	b.waitFor(`!!document.querySelector(".signs") && !!document.querySelector(".line button.aloud")`)
	b.run(`finish()`)
	if eval[int](b, `said.length`) != n {
		t.Error("the next screen does not end the reading")
	}
}

// Where the device has no voice of its own in the page's language, and on a shared screen, nothing is offered. A voice that never
// begins is given up, and the button says so.
func TestNoReadingWithoutAnOwnVoice(t *testing.T) {
	offered := func(b *tab, name string) bool {
		b.open(name)
		b.run(`new Promise((then) => setTimeout(then, 2500))`)
		return eval[bool](b, `!!document.querySelector("button.aloud")`)
	}
	b := newTab(t)
	b.atStart(speech + `voices.pop();`)
	if offered(b, onDisk("learn/spring-feet.html")) {
		t.Error("it is offered with a far voice and one of another language")
	}
	dir := t.TempDir()
	sharedSite(t, dir)
	b = newTab(t)
	b.atStart(speech)
	for _, name := range []string{"learn/spring-feet.html", plannerName} {
		if offered(b, "file://"+dir+"/"+name) {
			t.Errorf("%s offers it on a shared screen", name)
		}
	}
	b = newTab(t)
	b.atStart(speech + `window.dumb = true;`)
	b.open(onDisk("learn/spring-feet.html"))
	b.waitFor(`!!document.querySelector("button.aloud")`)
	b.run(`document.querySelector("button.aloud").click()`)
	b.waitFor(`!document.querySelector("[data-reads]")`)
	if text := eval[string](b, `document.querySelector("button.aloud").textContent`); !strings.Contains(text, "did not read") {
		t.Errorf("a voice that never begins leaves %q", text)
	}
}

// Sentences are those of the browser's own rules, which are Unicode's (UAX #29), and where a browser has none, those of marks and blanks; the
// samples are plain enough to be the same by both.
func TestSentences(t *testing.T) {
	b := newTab(t)
	b.open("about:blank")
	b.run(clienttest.Bundle(t, "aloud/sentences.ts") + ";window.aloud = script")
	for text, want := range map[string][]string{
		"One. Two? Three! Four":                     {"One. ", "Two? ", "Three! ", "Four"},
		"It rises 3.5 in over 1:12. Then it stops.": {"It rises 3.5 in over 1:12. ", "Then it stops."},
		"She said: “Stop.” He did.":                 {"She said: “Stop.” ", "He did."},
		"   ":                                       nil,
		"Hills and ramps":                           {"Hills and ramps"},
	} {
		for _, by := range []string{"", "Intl.Segmenter = undefined;"} {
			got := eval[[]string](b, `(() => { const kept = Intl.Segmenter; `+by+` try { const text = `+quoted(b, text)+`; return aloud.sentences(text, "en").map(([from, to]) => text.slice(from, to)); } finally { Intl.Segmenter = kept; } })()`)
			if !slices.Equal(got, want) {
				t.Errorf("%q (%s) is %q, want %q", text, by, got, want)
			}
		}
	}
	if got := eval[string](b, `aloud.spoken("  At most\n 1:12, or 4.8° ", "to")`); got != "At most 1 to 12, or 4.8°" {
		t.Errorf("a ratio is said as %q", got)
	}
}
