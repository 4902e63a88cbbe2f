package serve

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"time"
)

const (
	watchPath = ours + "watch.js" // the script that each page gets; answered at once
	waitPath  = ours + "wait.js"  // the script that it asks for; held back
)

// askScript asks for the next answer. Three things about it are not plain to see.
//
// It waits for the load event: a script that is held back before would hold back
// that event, and the page's own scripts with it.
//
// It does not ask while the page is hidden, so that many open tabs do not use up
// the browser's connections.
//
// When the server is gone it tries again, and so finds the next run.
const askScript = `(function () {
  document.currentScript.remove();
  function ask() {
    if (document.hidden) {
      document.addEventListener("visibilitychange", ask, { once: true });
      return;
    }
    var script = document.createElement("script");
    script.src = "%s?seen=%s&at=" + Date.now();
    script.onerror = function () {
      script.remove();
      setTimeout(ask, 2000);
    };
    document.body.append(script);
  }
  if (document.readyState === "complete") {
    ask();
  } else {
    addEventListener("load", ask);
  }
})();
`

const reloadScript = "location.reload();\n"

// script answers for the server's own addresses.
func (s *Server) script(w http.ResponseWriter, r *http.Request) {
	seen := r.URL.Query().Get("seen")
	switch r.URL.Path {
	case watchPath:
		sendScript(w, r, ask(seen))
	case waitPath:
		s.wait(w, r, seen)
	default:
		build, _ := s.current()
		s.notFound(w, r, build)
	}
}

// wait answers when a build is there that the page has not seen, or when it has
// waited long enough.
func (s *Server) wait(w http.ResponseWriter, r *http.Request, seen string) {
	build, next := s.current()
	if seen != build || r.Method == http.MethodHead {
		sendScript(w, r, reloadScript)
		return
	}
	select {
	case <-next:
		sendScript(w, r, reloadScript)
	case <-time.After(holdFor):
		sendScript(w, r, ask(seen))
	case <-r.Context().Done():
	}
}

func ask(seen string) string {
	return fmt.Sprintf(askScript, waitPath, url.QueryEscape(seen))
}

func sendScript(w http.ResponseWriter, r *http.Request, text string) {
	send(w, r, "-.js", []byte(text))
}

// withReload adds the script element to a page, as the last thing in its body.
func withReload(page []byte, build string) []byte {
	element := fmt.Sprintf(`<script src="%s?seen=%s" defer></script>`, watchPath, build)
	at := endOfBody(page)
	return bytes.Join([][]byte{page[:at], []byte(element), page[at:]}, nil)
}

// endOfBody finds the last closing tag; a page may leave it out.
func endOfBody(page []byte) int {
	const tag = "</body"
	for at := len(page) - len(tag); at >= 0; at-- {
		if bytes.EqualFold(page[at:at+len(tag)], []byte(tag)) {
			return at
		}
	}
	return len(page)
}
