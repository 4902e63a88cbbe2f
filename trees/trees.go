// Package trees carries the decision trees and the prompts and cards they use.
package trees

import "embed"

// FS holds one YAML file a tree, prompts.yaml, cards.yaml and planner.yaml.
//
//go:embed *.yaml
var FS embed.FS
