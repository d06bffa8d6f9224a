package tool

import (
	"math"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// moving drags a strip along and across its board, or onto another one.
type moving struct {
	hit   Hit
	strip model.Strip // as it was when the drag began
	board *model.Board
	grab  geom.Point // face-1 mm under the pointer when the drag began
	edit  model.Edit // what release would commit
}

func (moving) Busy() bool { return true }

func (m moving) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return done(h, nil)
		}
	case Release:
		return done(h, m.edit)
	case Drag:
		under := h.Hit(e.At)
		if under.Part.onBoard() && under.Board != m.board.ID {
			edit, sk := drop(h, m.hit.Panel, m.strip, under, e)
			m.edit = edit
			try(h, edit, sk)
			return m
		}
		d := toFace1(m.board, m.hit.Face, h.FaceAt(m.board.ID, m.hit.Face, e.At)).Sub(m.grab)
		if e.Mods.Shift {
			d = alongOrAcross(d)
		}
		s := m.strip
		s.X, s.Y = s.X+d.X, s.Y+d.Y
		var guides []Guide
		switch {
		case e.Mods.Control:
		case e.Mods.Shift:
			s, guides = snapAlong(h, m.hit.Panel, s, d)
		default:
			s, guides = h.Snap(m.hit.Panel, s)
		}
		m.edit = place(m.hit.Panel, s)
		try(h, m.edit, Sketch{Board: m.board.ID, Face: m.hit.Face, Guides: guides, Carried: s.ID})
	}
	return m
}

// alongOrAcross keeps the greater part of a displacement.
func alongOrAcross(d geom.Point) geom.Point {
	if abs(d.X) >= abs(d.Y) {
		return geom.Pt(d.X, 0)
	}
	return geom.Pt(0, d.Y)
}

// snapAlong snaps a strip in one direction only, that of a displacement.
func snapAlong(h Host, panel string, s model.Strip, d geom.Point) (model.Strip, []Guide) {
	l := d.Len()
	if l == 0 {
		return s, nil
	}
	dir := d.Mul(1 / l)
	t, all := h.Snap(panel, s)
	by := geom.Pt(t.X-s.X, t.Y-s.Y).Dot(dir)
	s.X, s.Y = s.X+by*dir.X, s.Y+by*dir.Y
	var guides []Guide
	for _, g := range all {
		// A line across the direction holds; one along it is not met.
		if v := g.B.Sub(g.A); abs(v.Cross(dir)) > 0.5*v.Len() {
			guides = append(guides, g)
		}
	}
	return s, guides
}

func place(panel string, s model.Strip) model.Edit {
	return model.PlaceStrip{Panel: panel, Strip: s.ID, Board: s.Board, X: s.X, Y: s.Y, Angle: s.Angle}
}

// drop lays a strip, straight, with its middle under the pointer.
func drop(h Host, panel string, s model.Strip, under Hit, e Event) (model.Edit, Sketch) {
	b := h.Project().Board(under.Board)
	if b == nil {
		return nil, Sketch{}
	}
	face := max(under.Face, 1)
	p := toFace1(b, face, h.FaceAt(b.ID, face, e.At))
	if under.Part == Lane {
		p.Y = b.Width / 2 // a folded board is too thin to aim across
	}
	s.Board, s.Angle = b.ID, 0
	s.X, s.Y = p.X-s.L/2, p.Y-s.W/2
	var guides []Guide
	if !e.Mods.Control {
		s.X = hold(s.X, 0, b.Length-s.L)
		s.Y = hold(s.Y, 0, b.Width-s.W)
		s, guides = h.Snap(panel, s)
	}
	return place(panel, s), Sketch{Board: b.ID, Face: face, Guides: guides, Carried: s.ID,
		Say: say.F("Release to lay it on board %s.", b.ID)}
}

// hold brings v between lo and hi, to the middle where they have crossed.
func hold(v, lo, hi float64) float64 {
	if hi < lo {
		return (lo + hi) / 2
	}
	return math.Min(math.Max(v, lo), hi)
}

// turning turns a strip on its board about its middle.
type turning struct {
	hit    Hit
	strip  model.Strip
	board  *model.Board
	centre geom.Point
	first  float64 // direction of the handle when the drag began, degrees
	edit   model.Edit
}

func newTurning(hit Hit, s model.Strip, b *model.Board, grab geom.Point) turning {
	c := centreOf(s)
	return turning{hit: hit, strip: s, board: b, centre: c, first: degrees(grab.Sub(c))}
}

