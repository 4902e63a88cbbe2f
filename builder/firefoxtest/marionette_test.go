package firefoxtest

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// Firefox is driven by its own protocol, Marionette: commands and answers as JSON
// lists over a connection on this machine, each behind its length and a colon. All
// of it stands in this file. The rest of the package knows tabs.

// stepLimit keeps one step from hanging the whole run.
const stepLimit = 60 * time.Second

// settings of the browser. The first one matters most: a driven Firefox drops its
// rule that a page from disk may read no other file, unless it is told to keep it, and
// would then hide the very faults that a reader's Firefox has. No proxy answers on the
// port below, so a page reaches nothing outside even if it tries.
var settings = map[string]any{
	"remote.prefs.recommended":                   false,
	"marionette.port":                            0, // any free one; Firefox writes it into its profile
	"network.proxy.type":                         1,
	"network.proxy.http":                         "127.0.0.1",
	"network.proxy.http_port":                    9,
	"network.proxy.ssl":                          "127.0.0.1",
	"network.proxy.ssl_port":                     9,
	"network.captive-portal-service.enabled":     false,
	"network.connectivity-service.enabled":       false,
	"app.normandy.enabled":                       false,
	"app.update.disabledForTesting":              true,
	"browser.aboutwelcome.enabled":               false,
	"browser.safebrowsing.update.enabled":        false,
	"browser.shell.checkDefaultBrowser":          false,
	"browser.startup.homepage_override.mstone":   "ignore",
	"browser.startup.page":                       0,
	"browser.newtabpage.enabled":                 false,
	"datareporting.policy.dataSubmissionEnabled": false,
	"extensions.update.enabled":                  false,
	"services.settings.server":                   "data:,",
	"toolkit.telemetry.unified":                  false,
	"browser.download.folderList":                2, // the folder named in browser.download.dir
	"browser.download.alwaysOpenPanel":           false,
	"browser.helperApps.neverAsk.saveToDisk":     "application/json",
}

// A firefox is a running browser.
type firefox struct {
	dir      string // holds its profile
	saved    string // where files are saved
	process  *exec.Cmd
	gone     chan struct{}
	conn     net.Conn
	in       *bufio.Reader
	commands int
}

// firefoxBinary finds the browser.
func firefoxBinary() (string, error) {
	if bin := os.Getenv("KEELPATH_FIREFOX"); bin != "" {
		if _, err := os.Stat(bin); err != nil {
			return "", fmt.Errorf("KEELPATH_FIREFOX names no browser: %w", err)
		}
		return bin, nil
	}
	for _, name := range []string{"firefox-esr", "firefox"} {
		if bin, err := exec.LookPath(name); err == nil {
			return bin, nil
		}
	}
	return "", errors.New("these tests need Firefox: install Debian's package firefox-esr, run `bash .ci/test`, or name one in KEELPATH_FIREFOX")
}

// startFirefox starts one with nothing stored; all that it keeps is below dir.
func startFirefox(dir string) (*firefox, error) {
	bin, err := firefoxBinary()
	if err != nil {
		return nil, err
	}
	f := &firefox{dir: filepath.Join(dir, "profile"), saved: filepath.Join(dir, "saved"), gone: make(chan struct{})}
	var prefs strings.Builder
	for name, value := range settings {
		fmt.Fprintf(&prefs, "user_pref(%q, %s);\n", name, inJSON(value))
	}
	fmt.Fprintf(&prefs, "user_pref(%q, %s);\n", "browser.download.dir", inJSON(f.saved))
	err = errors.Join(os.MkdirAll(f.dir, 0o700), os.MkdirAll(f.saved, 0o700), os.WriteFile(filepath.Join(f.dir, "user.js"), []byte(prefs.String()), 0o600))
	if err != nil {
		return nil, err
	}
	// --remote-allow-system-access: the tests read the browser's own console.
	f.process = exec.Command(bin, "--headless", "--marionette", "--no-remote", "--remote-allow-system-access", "--profile", f.dir, "about:blank")
	f.process.Env = append(os.Environ(), "HOME="+dir, "MOZ_CRASHREPORTER_DISABLE=1")
	if err := f.process.Start(); err != nil {
		return nil, fmt.Errorf("%s does not start: %w", bin, err)
	}
	go func() {
		_ = f.process.Wait()
		close(f.gone)
	}()
	if err := f.connect(); err != nil {
		f.stop()
		return nil, fmt.Errorf("%s: %w", bin, err)
	}
	return f, nil
}

