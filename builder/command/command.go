// Package command is what a person types: compile, check, walk, show, schema and exchange.
package command

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"keelpath/builder/finding"
	"keelpath/builder/folder"
	"keelpath/builder/library"
)

// Exit is the command's exit code.
type Exit int

const (
	Fine        Exit = 0 // done, and nothing to report but warnings
	Findings    Exit = 1 // the content has errors; nothing was written
	WrongCall   Exit = 2 // the command line is wrong
	CouldNotRun Exit = 3 // a file could not be read or written, or the run was stopped
)

// Streams are the three that a command talks over, and the day it is for it.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer

	// Today is the day that review dates are held against; the zero value asks
	// the clock. Nothing else asks it, and no page depends on it.
	Today time.Time
}

func (s Streams) today() time.Time {
	if s.Today.IsZero() {
		return time.Now()
	}
	return s.Today
}

// errFindings ends a command whose findings have been printed.
var errFindings = errors.New("findings")

// wrongCall is an error in what the person typed.
type wrongCall struct{ error }

// Run runs one command line and gives its exit code.
func Run(ctx context.Context, args []string, s Streams) Exit {
	out, errs := &sink{w: s.Out}, &sink{w: s.Err}
	s.Out, s.Err = out, errs
	exit := run(ctx, args, s)
	if err := cmp.Or(out.err, errs.err); err != nil {
		fmt.Fprintf(s.Err, "keelpath: not all that there is to say could be written: %v\n", err)
		return CouldNotRun
	}
	return exit
}

// A sink remembers that something could not be written, so that no command need
// look at each line that it says.
type sink struct {
	w   io.Writer
	err error
}

func (s *sink) Write(b []byte) (int, error) {
	n, err := s.w.Write(b)
	s.err = cmp.Or(s.err, err)
	return n, err
}

func run(ctx context.Context, args []string, s Streams) Exit {
	root := rootCommand(s)
	root.SetArgs(append([]string{}, args...)) // nil would mean the arguments of the process
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	err := root.ExecuteContext(ctx)
	var wrong wrongCall
	switch {
	case err == nil:
		return Fine
	case errors.Is(err, errFindings):
		return Findings
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(s.Err, "keelpath: stopped before the end")
		return CouldNotRun
	case errors.As(err, &wrong):
		fmt.Fprintf(s.Err, "keelpath: %v\n", err)
		return WrongCall
	}
	fmt.Fprintf(s.Err, "keelpath: %v\n", err)
	return CouldNotRun
}

const long = `Keelpath turns decision trees and explainers about prosthetic feet into a site
of plain files. To build the site:

  keelpath compile

It goes to the folder out/. Open out/index.html in any browser; no network and
no server are needed. Keelpath never picks a foot and never sets a level: the
site helps people ask.`

const exits = `Exit codes:
  0  fine
  1  findings: the content has errors, and nothing was written
  2  wrong call: the command line is wrong
  3  could not run: a file could not be read or written, or the run was stopped

A line to paste:
  keelpath check --layer our-clinic && keelpath compile --layer our-clinic --out site
`

func rootCommand(s Streams) *cobra.Command {
	root := &cobra.Command{
		Use:           "keelpath",
		Short:         "Build a site that helps people get ready to talk about a prosthetic foot",
		Long:          long,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.NoArgs,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return wrongCall{fmt.Errorf("%w; see %q", err, c.CommandPath()+" --help")}
	})
	root.SetUsageTemplate(root.UsageTemplate() + "\n" + exits)
	root.AddCommand(compileCommand(s), checkCommand(s), walkCommand(s), showCommand(s), schemaCommand(s), exchangeCommand(s))
	for _, c := range append(root.Commands(), root) {
		c.Args = sayWhatIsWrong(c.Args)
	}
	return root
}

// sayWhatIsWrong marks a complaint about arguments as a wrong call.
func sayWhatIsWrong(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			text := strings.Split(err.Error(), "\n")[0]
			if !c.HasParent() && len(args) > 0 {
				text = unknownCommand(c, args[0])
			}
			return wrongCall{fmt.Errorf("%s; see %q", text, c.CommandPath()+" --help")}
		}
		return nil
	}
}

func unknownCommand(root *cobra.Command, name string) string {
	var names []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	text := fmt.Sprintf("there is no command %q", name)
	if n := finding.Nearest(name, names); n != "" {
		text += fmt.Sprintf("; nearest: %q", n)
	}
	return text
}

// input is what every command reads: the built-in content and layers on it.
type input struct {
	layers []string
}

func (in *input) flags(c *cobra.Command) {
	c.Flags().StringArrayVar(&in.layers, "layer", nil, "a `folder` with content/ and trees/ of your own, laid over the built-in ones; may be given again")
}

// load reads everything. Findings are in the list; the error is about folders, or
// that of ctx.
func (in *input) load(ctx context.Context) (*library.Library, *finding.List, error) {
	list := &finding.List{}
	layers, err := in.read(ctx, list)
	if err != nil {
		return nil, list, err
	}
	l, err := library.Load(ctx, list, layers...)
	return l, list, err
}

// again is load with what is known from a load before.
func (in *input) again(ctx context.Context, list *finding.List, known []byte) (*library.Library, error) {
	layers, err := in.read(ctx, list)
	if err != nil {
		return nil, err
	}
	return library.LoadAgain(ctx, list, known, layers...)
}

// read reads the files of all layers, and looks into none.
func (in *input) read(ctx context.Context, list *finding.List) ([]library.Layer, error) {
	layers := []library.Layer{library.Builtin()}
	for _, dir := range in.layers {
		y, err := library.ReadLayer(ctx, dir, list)
		if err != nil {
			return nil, err
		}
		layers = append(layers, y)
	}
	limitMemory(layers)
	return layers, nil
}

// asItWas says of a run that was stopped, or failed, what became of the folder it
// writes.
func asItWas(err error, out string) error {
	switch {
	case err == nil, errors.Is(err, folder.ErrNotOurs):
		return err // a refusal says all there is to say
	case errors.Is(err, context.Canceled):
		return fmt.Errorf("stopped; %s is as it was", out)
	}
	return fmt.Errorf("%w; %s is as it was", err, out)
}

// replace fills a folder and puts it in the place of out. An old folder that could
// not be removed is told, and is no failure.
func replace(ctx context.Context, s Streams, out string, fill func(root *os.Root) error) error {
	return renew(ctx, s, out, func(root, _ *os.Root) error { return fill(root) })
}

// renew is replace for a folder of which something may be kept.
func renew(ctx context.Context, s Streams, out string, fill func(root, old *os.Root) error) error {
	err := folder.Renew(ctx, out, fill)
	var left *folder.Left
	if errors.As(err, &left) {
		fmt.Fprintf(s.Err, "keelpath: %v\n", left)
		return nil
	}
	return asItWas(err, out)
}

// tell prints findings, and a line that counts the errors.
func tell(w io.Writer, l *library.Library, list *finding.List) error {
	shown, more := list.Shown()
	if err := finding.Print(w, shown, l.File); err != nil {
		return err
	}
	if more > 0 {
		if _, err := fmt.Fprintf(w, "and %s more; mend these first\n", count(more, "finding")); err != nil {
			return err
		}
	}
	if n := list.Errors(); n > 0 {
		_, err := fmt.Fprintf(w, "%s to mend\n", count(n, "finding"))
		return err
	}
	return nil
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// isTerminal tells whether w is a terminal that a person looks at.
func isTerminal(w io.Writer) bool {
	if s, ok := w.(*sink); ok {
		w = s.w
	}
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
