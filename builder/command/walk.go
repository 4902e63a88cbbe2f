package command

import (
	"bufio"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"keelpath/builder/explainer"
	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/quantity"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/told"
	"keelpath/builder/tree"
)

func walkCommand(s Streams) *cobra.Command {
	var in input
	var asJSON bool
	c := &cobra.Command{
		Use:   "walk TREE [question=answer ...]",
		Short: "Take a tree here in the terminal",
		Long: `Asks a tree's questions here, one by one, and says where they lead.

With answers on the line it does not ask. Several answers to one question are
joined by commas, and "skip" skips a question that can be skipped.`,
		Example: "  keelpath walk heel-height\n  keelpath walk gait-observation safety=yes",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			l, list, err := in.load(c.Context())
			if err != nil {
				return err
			}
			t, err := treeNamed(l, args[0])
			if err != nil {
				return err
			}
			if list.Errors() > 0 {
				if err := tell(s.Err, l, list); err != nil {
					return err
				}
				return errFindings
			}
			w := &walker{s: s, l: l, t: t, asJSON: asJSON}
			if len(args) > 1 {
				return w.given(args[1:])
			}
			return w.ask(c.Context())
		},
	}
	in.flags(c)
	c.Flags().BoolVar(&asJSON, "json", false, "write the path and where it leads as JSON")
	return c
}

func treeNamed(l *library.Library, id string) (*tree.Tree, error) {
	if t := l.Tree(id); t != nil {
		return t, nil
	}
	var ids []string
	for _, t := range l.Trees {
		ids = append(ids, t.ID.S)
	}
	text := fmt.Sprintf("there is no tree %q", id)
	if n := finding.Nearest(id, ids); n != "" {
		text += fmt.Sprintf("; nearest: %q", n)
	}
	return nil, wrongCall{fmt.Errorf("%s; trees: %s", text, strings.Join(ids, ", "))}
}

type walker struct {
	s      Streams
	l      *library.Library
	t      *tree.Tree
	asJSON bool
	leg    string // as answered on the safety screen
}

// given walks with the answers of the command line.
func (w *walker) given(args []string) error {
	given := tree.Answers{}
	for _, a := range args {
		q, answer, ok := strings.Cut(a, "=")
		if !ok {
			return wrongCall{fmt.Errorf("%q is not of the form question=answer", a)}
		}
		if q == safetyKey && w.t.Question(q) == nil {
			told, err := w.givenScreen(answer)
			if err != nil {
				return wrongCall{err}
			}
			if got, some := w.gathered(told); some {
				return w.help(told, got)
			}
			w.leg = told.Leg
			continue
		}
		question := w.t.Question(q)
		if question == nil {
			return wrongCall{fmt.Errorf("tree %q has no question %q; questions: %s", w.t.ID.S, q, strings.Join(w.questionIDs(), ", "))}
		}
		given[q] = strings.Split(answer, ",")
		if question.Measure != nil {
			given[q] = []string{answer} // "3,5 cm" is one amount
		}
		if err := question.Accepts(given[q]); err != nil {
			return wrongCall{err}
		}
	}
	path, err := w.t.Walk(given)
	if err != nil {
		return err
	}
	if path.Open != "" {
		q := w.t.Question(path.Open)
		return wrongCall{fmt.Errorf("the path stops at question %q: %s\nadd %s=..., %sone of: %s", path.Open, q.Text.S, path.Open, amountOr(q), strings.Join(answerIDs(q), ", "))}
	}
	return w.end(path)
}

func (w *walker) questionIDs() []string {
	var out []string
	for _, q := range w.t.Questions {
		out = append(out, q.ID.S)
	}
	return out
}

func amountOr(q *tree.Question) string {
	if q.Measure == nil {
		return ""
	}
	return "an amount or "
}

func answerIDs(q *tree.Question) []string {
	var out []string
	if q.Measure != nil {
		for _, l := range q.Measure.Likes {
			out = append(out, l.ID.S)
		}
	}
	for _, a := range q.Answers {
		out = append(out, a.ID.S)
	}
	if q.Skip.Given() {
		out = append(out, tree.Skip)
	}
	return out
}

