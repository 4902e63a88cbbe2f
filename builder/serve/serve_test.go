package serve

import (
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

const aPage = "<!doctype html><title>Alder Quay</title><body><p>Ramps</p></body></html>\n"

// site makes a folder such as a build makes, beside a file that is nobody's business.
func site(t *testing.T) string {
	t.Helper()
	top := t.TempDir()
	write(t, top+"/private.txt", "private")
	dir := top + "/out"
	write(t, dir+"/index.html", aPage)
	write(t, dir+"/learn/index.html", aPage)
	write(t, dir+"/learn/ramps & hills.html", aPage)
	write(t, dir+"/drawings/keel.svg", "<svg/>")
	write(t, dir+"/styles.css", "body{}")
	write(t, dir+"/planner.JS", "1")
	write(t, dir+"/font.woff2", "font")
	write(t, dir+"/LICENCE", "words")
	return dir
}

func get(t *testing.T, h http.Handler, method, address string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, "/", nil)
	r.Host = "127.0.0.1:8080"
	r.URL.Path, r.URL.RawQuery, _ = strings.Cut(address, "?")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	t.Helper()
	data, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestAnswers(t *testing.T) {
	dir := site(t)
	s := New(dir)
	for _, test := range []struct {
		address string
		status  int
		kind    string
		has     string
	}{
		{"/", 200, "text/html; charset=utf-8", "Ramps"},
		{"/index.html", 200, "text/html; charset=utf-8", "Ramps"},
		{"/learn/", 200, "text/html; charset=utf-8", "Ramps"},
		{"/learn/?from=here", 200, "text/html; charset=utf-8", "Ramps"},
		{"/learn/ramps & hills.html", 200, "text/html; charset=utf-8", "Ramps"},
		{"/learn//./../learn/index.html", 200, "text/html; charset=utf-8", "Ramps"},
		{"/styles.css", 200, "text/css; charset=utf-8", "body{}"},
		{"/planner.JS", 200, "text/javascript; charset=utf-8", "1"},
		{"/drawings/keel.svg", 200, "image/svg+xml", "<svg/>"},
		{"/font.woff2", 200, "font/woff2", "font"},
		{"/LICENCE", 200, "application/octet-stream", "words"},
		{"/missing", 404, "text/html; charset=utf-8", "There is no page here"},
		{"/drawings/", 404, "text/html; charset=utf-8", "There is no page here"}, // no list of files
		{"/index.html/", 404, "text/html; charset=utf-8", "There is no page here"},
		{"/-/other.js", 404, "text/html; charset=utf-8", "There is no page here"},
		{"/<b>", 404, "text/html; charset=utf-8", "<code>/&lt;b&gt;</code>"},
		{"/a\x00b", 404, "text/html; charset=utf-8", "There is no page here"},
		{"", 200, "text/html; charset=utf-8", "Ramps"},
	} {
		r := get(t, s, "GET", test.address)
		text := body(t, r)
		if r.StatusCode != test.status || r.Header.Get("Content-Type") != test.kind || !strings.Contains(text, test.has) {
			t.Errorf("%q: %d %s %q", test.address, r.StatusCode, r.Header.Get("Content-Type"), text)
		}
		if r.Header.Get("Cache-Control") != "no-store" || r.Header.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%q: headers are %v", test.address, r.Header)
		}
		if strings.Contains(text, "keel.svg") {
			t.Errorf("%q lists a folder: %q", test.address, text)
		}
	}
}

func TestFolderGetsItsSlash(t *testing.T) {
	s := New(site(t))
	for address, want := range map[string]string{
		"/learn":           "/learn/",
		"/learn?from=here": "/learn/?from=here",
		"//learn":          "/learn/", // not to a machine called learn
		"/x/../learn":      "/learn/",
	} {
		r := get(t, s, "GET", address)
		if r.StatusCode != http.StatusFound || r.Header.Get("Location") != want {
			t.Errorf("%s: %d to %q, want %q", address, r.StatusCode, r.Header.Get("Location"), want)
		}
	}
}

func TestNoWayOut(t *testing.T) {
	dir := site(t)
	for at, to := range map[string]string{
		"link.txt": "../private.txt",
		"full.txt": filepath.Join(filepath.Dir(dir), "private.txt"),
		"up":       "..",
	} {
		if err := os.Symlink(to, filepath.Join(dir, at)); err != nil {
			t.Fatal("this test needs a file system with links:", err)
		}
	}
	s := New(dir)
	for _, address := range []string{
		"/../private.txt", "/learn/../../private.txt", "..", "../private.txt", `/..\private.txt`,
		"//../private.txt", "/link.txt", "/full.txt", "/up/private.txt", "/up/", "/up/out/index.html",
	} {
		r := get(t, s, "GET", address)
		text := body(t, r)
		if strings.Contains(text, "private\n") || text == "private" {
			t.Errorf("%s: %q came out", address, text)
		}
		// ".." alone is cleaned to the first page.
		if address != ".." && r.StatusCode != http.StatusNotFound {
			t.Errorf("%s: status %d, want 404", address, r.StatusCode)
		}
	}
}

