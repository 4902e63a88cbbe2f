// Package ledger says what a built folder holds and what each file was made of, so that
// the next build need not make again what has not changed.
//
// A ledger is a text beside the site. It is the same for the same content from the same
// program: no time, no name of a machine and no path of it is in it. Lines without "#" are such as
// sha256sum writes, so that anyone can look whether a folder is whole:
//
//	sha256sum --check --quiet keelpath-ledger.txt
package ledger

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"keelpath/builder/shelf"
)

// Name is the file in which a folder's ledger stands.
const Name = "keelpath-ledger.txt"

// Sum is the SHA-256 of a file.
type Sum [sha256.Size]byte

// File is one file of the folder.
type File struct {
	Of   string // what it was made for: the name of a page, or the source of an asset
	Name string
	Size int64
	Sum  Sum
	From []shelf.Note // what it was made of; empty where it has to be made each time
}

// Ledger is what is known of a folder.
type Ledger struct {
	Program string // the fingerprint of the program that filled it
	Inputs  string // that of all files of the layers; empty where something was found that has to be told each time
	Due     string // the day by which the first page is to be reviewed, after which that has to be told
	Files   []File
	Prints  map[shelf.Note]shelf.Print // of all that the files were made of
}

// form is the first line, by which another form would be told.
const form = "# What this folder holds, and what each file was made of, form 1. To see whether it is whole: sha256sum --check --quiet " + Name

// Text writes a ledger down.
func (l *Ledger) Text() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n# program %s\n", form, l.Program)
	if l.Inputs != "" {
		fmt.Fprintf(&b, "# inputs %s %s\n", l.Inputs, l.Due)
	}
	number := map[shelf.Note]int{}
	for _, f := range l.Files {
		for _, n := range f.From {
			if _, known := number[n]; !known {
				number[n] = len(number)
				print := l.Prints[n]
				fmt.Fprintf(&b, "# note %s %s\n", hex.EncodeToString(print[:]), strconv.Quote(n.What)+" "+strconv.Quote(n.Of))
			}
		}
	}
	for _, f := range l.Files {
		fmt.Fprintf(&b, "# of %d %s", f.Size, strconv.Quote(f.Of))
		for _, n := range f.From {
			b.WriteByte(' ')
			b.WriteString(strconv.Itoa(number[n]))
		}
		fmt.Fprintf(&b, "\n%s  %s\n", hex.EncodeToString(f.Sum[:]), f.Name)
	}
	sum := sha256.Sum256(b.Bytes())
	fmt.Fprintf(&b, "# end %s\n", hex.EncodeToString(sum[:]))
	return b.Bytes()
}

// errBroken is for a text that is no whole ledger.
var errBroken = errors.New("this is no whole ledger")

// Read reads a ledger. One that was cut short or changed is refused.
func Read(text []byte) (*Ledger, error) {
	const end = "# end "
	at := bytes.LastIndex(text, []byte("\n"+end)) + 1
	if at == 0 {
		return nil, errBroken
	}
	if sum := sha256.Sum256(text[:at]); string(text[at:]) != end+hex.EncodeToString(sum[:])+"\n" {
		return nil, errBroken
	}
	r := reader{ledger: &Ledger{Prints: map[shelf.Note]shelf.Print{}}}
	lines := bufio.NewScanner(bytes.NewReader(text[:at]))
	lines.Buffer(nil, len(text)+1)
	if !lines.Scan() || lines.Text() != form {
		return nil, errBroken
	}
	for lines.Scan() {
		if !r.line(lines.Text()) {
			return nil, errBroken
		}
	}
	return r.ledger, nil
}

type reader struct {
	ledger *Ledger
	notes  []shelf.Note
	file   File // whose second line is to come
}

func (r *reader) line(line string) bool {
	kind, rest, _ := strings.Cut(strings.TrimPrefix(line, "# "), " ")
	switch {
	case !strings.HasPrefix(line, "#"):
		return r.sum(line)
	case kind == "program":
		r.ledger.Program = rest
		return rest != ""
	case kind == "inputs":
		r.ledger.Inputs, r.ledger.Due, _ = strings.Cut(rest, " ")
		return r.ledger.Inputs != ""
	case kind == "note":
		return r.note(rest)
	case kind == "of":
		return r.of(rest)
	}
	return false
}

func (r *reader) note(rest string) bool {
	print, rest, _ := strings.Cut(rest, " ")
	what, rest, ok := unquoted(rest)
	of, rest, ok2 := unquoted(rest)
	sum, err := hex.DecodeString(print)
	if !ok || !ok2 || rest != "" || err != nil || len(sum) != len(shelf.Print{}) {
		return false
	}
	n := shelf.Note{What: what, Of: of}
	r.notes = append(r.notes, n)
	r.ledger.Prints[n] = shelf.Print(sum)
	return true
}

func (r *reader) of(rest string) bool {
	size, rest, _ := strings.Cut(rest, " ")
	n, err := strconv.ParseInt(size, 10, 64)
	of, rest, ok := unquoted(rest)
	if err != nil || !ok || r.file.Of != "" {
		return false
	}
	r.file = File{Of: of, Size: n}
	for number := range strings.FieldsSeq(rest) {
		i, err := strconv.Atoi(number)
		if err != nil || i < 0 || i >= len(r.notes) {
			return false
		}
		r.file.From = append(r.file.From, r.notes[i])
	}
	return true
}

func (r *reader) sum(line string) bool {
	sum, name, ok := strings.Cut(line, "  ")
	raw, err := hex.DecodeString(sum)
	if !ok || err != nil || len(raw) != len(Sum{}) || r.file.Of == "" {
		return false
	}
	r.file.Sum, r.file.Name = Sum(raw), name
	r.ledger.Files = append(r.ledger.Files, r.file)
	r.file = File{}
	return true
}

// unquoted takes a quoted text off the front.
func unquoted(s string) (text, rest string, ok bool) {
	q, err := strconv.QuotedPrefix(s)
	if err != nil {
		return "", "", false
	}
	text, err = strconv.Unquote(q)
	return text, strings.TrimPrefix(s[len(q):], " "), err == nil
}
