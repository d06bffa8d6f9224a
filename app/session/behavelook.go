package session

import (
	"math"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/wood/cup"
	"heartside/layout/wood/movement"
)

// YearWidth is the width of a panel through the year, mm.
type YearWidth struct {
	Now, Dry, Wet float64
	Stays         float64 // how far from the front edge the line lies that stays, a part of the width
	Front, Back   string  // what the edges are called
}

// YearWidth returns the width of a panel through the year; false where nothing
// can be said.
func (s *Session) YearWidth(panel string) (YearWidth, bool) {
	b := s.behaving(panel)
	if b == nil {
		return YearWidth{}, false
	}
	m, _, err := b.movement()
	if err != nil {
		return YearWidth{}, false
	}
	sides := b.n.Role.Sides()
	out := YearWidth{Now: m.Now, Dry: m.Dry.Value, Wet: m.Wet.Value, Stays: 0.5, Front: sides[0].Word, Back: sides[1].Word}
	switch fixedOf(b.n).Line {
	case movement.Front:
		out.Stays = 0
	case movement.Back:
		out.Stays = 1
	}
	return out, true
}

// YearCup returns how far a panel as it is laid bows in the driest and the
// dampest season where nothing holds it, mm, positive where the show face is
// hollow; false where nothing can be said.
func (s *Session) YearCup(panel string) (dry, wet float64, ok bool) {
	b := s.behaving(panel)
	if b == nil {
		return 0, 0, false
	}
	c, err := b.cups()
	if err != nil || len(c.Layups) == 0 {
		return 0, 0, false
	}
	return mostBow(c.Layups[0].Dry), mostBow(c.Layups[0].Wet), true
}

// mostBow is the greater bow of the two ways of putting strips together: mostly
// that with the slope carried on, but strips that lie by turns, or that were not
// equally damp, may bow more with glue lines that stay planes.
func mostBow(p *cup.Panel) float64 {
	if math.Abs(p.Glued.Sagitta) > math.Abs(p.Smooth.Sagitta) {
		return p.Glued.Sagitta
	}
	return p.Smooth.Sagitta
}

// Signed prints a change of length with its sign.
func (s *Session) Signed(mm float64) string { return s.signed(mm) }

// BowWords says how the show face leaves the flat: "goes hollow by 0.3 mm".
func (s *Session) BowWords(mm float64) string { return (&behaving{s: s}).bowWords(mm) }

// AgeShift returns by how much the colour of each kind of wood on face f of a
// board will have changed after a number of years, in CIELAB. What is not known
// to change has no shift. The function is safe on any goroutine and stays as
// the project is now; nil where there is no such panel.
func (s *Session) AgeShift(panel string, years float64) func(b *face.Board, f int, k face.Kind) colour.Lab {
	b := s.behaving(panel)
	if b == nil {
		return nil
	}
	type place struct {
		board string
		face  int
		kind  face.Kind
	}
	shift := map[place]colour.Lab{}
	for _, m := range b.p.Boards {
		fb := s.Board(m.ID)
		if fb == nil {
			continue
		}
		for f := 1; f <= 2; f++ {
			t, err := b.curvesOf(fb, f)
			if err != nil {
				continue
			}
			then, now := t.heart.At(years).Lab, t.heart.At(0).Lab
			shift[place{m.ID, f, face.Heart}] = colour.Lab{L: then.L - now.L, A: then.A - now.A, B: then.B - now.B}
			then, now = t.sap.At(years).Lab, t.sap.At(0).Lab
			shift[place{m.ID, f, face.Sap}] = colour.Lab{L: then.L - now.L, A: then.A - now.A, B: then.B - now.B}
		}
	}
	return func(b *face.Board, f int, k face.Kind) colour.Lab {
		return shift[place{b.ID, f, k}]
	}
}
