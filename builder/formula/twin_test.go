package formula

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/dop251/goja"
	"keelpath/builder/clienttest"
)

// theirs reads what the client's evaluator gave.
func theirs(v goja.Value) Value {
	switch x := v.Export().(type) {
	case bool:
		return That(x)
	case int64:
		return Of(float64(x))
	case float64:
		return Value{Known: true, Num: x} // not Of: an infinity must not pass as unknown
	}
	return Value{}
}

// at gives an element of a list in the script.
func at(list goja.Value, i int) goja.Value { return list.(*goja.Object).Get(strconv.Itoa(i)) }

// alike compares two results of one kind, numbers to 1e-9.
func alike(a, b Value, truth bool) bool {
	switch {
	case a.Known != b.Known:
		return false
	case truth:
		return a.Truth == b.Truth
	}
	return math.Abs(a.Num-b.Num) <= 1e-9*math.Max(1, math.Abs(a.Num))
}

// maker writes random formulas that the checker has nothing against.
type maker struct{ *rand.Rand }

func (m maker) pick(of ...string) string { return of[m.Intn(len(of))] }

var amounts = []Kind{Number, length, mass, angle, slope}

func (m maker) kind() Kind { return amounts[m.Intn(len(amounts))] }

var unitNames = map[Kind][]string{
	length: {"mm", "cm", "inch", "m"}, mass: {"kg", "lb"}, angle: {"deg"}, slope: {"percent"},
}

// truth writes a condition of at most so many levels.
func (m maker) truth(depth int) string {
	if depth <= 0 {
		return m.pick("steep", `safety == "no"`, `"own" != knee`, `has(where, "home")`, `has(where, "work")`)
	}
	switch m.Intn(8) {
	case 0:
		return "!" + m.bracket(m.truth(depth-1))
	case 1, 2:
		return m.bracket(m.truth(depth-1)) + " && " + m.bracket(m.truth(depth-1))
	case 3, 4:
		return m.bracket(m.truth(depth-1)) + " || " + m.bracket(m.truth(depth-1))
	case 5:
		return m.truth(0)
	}
	k := m.kind()
	return m.amount(k, depth-1) + m.pick(" < ", " <= ", " > ", " >= ", " == ", " != ") + m.amount(k, depth-1)
}

func (m maker) bracket(s string) string { return "(" + s + ")" }

// amount writes something of kind k.
func (m maker) amount(k Kind, depth int) string {
	if depth <= 0 || m.Intn(4) == 0 {
		return m.leaf(k)
	}
	switch m.Intn(9) {
	case 0:
		return m.bracket(m.amount(k, depth-1) + m.pick(" + ", " - ") + m.amount(k, depth-1))
	case 1:
		return m.bracket(m.amount(Number, depth-1) + "*" + m.amount(k, depth-1))
	case 2:
		return m.bracket(m.amount(k, depth-1) + "/" + m.amount(Number, depth-1))
	case 3:
		return m.pick("min", "max") + "(" + m.amount(k, depth-1) + ", " + m.amount(k, depth-1) + ")"
	case 4:
		return "abs(" + m.amount(k, depth-1) + ")"
	case 5:
		return m.bracket("-" + m.amount(k, depth-1))
	case 6:
		if k == Number {
			of := m.kind()
			return m.bracket(m.amount(of, depth-1) + "/" + m.amount(of, depth-1))
		}
	}
	return m.call(k, depth)
}

func (m maker) call(k Kind, depth int) string {
	var fit []string
	for name, f := range functions {
		if f.result == k {
			fit = append(fit, name)
		}
	}
	slices.Sort(fit)
	name := m.pick(fit...)
	f := functions[name]
	var args []string
	for _, p := range f.params {
		args = append(args, m.amount(p, depth-1))
	}
	for f.more && m.Intn(2) == 0 {
		args = append(args, m.amount(f.params[0], depth-1))
	}
	return name + "(" + strings.Join(args, ", ") + ")"
}

func (m maker) leaf(k Kind) string {
	var fit []string
	for id, n := range names {
		if n.Kind == k || k == Number && id == "falls" {
			fit = append(fit, written(id))
		}
	}
	slices.Sort(fit)
	if len(fit) > 0 && m.Intn(3) > 0 {
		return m.pick(fit...)
	}
	number := fmt.Sprint(m.Intn(40))
	if m.Intn(2) == 0 {
		number = fmt.Sprintf("%.2f", m.Float64()*20)
	}
	if k == Number {
		return number
	}
	return m.bracket(number + "*" + m.pick(unitNames[k]...))
}

// answers draws what a reader said, in both forms; a quarter is missing.
func (m maker) answers() (ours map[string]Value, client map[string]any) {
	ours, client = map[string]Value{}, map[string]any{}
	var ids []string
	for id := range names {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		switch m.Intn(8) {
		case 0:
			continue // not asked
		case 1:
			client[id] = nil // skipped
			continue
		}
		ours[id], client[id] = m.answer(names[id])
	}
	return ours, client
}

