package phone

import (
	"bytes"
	"context"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"os"
	"testing"
)

// FuzzUpload sends anything for a form: the handler answers, takes only files
// in its own folder, and leaves nothing there.
func FuzzUpload(f *testing.F) {
	kind, body := formOf("A", "face 1", sent{"x.jpg", photo()}, sent{"y", bomb()})
	f.Add(kind, body)
	f.Add(kind, body[:len(body)/2])
	f.Add("multipart/form-data; boundary=x", []byte("--x\r\nContent-Disposition: form-data; name=picture; filename=\"../../a\"\r\n\r\n\r\n--x--"))
	temp := f.TempDir()
	s, err := Start(Options{IP: netip.MustParseAddr("127.0.0.1"), Temp: temp, Boards: []Board{{ID: "A"}},
		Limits: Limits{Total: 1 << 50, Count: 1 << 40},
		Take: func(_ context.Context, p Picture) error {
			_, err := os.Stat(p.Path)
			return err
		}})
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { s.Close(); <-s.Done() })
	s.cookie = "known"
	f.Fuzz(func(t *testing.T, kind string, body []byte) {
		r := httptest.NewRequest("POST", s.path(), bytes.NewReader(body))
		r.Host = s.host
		r.Header.Set("Content-Type", kind)
		r.Header.Set("Origin", "http://"+s.host)
		r.AddCookie(&http.Cookie{Name: cookieName, Value: "known"})
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != 303 && w.Code != 400 && w.Code != 415 {
			t.Errorf("status %d", w.Code)
		}
		if list, _ := os.ReadDir(s.dir); len(list) != 1 { // the owner's note
			t.Errorf("left behind: %v", list)
		}
	})
}
