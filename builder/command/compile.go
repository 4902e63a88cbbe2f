package command

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"path/filepath"
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
			key := inputs{print: library.Print(layers)}
			if n, ok := key.built(out, s.today()); ok && list.Len() == 0 {
				if !quiet {
					fmt.Fprintf(s.Out, "nothing has changed: %s in %s\nopen %s in a browser\n", count(n, "file"), out, filepath.Join(out, "index.html"))
				}
				return nil
			}
			l, err := library.Load(c.Context(), list, layers...)
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
			n, err := build(c.Context(), s, l, key, out, newBar(s.Err, quiet))
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
func build(ctx context.Context, s Streams, l *library.Library, key inputs, out string, b *bar) (n int, err error) {
	var list finding.List
	err = renew(ctx, s, out, func(root, old *os.Root) error {
		emit := func(name string, data []byte) error { return folder.WriteFile(root, name, data) }
		was := before(root, old)
		was.Inputs, was.Due = key.print, key.due
		files, err := publish.Build(ctx, l, &list, was, emit, b.step)
		n = len(files)
		return err
	})
	b.done()
	if err == nil {
		err = tell(s.Err, l, &list)
	}
	return n, err
}

// before is what can be taken over from the site as it was: nothing where there is none, or where its
// ledger is not whole or another program's.
func before(root, old *os.Root) publish.Before {
	if old == nil {
		return publish.Before{}
	}
	l, _ := ledgerIn(old)
	return publish.Before{Ledger: l, Keep: func(f ledger.File) bool { return folder.Keep(root, old, f.Name, f.Size, f.Sum) }}
}

// ledgerIn reads a folder's ledger; nil where there is none that can be trusted.
func ledgerIn(dir *os.Root) (l *ledger.Ledger, text []byte) {
	text, err := dir.ReadFile(ledger.Name)
	if err != nil {
		return nil, nil
	}
	l, err = ledger.Read(text)
	if err != nil || l.Program == "" || l.Program != ledger.Program() {
		return nil, nil
	}
	return l, text
}

// inputs are what a site hangs on, beside the program: the fingerprint of all files, and the
// day by which the first page is to be reviewed. They are empty where something was found.
type inputs struct{ print, due string }

// built tells whether a folder is what this program made of these inputs, whole and with
// nothing else in it, and that there was nothing to tell and is nothing today. It gives the number of files.
func (i inputs) built(out string, today time.Time) (n int, ok bool) {
	dir, err := os.OpenRoot(out)
	if err != nil {
		return 0, false
	}
	defer dir.Close()
	l, text := ledgerIn(dir)
	if l == nil || l.Inputs != i.print || l.Due < today.Format(time.DateOnly) {
		return 0, false
	}
	files := map[string]folder.Sum{ledger.Name: {Size: int64(len(text)), Sum: sha256.Sum256(text)}}
	for _, f := range l.Files {
		files[f.Name] = folder.Sum{Size: f.Size, Sum: f.Sum}
	}
	return len(l.Files), folder.Whole(out, files)
}

// quietBar is for builds that nobody watches.
func quietBar() *bar { return newBar(io.Discard, true) }
