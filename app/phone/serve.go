package phone

import (
	"crypto/subtle"
	"net/http"
	"strings"

	"heartside/model/say"
)

// cookieName is of the cookie that tells the first browser from others.
const cookieName = "heartside-phone"

// ServeHTTP implements http.Handler.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("X-Content-Type-Options", "nosniff")
	// Not no-referrer: a form would then send the origin "null".
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Content-Security-Policy", policy)
	if s.State().Over {
		s.refuse(w, r, http.StatusGone, say.T("This page is closed. Open it again in the program."))
		return
	}
	// A page elsewhere whose name was made to point here has another host.
	if r.Host != s.host {
		s.refuse(w, r, http.StatusMisdirectedRequest, say.T("This is not the address the program shows."))
		return
	}
	token, rest, _ := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
	if !same(token, s.token) || rest != "" {
		s.refuse(w, r, http.StatusNotFound, say.T("There is nothing here. Look at the address the program shows."))
		return
	}
	switch r.Method {
	case http.MethodGet:
		if !s.claim(w, r) {
			s.refuse(w, r, http.StatusForbidden, say.T("This code has been used, by this or another browser. In the program press Stop and open the page again for a new code."))
			return
		}
		s.form(w)
	case http.MethodPost:
		if !s.known(r) {
			s.refuse(w, r, http.StatusForbidden, say.T("This browser did not open the page. In the program press Stop and open the page again for a new code."))
			return
		}
		if r.Header.Get("Origin") != "http://"+s.host {
			s.refuse(w, r, http.StatusForbidden, say.T("This was sent from another page."))
			return
		}
		s.upload(w, r)
	default:
		h.Set("Allow", "GET, POST")
		s.refuse(w, r, http.StatusMethodNotAllowed, say.T("This page only shows its form and takes pictures."))
	}
}

// same compares in a time that does not tell how much is right.
func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// known reports whether a request comes from the browser that came first.
func (s *Server) known(r *http.Request) bool {
	c, err := r.Cookie(cookieName)
	s.mu.Lock()
	defer s.mu.Unlock()
	return err == nil && s.cookie != "" && same(c.Value, s.cookie)
}

// claim gives the page to the first browser that asks.
func (s *Server) claim(w http.ResponseWriter, r *http.Request) bool {
	if s.known(r) {
		return true
	}
	fresh, err := secret()
	if err != nil {
		return false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.cookie != "" {
		return false
	}
	s.cookie, s.state.Claimed = fresh, true
	s.state.Last = say.T("A browser has opened the page.")
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: fresh, Path: s.path(), HttpOnly: true, SameSite: http.SameSiteStrictMode})
	return true
}
