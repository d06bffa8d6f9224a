package stock

import (
	"fmt"
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// mostCells bounds a table: a board of 10 m by 1.6 m at 2 mm.
const mostCells = 4_000_000

// Wood is what a rectangle of a face holds, mm2. Heart, Sap, Flaw, Unseen and
// Outside together are the rectangle. NearFlaw is what lies within the margin
// of a flaw, the flaw itself counted, whatever wood it is.
type Wood struct {
	Heart, Sap, Flaw, Unseen, Outside float64
	NearFlaw                          float64
}

// Light returns the share of sapwood in the wood that is known, 0 where none
// is.
func (w Wood) Light() float64 {
	if all := w.Heart + w.Sap; all > 0 {
		return w.Sap / all
	}
	return 0
}

// Of returns the area of the kind.
func (w Wood) Of(k face.Kind) float64 {
	switch k {
	case face.Heart:
		return w.Heart
	case face.Sap:
		return w.Sap
	case face.Flaw:
		return w.Flaw
	case face.Unseen:
		return w.Unseen
	}
	return w.Outside
}

// Table tells at once what any rectangle of a board holds on either face, from
// summed-area tables (Crow 1984) of square cells whose areas are exact.
// Rectangles lie square in the table's frame: the board turned so that strips
// at the table's angle lie along x.
//
// Where the sides of a rectangle lie on cell borders its areas are those of
// the polygons. Else a cell that a side cuts is taken as evenly mixed, which is
// off by a quarter of its area at most, and only where it holds two kinds.
type Table struct {
	frame
	cell float64
	face [2]faceTable
}

// faceTable holds the sums of one face, in the frame's own coordinates whichever
// face it is; nil where there is nothing of the kind.
type faceTable struct {
	base   face.Kind
	kinds  [face.Unseen + 1]*sums // but for the base, which is the rest
	inside *sums                  // wood of any kind; nil: all of the frame
	near   *sums
}

// NewTable makes the table of a board for strips at an angle (degrees, under a
// quarter turn), with cells of the given size, mm, and flaws grown by margin,
// mm, to all four sides in the frame.
func NewTable(b *face.Board, angle, cell, margin float64) (*Table, error) {
	if b == nil {
		return nil, fmt.Errorf("no board")
	}
	if !(b.Length > 0) || !(b.Width > 0) || math.IsInf(b.Length, 0) || math.IsInf(b.Width, 0) {
		return nil, fmt.Errorf("board %s: a length of %g mm and a width of %g mm are no board; give both", b.ID, b.Length, b.Width)
	}
	if !(math.Abs(angle) < 90) {
		return nil, fmt.Errorf("board %s: strips at %g degrees; give less than 90", b.ID, angle)
	}
	if !(cell > 0) || !(margin >= 0) || math.IsInf(margin, 0) {
		return nil, fmt.Errorf("board %s: cells of %g mm with a margin of %g mm; give a size over 0 and a margin not under 0", b.ID, cell, margin)
	}
	t := &Table{frame: frameOf(b, angle), cell: cell}
	if math.Ceil(t.turned.Length/cell)*math.Ceil(t.turned.Width/cell) > mostCells {
		return nil, fmt.Errorf("board %s: too large for cells of %g mm; take larger ones", b.ID, cell)
	}
	for f := range t.face {
		t.face[f] = t.readFace(f, margin)
	}
	return t, nil
}

// readFace fills in the table of face f, 0 or 1.
func (t *Table) readFace(f int, margin float64) faceTable {
	b := t.turned
	bf := &b.Faces[f]
	nx, ny := int(math.Ceil(b.Length/t.cell-1e-9)), int(math.Ceil(b.Width/t.cell-1e-9))
	m := geom.Identity
	if f == 1 {
		m = b.Other()
	}
	region := t.toFrame.ApplyTo(geom.R(0, 0, t.board.Length, t.board.Width).Polygon())
	whole := t.angle == 0
	if len(bf.Outline) >= 3 {
		region, whole = m.ApplyTo(bf.Outline).ClipRect(geom.R(0, 0, b.Length, b.Width)), false
	}
	var layers, flaws []geom.Layer
	for _, z := range bf.Zones {
		if len(z.Polygon) < 3 {
			continue
		}
		p := m.ApplyTo(z.Polygon)
		layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: p})
		whole = whole && z.Kind < face.Blank
		if z.Kind == face.Flaw {
			for _, part := range geom.Decompose(nil, p, 1, nil) {
				flaws = append(flaws, geom.Layer{Label: 1, Polygon: boxGrown(&part, margin)})
			}
		}
	}
	out := faceTable{base: bf.Base}
	var kinds [face.Unseen + 1]*grid
	var inside *grid
	if !whole {
		inside = newGrid(nx, ny, t.cell)
	}
	for _, part := range geom.Decompose(nil, region, int(bf.Base), layers) {
		k := face.Kind(part.Label)
		if part.Label < 0 || k > face.Unseen {
			continue
		}
		if inside != nil {
			inside.add(&part)
		}
		if k == bf.Base {
			continue
		}
		if kinds[k] == nil {
			kinds[k] = newGrid(nx, ny, t.cell)
		}
		kinds[k].add(&part)
	}
	for k, g := range kinds {
		if g != nil {
			out.kinds[k] = g.sums()
		}
	}
	if inside != nil {
		out.inside = inside.sums()
	}
	if len(flaws) > 0 {
		g := newGrid(nx, ny, t.cell)
		for _, part := range geom.Decompose(nil, geom.R(0, 0, b.Length, b.Width).Polygon(), 0, flaws) {
			if part.Label == 1 {
				g.add(&part)
			}
		}
		out.near = g.sums()
	}
	return out
}

