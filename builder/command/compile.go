package command

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

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
			l, list, err := in.load(c.Context())
			if err != nil {
				return asItWas(err, out)
			}
			l.Overdue(s.today(), list)
			if err := tell(s.Err, l, list); err != nil {
				return err
			}
			if list.Errors() > 0 {
				fmt.Fprintf(s.Err, "nothing was written; %s is as it was\n", out)
				return errFindings
			}
			n, err := build(c.Context(), s, l, out, newBar(s.Err, quiet))
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
func build(ctx context.Context, s Streams, l *library.Library, out string, b *bar) (n int, err error) {
	var list finding.List
	err = renew(ctx, s, out, func(root, old *os.Root) error {
		emit := func(name string, data []byte) error { return folder.WriteFile(root, name, data) }
		files, err := publish.Build(ctx, l, &list, before(root, old), emit, b.step)
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
	text, err := old.ReadFile(ledger.Name)
	if err != nil {
		return publish.Before{}
	}
	l, err := ledger.Read(text)
	if err != nil || l.Program == "" || l.Program != ledger.Program() {
		return publish.Before{}
	}
	return publish.Before{Ledger: l, Keep: func(f ledger.File) bool { return folder.Keep(root, old, f.Name, f.Size, f.Sum) }}
}

// quietBar is for builds that nobody watches.
func quietBar() *bar { return newBar(io.Discard, true) }
