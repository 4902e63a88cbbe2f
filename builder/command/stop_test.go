package command_test

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"keelpath/builder/command"
	"keelpath/builder/internal/ending"
)

// Ctrl-C while the content is read or proved ends every command soon, with the
// exit code for it and a line that says what became of the work.
func TestStoppedWhileReading(t *testing.T) {
	place := t.TempDir()
	site := filepath.Join(place, "site")
	goodSite(t, site)
	before := photograph(t, place)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"check"}, "keelpath: stopped before the end\n"},
		{[]string{"check", "--json"}, "keelpath: stopped before the end\n"},
		{[]string{"walk", "heel-height"}, "keelpath: stopped before the end\n"},
		{[]string{"show"}, "keelpath: stopped before the end\n"},
		{[]string{"compile", "--out", site}, "keelpath: stopped; " + site + " is as it was\n"},
		{[]string{"exchange", "--out", site}, "keelpath: stopped; " + site + " is as it was\n"},
		{[]string{"schema", "--out", site}, "keelpath: stopped; " + site + " is as it was\n"},
	} {
		for _, n := range []int{1, 30} { // while reading, and while proving
			if c.args[0] == "schema" {
				n = 0 // it reads nothing
			}
			var out, errs strings.Builder
			got := command.Run(ending.After(t.Context(), n), c.args, command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs, Today: day("")})
			if got != command.CouldNotRun || errs.String() != c.says || out.Len() > 0 {
				t.Errorf("%q, stopped at question %d, ended with %d, %q and %q", c.args, n, got, out.String(), errs.String())
			}
		}
	}
	if diff := cmp.Diff(before, photograph(t, place)); diff != "" {
		t.Errorf("the output changed:\n%s", diff)
	}
}

// A walk that waits for the person is ended by ctrl-c, with no key pressed.
func TestStoppedWhileAsking(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	in, person := io.Pipe()
	defer person.Close()
	ended := make(chan command.Exit)
	var errs strings.Builder
	asked := &firstWrite{then: cancel}
	go func() {
		ended <- command.Run(ctx, []string{"walk", "heel-height"}, command.Streams{In: in, Out: asked, Err: &errs, Today: day("")})
	}()
	select {
	case got := <-ended:
		if got != command.CouldNotRun || errs.String() != "keelpath: stopped before the end\n" {
			t.Errorf("it ended with %d and %q", got, errs.String())
		}
	case <-time.After(time.Minute):
		t.Fatal("it waits on")
	}
}

// firstWrite calls then once the first words are out.
type firstWrite struct{ then func() }

func (f *firstWrite) Write(b []byte) (int, error) {
	f.then()
	return len(b), nil
}
