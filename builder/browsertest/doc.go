// Package browsertest holds the tests that need a real browser, a reader's own
// eyes and a printer: it builds the site once, opens it in Chromium and uses it
// as people do. There is nothing to import here.
//
// The tests want Debian's chromium and poppler-utils, a Java runtime, and the
// npm tools of .ci; `bash .ci/test` sets all of them up. Where one is missing the
// tests fail and say so.
//
//	KEELPATH_CHROMIUM   another browser binary to use
//	KEELPATH_TOOLS      the folder that holds node_modules, if not .ci
//	KEELPATH_PICTURES   a folder: the tests leave a picture of each page and state there
package browsertest
