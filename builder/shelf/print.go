package shelf

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"

	"keelpath/builder/finding"
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
		p = printOf(get(s, n.Of))
	}
	s.prints.Store(n, p)
	return p
}

// printOf takes a print of all that can be reached from a value, but for where in the
// files it stands, and for functions: those are the program's.
func printOf(x any) Print {
	p := printer{sum: sha256.New(), seen: map[pointer]int{}}
	p.value(reflect.ValueOf(x))
	return Print(p.sum.Sum(nil)[:16])
}

type printer struct {
	sum   hash.Hash
	seen  map[pointer]int // numbers of what was met, so that it is taken once and circles end
	small [8]byte
}

// pointer tells apart a struct and its first field, which stand in one place.
type pointer struct {
	to   uintptr
	kind reflect.Type
}

func (p *printer) number(n uint64) {
	binary.LittleEndian.PutUint64(p.small[:], n)
	p.sum.Write(p.small[:])
}

func (p *printer) text(s string) {
	p.number(uint64(len(s)))
	p.sum.Write([]byte(s))
}

var placeType = reflect.TypeFor[finding.Place]()

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
		p.text(v.String())
	case reflect.Interface:
		if !v.IsNil() {
			p.text(v.Elem().Type().String())
			p.value(v.Elem())
		}
	case reflect.Pointer:
		if v.IsNil() {
			return
		}
		at := pointer{v.Pointer(), v.Type()}
		if n, met := p.seen[at]; met {
			p.number(uint64(n))
			return
		}
		p.seen[at] = len(p.seen) + 1
		p.value(v.Elem())
	case reflect.Slice, reflect.Array:
		p.number(uint64(v.Len()))
		if v.Type().Elem().Kind() == reflect.Uint8 && v.Kind() == reflect.Slice {
			p.sum.Write(v.Bytes())
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

// table takes a map's entries in the order of their keys' prints.
func (p *printer) table(v reflect.Value) {
	entries := map[string]reflect.Value{}
	for i := v.MapRange(); i.Next(); {
		k := printer{sum: sha256.New(), seen: map[pointer]int{}}
		k.value(i.Key())
		entries[string(k.sum.Sum(nil))] = i.Value()
	}
	p.number(uint64(len(entries)))
	for _, k := range slices.Sorted(maps.Keys(entries)) {
		p.text(k)
		p.value(entries[k])
	}
}

// fields leaves out where something stands, but not whether it stands anywhere: that is
// whether an author wrote it. File is the name of a file as the one who builds named it.
func (p *printer) fields(v reflect.Value) {
	t := v.Type()
	if t == placeType {
		p.value(reflect.ValueOf(v.FieldByName("Line").Int() > 0))
		return
	}
	if strings.HasPrefix(t.PkgPath(), "sync") {
		return
	}
	for i := range t.NumField() {
		if f := t.Field(i); f.Name != "File" || f.Type.Kind() != reflect.String {
			p.value(v.Field(i))
		}
	}
}