// ask takes the tree with a person at the terminal. Questions go to Err when
// the result is JSON, so that Out holds nothing else.
func (w *walker) ask(ctx context.Context) error {
	talk := w.s.Out
	if w.asJSON {
		talk = w.s.Err
	}
	fmt.Fprintf(talk, "%s\n%s\n", w.t.Title.S, w.t.Purpose.S)
	lines := linesOf(ctx, w.s.In)
	told, err := w.askScreen(ctx, talk, lines)
	if err != nil {
		return err
	}
	if got, some := w.gathered(told); some {
		return w.help(told, got)
	}
	w.leg = told.Leg
	given := tree.Answers{}
	bare := "" // a number of the line before that came without its unit
	for {
		path, err := w.t.Walk(given)
		if err != nil {
			return err
		}
		if path.Ending != "" {
			return w.end(path)
		}
		w.show(talk, w.t.Question(path.Open), len(path.Steps) > 0)
		line, ok := lines.next(ctx)
		if err := ctx.Err(); err != nil {
			return err
		}
		if !ok {
			fmt.Fprintln(talk)
			return fmt.Errorf("stopped at question %q: the input ended", path.Open)
		}
		if strings.TrimSpace(line) == "b" && len(path.Steps) > 0 {
			delete(given, path.Steps[len(path.Steps)-1].Question)
			continue
		}
		q := w.t.Question(path.Open)
		chosen, err := choose(q, completed(q, bare, line))
		bare = ""
		if err != nil {
			fmt.Fprintln(talk, err)
			bare = askUnit(talk, line, err)
			continue
		}
		readBack(talk, q, chosen)
		given[path.Open] = chosen
	}
}

// lines are what a person types, read beside the walk: a read that waits for the
// person cannot be broken off, and ctrl-c must end the walk all the same.
type lines chan string

func linesOf(ctx context.Context, in io.Reader) lines {
	out := make(lines)
	go func() {
		defer close(out)
		for scan := bufio.NewScanner(in); scan.Scan(); {
			select {
			case out <- scan.Text():
			case <-ctx.Done():
				return
			}
		}
	}()
	return out
}

// next gives ok false at the end of the input, or of ctx.
func (l lines) next(ctx context.Context) (line string, ok bool) {
	select {
	case line, ok = <-l:
		return line, ok
	case <-ctx.Done():
		return "", false
	}
}

// askUnit lists the amounts that a number without a unit may stand for, and gives
// the number; empty where err is about something else.
func askUnit(talk io.Writer, line string, err error) string {
	var refused *quantity.Error
	if !errors.As(err, &refused) || len(refused.Choices) == 0 {
		return ""
	}
	for _, c := range refused.Choices {
		fmt.Fprintf(talk, "   -  %s\n", c)
	}
	fmt.Fprintln(talk, "Write one of these, or just its unit.")
	return strings.TrimSpace(line)
}

// completed puts the number of the line before in front of a unit that stands alone.
func completed(q *tree.Question, bare, line string) string {
	if bare == "" || q.Measure == nil {
		return line
	}
	whole := bare + " " + strings.TrimSpace(line)
	if _, err := quantity.Read(line, q.Measure.Measure); err == nil {
		return line
	}
	if _, err := quantity.Read(whole, q.Measure.Measure); err != nil {
		return line
	}
	return whole
}

// readBack says a written amount again, and what it is in the other system.
func readBack(talk io.Writer, q *tree.Question, chosen []string) {
	if q.Measure == nil || q.Measure.Like(chosen[0]) != nil {
		return
	}
	if v, err := q.Measure.Read(chosen[0]); err == nil {
		fmt.Fprintf(talk, "  %s.\n", q.Measure.Back(v))
	}
}

