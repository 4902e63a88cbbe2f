// Package firefoxtest opens the site in Firefox, from disk, and takes a reader's
// main way through it: a topic, the sheet, paper, a code, a file, and clearing.
// What every page and screen does is tested in Chromium (builder/browsertest);
// this is the second engine. There is nothing to import here.
//
// The tests want Debian's firefox-esr and poppler-utils; `bash .ci/test` sets both
// up. Where one is missing the tests fail and say so.
//
//	KEELPATH_FIREFOX   another Firefox to use
package firefoxtest