func TestOnlyLocalNames(t *testing.T) {
	s := New(site(t))
	for host, want := range map[string]int{
		"127.0.0.1":            200,
		"127.0.0.1:8080":       200,
		"localhost":            200,
		"localhost:8080":       200,
		"LOCALHOST:1":          200,
		"":                     421,
		"alder-quay.example":   421,
		"localhost.example:80": 421,
		"127.0.0.1.example":    421,
		"192.168.1.2:8080":     421,
		"0.0.0.0:8080":         421,
		"[::1]:8080":           421,
		"127.0.0.1:80:80":      421,
	} {
		for _, address := range []string{"/", watchPath, "/missing"} {
			r := httptest.NewRequest("GET", address, nil)
			r.Host = host
			w := httptest.NewRecorder()
			s.ServeHTTP(w, r)
			got := w.Code
			if got == 404 && address == "/missing" {
				got = 200
			}
			if got != want {
				t.Errorf("%s as %q: %d, want %d", address, host, got, want)
			}
		}
	}
}

func TestOnlyReading(t *testing.T) {
	s := New(site(t))
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "CONNECT", "PATCH"} {
		r := get(t, s, method, "/")
		if r.StatusCode != http.StatusMethodNotAllowed || r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: %d, allow %q", method, r.StatusCode, r.Header.Get("Allow"))
		}
	}
	r := get(t, s, "HEAD", "/")
	if r.StatusCode != 200 || body(t, r) != "" || r.ContentLength <= int64(len(aPage)) {
		t.Errorf("HEAD: %d, length %d", r.StatusCode, r.ContentLength)
	}
}

// scriptOf finds the address that the server added to a page.
func scriptOf(t *testing.T, page string) string {
	t.Helper()
	m := regexp.MustCompile(`<script src="(/-/watch\.js\?seen=\d+)" defer></script>`).FindAllStringSubmatch(page, -1)
	if len(m) != 1 {
		t.Fatalf("found %d reload scripts in %q, want 1", len(m), page)
	}
	return m[0][1]
}

func TestReloadScriptStandsAtTheEndOfTheBody(t *testing.T) {
	for _, test := range []struct{ page, before, after string }{
		{aPage, "<p>Ramps</p>", "</body></html>\n"},
		{"<p>Ramps</P></BODY >", "<p>Ramps</P>", "</BODY >"},
		{"<pre>&lt;/body> </body></pre><p>two</p></body>", "<p>two</p>", "</body>"},
		{"<p>İ ends early", "<p>İ ends early", ""},
		{"", "", ""},
	} {
		got := string(withReload([]byte(test.page), "7"))
		element := `<script src="/-/watch.js?seen=7" defer></script>`
		if !strings.HasSuffix(got, test.before+element+test.after) || len(got) != len(test.page)+len(element) {
			t.Errorf("%q became %q", test.page, got)
		}
	}
}

func TestOnlyPagesGetTheScript(t *testing.T) {
	s := New(site(t))
	if got := body(t, get(t, s, "GET", "/styles.css")); got != "body{}" {
		t.Errorf("the style sheet became %q", got)
	}
	scriptOf(t, body(t, get(t, s, "GET", "/")))
	scriptOf(t, body(t, get(t, s, "GET", "/missing")))
}

// The whole way: a page, its script, the address that the script asks for.
func TestOpenPageLoadsAgain(t *testing.T) {
	dir := site(t)
	synctest.Test(t, func(t *testing.T) {
		s := New(dir)
		watch := scriptOf(t, body(t, get(t, s, "GET", "/")))
		wait := waitOf(t, body(t, get(t, s, "GET", watch)))

		// Nothing new: the same question again, after a while.
		start := time.Now()
		again := body(t, get(t, s, "GET", wait))
		if got := time.Since(start); got != holdFor {
			t.Errorf("answered after %v, want %v", got, holdFor)
		}
		if waitOf(t, again) != wait {
			t.Errorf("asks for %q after %q", waitOf(t, again), wait)
		}

		// A new build: at once, to each page that waits.
		answers := make(chan string)
		for range 3 {
			go func() { answers <- body(t, get(t, s, "GET", wait)) }()
		}
		synctest.Wait() // all three are waiting
		start = time.Now()
		s.Changed()
		for range 3 {
			if got := <-answers; got != reloadScript {
				t.Errorf("the answer is %q, want %q", got, reloadScript)
			}
		}
		if got := time.Since(start); got != 0 {
			t.Errorf("answered %v after the build", got)
		}

		// A page that slept through it, and one that is up to date.
		if got := body(t, get(t, s, "GET", wait)); got != reloadScript {
			t.Errorf("the late answer is %q", got)
		}
		if got := scriptOf(t, body(t, get(t, s, "GET", "/"))); got == watch {
			t.Errorf("the page still carries %q after a new build", got)
		}

		// A page from an earlier run.
		if got := body(t, get(t, s, "GET", waitPath+"?seen=0")); got != reloadScript {
			t.Errorf("the answer to an earlier run's page is %q", got)
		}
	})
}

