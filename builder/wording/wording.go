// Package wording finds words that Keelpath does not say: words that sound as if
// it chose a foot or set a level for the reader, and words that makers sell with.
// It knows text and nothing else, so that sentences which were put together by a
// program can be held to the same rules as those in a file.
package wording

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/internal/among"
)

// Kind is what is wrong with the words.
type Kind string

const (
	Choosing Kind = "choosing" // sounds as if the page chose for the reader
	Steering Kind = "steering" // sounds as if a maker spoke
)

// Hit is one use of such words.
type Hit struct {
	Kind     Kind
	From, To int    // where they stand in the text, in bytes
	Words    string // as they were written
	Instead  string // a way out
}

// In gives the hits in a text, from left to right. Of hits that overlap it
// keeps the first and longest.
func In(text string) []Hit {
	return remembered.or(looked{"words", text}, func() []Hit { return in(text) })
}

// in is In, looked for.
func in(text string) []Hit {
	may := stems().In(text)
	if may.None() {
		return nil // most texts: the expressions are slow, and there are many texts
	}
	all, low := ruleLines(), small(text)
	var with []rule
	for n, r := range rules {
		if may.Has(n) && all[n].in(text, low) {
			with = append(with, r)
		}
	}
	return look(text, with)
}

var stems = sync.OnceValue(func() *among.Finder {
	var groups [][]string
	for _, r := range rules {
		groups = append(groups, r.stems)
	}
	return among.New(groups...)
})

// lines are the alternatives of a rule, one by one. All of them in one expression take
// much longer to find nothing.
type lines struct {
	each []quick
	may  *among.Any
}

func (l *lines) in(text, low string) bool {
	found := false
	l.may.In(text, func(n int) bool {
		found = l.each[n].in(text, low)
		return !found
	})
	return found
}

// quick is an expression with one that tells sooner where it finds nothing.
type quick struct{ whole, loose *regexp.Regexp }

func quickOf(e *regexp.Regexp) quick { return quick{e, among.Loose(e)} }

// in tells whether the expression finds something in a text, which small has made small.
func (q quick) in(text, low string) bool {
	return q.may(low) && q.whole.MatchString(text)
}

// may is false where the expression finds nothing.
func (q quick) may(low string) bool { return q.loose == nil || low == "" || q.loose.MatchString(low) }

// small gives a text in small letters; "" where it has a long s, which an expression may take for an s.
func small(text string) string {
	if strings.Contains(text, "\u017f") {
		return ""
	}
	return strings.ToLower(text)
}

var ruleLines = sync.OnceValue(func() []*lines {
	var out []*lines
	for _, r := range rules {
		out = append(out, linesOf(r.words))
	}
	return out
})

// linesOf takes apart an expression that pattern made. Any other is its only line.
func linesOf(e *regexp.Regexp) *lines {
	out := &lines{}
	var each []*regexp.Regexp
	for _, alt := range altsOf[e] {
		each = append(each, whole(alt))
	}
	if each == nil {
		each = []*regexp.Regexp{e}
	}
	for _, e := range each {
		out.each = append(out.each, quickOf(e))
	}
	out.may = among.NewAny(each...)
	return out
}

// InMade is In for sentences that the program makes of the reader's own answers.
// There, words that grade or press are refused as well: a page may say that a
// signal is good, a sentence about the reader's wishes may not say that a foot is.
func InMade(text string) []Hit {
	out := In(text)
	for _, m := range grading.words.FindAllStringIndex(text, -1) {
		out = append(out, Hit{Kind: grading.kind, From: m[0], To: m[1], Words: text[m[0]:m[1]], Instead: grading.instead})
	}
	return out
}

var grading = rule{Choosing, pattern(`
	better
	worse
	good
	bad
	should
	must
	ought
	choose[sn]?
	choosing
	prefer\w*
	winners?
	scor(?:es?|ed|ing)
	rank(?:s|ed|ing)?
	your level
	right for
	suitable
	suited`),
	`say which wishes are met, and turn the rest into a question`, nil}

// look looks with some of the rules.
func look(text string, with []rule) []Hit {
	var all []Hit
	for _, r := range with {
		for _, m := range r.words.FindAllStringIndex(text, -1) {
			all = append(all, Hit{Kind: r.kind, From: m[0], To: m[1], Words: text[m[0]:m[1]], Instead: r.instead})
		}
	}
	if len(all) == 0 {
		return nil
	}
	free := allowed.FindAllStringIndex(text, -1)
	slices.SortStableFunc(all, func(a, b Hit) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(b.To, a.To)) })
	var out []Hit
	end := 0
	for _, h := range all {
		inside := slices.ContainsFunc(free, func(f []int) bool { return f[0] <= h.From && h.To <= f[1] })
		if h.From >= end && !inside {
			out = append(out, h)
			end = h.To
		}
	}
	return out
}

