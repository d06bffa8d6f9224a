package phone

import (
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"

	"heartside/app/intake"
	"heartside/app/picture"
	"heartside/model/say"
)

// result is what became of one picture.
type result struct {
	Name string // the sender's, for showing
	Text string
	Good bool
}

// steady counts and times what is read.
type steady struct {
	s     *Server
	r     io.Reader
	ctl   *http.ResponseController
	ends  time.Time
	broke bool // the connection, or the time was over
}

// errTotal ends an upload that goes over what may be sent in all.
var errTotal = say.Later("more was sent than this page takes in all")

// Read implements io.Reader: every read has to bring something in time.
func (b *steady) Read(p []byte) (int, error) {
	at := time.Now().Add(b.s.lim.Stall)
	if at.After(b.ends) {
		at = b.ends
	}
	_ = b.ctl.SetReadDeadline(at) // not supported by recorders of tests
	n, err := b.r.Read(p)
	if err != nil && err != io.EOF {
		b.broke = true
	}
	b.s.mu.Lock()
	defer b.s.mu.Unlock()
	b.s.spent += int64(n)
	if b.s.spent > b.s.lim.Total {
		return 0, errTotal
	}
	return n, err
}

// upload takes the pictures of a form, one after the other as they come.
func (s *Server) upload(w http.ResponseWriter, r *http.Request) {
	if !s.begin() {
		s.refuse(w, r, http.StatusServiceUnavailable, say.T("Other pictures are still on their way. Wait until they are in, then send again."))
		return
	}
	defer s.ended()
	body := r.Body
	in := &steady{s: s, r: body, ctl: http.NewResponseController(w), ends: time.Now().Add(s.lim.Upload)}
	r.Body = struct {
		io.Reader
		io.Closer
	}{in, body}
	form, err := r.MultipartReader()
	r.Body = body // for what is refused; the form has the other
	if err != nil {
		s.refuse(w, r, http.StatusUnsupportedMediaType, say.T("This is no form with pictures."))
		return
	}
	list, err := s.parts(r, form)
	s.mu.Lock()
	s.results = list
	s.mu.Unlock()
	switch {
	case errors.Is(err, errTotal):
		s.refuse(w, r, http.StatusRequestEntityTooLarge, say.F("More than %s was sent in all. In the program press Stop and open the page again.", size(s.lim.Total)))
	case err != nil:
		if in.broke { // nothing more comes
			r.Body = http.NoBody
		}
		s.refuse(w, r, http.StatusBadRequest, say.F("The sending broke off. %s arrived. Go back and send the rest again.", count(good(list))))
	default:
		http.Redirect(w, r, s.path(), http.StatusSeeOther)
	}
}

// most fields a form may have besides its pictures.
const mostFields = 20

// parts reads a form to its end.
func (s *Server) parts(r *http.Request, form *multipart.Reader) ([]result, error) {
	var out []result
	board, part, chosen := "", intake.NoPart, false
	var last intake.Place
	for n := 0; ; n++ {
		p, err := form.NextPart()
		if err == io.EOF {
			if len(out) == 0 {
				out = append(out, result{Text: say.T("No picture was chosen.")})
			}
			s.offer(board, part, last)
			return out, nil
		}
		if err != nil {
			return out, err
		}
		if n > s.lim.Count+mostFields {
			return out, say.Error("a form with too many parts")
		}
		switch p.FormName() {
		case "board", "part":
			text, err := io.ReadAll(io.LimitReader(p, 200))
			if err != nil {
				return out, err
			}
			if p.FormName() == "board" {
				board, chosen = string(text), true
				continue
			}
			for _, q := range intake.Parts() {
				if string(text) == q.String() {
					part = q
				}
			}
		case "picture":
			if p.FileName() == "" {
				continue // nothing chosen
			}
			var at intake.Place
			ok := chosen && part != intake.NoPart
			switch {
			case !ok:
			case last.Board != "":
				at, ok = s.after(last)
			default:
				at, ok = s.placeFor(board, part)
			}
			res, err := s.one(r, p, at, ok)
			if err != nil {
				return out, err
			}
			if res.Good {
				last = at
			}
			out = append(out, res)
		}
	}
}

