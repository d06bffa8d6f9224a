package offcut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// Offcut is a piece of board that is left.
type Offcut struct {
	Board     string
	Place     geom.Rect // on the board, face-1 coordinates
	Thickness float64   // of the board
	Flaw      bool      // a flaw of either face lies in it
}

// Length and Width are along and across the grain.
func (o *Offcut) Length() float64 { return o.Place.W() }

// Width is across the grain.
func (o *Offcut) Width() float64 { return o.Place.H() }

// Area returns the area of a face, mm2.
func (o *Offcut) Area() float64 { return o.Place.W() * o.Place.H() }

// Least is the size from which an offcut is of use, mm.
type Least struct{ Length, Width float64 }

// Usual is what counts as of use where nothing is said. An engineering choice
// with no published source.
var Usual = Least{300, 50}

// Of returns the offcuts of a board on which strips lie, the largest first, each
// at least of the least size. Strips of other boards are passed over; places
// within waney outlines only count.
func Of(b *face.Board, strips []face.Strip, a cutting.Allowances, least Least) ([]Offcut, error) {
	if b == nil || !(b.Length > 0) || !(b.Width > 0) || math.IsInf(b.Length, 0) || math.IsInf(b.Width, 0) {
		return nil, fmt.Errorf("no board to have offcuts; give one with length and width over 0")
	}
	if !(least.Length >= 0) || !(least.Width >= 0) || !(a.Kerf >= 0) {
		return nil, fmt.Errorf("board %s: a least size of %g x %g mm with a kerf of %g mm is none; give numbers not under 0", b.ID, least.Length, least.Width, a.Kerf)
	}
	rooms := fit(cutting.Free(b, strips, a), least)
	var out []Offcut
	for len(rooms) > 0 {
		big := largest(rooms)
		o := Offcut{Board: b.ID, Place: big, Thickness: b.Thickness}
		o.Flaw = flawed(b, big)
		out = append(out, o)
		rooms = fit(without(rooms, big.Inset(-a.Kerf)), least)
	}
	return out, nil
}

// largest returns the rectangle with the most area; of two alike the one nearer
// the marked end, then the marked edge.
func largest(rooms []geom.Rect) geom.Rect {
	return slices.MinFunc(rooms, func(a, b geom.Rect) int {
		if x, y := a.W()*a.H(), b.W()*b.H(); math.Abs(x-y) > 1e-6*math.Max(x, y) {
			return cmp.Compare(y, x)
		}
		return cmp.Or(cmp.Compare(a.Min.X, b.Min.X), cmp.Compare(a.Min.Y, b.Min.Y))
	})
}

// fit returns the rectangles that are at least of a size.
func fit(rooms []geom.Rect, least Least) []geom.Rect {
	return slices.DeleteFunc(slices.Clone(rooms), func(r geom.Rect) bool {
		return r.Empty() || r.W() < least.Length-1e-6 || r.H() < least.Width-1e-6
	})
}

// without returns the parts of rectangles that lie outside a box: the largest on
// each of its four sides, which may overlap.
func without(rooms []geom.Rect, box geom.Rect) []geom.Rect {
	var out []geom.Rect
	for _, r := range rooms {
		if r.Intersect(box).Empty() {
			out = append(out, r)
			continue
		}
		for _, p := range [...]geom.Rect{
			{Min: r.Min, Max: geom.Pt(box.Min.X, r.Max.Y)},
			{Min: geom.Pt(box.Max.X, r.Min.Y), Max: r.Max},
			{Min: r.Min, Max: geom.Pt(r.Max.X, box.Min.Y)},
			{Min: geom.Pt(r.Min.X, box.Max.Y), Max: r.Max},
		} {
			if !p.Empty() {
				out = append(out, p)
			}
		}
	}
	return out
}

// flawed reports whether a flaw of either face lies in a place.
func flawed(b *face.Board, r geom.Rect) bool {
	for f := range b.Faces {
		if f == 1 && b.Faces[f].Guessed {
			continue
		}
		own := r
		if f == 1 {
			own = b.Other().ApplyTo(r.Polygon()).Bounds()
		}
		for _, z := range b.Faces[f].Zones {
			if z.Kind == face.Flaw && z.Polygon.ClipRect(own).InsideArea() > 1 {
				return true
			}
		}
	}
	return false
}

// Left returns the area of offcuts together, mm2.
func Left(list []Offcut) (mm2 float64) {
	for i := range list {
		mm2 += list[i].Area()
	}
	return mm2
}
