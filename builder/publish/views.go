package publish

import "html/template"

// The view types are all that a template sees of the library: words that are
// ready to print and addresses that are ready to follow from the page at hand.

// WayView is where an answer leads. On paper it reads "go to 4".
type WayView struct {
	Tree   string
	Number int
	Title  string // of the ending; empty where a question follows
	Ending bool
	ID     string
}

// AnswerView is one choice of a question. Way is nil where several answers may
// be ticked and this one has no way of its own: then the question's Way counts.
type AnswerView struct {
	ID, Text string
	Alone    bool
	Is       string // of a like: the amount that it stands for
	Way      *WayView
	Cards    []LinkView // cards that it adds; links to "note-ID" on the tree's paper page
}

// WordView is a glossary word with its meaning.
type WordView struct {
	Word, Meaning, URL string

	Same string // where the planner says the meaning, which is then left out here
}

// QuestionView is one question. Way is where ticks without a way of their own
// lead, Skip where skipping leads; both may be nil. Words are the glossary words
// in its text.
type QuestionView struct {
	Tree, ID        string
	Number          int // 0 in the planner, where no one goes by numbers
	Text, Why, Hint string
	Any             bool
	Answers         []AnswerView
	Measure         *MeasureView // for a question that is answered with an amount
	Routes          []RouteView  // ways on for answers without one of their own; Way is the last of them
	Way, Skip       *WayView
	Words           []WordView
}

// LinkView is a link with the id of what it leads to.
type LinkView struct {
	ID, Title, URL string
}

// PromptView is a question to bring. Sources is empty where the prompt rests on
// common practice alone.
type PromptView struct {
	ID, Ask, Why string
	Whom         []string
	Sources      []LinkView
}

// TalkView is a foot type that an ending brings up, with both sides of it.
type TalkView struct {
	ID, Name, What, For, Against, URL string

	Same string // where the planner says what it is, which is then left out here
}

// EndingView is one ending. Caution is empty where there is none.
type EndingView struct {
	Tree, ID      string
	Number        int // 0 in the planner
	Title         string
	Safety        bool
	Sign          bool // its words are those of a sign of the safety screen
	Text, Caution template.HTML
	Themes        []LinkView
	Types         []TalkView
	Prompts       []PromptView
	Next          []LinkView
	Words         []WordView
	Shows         *ShowsView // what to do, drawn; nil where nothing is
}

// ShowsView is a drawing of what to do. In the planner it comes when it is asked for, so SVG is empty there. A page by hand
// has it once, at the id At, and URL leads there from whatever names it again.
type ShowsView struct {
	ID, Title string
	SVG       template.HTML
	At, URL   string
}

// CardView is a short note that an answer adds.
type CardView struct {
	ID, Title string
	Text      template.HTML
	Prompts   []PromptView
	Shows     *ShowsView
}

// TreeView is a whole tree. URL leads to its paper page.
type TreeView struct {
	ID, Title, Purpose, URL string
	Take                    string // where it starts on the screen
	Longest                 int    // questions on the longest path
	Start                   int    // number of the first question
	Questions               []QuestionView
	Endings                 []EndingView
	Cards                   []CardView // those that its answers add, in their order
	Credits                 CreditsView
}

// CreditsView is what a page's foot says of who wrote it, who checked it and
// when. Reviewers is empty where no clinician has reviewed it yet.
type CreditsView struct {
	Authors, Reviewers []string
	Reviewed, ReviewBy DateView
	Funding            []string
}

// TrainingView says what training someone has who wrote or reviewed a page.
type TrainingView struct {
	Name, Says string
}

// DateView is a date for machines ("2026-11-25") and for people.
type DateView struct {
	ISO, Words string
}

// EditionView is what a clinic says of its copy. Clinic, Phone, Endorsement and
// Version may be empty.
type EditionView struct {
	Name, Clinic, Phone, Endorsement, Version string
	Emergency, Urgent, Crisis                 template.HTML // sentences that say whom to call
	Shared                                    bool          // many readers share the screen
}

// PageView is what the common layout needs; every page's view embeds it.
type PageView struct {
	Name        string     // of the output file: "learn/glossary.html"
	Root        string     // the way from this page to the site's root: "" or "../"
	Title       string     // the page's own; the window adds the edition's name
	Description string     // one sentence for search engines and lists of links
	Lang        string     // the language of its words: "en"
	Dir         string     // the direction in which that is written: "ltr" or "rtl"
	Room        string     // the id of one of Rooms; empty at home
	Look        string     // a class of the whole page; empty for a page of text
	Rooms       []LinkView // the site's rooms
	Home        string     // address of the site's first page
	Search      string     // address of the page that searches
	Sources     string     // address of the page of all sources
	Clinic      string     // address of the clinic's page, and nothing on that page itself
	Trail       []LinkView // the pages above this one, outermost first, home included
	Languages   []LinkView // the same page in each language of the site, this one included; none where it has one
	Styles      []string   // addresses of style sheets
	Mark        string     // address of the small picture in the tab
	Scripts     []string   // addresses of scripts, run in this order once the page is read
	Edition     EditionView
	Credits     CreditsView
	NotJudged   bool          // there is no reading grade for its language
	Grade       string        // reading grade of its text: "5.2"; empty where not measured
	Text        *ownText      // what content/en/pages says on it; nil where its words stand in its template
	Main        template.HTML // the page's own part, already rendered

	// Parts of the layout that many pages have alike, already rendered.
	Top, Stance, CreditLines, Last template.HTML
}

// PlannerView is the page on which a reader takes trees and builds the sheet.
type PlannerView struct {
	PageView
	Topics  []TopicView
	Groups  []TopicGroupView // the same topics as the screen shows them
	Safety  *SafetyView
	Opening []LinkView  // sources of the questions that open every sheet
	Data    template.JS // the JSON block

	// Addresses of scripts and styles that are loaded when a reader comes to need them.
	Carry, FigureScript, FigureStyle, Sheets, SheetStyle, About, Prompts, Ground, Asides string

	Voices bool // a reader may speak for another
}

// TopicView is a topic in the planner's list. Script is the address of its part.
type TopicView struct {
	ID, Title, Purpose, URL, Script string
	Group                           string
	Place                           int // in the edition's order, by which a sheet's code names topics
	Longest                         int
	Whole                           bool // all groups of the safety screen come before it
}

// TopicGroupView is topics that the planner shows together. ID is "wrong" for those that begin with all of
// the safety screen, "other" for those of no group, else one of tree.Groups.
type TopicGroupView struct {
	ID, Title string // those that are doors of their own have no title
	Topics    []TopicView
}

// FigureView is a figure that stands beside questions.
type FigureView struct {
	ID, Title string
	HTML      template.HTML
}

// TreePageView is a tree on paper and with script off.
type TreePageView struct {
	PageView
	Tree    TreeView
	Safety  *SafetyView
	Opening []LinkView // sources of the questions that open every sheet
	Sources []SourceView
}

// SourceView is one entry of the bibliography. Number is 0 where the page does
// not number its sources; Seen says in words how much of it was read.
type SourceView struct {
	Number             int
	ID, Title, By      string
	Year               int // 0 where unknown
	Where, Note        string
	Address, Seen, URL string
}