func (turning) Busy() bool { return true }

func (t turning) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return done(h, nil)
		}
	case Release:
		return done(h, t.edit)
	case Drag:
		at := toFace1(t.board, t.hit.Face, h.FaceAt(t.board.ID, t.hit.Face, e.At))
		a := fold(t.strip.Angle + degrees(at.Sub(t.centre)) - t.first)
		switch {
		case e.Mods.Shift:
			a = fold(math.Round(a))
		case !e.Mods.Control && abs(a) < 1:
			a = 0
		}
		s := about(t.strip, t.centre, a)
		t.edit = place(t.hit.Panel, s)
		try(h, t.edit, Sketch{Board: t.board.ID, Face: t.hit.Face, Carried: s.ID})
	}
	return t
}

// centreOf returns the middle of a strip on its board.
func centreOf(s model.Strip) geom.Point {
	return geom.Rotate(s.Angle).Then(geom.Translate(s.X, s.Y)).Apply(geom.Pt(s.L/2, s.W/2))
}

// about returns the strip turned to angle a about the point that is its
// middle.
func about(s model.Strip, centre geom.Point, a float64) model.Strip {
	d := geom.Rotate(a).Apply(geom.Pt(s.L/2, s.W/2))
	s.X, s.Y, s.Angle = centre.X-d.X, centre.Y-d.Y, a
	return s
}

func degrees(p geom.Point) float64 { return math.Atan2(p.Y, p.X) * 180 / math.Pi }

// fold brings an angle above -90 up to 90: a strip has no near and far end
// that its angle could tell.
func fold(a float64) float64 {
	a = math.Mod(a, 180)
	if a > 90 {
		a -= 180
	}
	if a <= -90 {
		a += 180
	}
	return a
}

// sweeping lays the next empty place along a line swept over a board.
type sweeping struct {
	hit   Hit
	strip model.Strip
	board *model.Board
	from  geom.Point // face-1 mm
	edit  model.Edit
}

// A sweep shorter than this, mm, lays nothing: it was a slip of the hand. A
// sweep within straightSweep degrees of the board's length is meant straight.
const (
	leastSweep    = 40
	straightSweep = 3
)

func (sweeping) Busy() bool { return true }

func (w sweeping) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return done(h, nil)
		}
	case Release:
		return laid(h, w.edit, w.hit.Panel, w.strip.ID, w.board.ID)
	case Drag:
		to := toFace1(w.board, w.hit.Face, h.FaceAt(w.board.ID, w.hit.Face, e.At))
		if to.Dist(w.from) < leastSweep {
			w.edit = nil
			h.Cancel()
			h.Show(Sketch{Say: say.T("Sweep along the board to lay the next empty place.")})
			return w
		}
		s := swept(w.strip, w.board, w.from, to)
		var guides []Guide
		if !e.Mods.Control {
			s, guides = h.Snap(w.hit.Panel, s)
		}
		w.edit = place(w.hit.Panel, s)
		try(h, w.edit, Sketch{Board: w.board.ID, Face: w.hit.Face, Guides: guides, Carried: s.ID})
	}
	return w
}

// laid ends a gesture that laid a strip on a board and takes it in hand.
func laid(h Host, edit model.Edit, panel, strip, board string) State {
	if edit == nil {
		return done(h, nil)
	}
	if commit(h, edit) {
		h.Select(Hit{Part: BoardStrip, Panel: panel, Strip: strip, Board: board, Zone: -1})
	}
	return Arrange{}
}

// swept lays a strip with its long centre line on the sweep, beginning where
// the sweep began.
func swept(s model.Strip, b *model.Board, from, to geom.Point) model.Strip {
	d := to.Sub(from)
	a := fold(degrees(d))
	if abs(a) < straightSweep {
		a = 0
	}
	dir := geom.Rotate(a).Apply(geom.Pt(1, 0))
	start := from
	if d.Dot(dir) < 0 { // swept towards the marked end: the strip ends where it began
		start = from.Sub(dir.Mul(s.L))
	}
	corner := geom.Rotate(a).Apply(geom.Pt(0, -s.W/2)).Add(start)
	s.Board, s.X, s.Y, s.Angle = b.ID, corner.X, corner.Y, a
	return s
}

// Turned returns the strip turned to an angle, degrees, about its own middle.
func Turned(s model.Strip, angle float64) model.Strip { return about(s, centreOf(s), fold(angle)) }
