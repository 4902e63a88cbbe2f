package formula

import (
	"math"
	"math/rand"
	"regexp"
	"slices"
	"testing"

	"github.com/dop251/goja"
	"github.com/evanw/esbuild/pkg/api"
	"keelpath/builder/clienttest"
)

// bundle builds an entry of its own beside the client's files.
func bundle(t *testing.T, entry string, external ...string) string {
	t.Helper()
	r := api.Build(api.BuildOptions{
		Stdin:             &api.StdinOptions{Contents: entry, ResolveDir: "../../site/client", Loader: api.LoaderTS},
		Bundle:            true,
		External:          external,
		MinifyWhitespace:  true,
		MinifyIdentifiers: true,
		MinifySyntax:      true,
		Target:            api.ES2018,
		Format:            api.FormatESModule,
		TsconfigRaw:       "{}",
		LogLevel:          api.LogLevelSilent,
	})
	if len(r.Errors) > 0 {
		t.Fatalf("bundle: %+v", r.Errors)
	}
	return string(r.OutputFiles[0].Contents)
}

// The client's evaluator is small, and has no more than it needs.
func TestClientSize(t *testing.T) {
	const most = 1100
	evaluator := bundle(t, `export { evaluate } from "./sums/formula"`, "./mechanics")
	whole := bundle(t, `export { evaluate } from "./sums/formula"`)
	t.Logf("minified: evaluator %d bytes, with the functions %d", len(evaluator), len(whole))
	if len(evaluator) > most {
		t.Errorf("the evaluator has %d bytes, want at most %d", len(evaluator), most)
	}
}

func clientFunctions(t *testing.T) []string {
	vm := goja.New()
	src := bundle(t, `import { functions } from "./sums/mechanics"; globalThis.out = Object.keys(functions)`)
	if _, err := vm.RunString(src); err != nil {
		t.Fatal(err)
	}
	var names []string
	if err := vm.ExportTo(vm.Get("out"), &names); err != nil {
		t.Fatal(err)
	}
	slices.Sort(names)
	return names
}

func TestOneTableOfFunctions(t *testing.T) {
	var ours []string
	form := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	for name, f := range functions {
		ours = append(ours, name)
		if !form.MatchString(name) || IsUnit(name) || len(f.params) == 0 || f.says[:len(name)+1] != name+"(" {
			t.Errorf("%s: a row that formulas cannot use or explain: %+v", name, f)
		}
		for _, k := range append([]Kind{f.result}, f.params...) {
			if !slices.Contains([]Kind{Number, length, mass, angle, slope}, k) {
				t.Errorf("%s: kind %q", name, k)
			}
		}
	}
	slices.Sort(ours)
	if theirs := clientFunctions(t); !slices.Equal(ours, theirs) {
		t.Errorf("Go and client differ\n Go     %v\n client %v", ours, theirs)
	}
}

// input draws an everyday value of a kind, now and then one at an edge.
func input(r *rand.Rand, k Kind) float64 {
	switch edge := r.Intn(20); {
	case edge == 0:
		return 0
	case edge == 1:
		return -input(r, k)
	case edge == 2:
		return math.Round(input(r, k)/10) * 10
	}
	switch k {
	case length:
		return r.Float64() * 2000
	case mass:
		return r.Float64() * 200
	case angle:
		return r.Float64()*200 - 100
	case slope:
		return r.Float64()*2 - 1
	}
	return r.Float64()*100 - 30
}

// Each function on thousands of inputs, in Go and in the client's script.
func TestFunctionsAgree(t *testing.T) {
	script := clienttest.Load(t, "sums/formula.ts")
	nothing := script.Value(map[string]any{})
	r := rand.New(rand.NewSource(11))
	for name, f := range functions {
		var inputs [][]float64
		var all []any
		for range 2000 {
			args := make([]float64, len(f.params))
			if f.more {
				args = make([]float64, 1+r.Intn(4))
			}
			coded := []any{"f", name}
			for i := range args {
				args[i] = input(r, f.params[min(i, len(f.params)-1)])
				coded = append(coded, args[i])
			}
			inputs, all = append(inputs, args), append(all, coded)
		}
		known := 0
		client := script.Value(all)
		for i, args := range inputs {
			v, err := script.Call("evaluate", at(client, i), nothing)
			if err != nil {
				t.Fatal(err)
			}
			want := Of(f.call(args))
			if got := theirs(v); !alike(want, got, false) {
				t.Fatalf("%s%v: Go %v, client %v", name, args, want, got)
			}
			if want.Known {
				known++
			}
		}
		if known < 500 {
			t.Errorf("%s: only %d of 2000 inputs had a value", name, known)
		}
	}
}
