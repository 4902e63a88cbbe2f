package library

import (
	"fmt"
	"slices"
	"strings"

	"keelpath/builder/finding"
	"keelpath/builder/read"
)

// SearchWordsFile says what everyday words mean here, for the search.
const SearchWordsFile = "content/en/search-words.yaml"

// SearchWords is the whole of it. A layer adds to each part, and takes away nothing.
type SearchWords struct {
	Skip  []read.Text // words that say nothing of what is looked for
	Means []*Meaning
	Signs []*SignWords
	Asked []*AskedWords
}

// Meaning says what everyday words mean here.
type Meaning struct {
	ID    read.Text
	Says  []read.Text // phrases, as people say them
	Means []read.Text // words of the site
}

// SignWords are the wordings by which a search knows a sign of the safety screen; see Sign in room search.
type SignWords struct {
	Sign read.Text
	Says []read.Text
}

// AskedWords are ways in which people ask for a place of the site, which is named as a link names it:
// "explainer:stairs#what-about-curbs", "page:clinic#own".
type AskedWords struct {
	Place read.Text
	Says  []read.Text
}

func (l *loader) searchWords(m *read.Map) {
	s := &l.SearchWords
	s.Skip = append(s.Skip, m.WordList("skip")...)
	m.EachHere("means", "meaning", func(id read.Text, e *read.Map) {
		now := &Meaning{ID: id, Says: e.NeedWordList("says"), Means: e.NeedWordList("means")}
		e.Done()
		for _, known := range s.Means {
			if known.ID.S == id.S {
				known.Says, known.Means = append(known.Says, now.Says...), append(known.Means, now.Means...)
				return
			}
		}
		s.Means = append(s.Means, now)
	})
	m.WordPairs("signs", func(sign read.Text, says []read.Text) {
		if known := s.Sign(sign.S); known != nil {
			known.Says = append(known.Says, says...)
		} else {
			s.Signs = append(s.Signs, &SignWords{sign, says})
		}
	})
	m.WordPairs("asked", func(place read.Text, says []read.Text) {
		if known := s.AskedAt(place.S); known != nil {
			known.Says = append(known.Says, says...)
		} else {
			s.Asked = append(s.Asked, &AskedWords{place, says})
		}
	})
	m.Done()
}

// AskedAt gives how people ask for a place, or nil.
func (s *SearchWords) AskedAt(place string) *AskedWords {
	for _, w := range s.Asked {
		if w.Place.S == place {
			return w
		}
	}
	return nil
}

// Sign gives the wordings of a sign, or nil.
func (s *SearchWords) Sign(id string) *SignWords {
	for _, w := range s.Signs {
		if w.Sign.S == id {
			return w
		}
	}
	return nil
}

// searchWords reports wordings of no sign, and those that any search would have. A sign without wordings is found by
// its name alone.
func (c *checker) searchWords() {
	c.askedPlaces()
	if c.Safety == nil {
		return
	}
	ids := c.Safety.SignIDs()
	for _, w := range c.SearchWords.Signs {
		if sign, _ := c.Safety.Sign(w.Sign.S); sign == nil && w.Sign.Given() {
			c.list.Add(w.Sign.At, "unknown-name", fmt.Sprintf("the safety screen has no sign %q", w.Sign.S),
				finding.NearestHelp(w.Sign.S, ids, func(id string) finding.Place { s, _ := c.Safety.Sign(id); return s.ID.At })...)
		}
		for _, t := range w.Says {
			if t.Given() && len(strings.FieldsFunc(t.S, func(r rune) bool { return r == ' ' || r == '/' })) == 0 {
				c.list.Add(t.At, "empty-wording", fmt.Sprintf("a wording of the sign %q says nothing", w.Sign.S), "write words that all have to be there; a stroke parts those of which one will do: chest hurt/pain")
			}
		}
	}
}

// askedPlaces reports ways of asking for a place that is not there. In another language headings have that language's
// ids, and a layer that lays another text over a page may word its headings as it likes: both lead to the page as a whole.
func (c *checker) askedPlaces() {
	for _, w := range c.SearchWords.Asked {
		if !w.Place.Given() || c.Lang != FirstLanguage || c.there(w.Place) {
			continue
		}
		c.list.Add(w.Place.At, "unknown-name", fmt.Sprintf("people are said to ask for %q, and the site has no such place", w.Place.S), "name a heading as a link does: explainer:stairs#what-about-curbs, page:clinic#own")
	}
}

// there tells whether a place has its heading, or a layer laid another text over its page.
func (c *checker) there(place read.Text) bool {
	kind, rest, _ := strings.Cut(place.S, ":")
	page, heading, _ := strings.Cut(rest, "#")
	switch e := c.Explainer(page); {
	case kind == "explainer" && e != nil:
		return c.HasHeading(page, heading) || c.laidOver(e.File, place.At.File)
	case kind == "page" && slices.Contains(OwnPages, page):
		p := c.Page(page)
		return c.HasOwnHeading(page, heading) || p != nil && c.laidOver(p.File, place.At.File)
	}
	return false
}
