// Package safety knows the one screen that comes before every topic: whether
// the reader wears a leg, a gate of a few lines, and groups of signs that need
// help. It reads trees/safety.yaml; Next and Gather are the reference that the
// client's copy, site/client/safety/safety.ts, must agree with.
package safety

import (
	"slices"

	"keelpath/builder/read"
)

// Screen is the whole of trees/safety.yaml.
type Screen struct {
	File     string
	Credits  read.Credits
	Leg      Leg
	Gate     Gate
	Groups   []*Group  // in the order in which they are asked
	Endings  []*Ending // one for each When
	Examples []*Example
}

// Leg is the first question of a sitting. What it is answered with decides
// which signs are asked and whether anything is said of the leg.
type Leg struct {
	Text    read.Text
	Why     read.Text
	Answers []*LegAnswer
}

// LegAnswer is one of Worn, NotYet and NotNow.
type LegAnswer struct {
	ID    read.Text
	Text  read.Text
	Tells []read.Text // ids of told facts
}

// The answers to the leg question, in the order in which they stand.
const (
	Worn   = "worn"
	NotYet = "not-yet"
	NotNow = "not-now"
)

// LegAnswers lists them.
var LegAnswers = []string{Worn, NotYet, NotNow}

// Gate asks for each group in one line.
type Gate struct {
	Text read.Text
	Why  read.Text
	Hint read.Text
}

// Group is a screen of signs that belong together.
type Group struct {
	ID     read.Text
	Line   read.Text // how the gate asks for it
	Title  read.Text // a short name
	Text   read.Text // the question above the signs
	Why    read.Text
	Hint   read.Text
	Leg    bool // asked only of those who wear a leg
	Unsure Unsure
	Signs  []*Sign
}

// Unsure is what "not sure" within a group leads to: care, one step below the
// emergency number.
type Unsure struct {
	Title   read.Text
	Caution read.Text   // markdown
	Worn    read.Text   // as a sign's
	Prompts []read.Text // ids
}

// Sign is one thing that a reader may tell.
type Sign struct {
	ID      read.Text
	Text    read.Text // markdown; it begins with its main words in bold
	More    read.Text // small print below it; optional
	When    read.Text // one of Whens
	Leg     bool      // asked only of those who wear a leg
	Title   read.Text // heads its caution
	Caution read.Text // markdown: what to do
	Worn    read.Text // markdown, optional: said first to those who wear a leg, and to nobody else
	Because read.Text // markdown, optional: stands below the caution
	Prompts []read.Text
	Tells   []read.Text // ids of told facts
	Basis   []read.Text // source ids, or "common-practice"
}

// When says how soon a sign needs help.
type When string

// The gravest stands first.
const (
	Now    When = "now"    // the emergency number
	Crisis When = "crisis" // the crisis line
	Today  When = "today"  // a doctor or the clinic, today
	Soon   When = "soon"   // the clinic, in the next days
)

// Whens lists them by gravity.
var Whens = []string{string(Now), string(Crisis), string(Today), string(Soon)}

// Ending is what a reader is told to do first, by the gravest sign told.
type Ending struct {
	When  read.Text
	Title read.Text
	Steps []read.Text // markdown
	Worn  []read.Text // markdown: steps for those who wear a leg
}

// Example is an invented person: what they tell, and what they must be told.
type Example struct {
	Who      read.Text
	Leg      read.Text
	Gate     []read.Text // empty where the groups are asked without it
	Told     []read.Text // ids of signs; "skin/unsure" is "not sure" in that group
	Ending   read.Text   // one of Whens, or "none"
	Cautions []read.Text // as Told, in the order in which they are shown
}

// Ids that stand for no sign.
const (
	None    = "none"
	NotSure = "unsure"
)

// Group gives the group with that id, or nil.
func (s *Screen) Group(id string) *Group {
	for _, g := range s.Groups {
		if g.ID.S == id {
			return g
		}
	}
	return nil
}

// Sign gives the sign with that id and its group, or nil.
func (s *Screen) Sign(id string) (*Sign, *Group) {
	for _, g := range s.Groups {
		for _, sign := range g.Signs {
			if sign.ID.S == id {
				return sign, g
			}
		}
	}
	return nil, nil
}

// Ending gives what to do first for that When, or nil.
func (s *Screen) Ending(when When) *Ending {
	for _, e := range s.Endings {
		if e.When.S == string(when) {
			return e
		}
	}
	return nil
}

// SignIDs lists the ids of all signs, in the order of the file.
func (s *Screen) SignIDs() []string {
	var out []string
	for _, g := range s.Groups {
		for _, sign := range g.Signs {
			out = append(out, sign.ID.S)
		}
	}
	return out
}

// Shown gives the signs of a group that are asked of a reader with that leg answer.
func (g *Group) Shown(leg string) []*Sign {
	return slices.DeleteFunc(slices.Clone(g.Signs), func(sign *Sign) bool { return sign.Leg && leg != Worn })
}

// Asked tells whether a group is asked of a reader with that leg answer.
func (g *Group) Asked(leg string) bool { return !g.Leg || leg == Worn }
