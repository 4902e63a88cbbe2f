package publish

import (
	"strings"

	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/squarecode"
)

// MostInvited is how many topics an invitation has at most; the client's is in
// site/client/invite/address.ts.
const MostInvited = 4

// inviteView is the page on which invitations are printed. Address is that of the copy in the page's language, with a
// slash at its end; empty where the edition has none.
type inviteView struct {
	PageView
	Address string
	Most    int
	Groups  []inviteGroup
	All     inviteTopic // leads to all topics
	Cards   []int       // one for each card of a sheet
}

type inviteGroup struct {
	Title  string // may be empty
	Topics []inviteTopic
}

// inviteTopic is where an invitation to one topic leads. Typed is its address as one types it, and the name of its
// file where the copy has no address; it is parted behind each slash. Code is nil where there is no address, or
// where it is too long for a code.
type inviteTopic struct {
	ID, Title, URL string
	Typed          []string
	Code           *squareView
}

// squareView draws a square code: a path in a picture of so many modules along its side.
type squareView struct {
	Side int
	Path string
}

func inviteModel(v viewer, p plan.Page) (any, error) {
	out := inviteView{PageView: v.view, Address: hostedAt(v.shelf.Edition(), p.Lang), Most: MostInvited, Cards: make([]int, 8)}
	out.All = v.invitedTo(out.Address, plan.StartAll, v.say().Say("invite.all"))
	var topics []TopicView
	for _, t := range v.shelf.PatientTrees() {
		topics = append(topics, TopicView{ID: t.ID.S, Title: t.Title.S, Group: groupOf(t)})
	}
	for _, g := range topicGroups(v.say(), topics) {
		group := inviteGroup{Title: g.Title}
		for _, t := range g.Topics {
			group.Topics = append(group.Topics, v.invitedTo(out.Address, t.ID, t.Title))
		}
		out.Groups = append(out.Groups, group)
	}
	return out, nil
}

// hostedAt is where the pages of a language are on the web.
func hostedAt(e library.Edition, lang string) string {
	at := e.Address.S
	if at == "" {
		return ""
	}
	at = strings.TrimSuffix(at, "/") + "/"
	if lang != library.FirstLanguage {
		at += lang + "/"
	}
	return at
}

// invitedTo is an invitation to one topic, or to all.
func (v viewer) invitedTo(at, id, title string) inviteTopic {
	page := v.of(plan.Start, id)
	out := inviteTopic{ID: id, Title: title, URL: v.page(page)}
	if at == "" {
		out.Typed = strings.SplitAfter(page.Name, "/")
		return out
	}
	address := at + strings.TrimSuffix(page.Name, "index.html") // hosts serve a folder's first page by the folder's name
	out.Typed = strings.SplitAfter(strings.TrimPrefix(address, "https://"), "/")
	if code, err := squarecode.Of(address); err == nil {
		out.Code = &squareView{code.Side(), code.Path()}
	}
	return out
}