// one takes one picture. The error is of the connection; what is wrong with
// the picture is in the result.
func (s *Server) one(r *http.Request, p *multipart.Part, at intake.Place, ok bool) (result, error) {
	res := result{Name: shown(p.FileName())}
	no := func(text string) (result, error) {
		res.Text = text
		s.note(res)
		return res, nil
	}
	s.mu.Lock()
	full := s.state.Arrived >= s.lim.Count
	s.number++
	number := s.number
	s.mu.Unlock()
	if full {
		return no(say.F("Not taken: %s arrived already, more are not taken at a time. In the program press Stop and open the page again.", count(s.lim.Count)))
	}
	if !ok {
		return no(say.T("Not taken: there is no board or face left for it. Choose its board and face, then send it again."))
	}
	dir := filepath.Join(s.dir, fmt.Sprint(number))
	if err := os.Mkdir(dir, 0o700); err != nil {
		return no(say.T("Not taken: the computer has no room for it."))
	}
	defer os.RemoveAll(dir)
	raw := filepath.Join(dir, "arriving")
	f, err := os.OpenFile(raw, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
	if err != nil {
		return no(say.T("Not taken: the computer has no room for it."))
	}
	defer f.Close()
	from := &noting{r: p}
	n, err := io.Copy(f, io.LimitReader(from, s.lim.Picture+1))
	switch {
	case from.err != nil:
		return res, from.err
	case err != nil:
		return no(say.T("Not taken: the computer has no room for it."))
	case n > s.lim.Picture:
		return no(say.F("Not taken: it is larger than %s. Take it with a lower resolution.", size(s.lim.Picture)))
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return no(say.T("Not taken: the computer could not read it again."))
	}
	info, err := picture.Stat(f, picture.Limits{Bytes: s.lim.Picture})
	if err != nil {
		return no(say.F("Not taken: %s.", say.Err(err)))
	}
	f.Close()
	path := filepath.Join(dir, fileName(at, info.Format))
	if err := os.Rename(raw, path); err != nil {
		return no(say.T("Not taken: the computer could not name it."))
	}
	s.taking.Lock()
	defer s.taking.Unlock()
	if err := s.opt.Take(s.ctx, Picture{Place: at, Path: path}); err != nil {
		return no(say.F("Not taken: %s.", say.Err(err)))
	}
	s.mu.Lock()
	s.have[at] = true
	s.mu.Unlock()
	res.Good, res.Text = true, say.F("Arrived: %s.", at)
	s.note(res)
	return res, nil
}

// noting keeps the error of what is read apart from that of what is written.
type noting struct {
	r   io.Reader
	err error
}

func (n *noting) Read(p []byte) (int, error) {
	k, err := n.r.Read(p)
	if err != nil && err != io.EOF {
		n.err = err
	}
	return k, err
}

// note counts a result.
func (s *Server) note(res result) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if res.Good {
		s.state.Arrived++
	} else {
		s.state.Refused++
	}
	s.state.Last = strings.TrimPrefix(res.Name+": ", ": ") + res.Text
}

// signs are how the names of pictures tell what they show; see intake.Pair.
var signs = map[intake.Part]string{intake.Face1: "1", intake.Face2: "2", intake.EndA: "a", intake.EndB: "b"}

// fileName names a picture after its place, in letters and figures alone.
func fileName(at intake.Place, format string) string {
	id := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return '_'
	}, at.Board)
	if len(id) > 40 {
		id = strings.ToValidUTF8(id[:40], "")
	}
	ext := map[string]string{"JPEG": ".jpg", "PNG": ".png", "WebP": ".webp", "TIFF": ".tif", "HEIC": ".heic"}[format]
	return "board-" + id + "-" + signs[at.Part] + ext
}

// shown is a sender's name fit to be shown: one short line.
func shown(name string) string {
	name = strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return -1
	}, strings.ToValidUTF8(name, "?"))
	if list := []rune(name); len(list) > 60 {
		return string(list[:60]) + "…"
	}
	return name
}

func good(list []result) (n int) {
	for _, r := range list {
		if r.Good {
			n++
		}
	}
	return n
}

func count(n int) string {
	if n == 1 {
		return say.T("1 picture")
	}
	return say.F("%d pictures", n)
}