func (w *walker) show(talk io.Writer, q *tree.Question, back bool) {
	fmt.Fprintf(talk, "\n%s\n  (%s)\n", q.Text.S, q.Why.S)
	if q.Hint.S != "" {
		fmt.Fprintf(talk, "  %s\n", q.Hint.S)
	}
	for i, a := range q.Answers {
		fmt.Fprintf(talk, "  %2d  %s\n", i+1, a.Text.S)
	}
	if q.Measure != nil {
		for i, l := range q.Measure.Likes {
			fmt.Fprintf(talk, "  #%d  %s\n", i+1, l.Text.S)
		}
	}
	if q.Skip.Given() {
		fmt.Fprintln(talk, "   s  Skip this question")
	}
	if back {
		fmt.Fprintln(talk, "   b  Back")
	}
	fmt.Fprint(talk, asked(q))
}

func asked(q *tree.Question) string {
	switch {
	case q.Measure != nil && len(q.Measure.Likes) > 0:
		return "Amount, or # and a number from the list: "
	case q.Measure != nil:
		return "Amount: "
	case q.Pick == tree.PickAny:
		return "Numbers, with commas between: "
	}
	return "Number: "
}

// chooseAmount reads an amount as a person types it, or "#1" as the first like.
func chooseAmount(q *tree.Question, line string) ([]string, error) {
	line = strings.TrimSpace(line)
	if n, ok := strings.CutPrefix(line, "#"); ok {
		i, err := strconv.Atoi(strings.TrimSpace(n))
		if err != nil || i < 1 || i > len(q.Measure.Likes) {
			return nil, fmt.Errorf("%q is not in the list", line)
		}
		return []string{q.Measure.Likes[i-1].ID.S}, nil
	}
	if q.Measure.Like(line) == nil {
		if _, err := quantity.Read(line, q.Measure.Measure); err != nil {
			return nil, err
		}
	}
	return []string{line}, nil
}

// choose reads "2", "1,3" or "s" as answers to q.
func choose(q *tree.Question, line string) ([]string, error) {
	if strings.TrimSpace(line) == "s" && q.Skip.Given() {
		return []string{tree.Skip}, nil
	}
	if q.Measure != nil {
		return chooseAmount(q, line)
	}
	var chosen []string
	for _, f := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ' ' }) {
		n, err := strconv.Atoi(f)
		if err != nil || n < 1 || n > len(q.Answers) {
			return nil, fmt.Errorf("%q is not a number from 1 to %d", f, len(q.Answers))
		}
		chosen = append(chosen, q.Answers[n-1].ID.S)
	}
	if err := q.Accepts(chosen); err != nil {
		return nil, err
	}
	return chosen, nil
}

// landed is the JSON form of a finished walk.
type landed struct {
	Tree string `json:"tree"`
	tree.Path
	Title   string   `json:"title"`
	Safety  bool     `json:"safety"`
	Prompts []string `json:"prompts"`
	Next    []string `json:"next"`
}

