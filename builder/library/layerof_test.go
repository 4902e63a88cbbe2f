package library

import (
	"maps"

	"keelpath/builder/finding"
)

// LayerOf makes a layer of files in memory.
func LayerOf(dir string, files map[string][]byte) Layer { return newLayer(dir, files) }

// File gives a file of the layer by its name.
func (y Layer) File(name string) []byte { return y.files[name] }

// With gives the layer with more files.
func (y Layer) With(files map[string][]byte) Layer {
	all := maps.Clone(y.files)
	maps.Copy(all, files)
	return newLayer(y.Dir, all)
}

// EveryText gives all that readers see of a library.
func EveryText(l *Library, do func(who, text string)) {
	c := &checker{loader: &loader{Library: l, list: &finding.List{}}}
	each := func(s said) { do(s.who, s.text) }
	c.everySaid(each)
	for _, p := range l.Explainers {
		c.everyHeaderText(p, each)
	}
}
