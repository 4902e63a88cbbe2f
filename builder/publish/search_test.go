package publish

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"

	"keelpath/builder/clienttest"
	"keelpath/builder/search"
	"keelpath/site"
)

// searchable is the shipped site with its index, and the client's script that looks things up in it.
type searchable struct {
	site   folderOf
	script *clienttest.Script
}

var searchableOnce = sync.OnceValue(func() *searchable { return &searchable{} })

func searching(t *testing.T) *searchable {
	t.Helper()
	s := searchableOnce()
	if s.site == nil {
		s.site, _ = built(t, load(t), nil)
		s.script = searchScript(t, s.site)
	}
	return s
}

// searchScript runs what a page runs: the files of the index, and all texts, call what takes them.
func searchScript(t testing.TB, site folderOf) *clienttest.Script {
	t.Helper()
	script := clienttest.LoadAll(t, "find/rank.ts", "find/signs.ts", "find/table.ts")
	run := func(code string) {
		t.Helper()
		if err := script.Run(code+"; 0", new(any)); err != nil {
			t.Fatal(err)
		}
	}
	run(`var index, texts = {}; function ` + search.Call + `(kind, name, brings) {
		if (kind === "first") index = new script.Index(brings);
		else if (kind === "part") index.take(name, brings);
		else texts[name] = brings;
	}
	function find(question, typing, most) {
		const asked = index.asked(question, !!typing);
		return index.find(asked, most).map((f) => {
			const text = texts[index.page(f.unit)];
			return { Place: index.page(f.unit) + ".html#" + (text.units[index.place(f.unit).nth].at || ""), Topic: index.topic(f.unit), Score: f.score };
		});
	}`)
	run(string(site[searchFolder+search.FirstFile]))
	for name, data := range site {
		if strings.HasPrefix(name, searchFolder) && name != searchFolder+search.FirstFile {
			run(string(data))
		}
	}
	return script
}

type placeFound struct {
	Place, Topic string
	Score        float64
}

