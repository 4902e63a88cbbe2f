// Package serve shows a built folder to the person who writes it: on this
// machine only, and with open pages that load again when a new build is there.
//
// The pages forbid themselves all connections but scripts, styles, pictures and
// fonts of their own (Content-Security-Policy), so the reload comes by script
// alone. Each page gets one more script element. That script asks for a second
// one, whose answer is held back until there is something to do.
//
// The same pages on a web server carry no such script: it is added on the way
// out, never written into the folder.
package serve

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// ours is where the server keeps its own addresses, beside the site's.
const ours = "/-/"

// holdFor is how long a page waits for an answer before it asks again. It is short
// because a browser keeps about six connections to one server, and every page
// that waits takes one.
const holdFor = 10 * time.Second

// A Server answers for one folder. Make it with [New].
type Server struct {
	dir string

	mu    sync.Mutex
	build int64         // differs from build to build, and from run to run
	next  chan struct{} // closed when the next build is there
}

// New makes a server for the folder dir, which need not be there yet. The folder
// is opened anew for each request, so it may be replaced whole at any time.
func New(dir string) *Server {
	// A page left open from an earlier run must not think that nothing is new.
	return &Server{dir: dir, build: time.Now().UnixNano(), next: make(chan struct{})}
}

// Changed says that a new build is there: open pages load again.
func (s *Server) Changed() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.build++
	close(s.next)
	s.next = make(chan struct{})
}

// current returns the number of the newest build, and what closes at the next.
func (s *Server) current() (build string, next <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return strconv.FormatInt(s.build, 10), s.next
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	if r.ContentLength != 0 {
		neverMindTheBody(w)
	}
	switch {
	case !isLocal(r.Host):
		http.Error(w, "this page answers only as 127.0.0.1 or localhost", http.StatusMisdirectedRequest)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "this page can only be read", http.StatusMethodNotAllowed)
	case strings.HasPrefix(r.URL.Path, ours):
		s.script(w, r)
	default:
		s.file(w, r)
	}
}

// bodyFor is how long a body may take to come that a request has promised.
const bodyFor = time.Second

// neverMindTheBody lets a request that promises a body be answered without it. No
// page sends one; the server would wait for it before it answers, and for good.
func neverMindTheBody(w http.ResponseWriter) {
	w.Header().Set("Connection", "close")
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(bodyFor)) // a recorder in a test has none
}

// isLocal keeps out pages of other sites that point a name of their own at this
// machine. The port does not matter: it may be forwarded from another one.
func isLocal(host string) bool {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	return host == "127.0.0.1" || strings.EqualFold(host, "localhost")
}

// Listen opens a port that only this machine can reach; 0 takes any free one.
func Listen(port int) (net.Listener, error) {
	l, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		return nil, fmt.Errorf("cannot show pages at port %d of this machine; choose another port, or 0 for any free one: %w", port, err)
	}
	return l, nil
}

// Serve answers at l until ctx ends, which is no error. It closes l.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: 5 * time.Second,
		BaseContext:       func(net.Listener) context.Context { return ctx },
	}
	// Close, not Shutdown: a page that waits for the next build need not be told.
	stop := context.AfterFunc(ctx, func() { server.Close() })
	defer stop()
	err := server.Serve(l)
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}
