package ui

import (
	"math"
	"slices"
	"strings"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// cellKind is how far a face is, as the rack counts.
type cellKind int

const (
	cellEmpty   cellKind = iota // no photograph
	cellWaiting                 // not begun, or stopped
	cellReading
	cellFailed
	cellLook // read, not looked at
	cellChecked
)

// cellState is what the rack says of a part of a board.
type cellState struct {
	kind  cellKind
	sign  string
	words string
	done  float64 // share of the reading, while reading
	doubt bool    // the program itself is not sure
}

// text is the state as it is shown: the sign first, so that nothing hangs on
// colour alone. What is long is cut; the status line has all of it.
func (c cellState) text() string {
	words := []rune(c.words)
	if len(words) <= mostWords {
		return c.sign + " " + c.words
	}
	cut := string(words[:mostWords])
	if i := strings.LastIndexAny(cut, " "); i > mostWords/2 {
		cut = cut[:i]
	}
	return c.sign + " " + strings.TrimRight(cut, " ;,:") + "…"
}

// mostWords is how many letters of a state a cell shows.
const mostWords = 62

// faceState tells how far face 1 or 2 of a board is.
func faceState(ses *session.Session, b *model.Board, face int) cellState {
	f := &b.Faces[face-1]
	n, heard := ses.News(intake.Place{Board: b.ID, Part: intake.Part(face)})
	heard = heard && n.Job.Name == f.Photo
	switch {
	case f.Photo == "" && len(f.Zones) > 0:
		return cellState{kind: cellEmpty, sign: "○", words: say.T("no photograph, entered with a tape")}
	case f.Photo == "":
		return cellState{kind: cellEmpty, sign: "○", words: say.T("no photograph")}
	case f.Open() && heard && n.Step == intake.Failed:
		return cellState{kind: cellFailed, sign: "✕", words: n.Step.String() + ": " + say.Err(n.Err)}
	case f.Open() && heard && n.Step == intake.Stopped:
		return cellState{kind: cellWaiting, sign: "‖", words: say.T("stopped, waits to be read")}
	case f.Open() && heard && !n.Step.Ended():
		c := cellState{kind: cellReading, sign: "▸", words: n.Step.String(), done: n.Step.Progress()}
		if n.Step == intake.Waiting {
			c.sign, c.kind = "…", cellWaiting
		}
		return c
	case f.Open():
		return cellState{kind: cellWaiting, sign: "…", words: say.T("waiting to be read")}
	case f.Split == nil && f.Corners == nil:
		return cellState{kind: cellFailed, sign: "✕", words: say.T("no corners yet: Enter gives them by hand")}
	case f.Split == nil:
		return cellState{kind: cellChecked, sign: "✓", words: say.T("checked, drawn by hand")}
	case f.Split.By == model.SplitChecked:
		return cellState{kind: cellChecked, sign: "✓", words: say.T("checked")}
	}
	return foundState(f, n, heard, ses.ColourDoubts(b.ID, face))
}

// unsure is below which share a corner or a split is told as doubtful: an
// engineering choice.
const unsure = 0.6

// foundState is that of a face read by the program and not looked at.
func foundState(f *model.Face, n intake.News, heard bool, doubts []string) cellState {
	doubts = slices.Clone(doubts)
	if heard && n.Reading != nil {
		doubts = append(doubts, n.Reading.Doubts...)
		least := 1.0
		for _, c := range n.Reading.Confidence {
			least = min(least, c)
		}
		if least < unsure && len(n.Reading.Doubts) == 0 {
			doubts = append(doubts, say.T("corners unsure"))
		}
	}
	if f.Split.Sure < unsure && len(doubts) == 0 {
		doubts = append(doubts, say.F("the split is only %s sure", whole(f.Split.Sure)))
	}
	if len(doubts) > 0 {
		return cellState{kind: cellLook, sign: "⚠", words: say.F("look: %s", strings.Join(doubts, "; ")), doubt: true}
	}
	return cellState{kind: cellLook, sign: "◐", words: say.F("found, %s sure: look and accept", whole(f.Split.Sure))}
}

// whole is a share in whole per cent.
func whole(v float64) string { return say.Print("%.0f %%", math.Round(100*v)) }

// endState tells whether an end has its photograph, and whether it was read; 0
// is the marked end.
func endState(b *model.Board, end int) cellState {
	if b.Ends[end].Photo == "" {
		return cellState{kind: cellEmpty, sign: "○", words: say.T("none")}
	}
	if b.Ends[end].Corners == nil {
		return cellState{kind: cellLook, sign: "◐", words: say.T("to read")}
	}
	return cellState{kind: cellChecked, sign: "✓", words: say.T("read")}
}

// tally counts the faces of the rack.
type tally struct {
	boards, checked, look, bare, open, failed int
}

func tallyOf(ses *session.Session) tally {
	t := tally{}
	for _, b := range ses.Project().Boards {
		t.boards++
		for f := 1; f <= 2; f++ {
			switch faceState(ses, b, f).kind {
			case cellEmpty:
				t.bare++
			case cellWaiting, cellReading:
				t.open++
			case cellFailed:
				t.failed++
			case cellLook:
				t.look++
			case cellChecked:
				t.checked++
			}
		}
	}
	return t
}

// text is the line over the rack.
func (t tally) text() string {
	if t.boards == 0 {
		return say.T("No boards yet")
	}
	out := []string{say.Count(t.boards, say.T("board"), say.T("boards")), say.F("%s checked", say.Count(t.checked, say.T("face"), say.T("faces"))), say.F("%s to look at", itoa(t.look))}
	if t.open > 0 {
		out = append(out, say.F("%s to be read", itoa(t.open)))
	}
	if t.failed > 0 {
		out = append(out, say.F("%s could not be read", itoa(t.failed)))
	}
	return strings.Join(append(out, say.F("%s without a photograph", itoa(t.bare))), " · ")
}
