package publish

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"
)

// asset is a file under assets/. Its name carries a hash of what is in it, so a
// host may let browsers keep it for good.
type asset struct {
	name string
	data []byte
}

// entry is a file of the site's own tree that becomes an asset.
type entry struct {
	from   string                       // a style sheet (.css) or a script (.ts), with all it imports, or a picture (.svg)
	behind func(*maker) ([]byte, error) // what the library puts behind it; nil for nothing
}

// The entries that have a part in every page.
const (
	siteStyle = "style/site.css"
	mark      = "drawings/mark.svg" // the small picture in a browser's tab
)

// entries has every asset once, in the order in which they are handed on. A kind of
// page names those that it loads.
var entries = []entry{
	{from: siteStyle},
	{from: "style/planner.css"}, // trees and the sheet
	{from: "client/planner/planner.ts"},
	{from: "style/figure.css"},
	{from: "client/figures/workbench.ts"},                   // figures
	{from: "client/carry/carry.ts", behind: (*maker).carry}, // takes a sheet along; the planner loads it when asked
	{from: mark},
	{from: "style/wishes.css"},
	{from: "client/wishes/wishes.ts"},
	{from: "style/feet.css"}, // the page of all kinds of feet
}

// later gives functions that make each entry's asset when it is first asked for, and
// give the same from then on.
func (m *maker) later(files fs.FS) map[string]func() (asset, error) {
	out := map[string]func() (asset, error){}
	for _, e := range entries {
		out[e.from] = sync.OnceValues(func() (asset, error) { return m.assetOf(files, e) })
	}
	return out
}

func (m *maker) assetOf(files fs.FS, e entry) (asset, error) {
	data, ext, err := whole(files, e.from)
	if err != nil {
		return asset{}, err
	}
	if e.behind != nil {
		more, err := e.behind(m)
		if err != nil {
			return asset{}, err
		}
		data = slices.Concat(data, more)
	}
	base := strings.TrimSuffix(path.Base(e.from), path.Ext(e.from))
	return asset{hashedName(base, ext, data), data}, nil
}

// whole gives a picture as it is, and anything else as a bundle.
func whole(files fs.FS, from string) (data []byte, ext string, err error) {
	if ext = path.Ext(from); ext == ".svg" {
		data, err = fs.ReadFile(files, from)
		return data, ext, err
	}
	return bundle(files, from)
}

// asset gives what an entry became.
func (m *maker) asset(from string) (asset, error) {
	made, ok := m.assets[from]
	if !ok {
		return asset{}, fmt.Errorf("a page loads site/%s, and the list of assets lacks it", from)
	}
	return made()
}
