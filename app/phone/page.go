package phone

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"
	"net/http"

	"heartside/app/intake"
	"heartside/model/say"
)

//go:embed page.css
var css string

//go:embed page.html
var html string

// policy lets the page use its own style and send its own form, and nothing
// else: no script, no picture, no frame.
var policy = "default-src 'none'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; style-src 'sha256-" + hash(css) + "'"

func hash(s string) string {
	sum := sha256.Sum256([]byte(s))
	return base64.StdEncoding.EncodeToString(sum[:])
}

var pages = template.Must(template.New("page").Parse(html))

// shownPage is what a page shows.
type shownPage struct {
	CSS     template.CSS
	Words   words
	Trouble string // where there is no form
	Results []result
	Boards  []option
	Parts   []option
}

// option is a choice of a list.
type option struct {
	Value, Text string
	Now         bool // is chosen
}

// form shows the form, and what became of what was sent last.
func (s *Server) form(w http.ResponseWriter) {
	p := shownPage{Words: pageWords(s.lim)}
	s.mu.Lock()
	p.Results = s.results
	p.Boards = append(p.Boards, option{Text: say.T("the next board without one")})
	for _, b := range s.opt.Boards {
		text := say.F("board %s", b.ID)
		for i, part := range intake.Parts() {
			if s.have[intake.Place{Board: b.ID, Part: part}] {
				text += [...]string{say.T(", face 1 ✓"), say.T(", face 2 ✓"), say.T(", end ✓"), say.T(", end ✓")}[i]
			}
		}
		p.Boards = append(p.Boards, option{b.ID, text, b.ID == s.board})
	}
	for _, part := range intake.Parts() {
		p.Parts = append(p.Parts, option{part.String(), part.String(), part == s.part})
	}
	s.mu.Unlock()
	write(w, http.StatusOK, p)
}

// refuse says why there is no form.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, code int, text string) {
	if r.Method == http.MethodPost {
		s.drain(w, r)
	}
	write(w, code, shownPage{Words: pageWords(s.lim), Trouble: text})
}

func write(w http.ResponseWriter, code int, p shownPage) {
	p.CSS = template.CSS(css)
	var b bytes.Buffer
	if err := pages.Execute(&b, p); err != nil {
		http.Error(w, say.T("The page could not be made."), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(code)
	_, _ = w.Write(b.Bytes()) // the phone may have gone
}
