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

func limitMemory(layers []library.Layer) {
	if os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	files := 0
	for _, y := range layers {
		files += y.Len()
	}
	debug.SetMemoryLimit(max(memoryAtLeast, memoryAtAll+memoryPerFile*int64(files)))
}
