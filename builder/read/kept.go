package read

import (
	"crypto/sha256"
	"sync"

	"gopkg.in/yaml.v3"
)

// decoded keeps the top mappings of whole files in which nothing is wrong, by their bytes. A tree is read once for each
// voice and each language, and while one writes most files are the same from build to build. Nobody changes a node.
var decoded = keeper{by: map[[sha256.Size]byte]*kept{}}

// mostKept bounds the memory of a long run, in bytes of files. What is held of a file is about ten times as much.
const mostKept = 4 << 20

type keeper struct {
	sync.Mutex
	by   map[[sha256.Size]byte]*kept
	size int
}

type kept struct {
	top  *yaml.Node
	size int
	used bool // since others were let go
}

// of gives the top mapping of a file that was read before, or nil.
func (k *keeper) of(sum [sha256.Size]byte) *yaml.Node {
	k.Lock()
	defer k.Unlock()
	if d := k.by[sum]; d != nil {
		d.used = true
		return d.top
	}
	return nil
}

// keep takes one more file. Where there is no room it lets those go that nobody asked for since it last did; where that
// is not enough, the new one is not kept: files are read in turn, and to let the oldest go would lose each one before it is asked for.
func (k *keeper) keep(sum [sha256.Size]byte, top *yaml.Node, size int) {
	k.Lock()
	defer k.Unlock()
	if k.by[sum] != nil {
		return
	}
	if k.size+size > mostKept {
		for s, d := range k.by {
			if !d.used {
				k.size -= d.size
				delete(k.by, s)
			}
			d.used = false
		}
	}
	if k.size+size <= mostKept {
		k.by[sum] = &kept{top: top, size: size}
		k.size += size
	}
}
