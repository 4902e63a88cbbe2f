package exchange

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"keelpath/builder/formula"
	"keelpath/builder/proof"
	"keelpath/builder/quantity"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// mostLevels is how deep the groups of one item may stand in each other. Where a
// question would need more, it is written once for each of its states instead.
const mostLevels = 6

// mostJoint is how many states of a question are tried in one place: to find
// groups for more takes long and fails.
const mostJoint = 24

// mostCopies is how often one question may be written.
const mostCopies = 200

// place is a question as it stands in the form: once, or once a state.
type place struct {
	q      *tree.Question
	states []*proof.State // nil where the question stands once
	link   string

	choice *variable            // for one answer: the item; for an amount: the likes and the skip
	amount *variable            // of a measure
	given  *variable            // of a question that takes several answers
	ticks  map[string]*variable // the same, by answer
	firsts []int                // of a measure: the number of the first amount of each stretch
	class  []int                // of a measure: the class of each stretch

	answered map[*proof.Way]*answered // what answers gives, remembered
}

// answered is what a way's class of answers stands for: as boxes, and where a question takes one answer, the values of its two variables
// that are in any of them. Many ways lead to one target, and to join their boxes value by value takes long.
type answered struct {
	boxes           []box
	amounts, chosen []int
}

// logic is what makes each item of a tree's form appear.
type logic struct {
	words   *say.Words
	t       *tree.Tree
	chart   *proof.Chart
	order   []*tree.Question // each after those that lead to it
	places  map[*tree.Question][]*place
	classed map[*tree.Question][]int
	when    map[string][][]clause // item to its conditions; an ending or card may have copies with one each

	in  map[*tree.Question][]*proof.State  // the chart's states by their question
	led map[*tree.Question]map[string]bool // what a question leads to, once that is settled
	to  map[*proof.Way][]string            // what targets gives, remembered
	had map[leading]led                    // what from gave while questions were settled
}

// leading is a question and a target to which it may lead.
type leading struct {
	q      *tree.Question
	target string
}

// led is by which clauses it does.
type led struct {
	clauses []clause
	leads   bool
}

