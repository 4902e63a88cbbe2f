package formula

import (
	"math"
	"slices"
	"strings"
	"testing"

	"keelpath/builder/quantity"
)

var names = Names{
	"steepness":   {Kind: slope},
	"shoe-heel":   {Kind: length},
	"usual-heel":  {Kind: length},
	"foot-length": {Kind: length},
	"weight":      {Kind: mass},
	"bend":        {Kind: angle},
	"falls":       {Kind: Kind(quantity.Count)},
	"steep":       {Kind: Truth},
	"safety":      {Kind: Choice, Answers: []string{"yes", "no"}},
	"knee":        {Kind: Choice, Answers: []string{"own", "mechanical", "electronic"}},
	"where":       {Kind: Choices, Answers: []string{"home", "work", "outdoors"}},
}

func TestKinds(t *testing.T) {
	for src, want := range map[string]Kind{
		"3":                                     Number,
		"10*mm":                                 length,
		"1.5*inch":                              length,
		"8.33*percent":                          slope,
		"5*deg":                                 angle,
		"70*kg":                                 mass,
		"shoe_heel - usual_heel":                length,
		"-shoe_heel/2":                          length,
		"2*(shoe_heel + 1*cm)":                  length,
		"shoe_heel/usual_heel":                  Number,
		"falls + 1":                             Number,
		"slope_angle(steepness)":                angle,
		"heel_felt(steepness, 200*mm)":          length,
		"max(shoe_heel, usual_heel, 1*cm)":      length,
		"abs(bend)":                             angle,
		"load(weight, 10*kg, 5*lb)":             mass,
		"shoe_us_women_low(foot_length)":        Number,
		"foot_eu(38)":                           length,
		"steepness > 8.33*percent":              Truth,
		`safety == "no"`:                        Truth,
		`"no" != safety`:                        Truth,
		`has(where, "home") || !steep`:          Truth,
		"steepness >= one_in(12) && falls == 0": Truth,
	} {
		e, err := Parse(src)
		if err != nil {
			t.Errorf("%q: %v", src, err)
			continue
		}
		if got, errs := e.Check(names); got != want || len(errs) > 0 {
			t.Errorf("%q is %q, want %q; %v", src, got, want, errs)
		}
	}
}

// All but the last of a formula's findings may stand in rows of their own.
var mixUps = []slip{
	{"steepness + shoe_heel > 1*mm", 11, "steepness is a slope and shoe_heel is a length; they cannot be added", ""},
	{"shoe_heel - bend > 1*mm", 11, "shoe_heel is a length and bend is an angle; they cannot be taken from each other", ""},
	{"steepness > shoe_heel", 11, "they cannot be compared", ""},
	{"shoe_heel > 10", 11, "shoe_heel is a length and 10 is a plain number", "give the number its unit"},
	{"steepness > 5*deg", 11, "steepness is a slope", "slope_angle(steepness)"},
	{"5*deg < steepness", 7, "steepness is a slope", "slope_angle(steepness)"},
	{"steepness*shoe_heel > 3*mm", 10, "they cannot be multiplied", "ramp_rise(steepness, shoe_heel)"},
	{"shoe_heel*shoe_heel > 3", 10, "they cannot be multiplied", ""},
	{"3/shoe_heel > 1", 2, "they cannot be divided", ""},
	{"shoe_heel/weight > 1", 10, "they cannot be divided", ""},
	{"steep == steep", 7, "a condition", "&&"},
	{"shoe_heel && steep", 1, "&& needs a condition here, and this is a length", "compare"},
	{"!shoe_heel", 2, "! needs a condition", ""},
	{"-steep", 1, "a condition cannot be taken negative", ""},
	{`where == "home"`, 1, "takes several answers", `has(where, "home")`},
	{`has(safety, "no")`, 5, "is an answer", ""},
	{`safety > "no"`, 8, "no order", "=="},
	{`safety == knee`, 8, "compared with no answer", "quotes"},
	{`safety == "nope"`, 11, `no answer "nope"`, `"no"`},
	{`knee == "electronik"`, 9, `no answer "electronik"`, `nearest: "electronic"`},
	{`has(where, "hom")`, 12, `no answer "hom"`, `nearest: "home"`},
	{`shoe_heel == "38 mm"`, 1, "is a length", ""},
	{`"yes"`, 1, "stands by itself", "question =="},
	{`has(where)`, 1, "has takes a question and an answer", "has(question"},
	{"stepness > 1*percent", 1, `"stepness"`, `nearest: "steepness"`},
	{"shoe-heel > 10*mm", 1, `"shoe-heel" is read as shoe minus heel`, "write shoe_heel"},
	{"slope_angel(steepness) > 5*deg", 1, `no function "slope_angel"`, `nearest: "slope_angle"`},
	{"slope_angle(8,33*percent) > 5*deg", 1, "takes 1 value, and 2 were given", "with a point"},
	{"slope_angle() > 5*deg", 1, "takes 1 value, and 0 were given", "slope_angle(slope)"},
	{"slope_angle(bend) > 5*deg", 13, "takes a slope here, and bend is an angle", "slope_angle(slope)"},
	{"load() > 5*kg", 1, "takes 1 value, and 0 were given", "load(body"},
	{"load(weight, 5) > 5*kg", 14, "takes a mass here, and 5 is a plain number", "kg"},
	{"min() > 5", 1, "min was given 0 values", ""},
	{"min(shoe_heel, weight) > 5*mm", 16, "a length and a mass", ""},
	{"abs(shoe_heel, shoe_heel) > 5*mm", 1, "abs was given 2 values", ""},
	{"max(slope_angel(steepness), bend) > 5*deg", 5, `no function "slope_angel"`, ""}, // and nothing is said of its kind
	{"max(steep, steep)", 5, "a condition", ""},
	{"1*mm < shoe_heel < 9*mm", 18, "two comparisons stand in one row", "&& shoe_heel < 9*mm"},
	{"falls/(2 - 2) > 3 && 3/0 > 1", 23, "3/0 has no value", "divides by zero"},
	{"falls > one_in(0)/percent", 9, "one_in(0) has no value", ""},
}

