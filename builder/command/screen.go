package command

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/tree"
)

// safetyKey is what answers to the safety screen are given by on the line:
// safety=none, safety=sore,crack, safety=not-yet,sore.
const safetyKey = "safety"

// screener takes the safety screen with a person at the terminal.
type screener struct {
	w     *walker
	talk  io.Writer
	lines lines
	s     *safety.Screen
	whole bool
}

// choice is one line that can be chosen by its number.
type choice struct{ id, text string }

// askScreen asks the safety screen before a tree for patients. It tells what
// was gathered; nothing, where the topic comes next.
func (w *walker) askScreen(ctx context.Context, talk io.Writer, in lines) (safety.Answers, error) {
	a := safety.Answers{Groups: map[string][]string{}}
	if !w.t.Safety.Given() || w.l.Safety == nil {
		return a, nil
	}
	sc := &screener{w: w, talk: talk, lines: in, s: w.l.Safety, whole: w.t.Safety.S == tree.SafetyWhole}
	for {
		step := sc.s.Next(a, sc.whole)
		if step.Ask == safety.Help || step.Ask == safety.Done {
			return a, nil
		}
		if err := sc.answer(ctx, &a, step); err != nil {
			return a, err
		}
	}
}

// answer asks one step until it has an answer that the screen takes.
func (sc *screener) answer(ctx context.Context, a *safety.Answers, step safety.Step) error {
	choices, several := sc.show(*a, step)
	for {
		fmt.Fprint(sc.talk, map[bool]string{true: "Numbers, with commas between: ", false: "Number: "}[several])
		line, ok := sc.lines.next(ctx)
		if err := ctx.Err(); err != nil {
			return err
		}
		if !ok {
			fmt.Fprintln(sc.talk)
			return fmt.Errorf("stopped at the safety screen: the input ended")
		}
		ids, err := chosenOf(choices, line, several)
		if err == nil {
			next := sc.with(*a, step, ids)
			if err = sc.s.Accepts(next); err == nil {
				*a = next
				return nil
			}
		}
		fmt.Fprintln(sc.talk, err)
	}
}

func (sc *screener) with(a safety.Answers, step safety.Step, ids []string) safety.Answers {
	switch step.Ask {
	case safety.AskLeg:
		a.Leg = ids[0]
	case safety.AskGate:
		a.Gate = ids
	default:
		a.Groups[step.Group] = ids
	}
	return a
}

// show writes a step and gives its choices.
func (sc *screener) show(a safety.Answers, step safety.Step) (choices []choice, several bool) {
	text, why, hint := sc.s.Leg.Text, sc.s.Leg.Why, read.Text{}
	switch step.Ask {
	case safety.AskLeg:
		for _, l := range sc.s.Leg.Answers {
			choices = append(choices, choice{l.ID.S, l.Text.S})
		}
	case safety.AskGate:
		several, text, why, hint = true, sc.s.Gate.Text, sc.s.Gate.Why, sc.s.Gate.Hint
		for _, g := range sc.s.Groups {
			if g.Asked(a.Leg) {
				choices = append(choices, choice{g.ID.S, sc.w.words(g.Line)})
			}
		}
	default:
		g := sc.s.Group(step.Group)
		several, text, why, hint = true, g.Text, g.Why, g.Hint
		for _, sign := range g.Shown(a.Leg) {
			choices = append(choices, choice{sign.ID.S, strings.TrimSpace(sc.w.words(sign.Text) + " " + sc.w.words(sign.More))})
		}
	}
	if several {
		choices = append(choices, choice{safety.None, "None of these"}, choice{safety.NotSure, "Not sure"})
	}
	fmt.Fprintf(sc.talk, "\n%s\n  (%s)\n", text.S, why.S)
	if hint.S != "" {
		fmt.Fprintf(sc.talk, "  %s\n", hint.S)
	}
	for i, c := range choices {
		fmt.Fprintf(sc.talk, "  %2d  %s\n", i+1, c.text)
	}
	return choices, several
}

