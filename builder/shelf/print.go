package shelf

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/drawing"
	"keelpath/builder/explainer"
	"keelpath/builder/figure"
	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/safety"
	"keelpath/builder/say"
	"keelpath/builder/tree"
)

// Print is the fingerprint of what a note names: the same as long as the thing is the same.
type Print [16]byte

// Print gives a note's. A thing that there is not has one too. It may be asked for from
// several sides at once.
func (s *Stock) Print(n Note) Print {
	if p, ok := s.prints.Load(n); ok {
		return p.(Print)
	}
	p := Print{}
	if get := things[n.What]; get != nil {
		p = s.printOf(reflect.ValueOf(get(s, n.Of)))
	}
	s.prints.Store(n, p)
	return p
}

// printOf takes a print of all that can be reached from a value, but for where in the
// files it stands, and for functions: those are the program's.
func (s *Stock) printOf(v reflect.Value) Print {
	p := printer{stock: s, text: make([]byte, 0, 512)}
	p.value(v)
	sum := sha256.Sum256(p.text)
	return Print(sum[:16])
}

// wholes are the types of what many things hold, or what is both handed out alone and in a list of its
// kind. A print of each one is taken once and stands for it wherever it is met.
var wholes = map[reflect.Type]bool{
	reflect.TypeFor[*say.Words]():        true,
	reflect.TypeFor[*tree.Tree]():        true,
	reflect.TypeFor[*safety.Screen]():    true,
	reflect.TypeFor[*figure.Figure]():    true,
	reflect.TypeFor[*drawing.Words]():    true,
	reflect.TypeFor[*library.Prompt]():   true,
	reflect.TypeFor[*library.Source]():   true,
	reflect.TypeFor[*library.FootType](): true,
}

// printOfWhole gives the print of what a pointer of such a type leads to.
func (s *Stock) printOfWhole(v reflect.Value) Print {
	at := pointer{v.Pointer(), v.Type()}
	if known, ok := s.wholes.Load(at); ok {
		return known.(Print)
	}
	made := s.printOf(v.Elem())
	s.wholes.Store(at, made)
	return made
}

// printer writes down a value in a form that is another for each other value; the print is that
// text's sum.
type printer struct {
	stock *Stock
	text  []byte
	seen  map[pointer]int // numbers of what was met, so that it is taken once and circles end
}

// pointer tells apart a struct and its first field, which stand in one place.
type pointer struct {
	to   uintptr
	kind reflect.Type
}

func (p *printer) number(n uint64) { p.text = binary.LittleEndian.AppendUint64(p.text, n) }

func (p *printer) letters(s string) {
	p.number(uint64(len(s)))
	p.text = append(p.text, s...)
}

var (
	pageType     = reflect.TypeFor[*explainer.Page]()
	placeType    = reflect.TypeFor[finding.Place]()
	placeLine, _ = placeType.FieldByName("Line")
)

func (p *printer) value(v reflect.Value) {
	p.number(uint64(v.Kind()))
	switch v.Kind() {
	case reflect.Invalid, reflect.Func, reflect.Chan, reflect.UnsafePointer:
	case reflect.Bool:
		n := uint64(0)
		if v.Bool() {
			n = 1
		}
		p.number(n)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		p.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		p.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		p.number(math.Float64bits(v.Float()))
	case reflect.String:
		p.letters(v.String())
	case reflect.Interface:
		if !v.IsNil() {
			p.letters(v.Elem().Type().String())
			p.value(v.Elem())
		}
	case reflect.Pointer:
		if v.IsNil() {
			return
		}
		if v.Type() == pageType && v.CanInterface() {
			p.value(reflect.ValueOf(v.Interface().(*explainer.Page).MadeOf()))
			return
		}
		if wholes[v.Type()] {
			made := p.stock.printOfWhole(v)
			p.text = append(p.text, made[:]...)
			return
		}
		at := pointer{v.Pointer(), v.Type()}
		if n, met := p.seen[at]; met {
			p.number(uint64(n))
			return
		}
		if p.seen == nil {
			p.seen = map[pointer]int{}
		}
		p.seen[at] = len(p.seen) + 1
		p.value(v.Elem())
	case reflect.Slice, reflect.Array:
		p.number(uint64(v.Len()))
		if v.Type().Elem().Kind() == reflect.Uint8 && v.Kind() == reflect.Slice {
			p.text = append(p.text, v.Bytes()...)
			return
		}
		for i := range v.Len() {
			p.value(v.Index(i))
		}
	case reflect.Map:
		p.table(v)
	case reflect.Struct:
		p.fields(v)
	default:
		panic(fmt.Sprintf("shelf: no print of a %v", v.Type()))
	}
}

// table takes a map's entries in the order of their keys, as they are written down.
func (p *printer) table(v reflect.Value) {
	entries := make(map[string]reflect.Value, v.Len())
	for i := v.MapRange(); i.Next(); {
		k := printer{stock: p.stock}
		k.value(i.Key())
		entries[string(k.text)] = i.Value()
	}
	p.number(uint64(len(entries)))
	for _, k := range slices.Sorted(maps.Keys(entries)) {
		p.letters(k)
		p.value(entries[k])
	}
}

// fields leaves out where something stands, but not whether it stands anywhere: that is
// whether an author wrote it. File is the name of a file as the one who builds named it.
func (p *printer) fields(v reflect.Value) {
	if t := v.Type(); t == placeType {
		p.value(reflect.ValueOf(v.FieldByIndex(placeLine.Index).Int() > 0))
		return
	}
	for _, i := range taken(v.Type()) {
		p.value(v.Field(i))
	}
}

// taken gives the fields of a type that have a part in a print.
func taken(t reflect.Type) []int {
	if known, ok := takenOf.Load(t); ok {
		return known.([]int)
	}
	var out []int
	for i := range t.NumField() {
		if f := t.Field(i); !strings.HasPrefix(t.PkgPath(), "sync") && (f.Name != "File" || f.Type.Kind() != reflect.String) {
			out = append(out, i)
		}
	}
	takenOf.Store(t, out)
	return out
}

var takenOf sync.Map // []int by reflect.Type