func TestMixUps(t *testing.T) {
	for _, s := range mixUps {
		e, err := Parse(s.src)
		if err != nil {
			t.Errorf("%q: %v", s.src, err)
			continue
		}
		_, errs := e.Check(names)
		if len(errs) != 1 {
			t.Errorf("%q has %d findings, want 1: %v", s.src, len(errs), errs)
		}
		if len(errs) > 0 {
			checkSlip(t, s, errs[0])
		}
	}
}

func TestEveryMistakeIsReported(t *testing.T) {
	e, err := Parse(`steepness > 5*deg && safety == "nah" && stepness > 3 && shoe_heel > 1*kg`)
	if err != nil {
		t.Fatal(err)
	}
	_, errs := e.Check(names)
	var cols []int
	for _, err := range errs {
		cols = append(cols, err.Col)
	}
	if len(cols) != 4 || cols[0] != 11 || cols[1] != 32 || cols[2] != 41 || cols[3] != 67 {
		t.Errorf("columns %v", cols)
	}
}

// The units of formulas against the UCUM essence file 2.2 (inch, pound, percent,
// degree) and the pounds' agreement of 1959; rows marked "mathematics" follow.
func TestUnitRows(t *testing.T) {
	for _, r := range []struct {
		src    string
		want   float64
		within float64
		source string
	}{
		{"1*inch/mm", 25.4, 0, "ucum-units-2024"},
		{"1*lb/kg", 0.45359237, 0, "ucum-units-2024, international-yard"},
		{"300*lb/kg", 136.0777, 1e-4, "mathematics"},
		{"400*lb/kg", 181.4369, 1e-4, "mathematics"},
		{"320*lb/kg", 145.1496, 1e-4, "mathematics; a survey of 1996 pairs it with 148"},
		{"100*kg/lb", 220.4623, 1e-4, "mathematics"},
		{"3/8*inch/mm", 9.525, 1e-14, "mathematics"},
		{"3/4*inch/mm", 19.05, 1e-14, "mathematics"},
		{"2*inch/mm", 50.8, 0, "mathematics"},
		{"7000*64.79891/1000", 453.59237, 1e-9, "ucum-units-2024: 7000 grains"},
		{"8*percent", 0.08, 0, "ucum-units-2024"},
		{"5*deg/deg", 5, 0, "ucum-units-2024"},
		{"slope_percent(one_in(8))", 12.5, 0, "2010 ADA Standards 405.2; a trail table prints 12"},
		{"ramp_run(30*inch, one_in(12))/foot", 30, 1e-12, "mathematics; 2010 ADA Standards 405.2"},
		{"slope_n(slope_of(inch/4, foot))", 48, 1e-12, "mathematics; 2010 ADA Standards 405.3"},
		{"slope_angle(slope_of(7*inch, 11*inch))/deg", 32.4712, 1e-4, "2010 ADA Standards 504.2"},
	} {
		e, perr := Parse(r.src)
		if perr != nil {
			t.Fatalf("%q: %v", r.src, perr)
		}
		if _, errs := e.Check(names); len(errs) > 0 {
			t.Fatalf("%q: %v", r.src, errs)
		}
		v := e.Eval(func(string) Value { return Value{} })
		if !v.Known || math.Abs(v.Num-r.want) > r.within {
			t.Errorf("%s is %v, want %v (%s)", r.src, v, r.want, r.source)
		}
	}
}

func TestFindingsAreOneSentence(t *testing.T) {
	for _, s := range append(append([]slip{}, slips...), mixUps...) {
		e, err := Parse(s.src)
		if err == nil {
			_, errs := e.Check(names)
			err = errs[0]
		}
		if strings.HasSuffix(err.Text, ".") || err.Text == "" || strings.Contains(err.Text, "\n") {
			t.Errorf("%q: %q", s.src, err.Text)
		}
		for _, help := range err.Help {
			if strings.HasSuffix(help, ".") || help == "" || strings.Contains(help, "\n") {
				t.Errorf("%q: the help %q", s.src, help)
			}
		}
	}
}

// A point is spoken of only where a comma stands inside what may be one number.
func TestCommaThatPartsValues(t *testing.T) {
	for _, src := range []string{"slope_angle(steepness,bend) > 5*deg", "slope_angle(8, 33*percent) > 5*deg"} {
		e, err := Parse(src)
		if err != nil {
			t.Fatal(err)
		}
		if _, errs := e.Check(names); len(errs) != 1 || strings.Contains(strings.Join(errs[0].Help, "\n"), "with a point") {
			t.Errorf("%q: %v", src, errs)
		}
	}
}

// Of two names as near as each other the same one is offered each time.
func TestFunctionNamesAreInOrder(t *testing.T) {
	if got := functionNames(); len(got) != len(functions)+4 || !slices.IsSorted(got) {
		t.Errorf("%q", got)
	}
}
