package publish

import (
	"encoding/json"
	"html/template"
	"slices"
	"strings"

	"keelpath/builder/helpline"
	"keelpath/builder/library"
	"keelpath/builder/plan"
	"keelpath/builder/read"
	"keelpath/builder/safety"
	"keelpath/builder/search"
)

// finderView is the page on which a reader searches. Without script it is a list of what people ask, and of words.
type finderView struct {
	PageView
	Asked             []askedView
	Words             []LinkView
	Emergency, Crisis CallView
	Signs             []ToldView // of the safety screen, the gravest first
	Screen            *LinkView  // the topic that begins with the safety screen
	Data              template.JS
}

// askedView is a page of everyday questions.
type askedView struct {
	LinkView
	Questions []LinkView
}

// everyday begins the id of each explainer whose headings are questions in people's own words.
const everyday = "everyday-"

// mostFound is how many places a search shows.
const mostFound = 10

// dataSearch is the JSON block of the page.
type dataSearch struct {
	Signs  search.SignsSaid `json:"signs"`
	Crisis []string         `json:"crisis,omitempty"` // signs for which the crisis line is shown too
	Say    dataSearchSay    `json:"say"`
	Most   int              `json:"most"`
	Shared bool             `json:"shared,omitempty"` // nothing of a search is kept
}

// dataSearchSay is what the page says of a search.
type dataSearchSay struct {
	Found []string `json:"found"` // by how many places
	Taken string   `json:"taken"`
	Lost  string   `json:"lost"`
}

func searchModel(v viewer, _ plan.Page) (any, error) {
	out := finderView{PageView: v.view, Emergency: v.call(helpline.Emergency), Crisis: v.call(helpline.Crisis)}
	for _, part := range v.shelf.Parts() {
		for _, e := range part.Explainers {
			if strings.HasPrefix(e.ID, everyday) {
				out.Asked = append(out.Asked, v.questionsOn(e.ID, e.Title))
			}
		}
	}
	for _, l := range letters(v.say(), v.shelf.Words()) {
		for _, w := range l.Words {
			out.Words = append(out.Words, LinkView{Title: w.Word, URL: v.at(plan.Glossary, w.ID)})
		}
	}
	if t := v.shelf.Tree(safetyTree); t != nil {
		link := v.treeLink(t)
		out.Screen = &link
	}
	data := dataSearch{Most: mostFound, Shared: v.shelf.Edition().Shared, Say: v.searchSays()}
	if err := v.signs(&out, &data); err != nil {
		return nil, err
	}
	block, err := json.Marshal(data)
	out.Data = template.JS(block)
	return out, err
}

func (v viewer) searchSays() dataSearchSay {
	w := v.say()
	out := dataSearchSay{Found: []string{w.Say("search.none")}, Taken: w.Say("search.taken", "word", "{word}", "for", "{for}"), Lost: w.Say("search.lost")}
	for n := 1; n <= mostFound; n++ {
		out.Found = append(out.Found, w.Say("search.found", "count", n))
	}
	return out
}

func (v viewer) questionsOn(id, title string) askedView {
	url := v.explainer(id)
	out := askedView{LinkView: LinkView{ID: id, Title: title, URL: url}}
	for _, h := range v.shelf.Explainer(id).Body.Headings {
		if h.Level == 2 {
			out.Questions = append(out.Questions, LinkView{ID: h.ID, Title: h.Text, URL: url + "#" + h.ID})
		}
	}
	if n := len(out.Questions); n > 1 {
		out.Questions = out.Questions[:n-1] // the last says what to do next
	}
	return out
}

// signs puts each sign of the safety screen into the page, so that no caution has to be loaded.
func (v viewer) signs(out *finderView, data *dataSearch) error {
	s := v.shelf.Safety()
	if s == nil {
		return nil
	}
	said, r := v.shelf.SearchWords(), safetyTexts{viewer: v}
	var coded []search.Sign
	for _, when := range safety.Whens {
		for _, g := range s.Groups {
			for _, sign := range g.Signs {
				if sign.When.S != when {
					continue
				}
				out.Signs = append(out.Signs, ToldView{ID: sign.ID.S, Title: sign.Title.S, Worn: r.html(sign.Worn), Caution: r.html(sign.Caution)})
				coded = append(coded, search.Sign{ID: sign.ID.S, Says: wordingsOf(said, sign)})
				if when == string(safety.Crisis) {
					data.Crisis = append(data.Crisis, sign.ID.S)
				}
			}
		}
	}
	data.Signs = search.SignsOf(v.view.Lang, coded)
	return r.err
}

// wordingsOf gives how people name a sign; one for which nobody wrote that is known by its name.
func wordingsOf(said *library.SearchWords, sign *safety.Sign) []string {
	if w := said.Sign(sign.ID.S); w != nil {
		return read.Strings(w.Says)
	}
	var words []string
	for _, word := range search.Split(sign.Title.S) {
		if !slices.Contains(read.Strings(said.Skip), word) {
			words = append(words, word)
		}
	}
	return []string{strings.Join(words, " ")}
}
