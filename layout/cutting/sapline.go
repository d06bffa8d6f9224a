package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// SapLine is a line along a strip where its long edge would meet the border
// between sapwood and heartwood of the face that shows.
type SapLine struct {
	T     float64 // from the strip's near edge, across; mm
	Far   bool    // for the strip's far edge, else for its near edge
	Clear bool    // the strip is just clear of that wood; else the edge runs in it all along
}

// SapLines returns the lines along a strip's length to which its edges may be
// laid, over the whole width of its board: where the rarer wood of the face,
// which is the one drawn on its base, ends for the whole length of the strip,
// and up to where it reaches for the whole length. They come in the order of
// the pieces of wood along the strip.
func SapLines(s *face.Strip) []SapLine {
	if !sound(s) {
		return nil
	}
	n := s.UpFace()
	bf := &s.Board.Faces[n-1]
	drawn := face.Sap
	if bf.Base == face.Sap {
		drawn = face.Heart
	}
	m := s.ToBoard()
	if n == 2 {
		m = m.Then(s.Board.Other())
	}
	back, ok := m.Inverse()
	if !ok {
		return nil
	}
	board := geom.R(0, 0, s.Board.Length, s.Board.Width)
	reach := back.ApplyTo(board.Polygon()).Bounds()
	region := geom.R(0, reach.Min.Y-1, s.L, reach.Max.Y+1)
	var layers []geom.Layer
	found := false
	for _, z := range bf.Zones {
		if len(z.Polygon) >= 3 {
			layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: back.ApplyTo(z.Polygon)})
			found = found || z.Kind == drawn
		}
	}
	if !found {
		return nil
	}
	rim := board.Polygon()
	if len(bf.Outline) >= 3 {
		rim = bf.Outline
	}
	onRim := func(x, t float64) bool {
		_, _, d := rim.Nearest(m.Apply(geom.Pt(x, t)))
		return d < 0.05
	}
	var out []SapLine
	for _, b := range bodies(geom.Decompose(nil, region.Polygon(), int(bf.Base), layers), int(drawn)) {
		if b.area < leastFlaw {
			continue
		}
		out = append(out, linesOf(&b, s.L, onRim)...)
	}
	return out
}

// linesOf returns the lines of one piece of wood: of its border towards the
// far edge of the board for the strip's near edge, and the other way round.
func linesOf(b *body, length float64, onRim func(x, t float64) bool) []SapLine {
	lo, hi := newBorder(), newBorder()
	for i := range b.parts {
		for _, x := range [2]float64{b.parts[i].X0, b.parts[i].X1} {
			low, high := math.Inf(1), math.Inf(-1)
			for k := range b.parts {
				if t := &b.parts[k]; t.X0 <= x+1e-9 && t.X1 >= x-1e-9 {
					l, h := sidesAt(t, x)
					low, high = math.Min(low, l), math.Max(high, h)
				}
			}
			lo.add(low, onRim(x, low))
			hi.add(high, onRim(x, high))
		}
	}
	whole := b.box.W() >= length-1
	var out []SapLine
	if hi.any {
		out = append(out, SapLine{T: hi.most, Clear: true})
		if whole && !hi.rim && hi.most-hi.least > slack {
			out = append(out, SapLine{T: hi.least})
		}
	}
	if lo.any {
		out = append(out, SapLine{T: lo.least, Far: true, Clear: true})
		if whole && !lo.rim && lo.most-lo.least > slack {
			out = append(out, SapLine{T: lo.most, Far: true})
		}
	}
	return out
}

// border gathers where the border of a piece of wood lies.
type border struct {
	least, most float64
	any         bool // some of it lies within the board
	rim         bool // some of it is the board's own edge
}

func newBorder() border { return border{least: math.Inf(1), most: math.Inf(-1)} }

func (b *border) add(t float64, rim bool) {
	if rim {
		b.rim = true
		return
	}
	b.any = true
	b.least, b.most = math.Min(b.least, t), math.Max(b.most, t)
}
