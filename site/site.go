// Package site carries the page templates, the styles and the client's source,
// so that the program builds a whole site in an empty folder.
package site

import "embed"

// Files holds pages/, style/, client/, drawings/ and the typeface with its licence, type/.
//
//go:embed pages style client drawings type/*.woff2 type/OFL.txt
var Files embed.FS
