package serve

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"net/http"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"
)

var errIsFolder = errors.New("is a folder")

// file answers with a file of the folder.
func (s *Server) file(w http.ResponseWriter, r *http.Request) {
	// Asked before the file is read: a page that is older than its number would
	// never load again, one that is newer loads once too often.
	build, _ := s.current()
	name := fileName(r.URL.Path)
	data, err := s.read(name)
	switch {
	case err == nil && isPage(name):
		send(w, r, name, withReload(data, build))
	case err == nil:
		send(w, r, name, data)
	case errors.Is(err, errIsFolder):
		toFolder(w, r)
	case errors.Is(err, fs.ErrPermission):
		say(w, build, http.StatusForbidden, "This page cannot be read",
			"The file for "+code(r.URL.Path)+" is there, but this program may not open it.")
	default:
		s.notFound(w, r, build)
	}
}

// fileName turns an address into a name inside the folder. An address that ends
// in a slash means that folder's first page.
func fileName(address string) string {
	name := strings.TrimPrefix(path.Clean("/"+address), "/")
	if strings.HasSuffix(address, "/") || name == "" {
		name = path.Join(name, "index.html")
	}
	return name
}

func isPage(name string) bool {
	end := strings.ToLower(path.Ext(name))
	return end == ".html" || end == ".htm"
}

// read looks twice: when the folder is replaced between the opening of it and
// that of the file, the old one is emptied in the meantime.
func (s *Server) read(name string) (data []byte, err error) {
	for range 2 {
		data, err = s.readOnce(name)
		if !errors.Is(err, fs.ErrNotExist) {
			break
		}
	}
	return data, err
}

// readOnce keeps to the folder: a root follows no name and no link out of it.
func (s *Server) readOnce(name string) ([]byte, error) {
	root, err := os.OpenRoot(s.dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	name = filepath.FromSlash(name)
	info, err := root.Stat(name)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, errIsFolder
	case !info.Mode().IsRegular(): // a pipe would never end
		return nil, fs.ErrNotExist
	}
	return root.ReadFile(name)
}

// toFolder sends the reader to the address with a slash, from which the links of
// the folder's page count.
func toFolder(w http.ResponseWriter, r *http.Request) {
	to := url.URL{Path: path.Clean("/"+r.URL.Path) + "/", RawQuery: r.URL.RawQuery}
	http.Redirect(w, r, to.String(), http.StatusFound)
}

// send answers with bytes; HEAD and parts of a file are seen to by the library.
func send(w http.ResponseWriter, r *http.Request, name string, data []byte) {
	w.Header().Set("Content-Type", contentType(name))
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

func (s *Server) notFound(w http.ResponseWriter, r *http.Request, build string) {
	if _, err := os.Stat(s.dir); errors.Is(err, fs.ErrNotExist) {
		say(w, build, http.StatusServiceUnavailable, "There is no site here yet",
			"This page loads again by itself when the first build is done.")
		return
	}
	say(w, build, http.StatusNotFound, "There is no page here",
		"No file of this build belongs to "+code(r.URL.Path)+".",
		`<a href="/">Go to the first page</a>`)
}

func code(text string) string { return "<code>" + html.EscapeString(text) + "</code>" }

const sayPage = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>%[1]s</title>
</head>
<body>
<h1>%[1]s</h1>
<p>%[2]s</p>
</body>
</html>
`

// say answers with a page of the server's own, which loads again as all others
// do. The paragraphs are HTML.
func say(w http.ResponseWriter, build string, status int, title string, paragraphs ...string) {
	h := w.Header()
	h.Set("Content-Type", contentType(".html"))
	h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; base-uri 'none'; form-action 'none'")
	w.WriteHeader(status)
	page := fmt.Appendf(nil, sayPage, title, strings.Join(paragraphs, "</p>\n<p>"))
	_, _ = w.Write(withReload(page, build)) // a reader who has gone needs no answer
}
