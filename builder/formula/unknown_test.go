package formula

import (
	"os"
	"regexp"
	"testing"
)

var truths = map[string]Value{"T": That(true), "F": That(false), "?": {}}

func letter(v Value) string {
	switch {
	case !v.Known:
		return "?"
	case v.Truth:
		return "T"
	}
	return "F"
}

func parsed(t *testing.T, src string) *Expr {
	t.Helper()
	e, err := Parse(src)
	if err != nil {
		t.Fatalf("%q: %v", src, err)
	}
	return e
}

// The truth table of doc.go is what Eval does.
func TestTruthTable(t *testing.T) {
	text, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	rows := regexp.MustCompile(`(?m)^//\t([TF?]) ([TF?]) \| +([TF?]) +\| +([TF?]) +\| +([TF?])$`).FindAllSubmatch(text, -1)
	if len(rows) != 9 {
		t.Fatalf("doc.go has %d rows, want 9", len(rows))
	}
	seen := map[string]bool{}
	for _, r := range rows {
		a, b := string(r[1]), string(r[2])
		seen[a+b] = true
		at := func(name string) Value { return truths[map[string]string{"a": a, "b": b}[name]] }
		got := letter(parsed(t, "a && b").Eval(at)) + letter(parsed(t, "a || b").Eval(at)) + letter(parsed(t, "!a").Eval(at))
		t.Logf("%s %s | %c %c %c", a, b, got[0], got[1], got[2])
		if want := string(r[3]) + string(r[4]) + string(r[5]); got != want {
			t.Errorf("%s %s: Eval gives %s, doc.go says %s", a, b, got, want)
		}
	}
	if len(seen) != 9 {
		t.Errorf("doc.go repeats a row: %v", seen)
	}
}

func TestUnknownGoesThrough(t *testing.T) {
	known := map[string]Value{
		"x": Of(3), "zero": Of(0), "huge": Of(1e308),
		"safety": {Known: true, Chosen: []string{"no"}},
		"where":  {Known: true, Chosen: []string{"home", "work"}},
		"none":   {Known: true},
	}
	at := func(name string) Value { return known[name] }
	for _, src := range []string{
		"skipped > 3", "skipped == skipped", "x + skipped", "0*skipped", "-skipped", "x/skipped", "!(skipped > 3)",
		`nothing == "no"`, `nothing != "no"`, `has(nowhere, "home")`, `!has(nowhere, "home")`,
		"abs(skipped)", "min(x, skipped)", "slope_angle(skipped)", "tilt(x, skipped)", "load(x, skipped)",
		"x/zero", "x/zero > 1", "zero/zero", "huge*huge", "huge*huge > 1", "-huge - huge",
		"tilt(x, zero)", "one_in(zero)", "ball_length(-x)", "angle_slope(90*x)", "foot_size(-x)",
		`skipped > 3 && safety == "no"`, `skipped > 3 || safety == "yes"`,
	} {
		if v := parsed(t, src).Eval(at); v.Known {
			t.Errorf("%s is %+v, want unknown", src, v)
		}
	}
	for src, want := range map[string]bool{
		`skipped > 3 && safety == "yes"`: false,
		`x/zero > 1 || safety == "no"`:   true,
		`safety == "no"`:                 true,
		`safety != "no"`:                 false,
		`"yes" != safety`:                true,
		`has(where, "work")`:             true,
		`has(where, "outdoors")`:         false,
		`has(none, "work")`:              false, // answered, with none of them
		"x >= 3 && x <= 3 && x == 3":     true,
		"x != 3 || x < 3 || x > 3":       false,
	} {
		if v := parsed(t, src).Eval(at); !v.Known || v.Truth != want {
			t.Errorf("%s is %+v, want %v", src, v, want)
		}
	}
}
