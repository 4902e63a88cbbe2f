package command

import (
	"os"
	"runtime/debug"

	"keelpath/builder/library"
)

// What a build may hold before the collector works harder to stay within it: so much for each file, beside what
// any build takes. Within it the heap grows to three times of what is in use, which spares half of the
// collector's runs; of many pages it is the limit that counts. Where GOGC or GOMEMLIMIT is set, that holds.
const (
	growth        = 200
	memoryAtAll   = 64 << 20
	memoryPerFile = 36 << 10
	memoryAtLeast = 384 << 20
)

func limitMemory(layers []library.Layer) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(growth)
	}
	if os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	files := 0
	for _, y := range layers {
		files += y.Len()
	}
	debug.SetMemoryLimit(max(memoryAtLeast, memoryAtAll+memoryPerFile*int64(files)))
}
