package library

import (
	"crypto/sha256"
	"slices"
	"strings"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
)

// memory is what a loader has of the load before, and keeps for the next one.
type memory struct {
	was, now *known
	layer    int // number of the layer that is being read

	pages map[*explainer.Page]*remembered
}

// remembered is where a page comes from and, where the load before knew it, what is known of it.
type remembered struct {
	key   pageKey
	sound bool // nothing was wrong in it as it was parsed
	known *knownPage
	again func() ([]byte, error) // reads its file once more; nil where that cannot be
}

func newMemory(before []byte, layers []Layer) *memory {
	rests := restsOn(layers)
	return &memory{was: readKnown(before, rests), now: readKnown(nil, rests), pages: map[*explainer.Page]*remembered{}}
}

// Remembers tells whether Known has something to give.
func (l *Library) Remembers() bool { return l.known != nil }

// Known gives what is known of the explainers for the next load; nil where the library was loaded without.
func (l *Library) Known() []byte {
	if l.known == nil {
		return nil
	}
	return l.known.bytes()
}

// parseExplainer reads the file of an explainer, or recalls it.
func (l *loader) parseExplainer(y Layer, name string) *explainer.Page {
	file, src, sum := y.name(name), y.files[name], y.sum(name)
	m := l.memory
	if m == nil {
		return withSum(explainer.Parse(file, src, l.Edition.Lines, l.list), sum)
	}
	key := pageKey{m.layer, name}
	if text, ok := m.was.pages[key]; ok {
		if k, ok := readKnownPage(text, file, sum); ok {
			k.page.File, k.page.ID, k.page.Sum = file, stemOf(name), sum
			p := explainer.Recall(k.page, src, l.Edition.Lines, k.figures, k.headings)
			m.pages[p] = &remembered{key, true, k, y.again(name)}
			return p
		}
	}
	before := l.list.Len()
	p := withSum(explainer.Parse(file, src, l.Edition.Lines, l.list), sum)
	if p != nil {
		m.pages[p] = &remembered{key: key, sound: l.list.Len() == before, again: y.again(name)}
	}
	return p
}

// giveAway lets go of the text of a page that has been looked at: of many pages it would be most of what is
// in memory.
func (c *checker) giveAway(p *explainer.Page) {
	if c.memory == nil {
		return
	}
	if m := c.memory.pages[p]; m != nil && m.again != nil {
		p.Body.GiveAway(p.File, m.again)
		c.onDisk[p.File] = m.again
		delete(c.files, p.File)
	}
}

func withSum(p *explainer.Page, sum print) *explainer.Page {
	if p != nil {
		p.Sum = sum
	}
	return p
}

// recalled takes what is known of a page in place of looking at it; false where it has to be looked at.
func (c *checker) recalled(p *explainer.Page) bool {
	if c.memory == nil {
		return false
	}
	m := c.memory.pages[p]
	if m == nil || m.known == nil {
		return false
	}
	unsaid := func(k knownClaim) bool { return c.memory.was.sayings[k.saying] == "" }
	if slices.ContainsFunc(m.known.leads, c.leadGone) || slices.ContainsFunc(m.known.claims, unsaid) {
		return false
	}
	c.counts[p] = m.known.counts
	for _, k := range m.known.claims {
		c.made.again(c.memory.was.sayings[k.saying], finding.Place{File: p.File, Line: k.line, Col: k.col})
		c.memory.now.sayings[k.saying] = c.memory.was.sayings[k.saying]
	}
	c.memory.now.pages[m.key] = c.memory.was.pages[m.key]
	return true
}

// leadGone tells whether a link that a page had may lead nowhere now. The headings of an explainer are known
// before its turn only where it is the same as it was.
func (c *checker) leadGone(to string) bool {
	id, place, deep := strings.Cut(to, "#")
	return !c.explainers.has(id) || deep && !c.HasHeading(id, place)
}

// remember keeps what was found out about a page, in which nothing is wrong; claims are those that it makes.
// Its text is still at hand.
func (c *checker) remember(p *explainer.Page, claims []made) {
	if c.memory == nil {
		return
	}
	m := c.memory.pages[p]
	if m == nil || !m.sound {
		return
	}
	k := knownPage{sum: p.Sum, page: *p, figures: p.Body.Figures, headings: p.Body.Headings, counts: c.counts[p]}
	for _, r := range p.Body.Refs {
		if r.Kind == "explainer" && !slices.Contains(k.leads, r.ID) {
			k.leads = append(k.leads, r.ID)
		}
	}
	for _, s := range claims {
		id := sha256.Sum256([]byte(s.key))
		c.memory.now.sayings[id] = s.key
		k.claims = append(k.claims, knownClaim{id, s.at.Line, s.at.Col})
	}
	c.memory.now.pages[m.key] = k.written()
}

func stemOf(name string) string {
	return strings.TrimSuffix(name[strings.LastIndexByte(name, '/')+1:], ".md")
}
