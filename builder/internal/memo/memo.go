// Package memo remembers what was worked out from a text. Between two looks at
// the content most texts are the same: while one writes, and from one test to
// the next.
package memo

import "sync"

// most bounds the memory of a long run; beyond it all are forgotten.
const most = 20_000

// Of gives f with a memory. It may be called from several sides at once; what it
// gives is shared and must not be changed.
func Of[V any](f func(text string) V) func(text string) V {
	var mu sync.Mutex
	known := map[string]V{}
	return func(text string) V {
		mu.Lock()
		v, ok := known[text]
		mu.Unlock()
		if ok {
			return v
		}
		v = f(text)
		mu.Lock()
		defer mu.Unlock()
		if len(known) >= most {
			clear(known)
		}
		known[text] = v
		return v
	}
}
