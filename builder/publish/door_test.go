package publish

import (
	"reflect"
	"strings"
	"testing"

	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/site"
)

// viewOn is what makes the views of a home page of the library.
func viewOn(t *testing.T, l *library.Library) viewer {
	t.Helper()
	m, err := newMaker(l, site.Files, &finding.List{})
	if err != nil {
		t.Fatal(err)
	}
	return viewer{addresses: addresses{shelf: m.stock.Shelf(), here: m.plan.Pages[0]}}
}

// What makes views has no way to the content but the shelf: nothing that this room can
// name leads from it to a library or to a plan. What stands behind an unexported name of another room
// cannot be named here.
func TestOneDoor(t *testing.T) {
	shut := []reflect.Type{reflect.TypeFor[library.Library](), reflect.TypeFor[maker]()}
	seen := map[reflect.Type]bool{}
	var look func(way string, of reflect.Type)
	look = func(way string, of reflect.Type) {
		for of.Kind() == reflect.Pointer || of.Kind() == reflect.Slice || of.Kind() == reflect.Map {
			of = of.Elem()
		}
		if seen[of] {
			return
		}
		seen[of] = true
		for _, s := range shut {
			if of == s {
				t.Errorf("%s leads to %v", way, of)
			}
		}
		if of.Kind() != reflect.Struct {
			return
		}
		own := strings.HasSuffix(of.PkgPath(), "/publish")
		for i := range of.NumField() {
			if f := of.Field(i); own || f.IsExported() {
				look(way+"."+f.Name, f.Type)
			}
		}
	}
	look("viewer", reflect.TypeFor[viewer]())
	if len(seen) < 5 {
		t.Errorf("only %d types were looked at", len(seen))
	}
}