func (s *searchable) find(t *testing.T, question string) []placeFound {
	t.Helper()
	var out []placeFound
	if err := s.script.Run(fmt.Sprintf("find(%q, false, 30)", question), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// places are those that are no topic.
func places(found []placeFound) []string {
	var out []string
	for _, f := range found {
		if f.Topic == "" {
			out = append(out, f.Place)
		}
	}
	return out
}

// reached says how many of a list of questions find the place of their answer first, among the first three and among the
// first ten.
type reached struct{ first, three, ten int }

// How many of the questions of testdata/questions.txt that have an answer find it; 75 and 90 are the aim. The everyday words of the
// content were written by people who knew these questions, so others may be found less well: what is reached by those of
// questions-aside.txt, which were written before and on which nothing is tuned, stands beside: 28, 47 and 60 when it was
// counted last. It is no aim, and each page that is added moves a place or two, so less than that is let pass.
var (
	reachedAsked = reached{75, 91, 98}
	reachedAside = reached{27, 45, 58} // of 74
)

func TestSearchAnswers(t *testing.T) {
	for _, c := range []struct {
		file string
		all  []asked
		want reached
	}{{"questions.txt", questionsAsked(t), reachedAsked}, {"questions-aside.txt", questionsAside(t), reachedAside}} {
		got := searching(t).reached(t, c.all)
		t.Logf("%s: %+v of %d", c.file, got, len(c.all))
		if got.first < c.want.first || got.three < c.want.three || got.ten < c.want.ten {
			t.Errorf("%s: %+v, and it was %+v", c.file, got, c.want)
		}
	}
}

func (s *searchable) reached(t *testing.T, all []asked) reached {
	t.Helper()
	var out reached
	for _, q := range all {
		if q.answer == "" {
			continue
		}
		answer := q.answer
		if page, id, _ := strings.Cut(answer, "#"); strings.HasPrefix(page, "learn/"+everyday) { // it is found where it leads
			answer = leadsOf(page, s.site[page])[id]
		}
		at := slices.Index(places(s.find(t, q.question)), answer)
		if at == 0 {
			out.first++
		}
		if at >= 0 && at < 3 {
			out.three++
		} else {
			t.Logf("%q finds its answer at %d", q.question, at+1)
		}
		if at >= 0 && at < 10 {
			out.ten++
		}
	}
	return out
}

// Each everyday question, asked in its page's own words, finds the place that answers it.
func TestSearchFindsWhatPagesAsk(t *testing.T) {
	s := searching(t)
	all, near := 0, 0
	for _, e := range load(t).Explainers {
		if !strings.HasPrefix(e.ID, everyday) {
			continue
		}
		page := "learn/" + e.ID + ".html"
		leads := leadsOf(page, s.site[page])
		for _, h := range e.Body.Headings {
			want := leads[h.ID]
			if h.Level != 2 || want == "" {
				continue
			}
			all++
			if at := slices.Index(places(s.find(t, h.Text)), want); at >= 0 && at < 3 {
				near++
			} else {
				t.Logf("%q finds %s at %d", h.Text, want, at+1)
			}
		}
	}
	if all < 150 || near*100 < all*95 {
		t.Errorf("of %d questions %d are among the first three", all, near)
	}
}

// A slip of the finger, another ending and a word that is not finished find what is meant.
func TestSearchNearMisses(t *testing.T) {
	s := searching(t)
	for asked, want := range map[string]string{
		"prosthetsit": "prosthetist", "prothesis": "prosthesis", "alignmnet": "alignment", "hydralic": "hydraulic", "phantm": "phantom",
		"sweatng": "sweating", "sokcet": "socket", "insurence": "insurance", "amputaton": "amputation", "microproccessor": "microprocessor",
	} {
		var got []string
		if err := s.script.Run(fmt.Sprintf("index.asked(%q, false).taken.map((t) => t[1])", asked), &got); err != nil || len(got) != 1 || search.Stem("en", got[0]) != search.Stem("en", want) {
			t.Errorf("%q is taken for %q, want %q (%v)", asked, got, want, err)
		}
	}
	var concepts []struct{ Terms map[string]float64 }
	if err := s.script.Run(`index.asked("pros", true).concepts`, &concepts); err != nil || len(concepts) != 1 {
		t.Errorf("what is being typed is %v, %v", concepts, err)
	}
	var k5 []any
	if err := s.script.Run(`index.asked("k7", false).concepts`, &k5); err != nil || len(k5) != 0 {
		t.Errorf("a number that is not there is taken for another: %v, %v", k5, err)
	}
}

// The table of words gives each word of the site the stem that the stemmer gives it, and the script parts texts as the index does.
func TestSearchTable(t *testing.T) {
	s := searching(t)
	var texts []string
	words := map[string]bool{}
	for name, data := range s.site {
		if !strings.HasPrefix(name, "learn/") && name != "clinic/index.html" || name == "learn/index.html" || name == "learn/search.html" {
			continue
		}
		for p := range Paragraphs(data) {
			if leftOut(p.At) {
				continue
			}
			texts = append(texts, p.Text)
			for _, w := range search.Split(p.Text) {
				words[w] = true
			}
		}
	}
	for _, w := range leftOutWords(t) {
		delete(words, w)
	}
	all := slices.Sorted(maps.Keys(words))
	list, err := json.Marshal(map[string][]string{"texts": texts, "words": all})
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Texts [][]string
		Terms []int
	}
	if err := s.script.Run("(() => { const all = "+string(list)+"; return { Texts: all.texts.map(script.split), Terms: all.words.map((w) => index.table.term(w)) } })()", &got); err != nil {
		t.Fatal(err)
	}
	for i, text := range texts {
		if want := search.Split(text); !slices.Equal(got.Texts[i], want) {
			t.Errorf("%q is %q in the script, and %q here", text, got.Texts[i], want)
		}
	}
	byTerm := map[int]string{}
	for i, w := range all {
		term, stem := got.Terms[i], search.Stem("en", w)
		if known, met := byTerm[term]; term < 0 || met && known != stem {
			t.Errorf("%q has the term %d, which is that of %q, and its stem is %q", w, term, known, stem)
		}
		byTerm[term] = stem
	}
	if len(texts) < 5000 || len(all) < 3000 {
		t.Errorf("only %d texts and %d words", len(texts), len(all))
	}
}

func leftOutWords(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, w := range load(t).SearchWords.Skip {
		out = append(out, w.S)
	}
	return out
}

func packed(t *testing.T, data []byte) int {
	t.Helper()
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

// What is looked up in, compressed, is at most 12 % of the text that it leads to.
func TestSearchWeight(t *testing.T) {
	s := searching(t)
	m, err := newMaker(load(t), site.Files, nil)
	if err != nil {
		t.Fatal(err)
	}
	text, index, texts := 0, 0, 0
	var whole bytes.Buffer
	for _, p := range m.plan.Pages {
		if slices.Contains(searched, p.Kind) {
			for q := range Paragraphs(s.site[p.Name]) {
				text += len(q.Text)
				whole.WriteString(q.Text)
			}
		}
	}
	for name, data := range s.site {
		switch {
		case name == searchFolder+search.FirstFile || strings.HasPrefix(name, searchFolder+"places-"):
			index += packed(t, data)
		case strings.HasPrefix(name, searchFolder):
			texts += packed(t, data)
		}
	}
	t.Logf("the text of the pages has %d bytes, %d compressed; the index %d, and what is shown of places %d, in a file a page", text, packed(t, whole.Bytes()), index, texts)
	if index*100 > text*12 {
		t.Errorf("the index has %d bytes compressed, of %d bytes of text", index, text)
	}
}

// Each sign of the safety screen is seen in three wordings, as people may type them (our own; no source). Nobody has to be
// ill in the words of the table.
var inOwnWords = map[string][3]string{
	"chest":  {"my chest feels really tight", "there is a heavy weight pressing on my chest", "am i having a heart attack"},
	"breath": {"i cant catch my breath all of a sudden", "coughing up blood this morning", "short of breath since last night"},
	"faint":  {"i passed out in the kitchen", "everything went black and i blacked out", "he collapsed and lost consciousness"},
	"stroke": {"one side of his face is drooping", "she is slurring her words", "my right arm went numb and weak"},
	"sight":  {"suddenly i cannot see on one side", "worst headache ever", "lost the vision in my eye"},
	"cold":   {"my stump is ice cold and white", "my foot turned pale and numb", "leg suddenly cold and hurts like hell"},
	"sepsis": {"i have a fever and i am shaking", "infection and she is confused", "could this be sepsis"},
	"blotch": {"his lips are blue", "rash that does not fade when i press a glass on it", "my skin is all blotchy and gray"},
	"black":  {"my toe is turning black", "the skin on my stump went black", "is this gangrene"},
	"thin":   {"banged my head and i am on warfarin", "hit my head i take eliquis", "bumped head blood thinners"},
	"head":   {"i knocked my head and now i feel sick", "hit my head on the sink", "do i have a concussion"},
	"hip":    {"fell and now i cannot stand", "i think i broke my hip", "after the fall my leg looks shorter"},
	"groin":  {"numb in my groin and i wet myself", "i have lost control of my bladder", "no feeling between my legs, numb"},
	"bleed":  {"the bleeding wont stop", "my stump is bleeding a lot", "blood is pouring out of the cut"},

	"hot":   {"my stump is red and hot", "skin is swollen and warm to touch", "is it cellulitis"},
	"wound": {"my incision is leaking", "the scar has opened up", "there is pus coming from my stitches"},
	"sore":  {"i got a blister from my socket", "the skin on my stump is raw", "pressure sore"},
	"pain":  {"my stump suddenly hurts really bad", "new pain in my limb", "my residual limb is swelling up"},
	"calf":  {"my calf is swollen and warm", "could it be a blood clot in my thigh", "dvt"},
	"rest":  {"leg pain wakes me up", "my foot hurts at night in bed unless i hang it down", "pain wakes me and hanging the leg helps"},
	"other": {"there is a sore on my good foot", "my other foot has changed color", "cut on my remaining foot"},
	"char":  {"my good foot is hot and puffy", "other foot swollen but no pain", "charcot foot"},
	"rash":  {"rash under my liner", "the sleeve makes me itch", "am i allergic to silicone liner"},
	"thick": {"the skin on the end of my stump is thick and warty", "rough crusty skin on my limb", "callus on the end of my stump"},
	"treat": {"antibiotics are not working", "skin infection not getting better", "infection is still there after the pills"},

	"crack": {"my socket is cracked", "the foot snapped", "there is a split in the pylon"},
	"loose": {"a screw fell out of my leg", "my foot wobbles", "i lost a bolt"},
	"knee":  {"my prosthetic knee buckles", "the mechanical knee locks up", "knee folded under me"},
	"stuck": {"my leg is stuck and wont come off", "i cannot get my prosthesis off", "limb is too swollen to get the leg on"},
	"strap": {"the strap cuts in", "my belt is too tight", "strap is digging into me"},
	"smoke": {"the battery is smoking", "my ankle caught fire", "sparks from the charger"},
	"batt":  {"the battery is bulging", "charger gets very hot", "battery leaks something"},
	"noise": {"my leg makes a strange noise", "my foot started clicking", "my socket does not fit anymore"},

	"fall":  {"i fell yesterday", "took a tumble on the stairs", "my dad has fallen again"},
	"own":   {"my good knee gives out", "my own knee buckles when i walk", "knee keeps giving way"},
	"dizzy": {"i feel lightheaded when i get up", "the room spins when i stand", "dizzy after dialysis"},

	"end": {"i want to kill myself", "i dont want to live anymore", "everyone would be better off without me"},
	"low": {"i feel hopeless", "i cant go on like this", "nothing matters any more"},
}

// signsIn gives what the page has of signs, and a script that tells which a question names.
func (s *searchable) signsIn(t *testing.T, question string) []string {
	t.Helper()
	var got []string
	if err := s.script.Run(fmt.Sprintf("signs.named(%q, (w) => index.table.term(w) < 0)", question), &got); err != nil {
		t.Fatal(err)
	}
	return got
}

func (s *searchable) withSigns(t *testing.T) dataSearch {
	t.Helper()
	page := string(s.site["learn/search.html"])
	_, block, _ := strings.Cut(page, `id="search-data">`)
	block, _, _ = strings.Cut(block, "</script>")
	var data dataSearch
	if err := json.Unmarshal([]byte(block), &data); err != nil {
		t.Fatal(err)
	}
	if err := s.script.Run("var signs = new script.Signs("+block+".signs); 0", new(any)); err != nil {
		t.Fatal(err)
	}
	return data
}

func TestSearchNamesEachSign(t *testing.T) {
	s := searching(t)
	data := s.withSigns(t)
	l := load(t)
	for _, id := range l.Safety.SignIDs() {
		if _, written := inOwnWords[id]; !written {
			t.Errorf("nobody wrote how people may name the sign %q", id)
		}
		if l.SearchWords.Sign(id) == nil {
			t.Errorf("nothing says how people name the sign %q", id)
		}
		for _, said := range inOwnWords[id] {
			if got := s.signsIn(t, said); !slices.Contains(got, id) {
				t.Errorf("%q names %v, want %s", said, got, id)
			}
		}
		if !bytes.Contains(s.site["learn/search.html"], []byte(`<template id="sign-`+id+`"><section class="told">`)) {
			t.Errorf("the page has no caution of %q", id)
		}
	}
	if !slices.Equal(data.Crisis, []string{"end", "low"}) {
		t.Errorf("the crisis line is shown for %v", data.Crisis)
	}
	if got := s.signsIn(t, "my chst hurts and my lips are bleu"); !slices.Contains(got, "chest") {
		t.Errorf("with slips of the finger, %v", got)
	}
	for _, said := range []string{"how much does a foot cost", "what is a SACH foot", "can I swim with my leg", "which shoes can I wear", "do I need a new prescription", "what does K3 mean", "how do I wash my liner", "golf", "I feel tired of waiting for my appointment", "is carbon lighter"} {
		if got := s.signsIn(t, said); len(got) > 0 {
			t.Errorf("%q names %v", said, got)
		}
	}
}

// A symptom finds the topic that asks about it.
func TestSearchOffersTopics(t *testing.T) {
	s := searching(t)
	for asked, want := range map[string]string{
		"skin rash and sweat": "sore-skin-sweat-and-rash", "phantom pain": "limb-and-phantom-pain", "my socket is loose in the evening": "socket-liner-and-fit", "when may I drive again": "driving-again", "my knee is pushed forward on a ramp": "hills-and-ramps",
	} {
		found := s.find(t, asked)
		i := slices.IndexFunc(found, func(f placeFound) bool { return f.Topic != "" })
		if i < 0 || found[i].Score < found[0].Score/2 || found[i].Topic != want {
			t.Errorf("%q offers %v, want %s", asked, i, want)
		}
	}
}
