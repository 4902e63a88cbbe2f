package wording

import (
	"slices"
	"strings"
	"sync"
)

// remembered keeps what was found in texts while the program runs: one who writes has nearly all of them looked at again and again, and
// to look takes long. What is found hangs on the text, the list of words and nothing else.
var remembered = memory{by: map[looked][]Hit{}}

// mostRemembered bounds the memory of a long run, in bytes of texts; beyond it all are forgotten.
const mostRemembered = 4 << 20

type memory struct {
	sync.RWMutex
	by   map[looked][]Hit
	size int
}

// looked is a text and what was looked for in it.
type looked struct{ what, text string }

// or gives what was found, or finds it.
func (m *memory) or(of looked, find func() []Hit) []Hit {
	m.RLock()
	hits, known := m.by[of]
	m.RUnlock()
	if known {
		return slices.Clone(hits)
	}
	hits = find()
	of.text = strings.Clone(of.text) // it may be a part of a whole page
	m.Lock()
	defer m.Unlock()
	if m.size += len(of.text); m.size > mostRemembered {
		clear(m.by)
		m.size = len(of.text)
	}
	m.by[of] = slices.Clone(hits)
	return hits
}
