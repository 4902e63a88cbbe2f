package explainer

import (
	"crypto/sha256"
	"html/template"

	"keelpath/builder/drawing"
	"keelpath/builder/finding"
	"keelpath/builder/read"
	"keelpath/builder/say"
)

// Page is one explainer: a YAML header and markdown below it.
type Page struct {
	File     string
	ID       string // the file's name without ".md"
	Title    read.Text
	Audience read.Text // "patient" or "resident"
	Message  read.Text // the main message, one line
	Credits  read.Credits
	Prompts  []read.Text // prompts this page brings up
	Of       string      // the fingerprint of its title, message and text, by which words of another language know it
	Body     *Doc

	Sum [sha256.Size]byte // of the files that it was read from; zero where that is not known

	// Of one of the site's own pages: one sentence for search engines and lists of
	// links, and the message as a text with gaps.
	About read.Text
	Lead  *Doc
}

// Ref is a link by id inside a markdown text.
type Ref struct {
	Kind string // explainer, tree, type, word, page, source, support, call, on or heading
	ID   string
	At   finding.Place

	Offset int // in a block: how many bytes of its text stand before it
}

// Target is where a Ref leads.
type Target struct {
	URL   string
	Title string // fills a link that has no text of its own
}

// Options is what rendering needs to know of the world around a text.
type Options struct {
	// Say is what marks and tables say; English where it is nil.
	Say *say.Words
	// Target says where a ref leads; it is only asked for refs that were checked.
	Target func(kind, id string) Target
	// Words are linked at their first use; nil links none.
	Words *Words
	// Unmarked leaves citation marks out, for a text with no list of sources
	// below it. Out.Sources still names what is cited.
	Unmarked bool
	// Name says in a few words what a source is, for a text with no list of sources
	// below it: a citation is then those words and leads to the source. Where it is
	// nil, a citation is a number.
	Name func(id string) string
	// Partly says in a few words that none of some sources was read far, or "" where
	// one was. Those cited right before a mark of certainty show it in the mark.
	Partly func(ids []string) string
	// Figure makes a figure with its settings; nil leaves figures out.
	Figure func(id string, given map[string]string) (template.HTML, error)
	// Drawing gives a drawing with its words; nil leaves drawings out.
	Drawing func(id string) (drawing.Drawing, bool)
	// Gap says what stands in a gap of the text of one of the site's own pages; where
	// that is nothing, the block around it is left out. Nil fills none.
	Gap func(name string) (template.HTML, error)
	// Slot says what stands in a slot of such a text; nil leaves slots out.
	Slot func(name string) (template.HTML, error)
	// NewTab opens links in a new tab, for places that would lose the reader's answers.
	NewTab bool
}

func (o Options) say() *say.Words {
	if o.Say == nil {
		return say.English()
	}
	return o.Say
}

// Out is a rendered text.
type Out struct {
	HTML    template.HTML
	Sources []string // ids of cited sources; the first has number 1

	Headings []Heading // those that are shown
}

// Heading is a section heading of a text.
type Heading struct {
	Level int
	ID    string
	Text  string
}