// work gives an error where the tree's logic cannot be said by conditions of a form.
func work(words *say.Words, t *tree.Tree, proved *proof.Proof) (*logic, error) {
	chart, ok := proved.Chart(t)
	if !ok {
		return nil, fmt.Errorf("the tree cannot be proved, so what leads where is not known")
	}
	w := &logic{words: words, t: t, chart: chart, places: map[*tree.Question][]*place{}, when: map[string][][]clause{}, classed: map[*tree.Question][]int{},
		in: map[*tree.Question][]*proof.State{}, led: map[*tree.Question]map[string]bool{}, to: map[*proof.Way][]string{}, had: map[leading]led{}}
	for _, st := range chart.States {
		w.in[st.Question] = append(w.in[st.Question], st)
	}
	w.sort()
	for _, q := range slices.Backward(w.order) {
		if err := w.settle(q); err != nil {
			return nil, err
		}
	}
	for _, q := range w.order {
		for _, p := range w.places[q] {
			if err := w.conditions(p.link, false); err != nil {
				return nil, err
			}
		}
	}
	for _, e := range t.Endings {
		if err := w.conditions(e.ID.S, true); err != nil {
			return nil, err
		}
	}
	for _, c := range t.Cards() {
		if err := w.conditions(cardTarget(c), true); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// classes is the chart's Classes, remembered.
func (w *logic) classes(q *tree.Question) []int {
	if w.classed[q] == nil {
		w.classed[q] = w.chart.Classes(q)
	}
	return w.classed[q]
}

// sort puts each question after all that lead to it, else in the file's order.
func (w *logic) sort() {
	into := map[string]map[string]bool{}
	reached := map[string]bool{}
	for _, st := range w.chart.States {
		reached[st.Question.ID.S] = true
		for _, way := range st.Ways {
			if way.To != nil {
				id := way.To.Question.ID.S
				if into[id] == nil {
					into[id] = map[string]bool{}
				}
				into[id][st.Question.ID.S] = true
			}
		}
	}
	placed := map[string]bool{}
	for more := true; more; {
		more = false
		for _, q := range w.t.Questions {
			if placed[q.ID.S] || !reached[q.ID.S] {
				continue
			}
			free := true
			for id := range into[q.ID.S] {
				free = free && placed[id]
			}
			if free {
				placed[q.ID.S], more = true, true
				w.order = append(w.order, q)
				break
			}
		}
	}
}

// settle decides whether a question stands once or once a state.
func (w *logic) settle(q *tree.Question) error {
	states := w.states(q)
	w.place(q) // which a later question may have asked for
	if len(states) == 1 || len(states) <= mostJoint && w.sayable(q) {
		return nil
	}
	if len(states) > mostCopies {
		return fmt.Errorf("question %q would have to be written %d times, once for each combination of the answers %s", q.ID.S, len(states), strings.Join(w.chart.Live(q), ", "))
	}
	w.places[q] = nil
	clear(w.had) // what rests on the one place no longer holds
	for _, st := range states {
		link := q.ID.S + w.suffix(q, st)
		if i := slices.IndexFunc(w.places[q], func(p *place) bool { return p.link == link }); i >= 0 {
			w.places[q][i].states = append(w.places[q][i].states, st) // not known for another reason
			continue
		}
		p := w.newPlace(q, link)
		p.states = []*proof.State{st}
		w.places[q] = append(w.places[q], p)
	}
	if !w.sayable(q) {
		return fmt.Errorf("the ways on from question %q need more than %d groups in each other", q.ID.S, mostLevels)
	}
	return nil
}

func (w *logic) states(q *tree.Question) []*proof.State { return w.in[q] }

// suffix tells the copies of a question apart by what is known there.
func (w *logic) suffix(q *tree.Question, st *proof.State) string {
	out := ""
	for _, id := range w.chart.Live(q) {
		out += "." + id + "-" + w.key(w.t.Question(id), st.Known[id])
	}
	return out
}

// key names a class of answers: an amount by its number, counted from 0; answers
// by their ids. The page's copy is linkOf in site/client/carry/response.ts.
func (w *logic) key(q *tree.Question, v formula.Value) string {
	switch {
	case !v.Known:
		return "unknown"
	case q.Measure != nil:
		return strconv.Itoa(w.classes(q)[q.Measure.Index(v.Num)])
	case len(v.Chosen) == 0:
		return "else"
	}
	return strings.Join(inOrder(q, v.Chosen), "+")
}

func inOrder(q *tree.Question, chosen []string) []string {
	var out []string
	for _, a := range q.Answers {
		if slices.Contains(chosen, a.ID.S) {
			out = append(out, a.ID.S)
		}
	}
	return out
}

func system(t *tree.Tree, q *tree.Question) string { return urlOf(t) + ":" + q.ID.S }

func (w *logic) newPlace(q *tree.Question, link string) *place {
	p := &place{q: q, link: link, ticks: map[string]*variable{}, answered: map[*proof.Way]*answered{}}
	var options []coding
	sys := system(w.t, q)
	for _, a := range q.Answers {
		options = append(options, coding{sys, a.ID.S, a.Text.S})
	}
	if q.Measure != nil {
		for _, l := range q.Measure.Likes {
			options = append(options, coding{sys, l.ID.S, l.Text.S})
		}
	}
	if q.Skip.Given() {
		options = append(options, coding{sys, tree.Skip, w.words.Say("form.skip")})
	}
	switch {
	case q.Measure != nil:
		w.measure(p)
		if len(options) > 0 {
			p.choice = &variable{kind: oneOf, link: link + otherLink, size: len(options) + 1, options: options}
		}
	case q.Pick == tree.PickAny:
		p.given = &variable{kind: given, link: link, size: 2}
		for _, o := range options {
			p.ticks[o.Code] = &variable{kind: ticked, link: link, size: 2, options: []coding{o}, item: p.given}
		}
	default:
		p.choice = &variable{kind: oneOf, link: link, size: len(options) + 1, options: options}
	}
	return p
}

// Parts of a question that is answered with an amount.
const (
	amountLink = ".amount"
	otherLink  = ".other" // the likes and the skip
)

// measure cuts the amounts into stretches that nothing in the tree tells apart.
func (w *logic) measure(p *place) {
	m := p.q.Measure
	v := &variable{kind: amounts, link: p.link + amountLink}
	u, _ := quantity.Lookup(m.Unit)
	v.unit = coding{ucum, u.Code, u.Mark}
	classes := w.classes(p.q)
	for i, c := range classes {
		if i == 0 || c != classes[i-1] {
			p.firsts, p.class = append(p.firsts, i), append(p.class, c)
			v.bounds = append(v.bounds, below(m, u, i))
		}
	}
	v.size = len(p.firsts) + 1
	p.amount = v
}

// below gives the bound under the i-th amount of a measure. An amount is rounded
// to the nearest step, away from zero in the middle, and the bound is that middle.
func below(m *tree.Measure, u quantity.Unit, i int) bound {
	at := m.From + (float64(i)-0.5)*m.Step
	return bound{decimal(u.From(at)), at < 0}
}

// decimal writes a number without the digits that binary arithmetic adds. A bound
// lies between two steps, so it has a decimal more than they have.
func decimal(x float64) number { return number(quantity.Decimals(x, 9)) }

// unanswered is the place without an answer.
func (p *place) unanswered() box {
	out := box{}
	switch {
	case p.given != nil:
		out[p.given] = only(p.given, 0)
		for _, v := range p.ticks {
			out[v] = only(v, 0)
		}
	case p.amount != nil:
		out[p.amount] = only(p.amount, 0)
	}
	if p.choice != nil {
		out[p.choice] = only(p.choice, 0)
	}
	return out
}

// picked is the place with one of its options chosen, where one is taken.
func (p *place) picked(codes ...string) box {
	s := none(p.choice)
	for i, o := range p.choice.options {
		s[i+1] = slices.Contains(codes, o.Code)
	}
	out := box{p.choice: s}
	if p.amount != nil {
		out[p.amount] = only(p.amount, 0)
	}
	return out
}

// answers gives the combinations that a way's class of answers stands for, and of an amount all stretches
// in one.
func (w *logic) answers(p *place, way *proof.Way) *answered {
	out := p.answered[way]
	if out == nil {
		out = &answered{boxes: w.answersOf(p, way)}
		for _, b := range out.boxes {
			out.amounts = append(out.amounts, b[p.amount].given()...)
			out.chosen = append(out.chosen, b[p.choice].given()...)
		}
		p.answered[way] = out
	}
	return out
}

// given are the values in a set but the first, which is "no answer".
func (s values) given() []int {
	var out []int
	for i, in := range s {
		if in && i > 0 {
			out = append(out, i)
		}
	}
	return out
}

func (w *logic) answersOf(p *place, way *proof.Way) []box {
	skipped := len(way.Chosen) == 1 && way.Chosen[0] == tree.Skip && p.q.Skip.Given()
	switch {
	case p.given != nil:
		return []box{w.set(p, way.Chosen)}
	case p.amount != nil && !skipped:
		classes := w.classes(p.q)
		c := classes[p.q.Measure.Index(way.Value.Num)]
		return append([]box{p.stretch(p.stretchesOf(c)...)}, p.likes(classes, c)...)
	}
	return []box{p.picked(way.Chosen[0])}
}

// measured gives the stretches and likes of an amount's class.
func (p *place) measured(classes []int, canonical float64) []box {
	c := classes[p.q.Measure.Index(canonical)]
	var out []box
	for _, j := range p.stretchesOf(c) {
		out = append(out, p.stretch(j))
	}
	return append(out, p.likes(classes, c)...)
}

// stretchesOf gives the values of a class, of the variable that is the amount.
func (p *place) stretchesOf(class int) []int {
	var out []int
	for j := range p.firsts {
		if p.class[j] == class {
			out = append(out, j+1)
		}
	}
	return out
}

// stretch is the place with an amount in one of some stretches.
func (p *place) stretch(in ...int) box {
	b := box{p.amount: only(p.amount, in...)}
	if p.choice != nil {
		b[p.choice] = only(p.choice, 0)
	}
	return b
}

// likes gives those of a class as one box; none where it has no likes.
func (p *place) likes(classes []int, c int) []box {
	var likes []string
	for _, l := range p.q.Measure.Likes {
		if classes[p.q.Measure.Index(l.Value.Num)] == c {
			likes = append(likes, l.ID.S)
		}
	}
	if len(likes) == 0 {
		return nil
	}
	return []box{p.picked(likes...)}
}

// set gives the combinations that a class of a question with several answers
// stands for: those that settle the way are ticked or not, the others are free.
func (w *logic) set(p *place, chosen []string) box {
	out := box{p.given: only(p.given, 1)}
	put := func(id string, on bool) {
		if v := p.ticks[id]; on {
			out[v] = only(v, 1)
		} else {
			out[v] = only(v, 0)
		}
	}
	single := ""
	if len(chosen) == 1 {
		if a := p.q.Answer(chosen[0]); a == nil || a.Alone {
			single = chosen[0]
		}
	}
	if p.q.Skip.Given() {
		put(tree.Skip, single == tree.Skip)
	}
	asked, passed := w.chart.Asked(p.q), false
	for _, a := range p.q.Answers {
		on := slices.Contains(chosen, a.ID.S)
		switch {
		case single != "":
			put(a.ID.S, a.ID.S == single)
		case a.Alone:
			put(a.ID.S, false)
		case slices.Contains(asked, a.ID.S), a.Go.Given() && !passed:
			put(a.ID.S, on)
		}
		passed = passed || single == "" && on && a.Go.Given()
	}
	return out
}

// known gives the combinations of earlier answers that a state stands for.
func (w *logic) known(st *proof.State) ([]box, error) {
	out := []box{{}}
	for _, id := range w.chart.Live(st.Question) {
		q := w.t.Question(id)
		if len(w.places[q]) > 1 {
			return nil, fmt.Errorf("question %q stands in several copies, and what follows %q asks for it", id, st.Question.ID.S)
		}
		var more []box
		for _, a := range w.ways(w.place(q), st.Known[id]) {
			more = append(more, times(out, a)...)
		}
		out = more
	}
	return out, nil
}

// place gives the one place of a question, before or after it is settled.
func (w *logic) place(q *tree.Question) *place {
	if w.places[q] == nil {
		w.places[q] = []*place{w.newPlace(q, q.ID.S)}
	}
	return w.places[q][0]
}

// ways gives the combinations in which a condition sees a value.
func (w *logic) ways(p *place, v formula.Value) []box {
	asked := w.chart.Asked(p.q)
	switch {
	case p.amount != nil && v.Known:
		return p.measured(w.classes(p.q), v.Num)
	case p.amount != nil:
		out := []box{p.unanswered()}
		if p.q.Skip.Given() {
			out = append(out, p.picked(tree.Skip))
		}
		return out
	case p.given != nil && v.Known:
		b := box{p.given: only(p.given, 1)}
		for _, id := range asked {
			if slices.Contains(v.Chosen, id) {
				b[p.ticks[id]] = only(p.ticks[id], 1)
			} else {
				b[p.ticks[id]] = only(p.ticks[id], 0)
			}
		}
		if p.q.Skip.Given() {
			b[p.ticks[tree.Skip]] = only(p.ticks[tree.Skip], 0)
		}
		return []box{b}
	case p.given != nil:
		out := []box{p.unanswered()}
		if v := p.ticks[tree.Unsure]; v != nil {
			out = append(out, box{p.given: only(p.given, 1), v: only(v, 1)})
		}
		if p.q.Skip.Given() {
			out = append(out, w.set(p, []string{tree.Skip}))
		}
		return out
	case v.Known && len(v.Chosen) == 1:
		return []box{p.picked(v.Chosen[0])}
	}
	s := none(p.choice)
	s[0] = !v.Known
	for i, o := range p.choice.options {
		unknown := o.Code == tree.Unsure || o.Code == tree.Skip && p.q.Skip.Given()
		s[i+1] = unknown == !v.Known && !slices.Contains(asked, o.Code) || unknown && !v.Known
	}
	return []box{{p.choice: s}}
}

// target names the item that a way leads to.
func (w *logic) target(way proof.Way) string {
	if way.To == nil {
		return way.Ending
	}
	ps := w.places[way.To.Question]
	if len(ps) == 1 {
		return ps[0].link
	}
	return ps[slices.IndexFunc(ps, func(p *place) bool { return slices.Contains(p.states, way.To) })].link
}

// sayable tells whether every way on from a question can be said.
func (w *logic) sayable(q *tree.Question) bool {
	seen := map[string]bool{}
	for _, st := range w.states(q) {
		for i := range st.Ways {
			for _, target := range w.targets(&st.Ways[i]) {
				if seen[target] {
					continue
				}
				seen[target] = true
				if _, _, err := w.from(q, target); err != nil {
					return false
				}
			}
		}
	}
	return true
}

// targets gives what a way leads to, and the cards that its route adds. What it leads to is settled.
func (w *logic) targets(way *proof.Way) []string {
	out, known := w.to[way]
	if !known {
		out = append(out, w.target(*way))
		for _, c := range way.Cards {
			out = append(out, cardTarget(c))
		}
		w.to[way] = out
	}
	return out
}

// leads tells whether a question leads to a target. What it leads to is settled.
func (w *logic) leads(q *tree.Question, target string) bool {
	to := w.led[q]
	if to == nil {
		to = map[string]bool{}
		for _, st := range w.states(q) {
			for i := range st.Ways {
				for _, t := range w.targets(&st.Ways[i]) {
					to[t] = true
				}
			}
		}
		w.led[q] = to
	}
	return to[target]
}

func cardTarget(card string) string { return "note " + card } // the blank keeps it apart from ids

// from gives the clauses by which a question leads to a target; leads is false
// where it does not. While questions are settled it is asked once for each target, and afterwards once more: nothing
// that it rests on has changed by then, but where a question was parted into copies.
func (w *logic) from(q *tree.Question, target string) (cs []clause, leads bool, err error) {
	at := leading{q, target}
	if had, known := w.had[at]; known {
		delete(w.had, at)
		return had.clauses, had.leads, nil
	}
	if !w.leads(q, target) {
		return nil, false, nil
	}
	if cs, leads, err = w.clauses(q, target); err == nil {
		w.had[at] = led{cs, leads}
	}
	return cs, leads, err
}

// clauses is from, where the question may lead to the target.
func (w *logic) clauses(q *tree.Question, target string) (cs []clause, leads bool, err error) {
	var sources [][]clause
	for _, p := range w.places[q] {
		var yes, no []box
		for _, st := range w.states(q) {
			if p.states != nil && !slices.Contains(p.states, st) {
				continue
			}
			known := []box{{}}
			if p.states == nil {
				if known, err = w.known(st); err != nil {
					return nil, false, err
				}
			}
			y, n := w.sides(p, st, target)
			for _, k := range known {
				yes, no = append(yes, times(y, k)...), append(no, times(n, k)...)
			}
		}
		if len(yes) == 0 {
			continue
		}
		var keep box
		if p.states != nil {
			keep = p.unanswered()
		}
		cs, ok := cover(yes, append([]box{p.unanswered()}, no...), keep, w.giveUp(p), mostLevels)
		if !ok {
			return nil, true, fmt.Errorf("what leads from question %q to %q needs more than %d groups in each other", q.ID.S, target, mostLevels)
		}
		sources = append(sources, cs)
	}
	switch len(sources) {
	case 0:
		return nil, false, nil
	case 1:
		return sources[0], true, nil
	}
	return abreast(sources), true, nil
}

// sides gives the answers in a state that lead to a target, and those that do not.
func (w *logic) sides(p *place, st *proof.State, target string) (yes, no []box) {
	var in, out []*answered
	for i := range st.Ways {
		way := &st.Ways[i]
		if slices.Contains(w.targets(way), target) {
			in = append(in, w.answers(p, way))
		} else {
			out = append(out, w.answers(p, way))
		}
	}
	return p.joined(in, false), p.joined(out, true)
}

// joined makes fewer boxes of those of one place. With runs, amounts that are
// not neighbours stay apart.
func (p *place) joined(all []*answered, runs bool) []box {
	var out []box
	if p.given != nil {
		for _, a := range all {
			out = append(out, a.boxes...)
		}
		return out
	}
	if p.amount != nil {
		s := none(p.amount)
		for _, a := range all {
			s.add(a.amounts)
		}
		out = stretches(p, s, runs)
	}
	if p.choice == nil {
		return out
	}
	s := none(p.choice)
	for _, a := range all {
		s.add(a.chosen)
	}
	if slices.Contains(s, true) {
		b := box{p.choice: s}
		if p.amount != nil {
			b[p.amount] = only(p.amount, 0)
		}
		out = append(out, b)
	}
	return out
}

func (s values) add(in []int) {
	for _, i := range in {
		s[i] = true
	}
}

func stretches(p *place, s values, runs bool) []box {
	var out []box
	for i, in := range s {
		if !in {
			continue
		}
		if len(out) > 0 && (!runs || s[i-1]) {
			out[len(out)-1][p.amount][i] = true
			continue
		}
		out = append(out, p.stretch(i))
	}
	return out
}

// times gives each box together with what is known.
func times(boxes []box, known box) []box {
	var out []box
	for _, b := range boxes {
		c := b.clone()
		for v, s := range known {
			c[v] = s
		}
		out = append(out, c)
	}
	return out
}

// giveUp is the order in which variables are left out of a clause: earlier
// answers first, the question's own last.
func (w *logic) giveUp(p *place) []*variable {
	var out []*variable
	if p.states == nil {
		for _, id := range w.chart.Live(p.q) {
			out = append(out, w.place(w.t.Question(id)).variables()...)
		}
	}
	return append(out, p.variables()...)
}

// conditions works out when an item appears. An item that may be copied gets
// one copy for each of its sources where all together would go too deep; only
// one of them is ever on a path.
func (w *logic) conditions(target string, copies bool) error {
	if target == w.t.Start.S {
		w.when[target] = [][]clause{nil}
		return nil
	}
	var joined [][]clause
	for _, q := range w.order {
		cs, ok, err := w.from(q, target)
		if err != nil {
			return err
		}
		if ok {
			joined = w.join(joined, cs)
		}
	}
	for _, c := range w.ticked(target) {
		joined = w.join(joined, []clause{c})
	}
	if len(joined) > 1 && (!copies || strings.HasPrefix(target, cardTarget(""))) {
		return fmt.Errorf("what leads to %q needs more than %d groups in each other", target, mostLevels)
	}
	for _, cs := range joined {
		firm(cs)
	}
	w.when[target] = joined
	return nil
}

// join adds a source to the first of the copies that takes it.
func (w *logic) join(copies [][]clause, cs []clause) [][]clause {
	for i := range copies {
		if both, ok := either(copies[i], cs, mostLevels); ok {
			copies[i] = both
			return copies
		}
	}
	return append(copies, cs)
}

// ticked gives the answers that add a card wherever they are chosen.
func (w *logic) ticked(target string) []clause {
	var out []clause
	for _, q := range w.order {
		for _, a := range q.Answers {
			for _, c := range a.Cards {
				if cardTarget(c.S) != target {
					continue
				}
				for _, p := range w.places[q] {
					if v := p.ticks[a.ID.S]; v != nil {
						out = append(out, clause{v: only(v, 1)})
					} else {
						out = append(out, clause{p.choice: p.picked(a.ID.S)[p.choice]})
					}
				}
			}
		}
	}
	return out
}
