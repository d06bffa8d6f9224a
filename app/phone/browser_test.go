package phone

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// driver speaks the WebDriver protocol (W3C recommendation "WebDriver") to a
// browser without a window.
type driver struct {
	t    *testing.T
	base string // of the session
}

// elementKey is what the standard calls a web element identifier.
const elementKey = "element-6066-11e4-a52e-4f735466cecf"

func (d *driver) do(method, path string, in any) json.RawMessage {
	d.t.Helper()
	var body io.Reader
	if in != nil {
		text, _ := json.Marshal(in)
		body = bytes.NewReader(text)
	}
	r, _ := http.NewRequest(method, d.base+path, body)
	a, err := (&http.Client{Timeout: time.Minute}).Do(r)
	if err != nil {
		d.t.Fatal(err)
	}
	defer a.Body.Close()
	var out struct{ Value json.RawMessage }
	if err := json.NewDecoder(a.Body).Decode(&out); err != nil || a.StatusCode != 200 {
		d.t.Fatalf("%s %s: status %d, %v, %s", method, path, a.StatusCode, err, out.Value)
	}
	return out.Value
}

func (d *driver) find(css string) string {
	d.t.Helper()
	var e map[string]string
	json.Unmarshal(d.do("POST", "/element", map[string]string{"using": "css selector", "value": css}), &e)
	return "/element/" + e[elementKey]
}

func (d *driver) text(css string) (s string) {
	d.t.Helper()
	json.Unmarshal(d.do("GET", d.find(css)+"/text", nil), &s)
	return s
}

func (d *driver) click(css string) { d.t.Helper(); d.do("POST", d.find(css)+"/click", struct{}{}) }

func (d *driver) style(css, name string) (s string) {
	d.t.Helper()
	json.Unmarshal(d.do("GET", d.find(css)+"/css/"+name, nil), &s)
	return s
}

// drive starts a browser; the test is skipped where there is none.
func drive(t *testing.T) *driver {
	prog, err := exec.LookPath("chromedriver")
	if err != nil {
		t.Skip("chromedriver is not installed: the page is not tried in a browser")
	}
	if _, err := exec.LookPath("chromium"); err != nil {
		t.Skip("chromium is not installed: the page is not tried in a browser")
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	port := l.Addr().(*net.TCPAddr).Port
	l.Close()
	cmd := exec.Command(prog, fmt.Sprintf("--port=%d", port))
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait() })
	d := &driver{t: t, base: fmt.Sprintf("http://127.0.0.1:%d", port)}
	for end := time.Now().Add(30 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		if a, err := http.Get(d.base + "/status"); err == nil {
			a.Body.Close()
			break
		}
		if time.Now().After(end) {
			t.Fatal("the driver of the browser does not answer")
		}
	}
	args := []string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--window-size=400,800", "--user-data-dir=" + t.TempDir()}
	var session struct{ SessionID string }
	json.Unmarshal(d.do("POST", "/session", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"browserName": "chrome", "goog:chromeOptions": map[string]any{"args": args}}}}), &session)
	d.base += "/session/" + session.SessionID
	// What is looked for may be on a page that is still on its way.
	d.do("POST", "/timeouts", map[string]any{"implicit": 30000})
	t.Cleanup(func() { d.do("DELETE", "", nil) })
	return d
}

func TestBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a browser")
	}
	d := drive(t)
	s := open(t, Limits{})
	dir := t.TempDir()
	jpg, txt := filepath.Join(dir, "IMG_1.jpg"), filepath.Join(dir, "list.txt")
	os.WriteFile(jpg, photo(), 0o600)
	os.WriteFile(txt, []byte("screws, glue"), 0o600)
	d.do("POST", "/url", map[string]string{"url": s.URL()})
	// The policy lets the page's own style through: 3.5rem of 16 pixels.
	if h := d.style("button", "min-height"); h != "56px" {
		t.Errorf("the button is %s high: the style was not applied", h)
	}
	d.click("#board option[value=B]")
	d.click("#part option:nth-child(2)")
	d.do("POST", d.find("#picture")+"/value", map[string]string{"text": jpg + "\n" + txt})
	d.click("button")
	said := d.text("#results")
	for _, want := range []string{"✓ IMG_1.jpg: Arrived: board B, face 2.", "✕ list.txt: Not taken: "} {
		if !strings.Contains(said, want) {
			t.Errorf("the page says %q, want %q", said, want)
		}
	}
	if !bytes.Equal(s.got["board B, face 2"], photo()) || len(s.got) != 1 {
		t.Errorf("%d pictures arrived, or not as they were", len(s.got))
	}
	var wide []int
	json.Unmarshal(d.do("POST", "/execute/sync", map[string]any{"script": "return [document.documentElement.scrollWidth, innerWidth]", "args": []int{}}), &wide)
	if len(wide) != 2 || wide[0] > wide[1] {
		t.Errorf("the page is wider than the screen: %v", wide)
	}
	if to := os.Getenv("HEARTSIDE_SHOTS"); to != "" {
		var shot []byte
		json.Unmarshal(d.do("GET", "/screenshot", nil), &shot)
		os.WriteFile(filepath.Join(to, "phone.png"), shot, 0o600)
	}
	// A picture refused while most of it is still to come: the words are seen.
	small := open(t, Limits{Total: 1 << 20})
	large := filepath.Join(dir, "large.jpg")
	os.WriteFile(large, make([]byte, 70<<20), 0o600)
	d.do("POST", "/url", map[string]string{"url": small.URL()})
	d.do("POST", d.find("#picture")+"/value", map[string]string{"text": large})
	d.click("button")
	if said := d.text("#trouble"); !strings.Contains(said, "More than 1 MB was sent in all") {
		t.Errorf("it says %q", said)
	}
	code, text := s.get(browser(), s.URL()) // a second browser
	s.want(code, text, 403, "has been used")
}
