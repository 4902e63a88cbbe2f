package command

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"keelpath/builder/finding"
	"keelpath/builder/folder"
	"keelpath/builder/ledger"
	"keelpath/builder/library"
	"keelpath/builder/publish"
)

func compileCommand(s Streams) *cobra.Command {
	var in input
	var out string
	var quiet bool
	c := &cobra.Command{
		Use:   "compile",
		Short: "Build the site",
		Long: `Reads and checks everything, then builds the site into a folder.

The folder is replaced whole, at the very end: a build that fails or is stopped
leaves the last good site as it was. A folder that Keelpath did not make is
never touched.`,
		Example: "  keelpath compile\n  keelpath compile --layer our-clinic --out site",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			list := &finding.List{}
			layers, err := in.read(c.Context(), list)
			if err != nil {
				return asItWas(err, out)
			}
			key, was := inputs{print: library.Print(layers)}, siteIn(out)
			if n, ok := key.built(was, out, s.today()); ok && list.Len() == 0 {
				if !quiet {
					fmt.Fprintf(s.Out, "nothing has changed: %s in %s\nopen %s in a browser\n", count(n, "file"), out, filepath.Join(out, "index.html"))
				}
				return nil
			}
			l, err := library.LoadAgain(c.Context(), list, was.known(), layers...)
			if err != nil {
				return asItWas(err, out)
			}
			if key.due = l.NextReview(); list.Len() > 0 {
				key = inputs{} // what was found has to be told each time
			}
			l.Overdue(s.today(), list)
			if err := tell(s.Err, l, list); err != nil {
				return err
			}
			if list.Errors() > 0 {
				fmt.Fprintf(s.Err, "nothing was written; %s is as it was\n", out)
				return errFindings
			}
			n, err := build(c.Context(), s, l, was, key, out, newBar(s.Err, quiet))
			if err != nil {
				return err
			}
			if !quiet {
				fmt.Fprintf(s.Out, "built %s in %s\nopen %s in a browser\n", count(n, "file"), out, filepath.Join(out, "index.html"))
			}
			return nil
		},
	}
	in.flags(c)
	c.Flags().StringVar(&out, "out", "out", "the `folder` to build into")
	c.Flags().BoolVar(&quiet, "quiet", false, "say nothing but findings")
	return c
}

// build renders the whole site and swaps it in, and prints what the site goes
// without. It gives the number of files.
func build(ctx context.Context, s Streams, l *library.Library, was site, key inputs, out string, b *bar) (n int, err error) {
	var list finding.List
	err = renew(ctx, s, out, func(root, old *os.Root) error {
		files, err := publish.Build(ctx, l, &list, was.before(root, old, key), staged{root}, b.step)
		n = len(files)
		return err
	})
	b.done()
	if err == nil {
		err = tell(s.Err, l, &list)
	}
	return n, err
}

// staged is the folder in which a site is built, before it stands in the place of the old one.
type staged struct{ root *os.Root }

func (s staged) Write(name string, data []byte) error { return folder.WriteFile(s.root, name, data) }
func (s staged) Read(name string) ([]byte, error)     { return s.root.ReadFile(filepath.FromSlash(name)) }

// site is what a build may rest on of the site as it was: nothing where there is none, or where its
// ledger is not whole or another program's.
type site struct {
	dir    string
	ledger *ledger.Ledger
	text   []byte // of the ledger
}

func siteIn(out string) site {
	dir, err := os.OpenRoot(out)
	if err != nil {
		return site{}
	}
	defer dir.Close()
	s := site{dir: out}
	if s.text, err = dir.ReadFile(ledger.Name); err != nil {
		return site{}
	}
	s.ledger, err = ledger.Read(s.text)
	if err != nil || s.ledger.Program == "" || s.ledger.Program != ledger.Program() {
		return site{}
	}
	return s
}

// known is what is known of its explainers.
func (s site) known() []byte {
	dir, err := os.OpenRoot(s.dir)
	if err != nil {
		return nil
	}
	defer dir.Close()
	for _, f := range slices.Backward(s.ledger.Files) {
		if f.Name == library.KnownName {
			return folder.Read(dir, f.Name, folder.Sum{Size: f.Size, Sum: f.Sum})
		}
	}
	return nil
}

// before is what can be taken over. A file that is not what the ledger says, as where another run has
// put another site there since, is made again.
func (s site) before(root, old *os.Root, key inputs) publish.Before {
	b := publish.Before{Inputs: key.print, Due: key.due}
	if old != nil {
		b.Ledger = s.ledger
		b.Keep = func(f ledger.File) bool { return folder.Keep(root, old, f.Name, f.Size, f.Sum) }
		b.Read = func(f ledger.File) []byte { return folder.Read(old, f.Name, folder.Sum{Size: f.Size, Sum: f.Sum}) }
	}
	return b
}

// inputs are what a site hangs on, beside the program: the fingerprint of all files, and the
// day by which the first page is to be reviewed. They are empty where something was found.
type inputs struct{ print, due string }

// built tells whether a folder is what this program made of these inputs, whole and with
// nothing else in it, and that there was nothing to tell and is nothing today. It gives the number of files.
func (i inputs) built(s site, out string, today time.Time) (n int, ok bool) {
	l := s.ledger
	if l == nil || l.Inputs != i.print || l.Due < today.Format(time.DateOnly) {
		return 0, false
	}
	files := map[string]folder.Sum{ledger.Name: {Size: int64(len(s.text)), Sum: sha256.Sum256(s.text)}}
	for _, f := range l.Files {
		files[f.Name] = folder.Sum{Size: f.Size, Sum: f.Sum}
	}
	return len(l.Files), folder.Whole(out, files)
}

// quietBar is for builds that nobody watches.
func quietBar() *bar { return newBar(io.Discard, true) }