// rule is a pattern with a way out.
type rule struct {
	kind    Kind
	words   *regexp.Regexp
	instead string
	stems   []string // small letters; each use of the words holds one of them
}

// pattern makes an expression of lines, one alternative each. A space stands
// for any run of spaces, or a line end; a straight apostrophe also for a curved one.
func pattern(lines string) *regexp.Regexp {
	var alts []string
	for line := range strings.Lines(strings.TrimSpace(lines)) {
		line = strings.ReplaceAll(strings.TrimSpace(line), " ", `\s+`)
		alts = append(alts, strings.ReplaceAll(line, "'", "['’]"))
	}
	e := whole(strings.Join(alts, "|"))
	altsOf[e] = alts
	return e
}

// whole finds whole words, in capitals or small letters.
func whole(e string) *regexp.Regexp { return regexp.MustCompile(`(?i)\b(?:` + e + `)\b`) }

// altsOf has the alternatives of the expressions that pattern made. It is filled as the
// rules are set up, and not changed afterwards.
var altsOf = map[*regexp.Regexp][]string{}

// thing is what a reader could be told to get.
const thing = `(?:foot|feet|ankle|leg|type|kind|blade|spring|shell|unit|one)`

var rules = []rule{
	{Choosing, pattern(`
		best
		ideal(?:ly)?
		perfect(?:ly)?
		optimal(?:ly)?
		optimum`),
		`say what it does and for whom it was tried: "in 15 people ...", "some people like"`, []string{"best", "ideal", "perfect", "optim"}},
	{Choosing, pattern(`
		recommend(?:s|ed|ing|ations?|able)?
		we (?:advise|suggest|prefer)
		our advice`),
		`say what comes up: "worth talking about", "ask about"; of a guideline say what it "points to"`, []string{"recommend", "advise", "suggest", "prefer", "advice"}},
	{Choosing, pattern(`
		(?:un)?suitab(?:le|ly|ility)
		(?:well|better|not|most) suited
		suited (?:to|for)
		suits? (?:you|your|him|her|them|people)`),
		`say what the reader may gain and give up, and leave the choice to the talk`, []string{"suit"}},
	{Choosing, pattern(`
		you(?:'ll| will| may| might| do)? need
		you require
		(?:you|users?|wearers?|patients?|readers?|people) should (?:get|choose|pick|buy|order|switch|upgrade)
		(?:you|users?|wearers?|patients?|readers?|people) should (?:have|wear|use|try|take|go for|opt for) (?:an?|the|this|that) (?:[a-z-]+ ){0,3}` + thing + `
		(?:choose|pick|buy|get|go for|opt for) (?:this|that) ` + thing + `
		(?:picks?|chooses?|selects?|finds?|picking|choosing|selecting|finding) (?:you )?your (?:new |next )?(?:foot|feet|ankle|blade|leg)
		(?:picks|chooses|selects|finds) (?:you )?an? (?:new )?(?:foot|ankle|blade)
		sets? your level`),
		`turn it into something to ask: "ask if ... comes into question"`, []string{"need", "require", "should", "choos", "pick", "buy", "get", "opt", "go", "select", "find", "level"}},
	{Choosing, pattern(`
		right for (?:you|your|him|her|them|someone|people)
		right ` + thing + ` for
		` + thing + ` (?:that is |that's |made |meant )?for you
		(?:good|great|better|safe|wise|smart|clear|top|first|natural|obvious|right|wrong|bad|poor) (?:choice|pick|option)
		(?:good|great|better) (?:fit|match) for
		(?:fits|meets|matches) your (?:needs|life|lifestyle|level)
		your (?:ideal |new )?match
		(?:wins|winner|number one|top-rated|highest-rated)`),
		`say "comes up to talk about", with a reason for and a reason against`, []string{"right for", "right ", "for you", "choice", "pick", "option", "fit for", "match", "your needs", "your life", "your level", "wins", "winner", "number", "rated", "fits"}},
	{Choosing, pattern(`
		you(?:'re| are| may be| might be| will be| would be| seem to be| count as)(?: likely| probably)?(?: an?| at| on| in)?(?: (?:functional|activity|mobility))? (?:K-?|level )[0-4]
		you(?:'re| are) (?:an? )?(?:household|community|limited|active|low-activity|high-activity) (?:walker|ambulator|user)
		your (?:(?:functional|activity|mobility|K)[ -])?level (?:is|will be|would be|should be|must be)
		(?:puts|places|makes) you (?:at|on|in|an?) (?:level|K-?)
		you (?:would )?(?:qualify|are eligible)`),
		`no page sets a level: say "the clinic sets the level" and what to ask about it`, []string{"level", "k0", "k1", "k2", "k3", "k4", "k-", "walker", "ambulator", "user", "qualify", "eligible", "k "}},
	{Steering, regexp.MustCompile(`[™®℠]|\((?i:tm|r)\)`), `name the kind of construction, never a product`, []string{"™", "®", "℠", "(tm)", "(r)"}},
	{Steering, pattern(`
		revolution(?:ary|i[sz]e[sd]?|i[sz]ing)
		state[- ]of[- ]the[- ]art
		cutting[- ]edge
		leading(?:[- ]edge)?
		ground-?breaking
		break-?through
		game[- ]chang(?:er|ing)
		next[- ]gen(?:eration)?
		innovat(?:ive|ions?|ors?|ing)
		(?:most |more |highly |technologically )?advanced
		ultra-?modern
		high[- ](?:tech|performance|end)
		world(?:['’]s)?[- ](?:class|first|leading|most|only)
		superior(?:ity)?
		unmatched
		unrival(?:l)?ed
		unparallel(?:l)?ed
		unbeatable
		second to none
		premium
		award[- ]winning
		patent(?:ed|-pending)
		proprietary
		exclusive(?:ly)?
		trusted by
		industry[- ]leading
		ultimate(?:ly)?
		amazing(?:ly)?
		incredibl[ey]
		outstanding
		exceptional(?:ly)?
		unique(?:ly)?
		effortless(?:ly)?
		seamless(?:ly)?
		(?:clinically|scientifically) proven
		proven to
		guarantee[sd]?
		smart ` + thing + `
		(?:most|more|truly) natural
		natural (?:gait|walk(?:ing)?|feel(?:ing)?|motion|movement|step|stride)
		(?:gives|restores?|regain) (?:you )?(?:your )?(?:freedom|independence)
		empower(?:s|ed|ing|ment)?
		unlock(?:s|ed|ing)? (?:your|the|new)
		transform(?:s|ed|ing)? (?:your|lives)
		(?:buy|order) (?:now|today|yours)`),
		`say in plain words what the part does, and what is known of it`, []string{"revolution", "state", "cutting", "leading", "ground", "break", "game", "next", "innovat", "advanced", "modern", "high", "world", "superior", "unmatched", "unrival", "unparallel", "unbeatable", "second", "premium", "award", "patent", "proprietary", "exclusive", "trusted", "industry", "ultimate", "amazing", "incredibl", "outstanding", "exceptional", "unique", "effortless", "seamless", "proven", "guarantee", "smart", "natural", "freedom", "independence", "empower", "unlock", "transform", "buy", "order"}},
}

