package phone

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/netip"
	"net/textproto"
	"net/url"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"heartside/app/intake"
)

// shop is a server with what it took.
type shop struct {
	*Server
	t    *testing.T
	temp string
	mu   sync.Mutex
	got  map[string][]byte // by place
}

func open(t *testing.T, lim Limits) *shop {
	t.Helper()
	s := &shop{t: t, temp: t.TempDir(), got: map[string][]byte{}}
	var err error
	s.Server, err = Start(Options{IP: netip.MustParseAddr("127.0.0.1"), Temp: s.temp, Limits: lim,
		Boards: []Board{{ID: "A", Have: []intake.Part{intake.Face1}}, {ID: "B"}},
		Take: func(_ context.Context, p Picture) error {
			data, err := os.ReadFile(p.Path)
			s.mu.Lock()
			s.got[p.Place.String()] = data
			s.mu.Unlock()
			return err
		}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		s.Close()
		<-s.Done()
		if list, _ := os.ReadDir(s.temp); len(list) > 0 {
			t.Errorf("left behind: %v", list)
		}
	})
	return s
}

func browser() *http.Client {
	jar, _ := cookiejar.New(nil)
	return &http.Client{Jar: jar, Timeout: 20 * time.Second}
}

func (s *shop) get(c *http.Client, url string) (int, string) {
	s.t.Helper()
	r, err := c.Get(url)
	if err != nil {
		s.t.Fatal(err)
	}
	defer r.Body.Close()
	text, _ := io.ReadAll(r.Body)
	return r.StatusCode, string(text)
}

type sent struct {
	name string
	data []byte
}

func formOf(board, part string, files ...sent) (string, []byte) {
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	m.WriteField("board", board)
	m.WriteField("part", part)
	for _, f := range files {
		h := textproto.MIMEHeader{}
		h.Set("Content-Disposition", multipart.FileContentDisposition("picture", f.name))
		h.Set("Content-Type", "image/jpeg") // what the sender says counts for nothing
		w, _ := m.CreatePart(h)
		w.Write(f.data)
	}
	m.Close()
	return m.FormDataContentType(), b.Bytes()
}

func (s *shop) send(c *http.Client, change func(*http.Request), board, part string, files ...sent) (int, string) {
	s.t.Helper()
	kind, body := formOf(board, part, files...)
	r, _ := http.NewRequest("POST", s.URL(), bytes.NewReader(body))
	r.Header.Set("Content-Type", kind)
	r.Header.Set("Origin", "http://"+s.host)
	if change != nil {
		change(r)
	}
	a, err := c.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	defer a.Body.Close()
	text, _ := io.ReadAll(a.Body)
	return a.StatusCode, string(text)
}

func (s *shop) want(code int, text string, wantCode int, wantText string) {
	s.t.Helper()
	if code != wantCode || !strings.Contains(text, wantText) {
		s.t.Errorf("status %d, want %d with %q:\n%s", code, wantCode, wantText, text[max(0, strings.Index(text, "<body>")):])
	}
}

func photo() []byte {
	var b bytes.Buffer
	jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30)), nil)
	return b.Bytes()
}

func TestTakes(t *testing.T) {
	s := open(t, Limits{})
	c := browser()
	code, text := s.get(c, s.URL())
	s.want(code, text, 200, `<option value="A">board A, face 1 ✓</option>`)
	code, text = s.send(c, nil, "", "face 1", sent{"../../<b>x.jpg", photo()})
	s.want(code, text, 200, "x.jpg: Arrived: board B, face 1.") // A has one
	if strings.Contains(text, "<b>") {
		t.Error("the sender's name is not escaped")
	}
	code, text = s.send(c, nil, "A", "face 1", sent{"1", photo()}, sent{"2", photo()}, sent{"3", photo()}, sent{"4", photo()})
	s.want(code, text, 200, "3: Arrived: board B, face 2.")
	s.want(code, text, 200, "4: Not taken: there is no board or face left")
	for _, at := range []string{"board A, face 1", "board A, face 2", "board B, face 1", "board B, face 2"} {
		if !bytes.Equal(s.got[at], photo()) {
			t.Errorf("%s did not come as it was sent", at)
		}
	}
	if st := s.State(); st.Arrived != 4 || st.Refused != 1 || !st.Claimed {
		t.Errorf("state %+v", st)
	}
}

