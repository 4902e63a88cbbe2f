package library_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/read"
)

// voicedText is one text with what it is in each voice.
type voicedText struct {
	who string
	in  map[string]string // by voice, the reader's own among them
}

// eachText gives the texts of a library. Of what the program itself says only the first is given, for the reader's own library
// has it in all voices and forms at once.
func eachText(l *library.Library, do func(who, text string)) {
	last := ""
	library.EveryText(l, func(who, text string) {
		if !strings.HasPrefix(who, `text "`) || who != last {
			do(who, text)
		}
		last = who
	})
}

// voicedTexts gives all texts that readers see, in each voice. Libraries of several voices have the same texts in the same order.
func voicedTexts(t *testing.T, l *library.Library) []voicedText {
	t.Helper()
	var out []voicedText
	eachText(l, func(who, text string) { out = append(out, voicedText{who, map[string]string{read.Voices[0]: text}}) })
	for _, o := range l.Voices {
		i := 0
		eachText(o, func(who, text string) {
			if i >= len(out) || out[i].who != who {
				t.Fatalf("in the voice %q, text %d is of %s, and in the reader's own of %s", o.Voice, i, who, out[min(i, len(out)-1)].who)
			}
			out[i].in[o.Voice] = text
			i++
		})
		if i != len(out) {
			t.Fatalf("there are %d texts in the voice %q, and %d in the reader's own", i, o.Voice, len(out))
		}
	}
	return out
}

// What a wearer would say of herself. In the other voices the reader is not the one who wears the leg. From memory: the words of the
// site's own trees that can mean nothing else.
var wearerSays = regexp.MustCompile(`(?i)\b(my|your) (own )?(artificial |usual |other |right |left |new |old |daily |first )?(foot|feet|leg|legs|limb|knee|hip|back|weight|heel|heels|shoes|skin|socket|stump)\b|\bI (wear|walk|weigh|carry|stand|fell|trip|limp)\b|\b(do|can|could|if|when) you (wear|walk|weigh|limp|kneel)\b`)

// Each patients' tree is there in each voice with its ids and proof, and what speaks of the wearer names the child or the person.
func TestVoices(t *testing.T) {
	var list finding.List
	l := load(t, &list, library.Builtin())
	for _, f := range list.Sorted() {
		t.Errorf("%s: %s", f.Place, f.Text)
	}
	var voices []string
	for _, o := range l.Voices {
		voices = append(voices, o.Voice)
		for i, tr := range o.PatientTrees() {
			first := l.PatientTrees()[i]
			if tr.ID.S != first.ID.S || o.Proofs[tr.ID.S] != l.Proofs[tr.ID.S] || len(tr.Questions) != len(first.Questions) {
				t.Errorf("tree %s is another one in the voice %q", tr.ID.S, o.Voice)
			}
		}
		if o.Safety == nil || len(o.Prompts()) != len(l.Prompts()) || len(o.Cards) != len(l.Cards) || len(o.Facts) != len(l.Facts) {
			t.Errorf("not all is said in the voice %q", o.Voice)
		}
	}
	if !slices.Equal(voices, []string{"child", "person"}) {
		t.Fatalf("the edition has the voices %q", voices)
	}
	differ := 0
	for _, v := range voicedTexts(t, l) {
		if !ofPatients.MatchString(v.who) {
			continue
		}
		for _, voice := range voices {
			if v.in[voice] != v.in["me"] {
				differ++
			}
			if said := wearerSays.FindString(v.in[voice]); said != "" && wearerSays.MatchString(v.in["me"]) {
				t.Errorf("%s says %q in the voice %q: %q", v.who, said, voice, v.in[voice])
			}
			if has, wants := marksIn(v.in[voice]), marksIn(v.in["me"]); has != wants {
				t.Errorf("%s has %s in the voice %q, and %s in the reader's own", v.who, has, voice, wants)
			}
		}
	}
	if differ < 2000 {
		t.Errorf("only %d texts differ: is the search right?", differ)
	}
}

// ofPatients is what patients come to in the planner and on the sheet.
var ofPatients = regexp.MustCompile(`^(prompt|theme|card|fact|what the sheet says|question|answer|ending|the tree|the safety screen|group|sign|the screen's ending)\b|^(input|text) "[a-z0-9-]+" of figure "(heel-change|load|slope)"`)

var markIn = regexp.MustCompile(`\]\([a-z]+:[^)]*\)|\{[a-z-]+\}`)