// chosenOf reads "2" or "1,3".
func chosenOf(choices []choice, line string, several bool) ([]string, error) {
	var out []string
	for _, f := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ' ' }) {
		n, err := strconv.Atoi(f)
		if err != nil || n < 1 || n > len(choices) {
			return nil, fmt.Errorf("%q is not a number from 1 to %d", f, len(choices))
		}
		if id := choices[n-1].id; !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	switch {
	case len(out) == 0:
		return nil, fmt.Errorf("choose at least one")
	case len(out) > 1 && !several:
		return nil, fmt.Errorf("choose one")
	}
	return out, nil
}

// givenScreen reads what stands behind "safety=" on the line.
func (w *walker) givenScreen(told string) (safety.Answers, error) {
	a := safety.Answers{Leg: safety.Worn, Groups: map[string][]string{}}
	if !w.t.Safety.Given() || w.l.Safety == nil {
		return a, fmt.Errorf("tree %q has no safety screen before it", w.t.ID.S)
	}
	for id := range strings.SplitSeq(told, ",") {
		group, unsure := strings.CutSuffix(id, "/"+safety.NotSure)
		_, g := w.l.Safety.Sign(id)
		switch {
		case slices.Contains(safety.LegAnswers, id):
			a.Leg = id
		case id == safety.None && told == safety.None:
		case g != nil:
			a.Groups[g.ID.S] = append(a.Groups[g.ID.S], id)
		case unsure:
			a.Groups[group] = append(a.Groups[group], safety.NotSure)
		default:
			return a, fmt.Errorf("the safety screen has no sign %q; signs: %s", id, strings.Join(w.l.Safety.SignIDs(), ", "))
		}
	}
	return a, w.l.Safety.Accepts(a)
}

// gathered tells whether the safety screen was told anything.
func (w *walker) gathered(a safety.Answers) (safety.Gathered, bool) {
	if w.l.Safety == nil {
		return safety.Gathered{}, false
	}
	got := w.l.Safety.Gather(a)
	return got, len(got.Said) > 0
}

// helped is the JSON form of a walk that ends at the safety screen.
type helped struct {
	Tree   string `json:"tree"`
	Safety bool   `json:"safety"`
	safety.Gathered
	Title   string   `json:"title"`
	Prompts []string `json:"prompts"`
}

// help says what to do: first what the gravest sign asks, then each caution.
func (w *walker) help(a safety.Answers, got safety.Gathered) error {
	s := w.l.Safety
	end := s.Ending(got.When)
	prompts := append([]string{}, s.Prompts(got)...)
	if w.asJSON {
		return w.json(helped{w.t.ID.S, true, got, end.Title.S, prompts})
	}
	out := w.s.Out
	fmt.Fprintf(out, "\n! %s\n", end.Title.S)
	steps := end.Steps
	if a.Leg == safety.Worn {
		steps = slices.Concat(end.Steps, end.Worn)
	}
	for _, t := range steps {
		fmt.Fprintf(out, "  %s\n", w.words(t))
	}
	for i, d := range got.Said {
		fmt.Fprintf(out, "\n! Caution %d of %d: %s\n", i+1, len(got.Said), w.cautionOf(d, a.Leg))
	}
	if len(prompts) > 0 {
		fmt.Fprintf(out, "\nQuestions for later:\n")
	}
	for _, id := range prompts {
		fmt.Fprintf(out, "- %s\n", w.l.Prompt(id).Ask.S)
	}
	return nil
}

func (w *walker) cautionOf(d safety.Said, leg string) string {
	g := w.l.Safety.Group(d.Group)
	title, worn, caution, because := g.Unsure.Title, g.Unsure.Worn, g.Unsure.Caution, read.Text{}
	if sign, _ := w.l.Safety.Sign(d.Sign); sign != nil {
		title, worn, caution, because = sign.Title, sign.Worn, sign.Caution, sign.Because
	}
	if leg != safety.Worn {
		worn = read.Text{}
	}
	parts := []string{w.words(title) + "."}
	for _, t := range []read.Text{worn, caution, because} {
		if t.S != "" {
			parts = append(parts, w.words(t))
		}
	}
	return strings.Join(parts, " ")
}
