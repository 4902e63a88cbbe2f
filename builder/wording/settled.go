package wording

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/internal/among"
)

// Unsettled is the kind of a hit of Settled.
const Unsettled Kind = "unsettled" // another word than the one that was settled for the thing

// settledRule is one word for one thing, and the words that are not used for it.
type settledRule struct {
	use  string // the way out
	not  *regexp.Regexp
	free *regexp.Regexp // where such words do no harm; may be nil
}

// settledWords hold for patients' texts anywhere: the reader must be able to say at a
// visit the word that the trade says, and one thing has one name. Words that are
// right in another sense ("tool", "trial" of a study, "level", "firm") are left out.
var settledWords = []settledRule{
	{`say "topic", or "questions": how short they are shows`, pattern(`
		short questions`), nil},
	{`say "alignment", and at its first use how the foot is lined up under the leg`, pattern(`
		line-ups?
		(?:the|its|poor|a poor|wrong|a wrong) set-?ups?
		set-?up checks?
		set-?up of (?:the|your) (?:foot|leg|parts)`), pattern(`
		the set-?up shoes?`)}, // the shoe that the leg was set up with
	{`say "hydraulic ankle", and at its first use that it moves against oil`, pattern(`
		(?:fluid|oil) ankles?`), nil},
	{`say "torsion unit", and at its first use that it lets the leg twist a little`, pattern(`
		(?:twist|rotation) units?`), pattern(`
		axial rotation units?`)}, // the name in a plan's rule
	{`say "microprocessor ankle", and at its first use that it has a small computer`, pattern(`
		computer ankles?`), nil},
	{`say where the leg ends, such as "above the knee": a level is a plan's`, pattern(`
		amputation levels?
		levels? of (?:the |your |an )?(?:amputation|limb)
		(?:ankle|knee|hip)-level (?:amputation|limb)s?`), nil},
	{`say "theme" for the questions that stand under one title: a topic is what one takes`, pattern(`
		(?:questions|prompts),? by topic`), nil},
	{`say "stiffness"`, pattern(`
		firmness`), nil},
	{`say "insurer" for the company, and "plan" for what it covers`, pattern(`
		payers?`), pattern(`
		payer levels?`)}, // the title of a page
	{`say "trial", or "try"`, pattern(`
		try-?outs?`), nil},
	{`say "adjustable heel height", and at its first use that you can set it for another shoe`, pattern(`
		heels? (?:height )?(?:that )?you (?:can )?set(?: yourself)?`), nil},
	{`say "limb", which is the residual limb`, pattern(`
		stumps?`), pattern(`
		(?:or|called|called a|say|or a) stumps?`)}, // the page that teaches the word
	{`say "other leg"`, pattern(`
		sound (?:leg|limb|foot|side)s?`), pattern(`
		sound side(?:, which)? means`)}, // the page that teaches the word
}

// placeWords are spellings and words of everyday things, by the place where they are
// said: two places of one language differ in them. A place without a list holds its
// texts to none.
var placeWords = map[string][]settledRule{"the US": wordsOfUS}

var wordsOfUS = []settledRule{
	{`in the US say "sneakers"`, pattern(`
		trainers?`), nil},
	{`in the US say "sidewalk"`, pattern(`
		pavements?`), nil},
	{`in the US say "curb"`, pattern(`
		kerbs?`), nil},
	{`in the US it is spelled "color"`, pattern(`
		(?:dis)?colour\w*`), nil},
	{`in the US it is spelled "center"`, pattern(`
		centres?
		centred`), nil},
	{`in the US it is spelled "fiber"`, pattern(`
		fibres?
		fibreglass`), nil},
	{`in the US it is spelled "gray"`, pattern(`
		grey`), nil},
	{`in the US it is spelled with -or: "favor", "behavior"`, pattern(`
		(?:favour|behaviour|neighbour|odour|labour|vapour)\w*`), nil},
	{`in the US it is spelled with -er: "meter", "liter"`, pattern(`
		(?:centi|milli|kilo)?(?:metre|litre)s?`), nil},
	{`in the US it is spelled with -ize: "recognize"`, pattern(`
		(?:recogni|organi|reali|speciali|minimi|maximi|stabili)s(?:e|es|ed|ing|ations?)`), nil},
	{`in the US it is spelled "practice"`, pattern(`
		practis(?:e|es|ed|ing)`), nil},
	{`in the US it is spelled "tire"`, pattern(`
		tyres?`), nil},
	{`in the US it is spelled "program"`, pattern(`
		programmes?`), nil},
}

// Settled gives the words of a text for patients for which another was settled, from
// left to right. The place is the edition's, as "the US"; its own list holds too.
func Settled(text, place string) []Hit {
	return remembered.or(looked{"settled words in " + place, text}, func() []Hit { return settled(text, place) })
}

// settled is Settled, looked for.
func settled(text, place string) []Hit {
	out := anywhere.in(text)
	if of := byPlace[place]; of != nil {
		out = append(out, of.in(text)...)
	}
	slices.SortStableFunc(out, func(a, b Hit) int { return cmp.Compare(a.From, b.From) })
	return out
}

// settledList is a list of rules, with what tells quickly which of them may find something.
type settledList struct {
	rules []settledRule
	may   func() mayHold
}

// mayHold tells of each rule whether it may find something: first by parts of its words, then by looking for them.
type mayHold struct {
	parts *among.Any
	words []quick
}

func listOf(rules []settledRule) *settledList {
	return &settledList{rules, sync.OnceValue(func() mayHold {
		var out mayHold
		var each []*regexp.Regexp
		for _, r := range rules {
			each = append(each, r.not)
			out.words = append(out.words, quickOf(r.not))
		}
		out.parts = among.NewAny(each...)
		return out
	})}
}

var anywhere = listOf(settledWords)

var byPlace = func() map[string]*settledList {
	out := map[string]*settledList{}
	for place, rules := range placeWords {
		out[place] = listOf(rules)
	}
	return out
}()

func (l *settledList) in(text string) []Hit {
	var out []Hit
	may, low := l.may(), ""
	may.parts.In(text, func(n int) bool {
		if low == "" {
			low = small(text)
		}
		if !may.words[n].may(low) {
			return true
		}
		r := l.rules[n]
		var free [][]int
		if r.free != nil {
			free = r.free.FindAllStringIndex(text, -1)
		}
		for _, m := range r.not.FindAllStringIndex(text, -1) {
			if !slices.ContainsFunc(free, func(f []int) bool { return f[0] <= m[0] && m[1] <= f[1] }) {
				out = append(out, Hit{Kind: Unsettled, From: m[0], To: m[1], Words: strings.Join(strings.Fields(text[m[0]:m[1]]), " "), Instead: r.use})
			}
		}
		return true
	})
	return out
}