// boxGrown returns a trapezoid grown by margin to all four sides.
func boxGrown(t *geom.Trapezoid, margin float64) geom.Polygon {
	// Convex hull of its corners, each moved to the corners of a square: upright
	// sides stay upright, so six points do.
	m := margin
	lower := geom.Polygon{{X: t.X0 - m, Y: t.Lo0 - m}}
	if t.Lo1 > t.Lo0 {
		lower = append(lower, geom.Pt(t.X0+m, t.Lo0-m))
	} else if t.Lo1 < t.Lo0 {
		lower = append(lower, geom.Pt(t.X1-m, t.Lo1-m))
	}
	lower = append(lower, geom.Pt(t.X1+m, t.Lo1-m))
	upper := geom.Polygon{{X: t.X1 + m, Y: t.Hi1 + m}}
	if t.Hi1 > t.Hi0 {
		upper = append(upper, geom.Pt(t.X1-m, t.Hi1+m))
	} else if t.Hi1 < t.Hi0 {
		upper = append(upper, geom.Pt(t.X0+m, t.Hi0+m))
	}
	return append(append(lower, upper...), geom.Pt(t.X0-m, t.Hi0+m))
}

// On returns what a rectangle of the frame holds on face 1 or 2.
func (t *Table) On(faceNumber int, r geom.Rect) Wood {
	ft := &t.face[0]
	if faceNumber == 2 {
		ft = &t.face[1]
	}
	var w Wood
	if r.Empty() {
		return w
	}
	inside := ft.inside.in(r)
	if ft.inside == nil {
		inside = area(r.Intersect(geom.R(0, 0, t.turned.Length, t.turned.Width)))
	}
	w.Outside = math.Max(0, area(r)-inside)
	rest := inside
	for k, s := range ft.kinds {
		a := s.in(r)
		rest -= a
		w.add(face.Kind(k), a)
	}
	w.add(ft.base, math.Max(0, rest))
	w.NearFlaw = ft.near.in(r)
	return w
}

// add adds area of a kind.
func (w *Wood) add(k face.Kind, mm2 float64) {
	switch k {
	case face.Heart:
		w.Heart += mm2
	case face.Sap:
		w.Sap += mm2
	case face.Flaw:
		w.Flaw += mm2
	case face.Unseen:
		w.Unseen += mm2
	}
}

// Strip returns a rectangle of the frame as a strip of the board, face 1 up.
func (t *Table) Strip(r geom.Rect) face.Strip { return t.strip(r) }

// Size returns the length and width of the frame.
func (t *Table) Size() (length, width float64) { return t.turned.Length, t.turned.Width }

// MostOff returns by how much an area of a rectangle may be off at most, mm2:
// a quarter of every cell that a side cuts.
func (t *Table) MostOff(r geom.Rect) float64 {
	if r.Empty() {
		return 0
	}
	cut := func(v float64) float64 {
		if d := math.Abs(v/t.cell - math.Round(v/t.cell)); d < 1e-9 {
			return 0
		}
		return 1
	}
	across := math.Ceil(r.H()/t.cell) + 1
	along := math.Ceil(r.W()/t.cell) + 1
	n := across*(cut(r.Min.X)+cut(r.Max.X)) + along*(cut(r.Min.Y)+cut(r.Max.Y))
	return n * t.cell * t.cell / 4
}

func area(r geom.Rect) float64 {
	if r.Empty() {
		return 0
	}
	return r.W() * r.H()
}
