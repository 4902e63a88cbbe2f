// Package trees carries the decision trees, the prompts and cards they use, and the
// teaching cases.
package trees

import "embed"

// FS holds one YAML file a tree, prompts.yaml, cards.yaml, told.yaml, safety.yaml and planner.yaml, and one file a teaching case in cases/.
//
//go:embed *.yaml cases/*.yaml
var FS embed.FS
