package face

import (
	"math"

	"heartside/layout/colour"
)

// tint is a sum of colours with the area they were seen on.
type tint struct {
	area float64
	sum  colour.Lab
}

func (t *tint) add(c colour.Lab, area float64) {
	t.area += area
	t.sum.L += c.L * area
	t.sum.A += c.A * area
	t.sum.B += c.B * area
}

func (t *tint) join(o tint) {
	t.area += o.area
	t.sum.L += o.sum.L
	t.sum.A += o.sum.A
	t.sum.B += o.sum.B
}

// moved returns t with every colour in it moved by d.
func (t tint) moved(d colour.Lab) tint {
	t.sum.L += d.L * t.area
	t.sum.A += d.A * t.area
	t.sum.B += d.B * t.area
	return t
}

// mean returns the mean colour, and false where nothing was seen.
func (t tint) mean() (colour.Lab, bool) {
	if !(t.area > 0) {
		return colour.Lab{}, false
	}
	return colour.Lab{L: t.sum.L / t.area, A: t.sum.A / t.area, B: t.sum.B / t.area}, true
}

// ages are the years at which a streak is judged; today is one of them.
var ages = [3]float64{0, 1, 10}

// woods are the colours of the heartwood and the sapwood of one board face,
// the index being Heart or Sap.
type woods struct {
	lab       [2]colour.Lab
	known     [2]bool
	assumed   [2]bool
	aged      [2][3]colour.Lab // what each age adds to today's colour
	ages      bool             // whether ageing is known
	board     *Board
	photo     bool // measured on a photograph
	reference string
}

// woodsOf returns the colours of face f (1 or 2) of b: as measured on its
// photograph, else as measured on the board's other face, else the drawing
// colours, assumed.
func woodsOf(b *Board, f int) woods {
	own, other := &b.Faces[f-1], &b.Faces[2-f]
	if !own.pictured() && other.pictured() {
		own = other
	}
	w := woods{board: b.Root()}
	w.photo, w.reference = own.pictured(), own.Reference
	measured := [2]*colour.Lab{own.Heart, own.Sap}
	if own.Field != nil && (own.Heart == nil || own.Sap == nil) {
		heart, sap := MeanColours(own)
		for k, c := range [2]*colour.Lab{heart, sap} {
			if measured[k] == nil {
				measured[k] = c
			}
		}
	}
	assumed := [2]colour.Lab{b.AssumedHeart, b.AssumedSap}
	drawn := assumed != [2]colour.Lab{}
	for k := range measured {
		switch {
		case measured[k] != nil:
			w.lab[k], w.known[k] = *measured[k], true
		case drawn:
			w.lab[k], w.known[k], w.assumed[k] = assumed[k], true, true
		}
	}
	if b.Ageing != nil {
		for k, list := range [2][]AgedColour{b.Ageing.Heart, b.Ageing.Sap} {
			w.age(k, list)
		}
	}
	return w
}

func (f *BoardFace) pictured() bool { return f.Field != nil || f.Heart != nil || f.Sap != nil }

// age works out what each age adds, straight between the years entered and
// held after the last. Today's colour stands at year 0 unless entered.
func (w *woods) age(kind int, list []AgedColour) {
	if len(list) == 0 || !w.known[kind] {
		return
	}
	w.ages = true
	today := w.lab[kind]
	start, _ := agedAt(list, today, 0)
	for i, years := range ages {
		c, _ := agedAt(list, today, years)
		w.aged[kind][i] = colour.Lab{L: c.L - start.L, A: c.A - start.A, B: c.B - start.B}
	}
}

// agedAt returns the colour at an age from the entries on either side of it.
// The entries may stand in any order.
func agedAt(list []AgedColour, today colour.Lab, years float64) (colour.Lab, bool) {
	before, after := AgedColour{0, today}, AgedColour{math.Inf(1), today}
	for _, c := range list {
		if c.Years <= years && c.Years >= before.Years {
			before = c
		}
		if c.Years > years && c.Years < after.Years {
			after = c
		}
	}
	if math.IsInf(after.Years, 1) {
		return before.Lab, before.Years == years
	}
	t := (years - before.Years) / (after.Years - before.Years)
	a, b := before.Lab, after.Lab
	return colour.Lab{L: a.L + t*(b.L-a.L), A: a.A + t*(b.A-a.A), B: a.B + t*(b.B-a.B)}, true
}

// comparable reports whether colours of the two may be held against one
// another: photographs of different boards need a reference they share;
// assumed colours are an illustration and compare with anything.
func (w *woods) comparable(o *woods) bool {
	return w.board == o.board || !w.photo || !o.photo || (w.reference != "" && w.reference == o.reference)
}

// grouped is comparable without the licence that assumed colours have, so that
// it sorts strips into groups.
func (w *woods) grouped(o *woods) bool { return w.photo == o.photo && w.comparable(o) }
