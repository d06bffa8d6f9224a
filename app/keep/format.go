package keep

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"heartside/model"
	"heartside/model/file"
	"heartside/model/say"
)

// A journal is a line that names the format and its version, a line with the
// SHA-256 of all that follows, a line of JSON and the texts of the states: that
// on screen in full, each earlier one as what differs from the one after it.
const (
	intro          = "heartside-journal "
	journalVersion = 1
)

// Limits on what is read, checked before memory is taken for it.
const (
	maxJournal = 128 << 20
	maxText    = 64 << 20
	maxStates  = 1000
)

// Why a journal is not trusted.
var (
	ErrForeign = say.Later("it is not a journal of Heartside")
	ErrTorn    = say.Later("it is torn or was changed: its checksum does not agree")
	ErrNewer   = say.Later("it was written by a newer Heartside: open it with that one")
)

type header struct {
	Owner    Owner     `json:"owner"`
	When     time.Time `json:"when"`
	Path     string    `json:"path,omitempty"`
	Folder   string    `json:"folder,omitempty"`
	Source   string    `json:"source,omitempty"`
	LookOnly bool      `json:"look-only,omitempty"`
	Panel    string    `json:"panel,omitempty"`
	Board    string    `json:"board,omitempty"`
	Base     base      `json:"base"`
	Saved    int       `json:"saved"`  // counted from the state on screen back, -1 none
	States   []piece   `json:"states"` // the one on screen first
}

type base struct {
	Size int64     `json:"size"`
	Time time.Time `json:"time"`
	Sum  string    `json:"sum,omitempty"`
}

// piece is a text as what differs from the one after it: so many bytes of its
// beginning and end, and Size bytes of its own between.
type piece struct {
	Label string `json:"label,omitempty"`
	Begin int    `json:"begin,omitempty"`
	End   int    `json:"end,omitempty"`
	Size  int    `json:"size"`
}

// encode writes a journal; text gives the text of a project.
func encode(w *Work, owner Owner, when time.Time, text func(*model.Project) []byte) []byte {
	h := header{
		Owner: owner, When: when, Path: w.Path, Folder: w.Folder, Source: w.Source, LookOnly: w.LookOnly, Panel: w.Panel, Board: w.Board,
		Base: base{Size: w.Base.Size, Time: w.Base.Time}, Saved: -1,
	}
	if !w.Base.None() {
		h.Base.Sum = hex.EncodeToString(w.Base.Sum[:])
	}
	if w.Saved >= 0 {
		h.Saved = len(w.States) - 1 - w.Saved
	}
	var texts bytes.Buffer
	var after []byte
	for i := len(w.States) - 1; i >= 0; i-- {
		t := text(w.States[i].Project)
		begin, end := common(after, t)
		texts.Write(t[begin : len(t)-end])
		h.States = append(h.States, piece{w.States[i].Label, begin, end, len(t) - begin - end})
		after = t
	}
	line, err := json.Marshal(h)
	if err != nil { // a time beyond the year 9999
		h.When, h.Base.Time = time.Time{}, time.Time{}
		line, _ = json.Marshal(h)
	}
	body := append(append(line, '\n'), texts.Bytes()...)
	sum := sha256.Sum256(body)
	return append([]byte(intro+strconv.Itoa(journalVersion)+"\n"+hex.EncodeToString(sum[:])+"\n"), body...)
}

// common returns how many bytes two texts share at the beginning and, beyond
// those, at the end.
func common(a, b []byte) (begin, end int) {
	n := min(len(a), len(b))
	for begin < n && a[begin] == b[begin] {
		begin++
	}
	for end < n-begin && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	return
}

// decode reads a journal. The error is or wraps ErrForeign, ErrTorn, ErrNewer,
// or says what of a state cannot be read.
func decode(data []byte) (*Journal, error) {
	first, rest, ok := bytes.Cut(data, []byte("\n"))
	number, ours := strings.CutPrefix(string(first), intro)
	version, err := strconv.Atoi(number)
	switch {
	case len(data) == 0 || strings.HasPrefix(intro, string(data)): // no more than a beginning
		return nil, ErrTorn
	case !ours || err != nil || version < 1:
		return nil, ErrForeign
	case version > journalVersion:
		return nil, ErrNewer
	}
	sum, body, _ := bytes.Cut(rest, []byte("\n"))
	if got := sha256.Sum256(body); !ok || hex.EncodeToString(got[:]) != string(sum) {
		return nil, ErrTorn
	}
	line, texts, _ := bytes.Cut(body, []byte("\n"))
	var h header
	if err := json.Unmarshal(line, &h); err != nil {
		return nil, fmt.Errorf("%w (%v)", ErrForeign, err)
	}
	j := &Journal{Owner: h.Owner, When: h.When, Work: Work{Path: h.Path, Folder: h.Folder, Source: h.Source, LookOnly: h.LookOnly, Panel: h.Panel, Board: h.Board, Saved: -1}}
	if j.Base, err = h.Base.print(); err != nil {
		return nil, err
	}
	n := len(h.States)
	if n == 0 || n > maxStates || h.Saved >= n {
		return nil, say.Errorf("%w (%d states)", ErrForeign, n)
	}
	if h.Saved >= 0 {
		j.Saved = n - 1 - h.Saved
	}
	j.States = make([]model.State, n)
	var after []byte
	for i, p := range h.States {
		if p.Begin < 0 || p.End < 0 || p.Size < 0 || p.Size > len(texts) || p.Begin > len(after) || p.End > len(after) || p.Begin+p.End+p.Size > maxText {
			return nil, say.Errorf("%w (state %d)", ErrForeign, i)
		}
		t := append(append(append(make([]byte, 0, p.Begin+p.Size+p.End), after[:p.Begin]...), texts[:p.Size]...), after[len(after)-p.End:]...)
		texts, after = texts[p.Size:], t
		project, _, err := file.Read(t, "journal")
		var newer *file.VersionError
		if errors.As(err, &newer) {
			return nil, ErrNewer
		}
		if err != nil {
			return nil, say.Errorf("state %d of it cannot be read: %w", i, err)
		}
		j.States[n-1-i] = model.State{Label: p.Label, Project: project}
	}
	share(j.States)
	return j, nil
}

func (b base) print() (file.Print, error) {
	if b.Sum == "" {
		return file.Print{}, nil
	}
	sum, err := hex.DecodeString(b.Sum)
	if err != nil || len(sum) != sha256.Size {
		return file.Print{}, say.Errorf("%w (sum %q)", ErrForeign, b.Sum)
	}
	return file.Print{Size: b.Size, Time: b.Time, Sum: [sha256.Size]byte(sum)}, nil
}
