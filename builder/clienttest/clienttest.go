// Package clienttest runs a part of the client's script inside Go tests, so
// that what Go and the browser both compute can be compared. Only tests import
// it: the script engine does not belong in the program.
package clienttest

import (
	"encoding/json"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/dop251/goja"
	"github.com/evanw/esbuild/pkg/api"
)

// Script is one bundled entry of site/client with its exports.
type Script struct {
	t       testing.TB
	vm      *goja.Runtime
	exports *goja.Object
}

// Bundle gives site/client/ENTRY and what it imports as one script, for the
// browsers' language level. Its exports are then fields of a variable "script".
func Bundle(t testing.TB, entry string) string {
	t.Helper()
	return bundle(t, api.BuildOptions{EntryPoints: []string{filepath.Join(client(), entry)}})
}

// client is the folder of the client's script.
func client() string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "../../site/client")
}

func bundle(t testing.TB, of api.BuildOptions) string {
	t.Helper()
	of.Bundle, of.Target, of.Format, of.GlobalName = true, api.ES2018, api.FormatIIFE, "script"
	of.TsconfigRaw, of.LogLevel = "{}", api.LogLevelSilent
	of.Define = map[string]string{"OTHER_LANGUAGE": "true"} // so that both kinds of tables can be tried
	r := api.Build(of)
	if len(r.Errors) > 0 {
		t.Fatalf("bundle %v: %+v", of.EntryPoints, r.Errors)
	}
	return string(r.OutputFiles[0].Contents)
}

// Load bundles site/client/ENTRY and runs it.
func Load(t testing.TB, entry string) *Script {
	t.Helper()
	return Run(t, entry, Bundle(t, entry))
}

// Run runs a bundle; name is what faults in it are told by.
func Run(t testing.TB, name, bundled string) *Script {
	t.Helper()
	vm := goja.New()
	if _, err := vm.RunString(bundled); err != nil {
		t.Fatalf("run %s: %v", name, err)
	}
	return &Script{t: t, vm: vm, exports: vm.Get("script").ToObject(vm)}
}

// LoadAll bundles several files of site/client into one script, so that they share
// what they import, and runs it. Its exports are theirs together.
func LoadAll(t testing.TB, files ...string) *Script {
	t.Helper()
	together := ""
	for _, f := range files {
		together += "export * from \"./" + strings.TrimSuffix(f, ".ts") + "\";\n"
	}
	return Run(t, strings.Join(files, " and "), bundle(t, api.BuildOptions{Stdin: &api.StdinOptions{Contents: together, ResolveDir: client(), Loader: api.LoaderTS}}))
}

// Run runs a piece of JavaScript, which finds the exports in "script", and gives
// what it comes to, by JSON. The error is what it threw.
func (s *Script) Run(code string, to any) error {
	s.t.Helper()
	v, err := s.vm.RunString(code)
	if err == nil {
		s.Into(v, to)
	}
	return err
}

// Value brings a Go value into the script the way a page gets it: as JSON.
func (s *Script) Value(v any) goja.Value {
	s.t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		s.t.Fatal(err)
	}
	out, err := s.vm.RunString("(" + string(text) + ")")
	if err != nil {
		s.t.Fatal(err)
	}
	return out
}

// Call calls an exported function. An error is what the script threw.
func (s *Script) Call(name string, args ...goja.Value) (goja.Value, error) {
	s.t.Helper()
	f, ok := goja.AssertFunction(s.exports.Get(name))
	if !ok {
		s.t.Fatalf("the script exports no function %q", name)
	}
	return f(goja.Undefined(), args...)
}

// Into reads a value of the script into a Go value, by JSON.
func (s *Script) Into(v goja.Value, to any) {
	s.t.Helper()
	var from any = v
	if text, ok := v.(goja.String); ok {
		from = text.String() // letters beyond Latin would come as numbers
	}
	text, err := json.Marshal(from)
	if err == nil {
		err = json.Unmarshal(text, to)
	}
	if err != nil {
		s.t.Fatal(err)
	}
}
