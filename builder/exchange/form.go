package exchange

// Form is what the page needs to write a reader's answers as a
// QuestionnaireResponse; site/client/carry/response.ts reads it.
type Form struct {
	Questionnaire string             `json:"questionnaire"`   // address and version
	System        string             `json:"system"`          // of codes, without ":" and the question
	Nest          map[string]int     `json:"nest,omitempty"`  // item to the number of groups around it
	Split         map[string][]Split `json:"split,omitempty"` // questions that stand once for each state
}

// Split is an earlier question whose answer tells the copies of a question apart.
type Split struct {
	By    string      `json:"by"`
	Asked []string    `json:"asked,omitempty"` // of its answers, those that conditions ask for
	Class map[int]int `json:"class,omitempty"` // amounts, by number, that are named by another one
}

func (w *logic) split() map[string][]Split {
	out := map[string][]Split{}
	for _, q := range w.order {
		if len(w.places[q]) == 1 {
			continue
		}
		for _, id := range w.chart.Live(q) {
			by := w.t.Question(id)
			s := Split{By: id}
			if by.Measure == nil {
				s.Asked = w.chart.Asked(by)
			} else {
				s.Class = others(w.classes(by))
			}
			out[q.ID.S] = append(out[q.ID.S], s)
		}
	}
	return out
}

// others lists the amounts that do not stand for themselves.
func others(classes []int) map[int]int {
	out := map[int]int{}
	for i, c := range classes {
		if i != c {
			out[i] = c
		}
	}
	return out
}
