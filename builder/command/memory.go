package command

import (
	"os"
	"runtime/debug"

	"keelpath/builder/library"
)

// What a build may hold before the collector works harder to stay within it: so much for each file, beside what
// any build takes. Without a limit the heap grows to twice of what is in use, which of many pages is
// memory that a small machine lacks. Where GOMEMLIMIT is set, that holds.
const (
	memoryAtAll   = 64 << 20
	memoryPerFile = 36 << 10
	memoryAtLeast = 384 << 20
)

// limitMemory sets the limit, and gives what sets it back: a process may go on to other things.
func limitMemory(layers []library.Layer) (back func()) {
	if os.Getenv("GOMEMLIMIT") != "" {
		return func() {}
	}
	files := 0
	for _, y := range layers {
		files += y.Len()
	}
	was := debug.SetMemoryLimit(max(memoryAtLeast, memoryAtAll+memoryPerFile*int64(files)))
	return func() { debug.SetMemoryLimit(was) }
}
