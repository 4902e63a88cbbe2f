package command

import (
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"

	"keelpath/builder/exchange"
	"keelpath/builder/finding"
	"keelpath/builder/library"
	"keelpath/builder/proof"
	"keelpath/builder/teaching"
)

func checkCommand(s Streams) *cobra.Command {
	var in input
	var asJSON, cases bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Report what is wrong with the content; write nothing",
		Long: `Reads everything, proves every tree and reports every finding in one run. A page
whose next review was due before today is a finding; for compile it is a warning.
A tree that no form can say is a warning; for exchange it is a finding.

With --cases, it also prints what the teaching cases cover: how many beats there are for
each task in each format, and how many cases for each place where a leg ends.

With --json, "paths" counts every way to answer a tree from its start to an ending.
` + proof.PathsRule,
		Example: "  keelpath check --layer our-clinic",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			l, list, err := in.load(c.Context())
			if err != nil {
				return err
			}
			l.Overdue(s.today(), list)
			list.Harden(library.PastReview)
			if list.Errors() == 0 {
				exchange.Check(l, l.Trees, list)
			}
			if asJSON {
				err = checkJSON(s, l, list)
			} else {
				err = checkText(s, l, list)
			}
			if err == nil && cases && !asJSON {
				err = teaching.BlueprintOf(l.Cases).Print(s.Out)
			}
			if err == nil && list.Errors() > 0 {
				return errFindings
			}
			return err
		},
	}
	in.flags(c)
	c.Flags().BoolVar(&cases, "cases", false, "print what the teaching cases cover too")
	c.Flags().BoolVar(&asJSON, "json", false, "write findings and proofs as JSON")
	return c
}

func checkText(s Streams, l *library.Library, list *finding.List) error {
	if err := tell(s.Out, l, list); err != nil || list.Errors() > 0 {
		return err
	}
	_, err := fmt.Fprintf(s.Out, "fine: %s, %s, %s\n", count(len(l.Trees), "tree"), count(len(l.Explainers), "explainer"), count(len(l.Prompts()), "prompt"))
	return err
}

// report is the JSON form of a check.
type report struct {
	Findings []finding.Finding `json:"findings"`
	More     int               `json:"more"` // findings that are left out
	Trees    []treeReport      `json:"trees"`
}

type treeReport struct {
	ID        string                   `json:"id"`
	Questions int                      `json:"questions"`
	Endings   int                      `json:"endings"`
	Longest   int                      `json:"longest"`
	Paths     string                   `json:"paths"` // a string: the number may exceed what JSON readers keep exact
	Witnesses map[string]proof.Witness `json:"witnesses"`
}

func checkJSON(s Streams, l *library.Library, list *finding.List) error {
	r := report{Trees: []treeReport{}}
	r.Findings, r.More = list.Shown()
	if r.Findings == nil {
		r.Findings = []finding.Finding{}
	}
	for _, t := range l.Trees {
		p := l.Proofs[t.ID.S]
		r.Trees = append(r.Trees, treeReport{
			ID: t.ID.S, Questions: len(t.Questions), Endings: len(t.Endings),
			Longest: p.Longest, Paths: p.Paths.String(), Witnesses: p.Witness,
		})
	}
	enc := json.NewEncoder(s.Out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(r)
}
