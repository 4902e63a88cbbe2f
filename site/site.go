// Package site carries the page templates, the styles and the client's source,
// so that the program builds a whole site in an empty folder.
package site

import "embed"

// Files holds pages/, style/, client/ and drawings/.
//
//go:embed pages style client drawings
var Files embed.FS
