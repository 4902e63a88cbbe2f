// Package content carries the explainers and the tables that pages share.
package content

import "embed"

// FS holds the explainers and the figures by language, and the YAML tables beside them.
//
//go:embed *.yaml en
var FS embed.FS