func TestRefuses(t *testing.T) {
	s := open(t, Limits{Picture: 1000 + int64(len(photo()))})
	c := browser()
	code, text := s.get(c, "http://"+s.host+"/")
	s.want(code, text, 404, "nothing here")
	code, text = s.get(c, "http://"+s.host+"/AAAAAAAAAAAAAAAAAAAAAA/")
	s.want(code, text, 404, "nothing here")
	code, text = s.send(c, nil, "A", "face 1", sent{"x", photo()})
	s.want(code, text, 403, "did not open the page")
	s.get(c, s.URL())
	code, text = s.get(browser(), s.URL())
	s.want(code, text, 403, "This code has been used")
	code, text = s.send(browser(), nil, "A", "face 1", sent{"x", photo()})
	s.want(code, text, 403, "did not open the page")
	code, text = s.send(c, func(r *http.Request) { r.Host = "pictures.example" }, "A", "face 1", sent{"x", photo()})
	s.want(code, text, 421, "not the address")
	for _, o := range []string{"", "null", "http://pictures.example", "https://" + s.host} {
		code, text = s.send(c, func(r *http.Request) { r.Header.Set("Origin", o) }, "A", "face 1", sent{"x", photo()})
		s.want(code, text, 403, "from another page")
	}
	code, text = s.send(c, func(r *http.Request) { r.Method = "PUT" }, "A", "face 1")
	s.want(code, text, 405, "only shows its form")
	code, text = s.send(c, func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") }, "A", "face 1")
	s.want(code, text, 415, "no form")
	for _, f := range []struct {
		data []byte
		want string
	}{
		{[]byte("a shopping list"), "Not taken: "},
		{[]byte("%PDF-1.7\n"), "Not taken: "},
		{nil, "Not taken: "},
		{bomb(), "Not taken: "},
		{append(photo(), make([]byte, 2000)...), "larger than"},
	} {
		code, text = s.send(c, nil, "A", "face 1", sent{"x.jpg", f.data})
		s.want(code, text, 200, f.want)
	}
	code, text = s.send(c, nil, "Z", "face 1", sent{"x.jpg", photo()})
	s.want(code, text, 200, "no board or face left")
	code, text = s.send(c, nil, "A", "face 3", sent{"x.jpg", photo()})
	s.want(code, text, 200, "no board or face left")
	code, text = s.send(c, nil, "A", "face 1")
	s.want(code, text, 200, "No picture was chosen")
	if len(s.got) != 0 {
		t.Errorf("taken all the same: %d", len(s.got))
	}
}

// bomb is a PNG whose header says 60 000 x 60 000 pixels: bytes by the PNG
// standard, signature and IHDR, then what would be 10 GB when unpacked.
func bomb() []byte {
	return []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\xea\x60\x00\x00\xea\x60\x08\x02\x00\x00\x00\x00\x00\x00\x00")
}

func TestBounds(t *testing.T) {
	s := open(t, Limits{Count: 1, Total: 20_000})
	c := browser()
	s.get(c, s.URL())
	code, text := s.send(c, nil, "A", "face 1", sent{"x", photo()}, sent{"y", photo()})
	s.want(code, text, 200, "1 picture arrived already")
	code, text = s.send(c, nil, "A", "face 1", sent{"x", make([]byte, 30_000)})
	s.want(code, text, 413, "was sent in all")
}

// A browser reads the answer when it has sent all. What is refused at once is read
// to its end: a sender of 70 MB gets the words and not a broken connection.
func TestLargeRefused(t *testing.T) {
	s := open(t, Limits{Total: 1 << 20})
	c := browser()
	s.get(c, s.URL())
	kind, body := formOf("A", "face 1", sent{"x", make([]byte, 70<<20)})
	at, _ := url.Parse(s.URL())
	for _, f := range []struct{ cookie, code, words string }{
		{"", "403", "did not open the page"},
		{c.Jar.Cookies(at)[0].String(), "413", "More than 1 MB was sent in all"},
	} {
		l, err := net.Dial("tcp", s.host)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(l, "POST %s HTTP/1.1\r\nHost: %s\r\nOrigin: http://%s\r\nCookie: %s\r\nContent-Type: %s\r\nContent-Length: %d\r\n\r\n",
			at.Path, s.host, s.host, f.cookie, kind, len(body))
		if _, err := l.Write(body); err != nil {
			t.Errorf("cut off while sending: %v", err)
		}
		text, err := io.ReadAll(l)
		if err != nil || !strings.HasPrefix(string(text), "HTTP/1.1 "+f.code) || !strings.Contains(string(text), f.words) {
			t.Errorf("%v, %s, want %s with %q", err, text, f.code, f.words)
		}
		l.Close()
	}
}

// More than the bound is not read, whoever sends it.
func TestDrainEnds(t *testing.T) {
	s := open(t, Limits{Drain: 1000})
	body := &endless{}
	r := httptest.NewRequest("POST", s.path(), body)
	r.Host = s.host
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	s.want(w.Code, w.Body.String(), 403, "did not open the page")
	if body.n != 1000 {
		t.Errorf("%d bytes were read", body.n)
	}
}

// endless never ends, and counts.
type endless struct{ n int }

func (e *endless) Read(p []byte) (int, error) {
	e.n += len(p)
	return len(p), nil
}

func TestSlow(t *testing.T) {
	s := open(t, Limits{Abreast: 1, Stall: time.Second})
	c := browser()
	s.get(c, s.URL())
	kind, body := formOf("A", "face 1", sent{"x", photo()})
	from, to := io.Pipe()
	r, _ := http.NewRequest("POST", s.URL(), from)
	r.Header.Set("Content-Type", kind)
	r.Header.Set("Origin", "http://"+s.host)
	end := make(chan struct{})
	go func() {
		defer close(end)
		a, err := c.Do(r)
		if err != nil {
			return // cut off: as good
		}
		defer a.Body.Close()
		if a.StatusCode != 400 {
			t.Errorf("status %d", a.StatusCode)
		}
	}()
	to.Write(body[:len(body)/2])
	for s.busyNow() == 0 { // until the server has begun on it
		time.Sleep(time.Millisecond)
	}
	code, text := s.send(c, nil, "A", "face 1", sent{"y", photo()})
	s.want(code, text, 503, "still on their way")
	for s.busyNow() > 0 { // ends by the stall alone; the test's own limit else
		time.Sleep(10 * time.Millisecond)
	}
	to.Close()
	<-end
	if len(s.got) != 0 {
		t.Error("half a picture was taken")
	}
	code, text = s.send(c, nil, "A", "face 1", sent{"y", photo()})
	s.want(code, text, 200, "y: Arrived")
}

func (s *Server) busyNow() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.busy
}