// connect waits for the port and opens a session.
func (f *firefox) connect() error {
	port := 0
	for end := time.Now().Add(stepLimit); port == 0; {
		select {
		case <-f.gone:
			return errors.New("it ended as soon as it was started")
		case <-time.After(20 * time.Millisecond):
		}
		data, _ := os.ReadFile(filepath.Join(f.dir, "MarionetteActivePort"))
		port, _ = strconv.Atoi(strings.TrimSpace(string(data)))
		if time.Now().After(end) {
			return errors.New("it opens no port to be driven by")
		}
	}
	conn, err := net.Dial("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		return err
	}
	f.conn, f.in = conn, bufio.NewReader(conn)
	if err := conn.SetDeadline(time.Now().Add(stepLimit)); err != nil {
		return err
	}
	var hello struct {
		MarionetteProtocol int
	}
	if data, err := f.receive(); err != nil {
		return err
	} else if err := json.Unmarshal(data, &hello); err != nil || hello.MarionetteProtocol != 3 {
		return fmt.Errorf("it speaks another protocol: %s", data)
	}
	_, err = f.call("WebDriver:NewSession", map[string]any{"capabilities": map[string]any{}})
	return err
}

// stop ends the browser and waits until it has let go of its profile.
func (f *firefox) stop() {
	if f.conn != nil {
		_, _ = f.call("Marionette:Quit", map[string]any{"flags": []string{"eForceQuit"}})
		f.conn.Close()
		select {
		case <-f.gone:
			return
		case <-time.After(20 * time.Second):
		}
	}
	_ = f.process.Process.Kill()
	<-f.gone
}

func (f *firefox) receive() ([]byte, error) {
	length, err := f.in.ReadString(':')
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	if err != nil {
		return nil, err
	}
	data := make([]byte, n)
	_, err = io.ReadFull(f.in, data)
	return data, err
}

// call sends a command and gives its answer.
func (f *firefox) call(name string, params map[string]any) (json.RawMessage, error) {
	f.commands++
	data, err := json.Marshal([]any{0, f.commands, name, params})
	if err != nil {
		return nil, err
	}
	if err := f.conn.SetDeadline(time.Now().Add(stepLimit)); err != nil {
		return nil, err
	}
	if _, err := fmt.Fprintf(f.conn, "%d:%s", len(data), data); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if data, err = f.receive(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var answer [4]json.RawMessage // kind, number, error, result
	var number int
	var fault *struct{ Error, Message string }
	if err := errors.Join(json.Unmarshal(data, &answer), json.Unmarshal(answer[1], &number), json.Unmarshal(answer[2], &fault)); err != nil {
		return nil, fmt.Errorf("%s: %w in %s", name, err, data)
	}
	if number != f.commands {
		return nil, fmt.Errorf("%s: the answer is to command %d, not %d", name, number, f.commands)
	}
	if fault != nil {
		return nil, fmt.Errorf("%s: %s: %s", name, fault.Error, fault.Message)
	}
	return answer[3], nil
}

// value is call where the answer holds one value.
func value[T any](f *firefox, name string, params map[string]any) (T, error) {
	var holder struct{ Value T }
	data, err := f.call(name, params)
	if err == nil {
		err = json.Unmarshal(data, &holder)
	}
	return holder.Value, err
}

func inJSON(v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err) // only strings, numbers, lists and the like are passed
	}
	return string(data)
}