// waitOf finds the address in the script that asks.
func waitOf(t *testing.T, script string) string {
	t.Helper()
	m := regexp.MustCompile(`script\.src = "(/-/wait\.js\?seen=[^"&]*)&at=" \+ Date\.now\(\);`).FindStringSubmatch(script)
	if m == nil {
		t.Fatalf("the script asks for nothing: %q", script)
	}
	return m[1]
}

func TestWaitEndsWithTheReader(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := New("")
		build, _ := s.current()
		ctx, cancel := context.WithCancel(t.Context())
		r := httptest.NewRequest("GET", waitPath+"?seen="+build, nil).WithContext(ctx)
		r.Host = "localhost"
		done := make(chan bool)
		go func() {
			s.ServeHTTP(httptest.NewRecorder(), r)
			close(done)
		}()
		synctest.Wait()
		start := time.Now()
		cancel()
		<-done
		if got := time.Since(start); got != 0 {
			t.Errorf("went on for %v", got)
		}
	})
}

// What stands in the address comes back inside a script.
func TestSeenCannotLeaveItsString(t *testing.T) {
	s := New("")
	script := body(t, get(t, s, "GET", watchPath+`?seen=%22%3Balert(1)%3B//%0A%5C%3C/script%3E`))
	if got, want := waitOf(t, script), waitPath+"?seen=%22%3Balert%281%29%3B%2F%2F%0A%5C%3C%2Fscript%3E"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// The folder is replaced whole, which leaves an open root with the old one.
func TestShowsTheFolderThatIsThereNow(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	s := New(dir)
	r := get(t, s, "GET", "/")
	text := body(t, r)
	if r.StatusCode != http.StatusServiceUnavailable || !strings.Contains(text, "no site here yet") {
		t.Errorf("before the first build: %d %q", r.StatusCode, text)
	}
	scriptOf(t, text) // so that it turns into the site by itself
	for _, words := range []string{"first", "second", "third"} {
		write(t, dir+"-new/index.html", words)
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(dir+"-new", dir); err != nil {
			t.Fatal(err)
		}
		if got := body(t, get(t, s, "GET", "/")); !strings.HasPrefix(got, words) {
			t.Errorf("shows %q, want %q", got, words)
		}
	}
}

func TestListenAndServe(t *testing.T) {
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	at := l.Addr().(*net.TCPAddr)
	if !at.IP.Equal(net.IPv4(127, 0, 0, 1)) {
		t.Fatalf("listens at %v", at)
	}
	if _, err := Listen(at.Port); err == nil || !strings.Contains(err.Error(), "choose another port") {
		t.Errorf("the same port again: %v", err)
	}

	ctx, cancel := context.WithCancel(t.Context())
	s := New(site(t))
	ended := make(chan error)
	go func() { ended <- s.Serve(ctx, l) }()
	r, err := http.Get("http://" + at.String() + "/learn")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if got := body(t, r); r.StatusCode != 200 || r.Request.URL.Path != "/learn/" || !strings.Contains(got, "Ramps") {
		t.Errorf("%d %s %q", r.StatusCode, r.Request.URL, got)
	}

	// It ends at once, whoever waits.
	build, _ := s.current()
	waiting := make(chan bool)
	go func() {
		if r, err := http.Get("http://" + at.String() + waitPath + "?seen=" + build); err == nil {
			r.Body.Close()
		}
		close(waiting)
	}()
	cancel()
	if err := <-ended; err != nil {
		t.Errorf("ended with %v", err)
	}
	<-waiting
}

// A body that is promised and never comes keeps nobody waiting.
func TestPromisedBodyThatNeverComes(t *testing.T) {
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	s := New(site(t))
	go s.Serve(t.Context(), l)
	for name, head := range map[string]string{
		"a length":         "GET /learn/ HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 10\r\n\r\n",
		"half of a length": "GET /learn/ HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 10\r\n\r\nhalf",
		"chunks":           "GET /learn/ HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\n\r\n",
		"a form":           "POST /learn/ HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 1000000\r\n\r\n",
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c, err := net.Dial("tcp", l.Addr().String())
			if err != nil {
				t.Fatal(err)
			}
			defer c.Close()
			began := time.Now()
			if _, err := io.WriteString(c, head); err != nil {
				t.Fatal(err)
			}
			if err := c.SetReadDeadline(began.Add(10 * time.Second)); err != nil {
				t.Fatal(err)
			}
			answer, err := io.ReadAll(c) // until the server closes
			if err != nil || time.Since(began) > 2*time.Second {
				t.Errorf("it took %v: %v", time.Since(began), err)
			}
			if first, _, _ := strings.Cut(string(answer), "\r\n"); first != "HTTP/1.1 200 OK" && first != "HTTP/1.1 405 Method Not Allowed" {
				t.Errorf("the answer begins with %q", first)
			}
		})
	}
}