func (w *walker) json(v any) error {
	enc := json.NewEncoder(w.s.Out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

func (w *walker) end(path tree.Path) error {
	e := w.t.Ending(path.Ending)
	known := w.told(path)
	prompts := w.prompts(e, path.Cards, known)
	if w.asJSON {
		return w.json(landed{Tree: w.t.ID.S, Path: path, Title: e.Title.S, Safety: e.Safety, Prompts: prompts, Next: append([]string{}, read.Strings(e.Next)...)})
	}
	if e.Sign.Given() { // as the screen would say it, for this leg
		sign, g := w.l.Safety.Sign(e.Sign.S)
		a := safety.Answers{Leg: w.leg, Gate: []string{g.ID.S}, Groups: map[string][]string{g.ID.S: {sign.ID.S}}}
		return w.help(a, w.l.Safety.Gather(a))
	}
	out := w.s.Out
	fmt.Fprintln(out)
	if e.Caution.Given() {
		fmt.Fprintf(out, "! %s\n\n", w.filled(e.Caution, path))
	}
	fmt.Fprintf(out, "%s\n%s\n", e.Title.S, w.filled(e.Text, path))
	w.measured(path)
	for _, id := range path.Cards {
		c := w.l.Card(id)
		fmt.Fprintf(out, "\n* %s: %s\n", c.Title.S, w.words(c.Text))
	}
	for i, t := range e.Types {
		if i == 0 {
			fmt.Fprintf(out, "\nThese come up to talk about. None is a choice made for you.\n")
		}
		fmt.Fprintf(out, "- %s\n    for:     %s\n    against: %s\n", w.l.FootType(t.Type.S).Name.S, t.For.S, t.Against.S)
	}
	fmt.Fprintf(out, "\nQuestions to bring:\n")
	for _, id := range prompts {
		p := w.l.Prompt(id)
		fmt.Fprintf(out, "- %s (%s)\n", tree.FillGaps(p.Ask.S, known.words), strings.Join(read.Strings(p.Whom), ", "))
	}
	for _, n := range e.Next {
		fmt.Fprintf(out, "\nGo on with: keelpath walk %s\n", n.S)
	}
	return nil
}

// prompts gives the ending's prompts and then the cards', each once, where they fit
// what was told. A residents' tree lists them all, to choose from.
func (w *walker) prompts(e *tree.Ending, cards []string, t toldHere) []string {
	out := append([]string{}, read.Strings(e.Prompts)...)
	for _, id := range cards {
		for _, p := range w.l.Card(id).Prompts {
			if !slices.Contains(out, p.S) {
				out = append(out, p.S)
			}
		}
	}
	return slices.DeleteFunc(out, func(id string) bool {
		return w.t.Audience.S == "patient" && !w.l.Prompt(id).Fits(t.is)
	})
}

// toldHere is what a person told on the way: the facts, and the words for an amount.
type toldHere map[string]string

func (t toldHere) is(fact string) bool { _, ok := t[fact]; return ok }

func (t toldHere) words(fact string) string { return cmp.Or(t[fact], library.Blank) }

// told gives what the answers on a path tell, and the leg of the safety screen.
func (w *walker) told(path tree.Path) toldHere {
	s := told.Sitting{Trees: []*tree.Tree{w.t}, Facts: w.l.Facts, Taken: []string{w.t.ID.S}, Answers: map[string]tree.Answers{w.t.ID.S: {}}}
	for _, step := range path.Steps {
		s.Answers[w.t.ID.S][step.Question] = step.Chosen
	}
	out := toldHere{}
	for fact, at := range s.Told() {
		out[fact] = ""
		if m := w.t.Question(at.Question).Measure; m != nil {
			if v, err := m.Read(at.Words); err == nil {
				out[fact] = m.Show(v)
			}
		}
	}
	if w.l.Safety != nil {
		for _, a := range w.l.Safety.Leg.Answers {
			for _, fact := range a.Tells {
				if a.ID.S == w.leg {
					out[fact.S] = ""
				}
			}
		}
	}
	return out
}

// measured says again what was measured on the way, in the reader's units.
func (w *walker) measured(path tree.Path) {
	for _, s := range path.Steps {
		if q := w.t.Question(s.Question); q.Measure != nil {
			fmt.Fprintf(w.s.Out, "\n%s %s\n", q.Text.S, strings.Join(q.Says(say.English(), s.Chosen), ", "))
		}
	}
}

// filled gives an ending's text with its amounts.
func (w *walker) filled(t read.Text, path tree.Path) string {
	return tree.FillGaps(w.worded(t, w.l.SourceName), func(id string) string {
		if v, ok := path.Amounts[id]; ok {
			return w.t.ShowAmount(id, v)
		}
		return w.t.WithoutAmount(w.l.Say, id)
	})
}

// words gives a markdown text without its marks, links by their titles.
func (w *walker) words(t read.Text) string { return w.worded(t, nil) }

func (w *walker) worded(t read.Text, name func(id string) string) string {
	return w.l.Doc(t).Text(say.English(), func(kind, id string) explainer.Target {
		return explainer.Target{Title: w.l.TitleOf(kind, id)}
	}, name, w.l.Partly)
}
