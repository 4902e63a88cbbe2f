package ledger

import (
	"bytes"
	"os"
	"runtime"
	"testing"
)

// Two programs have two prints, by the name that the go command gave to their content, or by their bytes.
func TestPrintOfAProgram(t *testing.T) {
	of := func(data []byte) string { return printOf(bytes.NewReader(data)) }
	if a, b := of([]byte("one program")), of([]byte("another one")); a == b || len(a) != 32 || a != of([]byte("one program")) {
		t.Errorf("what is no program has the prints %q and %q", a, b)
	}
	if runtime.GOOS != "linux" {
		t.Skip("the file of a program has another form here")
	}
	path, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	this, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	id := buildID(bytes.NewReader(this))
	if id == nil {
		t.Fatal("the go command named this program, and its name was not found")
	}
	named := func(as string) []byte { return bytes.Replace(this, id, []byte(as), -1) }
	other := append([]byte("x"), id[1:]...)
	if id[0] == 'x' {
		other[0] = 'y'
	}
	if of(this) == of(named(string(other))) {
		t.Error("a program by another name has the same print")
	}
	// By a name that says nothing, it is known by its bytes.
	byHand := named(string(bytes.Repeat([]byte("x"), len(id))))
	if buildID(bytes.NewReader(byHand)) != nil || of(byHand) == of(append(byHand, 'x')) {
		t.Error("a name that was given by hand is taken for the content")
	}
}