func TestClosesByItself(t *testing.T) {
	s := open(t, Limits{Idle: 50 * time.Millisecond})
	<-s.Done()
	if st := s.State(); !st.Over || !strings.Contains(st.OverWhy, "by itself") {
		t.Errorf("state %+v", st)
	}
	if _, err := browser().Get(s.URL()); err == nil {
		t.Error("still listens")
	}
}

func TestStartRefuses(t *testing.T) {
	for _, ip := range []string{"0.0.0.0", "8.8.8.8", "169.254.1.1", "172.32.0.1", "::"} {
		if _, err := Start(Options{IP: netip.MustParseAddr(ip), Boards: []Board{{ID: "A"}}}); err == nil {
			t.Errorf("listens at %s", ip)
		}
	}
}

func TestSweep(t *testing.T) {
	temp := t.TempDir()
	mine, err := newSpool(temp)
	if err != nil {
		t.Fatal(err)
	}
	if st, _ := os.Stat(mine); st.Mode().Perm() != 0o700 {
		t.Errorf("mode %v", st.Mode())
	}
	old, _ := newSpool(temp)
	text, _ := os.ReadFile(old + "/" + ownerFile)
	// No process of Linux has this number: pid_max is at most 2^22.
	os.WriteFile(old+"/"+ownerFile, bytes.Replace(text, []byte(`"pid":`), []byte(`"pid":5000000,"was":`), 1), 0o600)
	Sweep(temp)
	if _, err := os.Stat(mine); err != nil {
		t.Error("removed the folder of a program that lives")
	}
	if _, err := os.Stat(old); err == nil {
		t.Error("left the folder of a program that is gone")
	}
}