func (m maker) answer(n Name) (Value, any) {
	switch n.Kind {
	case Truth:
		b := m.Intn(2) == 0
		return That(b), b
	case Choice, Choices:
		chosen := []string{}
		for _, a := range n.Answers {
			if m.Intn(2) == 0 {
				chosen = append(chosen, a)
			}
		}
		if n.Kind == Choice {
			chosen = []string{m.pick(n.Answers...)}
		}
		return Value{Known: true, Chosen: chosen}, chosen
	case length, mass, angle, slope:
		x := input(m.Rand, n.Kind)
		return Of(x), x
	}
	x := float64(m.Intn(6))
	return Of(x), x
}

// formula gives the next formula that passes the checker.
func (m maker) formula(t *testing.T) (*Expr, Kind) {
	for {
		src := ""
		if m.Intn(3) > 0 {
			src = m.truth(1 + m.Intn(4))
		} else {
			src = m.amount(m.kind(), 1+m.Intn(4))
		}
		if len(src) > MaxLength {
			continue
		}
		e, err := Parse(src)
		if err != nil {
			t.Fatalf("%s\n%d: %s", src, err.Col, err.Text)
		}
		k, errs := e.Check(names)
		if len(errs) == 1 && strings.HasSuffix(errs[0].Text, "has no value") {
			continue
		}
		if len(errs) > 0 {
			t.Fatalf("%s\n%d: %s", src, errs[0].Col, errs[0].Text)
		}
		return e, k
	}
}

// Ten thousand random formulas with random and missing answers: Go and the
// client come to the same, unknown included.
func TestGoAndClientAgree(t *testing.T) {
	script := clienttest.Load(t, "sums/formula.ts")
	m := maker{rand.New(rand.NewSource(12))}
	counts := map[string]int{}
	var ours []map[string]Value
	var clients []any
	for range 999 {
		a, b := m.answers()
		ours, clients = append(ours, a), append(clients, b)
	}
	theirAnswers := script.Value(clients)
	for range 10000 {
		e, k := m.formula(t)
		coded := script.Value(e.Encode())
		for range 3 {
			i := m.Intn(len(ours))
			want := e.Eval(func(id string) Value { return ours[i][id] })
			v, err := script.Call("evaluate", coded, at(theirAnswers, i))
			if err != nil {
				t.Fatalf("%s: %v", e, err)
			}
			if got := theirs(v); !alike(want, got, k == Truth) {
				t.Fatalf("%s\n%v\nGo %+v, client %+v", e, clients[i], want, got)
			}
			counts[tally(k, want)]++
		}
	}
	t.Logf("%v", counts)
	for _, what := range []string{"true", "false", "unknown truth", "number", "unknown number"} {
		if counts[what] < 1000 {
			t.Errorf("only %d results were %s", counts[what], what)
		}
	}
}

func tally(k Kind, v Value) string {
	switch {
	case k == Truth && !v.Known:
		return "unknown truth"
	case k == Truth:
		return fmt.Sprint(v.Truth)
	case !v.Known:
		return "unknown number"
	}
	return "number"
}

// What String writes is read back as the same formula.
func TestWrittenFormulasMeanTheSame(t *testing.T) {
	m := maker{rand.New(rand.NewSource(13))}
	for range 2000 {
		e, k := m.formula(t)
		if len(e.String()) > MaxLength {
			continue
		}
		back, err := Parse(e.String())
		if err != nil {
			t.Fatalf("%s: %d: %s", e, err.Col, err.Text)
		}
		if back.String() != e.String() {
			t.Fatalf("%s came back as %s", e, back)
		}
		ours, _ := m.answers()
		at := func(id string) Value { return ours[id] }
		if a, b := e.Eval(at), back.Eval(at); !alike(a, b, k == Truth) {
			t.Fatalf("%s: %+v, read back %+v", e, a, b)
		}
	}
}

// A constant part is worked out at build time, and a formula stays short.
func TestEncoding(t *testing.T) {
	for src, want := range map[string]string{
		"shoe_heel > 1.5*inch":               "[> [v shoe-heel] 38.099999999999994]",
		`safety != "no" || !has(where, "x")`: "[|| [! [is safety no]] [! [has where x]]]",
		"slope_angle(steepness) - 5*deg":     "[- [f slope_angle [v steepness]] 5]",
		"-shoe_heel/(2 + 2)":                 "[/ [neg [v shoe-heel]] 4]",
		"2 > 1 && steep":                     "[&& true [v steep]]",
		"3/0 > 1":                            "[> [/ 3 0] 1]",
	} {
		e, err := Parse(src)
		if err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprint(e.Encode()); got != want {
			t.Errorf("%s is encoded as %s, want %s", src, got, want)
		}
	}
}
