package publish

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"keelpath/builder/ledger"
	"keelpath/builder/say"
	"keelpath/builder/shelf"
)

// asset is a file under assets/. Its name carries a hash of what is in it, so a
// host may let browsers keep it for good.
type asset struct {
	name string
	data []byte
	from []shelf.Note // all that it is made of; nil where it has to be made each time
	kept *ledger.File // where it is taken over as it is, and then there is no data
}

// entry is what becomes an asset: a file of the site's own tree, or a part of the planner, which
// the library alone makes.
type entry struct {
	from   string                       // a style sheet (.css) or a script (.ts), with all it imports, a picture (.svg) or a typeface (.woff2); of a part its name (.js)
	behind func(*maker) ([]byte, error) // what the library puts behind it; nil for nothing
}

// isPart tells whether no file stands before what the library makes.
func (e entry) isPart() bool { return path.Ext(e.from) == ".js" }

// of names it in a message.
func (e entry) of() string {
	if e.isPart() {
		return "the planner's part " + e.from
	}
	return "site/" + e.from
}

// The entries that have a part in every page, or nearly.
const (
	siteStyle   = "style/site.css"
	textStyle   = "style/text.css"         // of all pages but the planner
	openStyle   = "style/open.css"         // of pages that begin with a picture, and of the shelf
	mark        = "drawings/mark.svg"      // the small picture in a browser's tab
	fieldScript = "client/search/field.ts" // leads from a field to the page that searches
	aloudScript = "client/aloud/page.ts"   // reads a page aloud
)

// entries has every asset that is made of a file once, in the order in which they are handed on. A kind of
// page names those that it loads.
var entries = []entry{
	{from: siteStyle},
	{from: textStyle},
	{from: "type/keelpath-text-400.woff2"}, // the site's style names both
	{from: "type/keelpath-text-600.woff2"},
	{from: "style/planner.css"}, // trees and the sheet
	{from: "style/ask.css"},     // the planner until it comes to the sheet
	{from: "style/sheets.css"},  // and from then on
	{from: "client/planner/planner.ts"},
	{from: "client/planner/sheets.ts", behind: (*maker).sheetsPart}, // the sheet; the planner loads it ahead of need
	{from: groundScript, behind: (*maker).ground},                   // drawings of what is answered; loaded beside the first topic
	{from: groundStyle},
	{from: drawnStyle},
	{from: openStyle},
	{from: "style/figure.css"},
	{from: "client/figures/workbench.ts"},                   // figures
	{from: "client/carry/carry.ts", behind: (*maker).carry}, // takes a sheet along; the planner loads it when asked
	{from: asidesScript, behind: (*maker).asides},           // another voice, and a question that a figure brought; loaded when asked
	{from: mark},
	{from: "style/case.css"},
	{from: "style/home.css"},
	{from: "style/wishes.css"},
	{from: "client/wishes/wishes.ts"},
	{from: "style/invite.css"},
	{from: "client/handout/handout.ts"}, // prints invitations
	{from: "client/feet/beside.ts"},
	{from: "style/feet.css"}, // the page of all kinds of feet
	{from: aloudScript},
	{from: "style/map.css"}, // maps of trees
	{from: "style/seek.css"},
	{from: "style/search.css"},
	{from: fieldScript},
	{from: "client/search/search.ts"},
}

// entries are those, and the planner's parts behind them.
func (m *maker) entries() []entry {
	if m.voice != "" {
		return m.spokenParts()
	}
	return slices.Concat(entries, m.parts())
}

// later gives functions that make each entry's asset when it is first asked for, and
// give the same from then on.
func (m *maker) later(files fs.FS) map[string]func() (asset, error) {
	out := map[string]func() (asset, error){}
	for _, e := range m.entries() {
		out[e.from] = sync.OnceValues(func() (asset, error) { return m.assetOf(files, e) })
	}
	return out
}

func (m *maker) assetOf(files fs.FS, e entry) (asset, error) {
	if f, ok := m.unchanged(e.of()); ok {
		return asset{name: strings.TrimPrefix(f.Name, m.folder), kept: &f, from: f.From}, nil
	}
	var data []byte
	ext := path.Ext(e.from)
	if !e.isPart() {
		var err error
		if data, ext, err = whole(files, m.lib.Say, e.from); err != nil {
			return asset{}, err
		}
	}
	s := m.stock.Shelf()
	s.Site(e.from)
	if path.Ext(e.from) == ".ts" {
		s.Say() // a script has the texts that it says
	}
	from := s.Noted()
	if e.behind != nil {
		s.Rest()
		from = s.Noted()
		before := m.found.Len()
		more, err := e.behind(m)
		if err != nil {
			return asset{}, err
		}
		data = slices.Concat(data, more)
		if m.found.Len() > before {
			from = nil // what was found has to be said again
		}
	}
	base := strings.TrimSuffix(path.Base(e.from), path.Ext(e.from))
	return asset{name: hashedName(base, ext, data), data: data, from: from}, nil
}

// whole gives a script or a style as a bundle, and a picture or a typeface as it is.
func whole(files fs.FS, w *say.Words, from string) (data []byte, ext string, err error) {
	if ext = path.Ext(from); loaders[ext] != 0 {
		return bundle(files, w, from)
	}
	data, err = fs.ReadFile(files, from)
	return data, ext, err
}

// asset gives what an entry became.
func (m *maker) asset(from string) (asset, error) {
	made, ok := m.assets[from]
	if !ok {
		return asset{}, fmt.Errorf("a page loads site/%s, and the list of assets lacks it", from)
	}
	return made()
}