// allowed are phrases in which such words do no harm: the stance itself, a
// condition or a question put to the reader, and the trade's own terms. A hit
// counts only when it reaches out of them. Add one only with a test.
var allowed = pattern(`
	(?:does not|never|cannot|will not|nor does it|do not) (?:pick|picks|choose|chooses|name|names|say|says|tell|tells|know)(?: you)? (?:the|a|which|what)(?: (?:foot|one))?(?: is| would be)? best(?: foot)?
	(?:no|nobody knows which|nobody has shown which|not known which) (?:foot|type|kind|ankle)(?: of foot)? is best
	no (?:single |one )?best (?:foot|kind|type|ankle)
	(?:does not|never|cannot|will not|do not) (?:recommend|set your level|choose)
	(?:not|never|no) a recommendation
	(?:does not|never|cannot|will not|do not|nobody) (?:picks?|chooses?|finds?) (?:a|your) (?:foot|ankle|blade)
	(?:clinic|clinics|team|prosthetist|doctor) sets? your level
	not (?:known|shown) (?:to be |which (?:foot|type|kind) is )?best
	at best
	(?:if|when|once|until|do|what|who|whether) you need
	leading (?:leg|limb|foot|edge of|to|up|down|into|away|from)
	(?:foot|leg|ankle|one) for you to (?:try|see|hold|feel|test)
	advanced (?:age|disease|illness|beneficiary)
	not guaranteed
	no guarantees?`)
