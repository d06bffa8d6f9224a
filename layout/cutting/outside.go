package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Where a blank leaves its board.
const (
	OverMarkedEnd  = "marked-end"
	OverOtherEnd   = "other-end"
	OverMarkedEdge = "marked-edge"
	OverOtherEdge  = "other-edge"
	OverOutline    = "outline" // the waney outline of the face that shows
)

// Outside returns by how many mm a strip's blank leaves its board and where,
// 0 and "" where it lies within. Beyond an end, where it is now, or an edge it is
// the farthest corner; over a waney outline it is how far the blank's own edge must come in
// to be clear.
func Outside(s *face.Strip, a Allowances) (mm float64, where string) {
	if !sound(s) {
		return 0, ""
	}
	return outside(s, BlankRect(s, a))
}

// outside is Outside for any rectangle in the strip's own (s, t).
func outside(s *face.Strip, own geom.Rect) (mm float64, where string) {
	box := s.ToBoard().ApplyTo(own.Polygon()).Bounds()
	from, to := s.Board.Left()
	for _, over := range [...]struct {
		mm    float64
		where string
	}{
		{from - box.Min.X, OverMarkedEnd}, {box.Max.X - to, OverOtherEnd},
		{-box.Min.Y, OverMarkedEdge}, {box.Max.Y - s.Board.Width, OverOtherEdge},
	} {
		if over.mm > slack && over.mm > mm+slack {
			mm, where = over.mm, over.where
		}
	}
	if d := overOutline(s, own); d > slack && d > mm+0.5 {
		mm, where = d, OverOutline
	}
	return mm, where
}

// outlineOf returns the outline of face f (1 or 2) of a board in face-1
// coordinates, nil for the whole rectangle.
func outlineOf(b *face.Board, f int) geom.Polygon {
	p := b.Faces[f-1].Outline
	if len(p) < 3 {
		return nil
	}
	if f == 2 {
		return b.Other().ApplyTo(p)
	}
	return p
}

// overOutline returns how far a rectangle in the strip's own (s, t) reaches
// over the outline of the face that shows. Each connected piece outside counts
// by the edge of the rectangle that clears it soonest.
func overOutline(s *face.Strip, own geom.Rect) float64 {
	out := outlineOf(s.Board, s.UpFace())
	if out == nil {
		return 0
	}
	m, ok := s.ToBoard().Inverse()
	if !ok {
		return 0
	}
	const off, on = 0, 1
	pieces := geom.Decompose(nil, own.Polygon(), off, []geom.Layer{{Label: on, Polygon: m.ApplyTo(out)}})
	worst := 0.0
	for _, b := range bodies(pieces, off) {
		depth := math.Inf(1)
		for _, edge := range [4][2]float64{
			{b.box.Min.Y - own.Min.Y, b.box.Max.Y - own.Min.Y},
			{own.Max.Y - b.box.Max.Y, own.Max.Y - b.box.Min.Y},
			{b.box.Min.X - own.Min.X, b.box.Max.X - own.Min.X},
			{own.Max.X - b.box.Max.X, own.Max.X - b.box.Min.X},
		} {
			if edge[0] <= slack { // the piece reaches this edge
				depth = math.Min(depth, edge[1])
			}
		}
		if !math.IsInf(depth, 1) {
			worst = math.Max(worst, depth)
		}
	}
	return worst
}