func marksIn(text string) string {
	all := markIn.FindAllString(text, -1)
	slices.Sort(all)
	return fmt.Sprint(all)
}

// spokenBy loads the built-in content with a layer over it and gives what is found in the layer.
func spokenBy(t *testing.T, files map[string]string) []finding.Finding {
	t.Helper()
	var list finding.List
	load(t, &list, library.Builtin(), library.Made("layer", files))
	return list.Sorted()
}

// What is sealed is sealed in each voice, and a layer that says nothing in them is warned once for each of its files.
func TestVoicesOfALayer(t *testing.T) {
	l := load(t, &finding.List{}, library.Builtin())
	built := string(library.Builtin().File("content/en/trees/safety.yaml"))
	_, after, _ := strings.Cut(built, "\ngroups.help.signs.chest.caution:\n")
	of := strings.TrimSpace(strings.SplitN(after, "\n", 2)[0])
	found := spokenBy(t, map[string]string{"content/en/trees/safety.yaml": fmt.Sprintf("groups.help.signs.chest.caution: { %s, child: It will pass., person: \"Call, and wait. [](call:emergency)\" }\n", of)})
	kept := 0
	for _, f := range found {
		if f.Check == "safety-kept" && f.File == "layer/content/en/trees/safety.yaml" {
			kept++
		}
	}
	if kept != 2 {
		t.Errorf("other words for a sealed caution are found %d times, and twice was expected: %v", kept, found)
	}
	const prompt = "themes:\n  heel:\n    title: %s\n    about: A foot is set up for one heel height.\n    prompts:\n      heel-7: { ask: \"Is there one height for the shoes that I own?\", whom: [prosthetist], why: One setting may do., basis: [common-practice] }\n"
	prompts := fmt.Sprintf(prompt, l.Theme("heel").Title.S)
	found = spokenBy(t, map[string]string{"trees/prompts.yaml": prompts})
	if len(found) != 1 || found[0].Check != "missing-voice" || found[0].Weight != finding.Warning || found[0].File != "layer/trees/prompts.yaml" {
		t.Errorf("a layer's own prompt without voices gives %v", found)
	}
	if found = spokenBy(t, map[string]string{
		"trees/prompts.yaml":            prompts,
		"content/en/trees/prompts.yaml": "themes.heel.prompts.heel-7.ask: { of: " + read.Fingerprint("Is there one height for the shoes that I own?") + ", child: \"Is there one height for my child’s shoes?\", person: \"Is there one height for their shoes?\" }\n",
	}); len(found) > 0 {
		t.Errorf("a layer's own prompt in each voice gives %v", found)
	}
}

// A figure beside a patients' question is said in each voice at its texts: one that is not is found, in a layer's own as a warning, and what is wrong
// in a voice alone is found at that voice. Of a figure that the planner does not show nothing is asked.
func TestVoicesOfAFigure(t *testing.T) {
	file := "content/en/figures/load.yaml"
	built := string(library.Builtin().File(file))
	nothing := `{ me: You carry nothing., child: Your child carries nothing., person: The person carries nothing. }`
	with := func(says string) map[string]string {
		changed := strings.Replace(built, nothing, says, 1)
		if changed == built {
			t.Fatalf("the figure does not say %s", nothing)
		}
		return map[string]string{file: changed}
	}
	for _, c := range []struct {
		says, check string
		weight      finding.Weight
	}{
		{"You carry nothing.", "missing-voice", finding.Warning},
		{"{ me: You carry nothing., child: Your child carries nothing. }", "missing-voice", finding.Error},
		{"{ me: You carry nothing., child: \"Your child carries {nothing}.\", person: The person carries nothing. }", "unknown-name", finding.Error},
	} {
		found := spokenBy(t, with(c.says))
		if len(found) != 1 || found[0].Check != c.check || found[0].Weight != c.weight || found[0].File != "layer/"+file {
			t.Errorf("%s gives %v", c.says, found)
		}
	}
	if found := spokenBy(t, with("Nothing is carried.")); len(found) > 0 {
		t.Errorf("a text that suits every voice gives %v", found)
	}
	room := "content/en/figures/room-under-the-socket.yaml"
	if found := spokenBy(t, map[string]string{room: string(library.Builtin().File(room))}); len(found) > 0 {
		t.Errorf("a figure of the workbench alone gives %v", found)
	}
}
