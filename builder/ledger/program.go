package ledger

import (
	"bytes"
	"crypto/sha256"
	"debug/elf"
	"encoding/hex"
	"io"
	"os"
	"regexp"
	"sync"
)

// Program is the fingerprint of the program that runs: of the name that its builder gave to its content, or of the
// bytes of its file where it has none. It is "" where that cannot be read, and then no ledger is trusted.
var Program = sync.OnceValue(func() string {
	path, err := os.Executable()
	if err != nil {
		return ""
	}
	f, err := os.Open(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	return printOf(f)
})

func printOf(f io.ReaderAt) string {
	sum := sha256.New()
	if id := buildID(f); id != nil {
		sum.Write(id)
	} else if _, err := io.Copy(sum, io.NewSectionReader(f, 0, 1<<40)); err != nil {
		return ""
	}
	return hex.EncodeToString(sum.Sum(nil)[:16])
}

// wholeID is how the go command names a program: hashes of what was done and of what came out, first of the linking and
// then of its main package ("go help buildcmd", cmd/go/internal/work/buildid.go). A name that someone gave by hand says nothing
// of the content.
var wholeID = regexp.MustCompile(`^[\w-]{20}/[\w-]{20}/[\w-]{20}/[\w-]{20}$`)

// buildID is that name, for which a few bytes are read, and not the tens of millions of the whole file; nil where there
// is none.
func buildID(f io.ReaderAt) []byte {
	program, err := elf.NewFile(f)
	if err != nil {
		return nil
	}
	note := program.Section(".note.go.buildid")
	if note == nil {
		return nil
	}
	data, err := note.Data()
	if err != nil {
		return nil
	}
	_, id, _ := bytes.Cut(data, []byte("Go\x00\x00"))
	if id = bytes.TrimRight(id, "\x00"); !wholeID.Match(id) {
		return nil
	}
	return id
}
