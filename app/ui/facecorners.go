package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/say"
)

// faceLie is where a face lies in its photograph.
type faceLie struct {
	at       []geom.Point // corners set so far, pixels
	bow      float64      // of the lens
	trust    [4]cornerTrust
	residual float64      // mm
	measured bool         // residual is of these corners
	turned   bool         // by two corners from how the face was opened
	waney    bool         // the corners are of a rectangle about a board with waney edges
	ring     geom.Polygon // traced in that rectangle, mm; nil: to be traced
	size     geom.Point   // of the face, mm
}

// with returns the lie with a corner elsewhere, by the maker.
func (l faceLie) with(i int, at geom.Point) faceLie {
	l.at = slices.Clone(l.at)
	if i == len(l.at) {
		l.at = append(l.at, at)
	} else {
		l.at[i] = at
	}
	l.trust[i], l.measured, l.ring = cornerTrust{mine: true}, false, nil
	return l
}

// aboutTurned returns the lie with the marked end at the other side: each
// corner takes the name of the one across, so that they still go round
// anticlockwise.
func (l faceLie) aboutTurned() faceLie {
	if len(l.at) != 4 {
		return l
	}
	l.at = []geom.Point{l.at[2], l.at[3], l.at[0], l.at[1]}
	l.trust = [4]cornerTrust{l.trust[2], l.trust[3], l.trust[0], l.trust[1]}
	l.turned, l.ring = !l.turned, turnedRing(l.ring, l.size)
	return l
}

// view is the lie of a face with four corners.
func (l faceLie) view() photo.View {
	v := photo.View{Bow: l.bow}
	copy(v.Corners[:], l.at)
	return v
}

// same reports whether two lies square the face alike.
func (l faceLie) same(m faceLie) bool { return slices.Equal(l.at, m.at) && l.bow == m.bow }

// faceCorners is the step where the corners are set on the photograph.
type faceCorners struct {
	p       *facePage
	pic     *facePicker
	lie     faceLie
	used    faceLie   // that the squared face was made with
	past    []faceLie // to take back
	ahead   []faceLie // to do again
	snap    bool
	busy    string // what is being done in the background, "" nothing
	figures *field
	writing bool
	judged  bool
	tape    *faceTape
	sized   []sizeAct // of the board, to take back
	unsized []sizeAct // to do again
}

func newFaceCorners(p *facePage) *faceCorners {
	c := &faceCorners{p: p, snap: true}
	c.pic = newFacePicker(c)
	c.tape = &faceTape{c: c, hand: -1}
	c.figures = p.w.newField("", say.T("x,y, x,y, x,y, x,y in pixels of the picture"))
	c.figures.Scroll = fyne.ScrollHorizontalOnly
	c.figures.follow(c.read)
	c.figures.left = c.write
	return c
}

// begin shows the corners the face has, with what is known of them.
func (c *faceCorners) begin() {
	f := &c.p.base
	c.lie = faceLie{bow: f.Bow}
	if f.Corners != nil {
		c.lie.at = append(c.lie.at, f.Corners[:]...)
	}
	b := c.p.w.ses.Project().Board(c.p.board)
	c.startWaney(b != nil && b.Waney())
	n, ok := c.p.w.ses.News(intake.Place{Board: c.p.board, Part: intake.Part(c.p.face)})
	if r := n.Reading; ok && r != nil && f.Corners != nil && n.Job.Name == f.Photo && r.View.Corners == *f.Corners {
		c.lie.residual, c.lie.measured = r.Residual, r.Residual > 0
		for i, v := range r.Confidence {
			c.lie.trust[i] = cornerTrust{known: true, sure: v}
		}
	}
	c.used = c.lie
	c.write()
}

// set makes another lie the one shown, as an act that can be taken back.
func (c *faceCorners) set(l faceLie) {
	c.past, c.ahead, c.unsized = append(c.past, c.lie), nil, nil
	c.lie = l
	c.shown()
}

// follow shows a lie while a drag goes on; keep makes it an act.
func (c *faceCorners) follow(l faceLie) {
	c.lie = l
	c.shown()
}

func (c *faceCorners) keep(from faceLie) {
	if !from.same(c.lie) {
		c.past, c.ahead, c.unsized = append(c.past, from), nil, nil
		c.shown()
	}
}

func (c *faceCorners) undo() {
	if c.undoSize() {
		return
	}
	if n := len(c.past); n > 0 {
		c.ahead = append(c.ahead, c.lie)
		c.lie, c.past = c.past[n-1], c.past[:n-1]
		c.shown()
	}
}

func (c *faceCorners) redo() {
	if c.redoSize() {
		return
	}
	if n := len(c.ahead); n > 0 {
		c.past = append(c.past, c.lie)
		c.lie, c.ahead = c.ahead[n-1], c.ahead[:n-1]
		c.shown()
	}
}

// turn lays the board the other way round in the picture.
func (c *faceCorners) turn() {
	if len(c.lie.at) == 4 {
		c.set(c.lie.aboutTurned())
	}
}

func (c *faceCorners) shown() {
	c.write()
	c.pic.Refresh()
	c.p.show()
}

// write brings the figures in step with the picture.
func (c *faceCorners) write() {
	var out []string
	for _, q := range c.lie.at {
		out = append(out, fmt.Sprintf("%.1f,%.1f", q.X, q.Y))
	}
	if text := strings.Join(out, ", "); text != c.figures.Text {
		c.writing = true
		c.figures.SetText(text)
		c.writing = false
	}
}

// read brings the picture in step with the figures where they are corners.
func (c *faceCorners) read() {
	if c.writing {
		return
	}
	got, err := parseCorners(c.figures.Text, cornerNames(c.p.face))
	if err != nil {
		c.p.w.say(sentence(say.Err(err)))
		return
	}
	l := c.lie
	l.at, l.measured, l.ring = got[:], false, nil
	for i := range l.trust {
		l.trust[i] = cornerTrust{mine: true}
	}
	c.past, c.ahead, c.unsized = append(c.past, c.lie), nil, nil
	c.lie = l
	c.pic.Refresh()
	c.p.show()
}

// good says what speaks against squaring the face with these corners.
func (c *faceCorners) good() error {
	if c.p.img == nil {
		return say.Error("the photograph is not open")
	}
	var out []string
	for _, q := range c.lie.at {
		out = append(out, fmt.Sprintf("%.3f,%.3f", q.X, q.Y))
	}
	_, err := parseCorners(strings.Join(out, ", "), cornerNames(c.p.face))
	return err
}
