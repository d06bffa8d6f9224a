package cutting

import (
	"cmp"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Offcuts narrower or shorter than this are kindling, mm. An engineering
// choice with no published source.
const kindling = 20.0

// Free returns the clear rectangles of a board, square to it, that cannot grow
// on any side: within the outlines of both faces and a kerf away from the
// blanks of the strips that lie on the board. They may overlap one another. The
// largest comes first. Strips of other boards are passed over.
func Free(b *face.Board, strips []face.Strip, a Allowances) []geom.Rect {
	return clearRects(b, obstaclesOf(b, strips, a), kindling, kindling)
}

// obstaclesOf returns the blanks on a board, each a kerf wider all round.
func obstaclesOf(b *face.Board, strips []face.Strip, a Allowances) []geom.Polygon {
	var out []geom.Polygon
	for i := range strips {
		s := &strips[i]
		if sound(s) && (s.Board == b || s.Board.ID == b.ID) {
			out = append(out, s.ToBoard().ApplyTo(BlankRect(s, a).Inset(-a.Kerf).Polygon()))
		}
	}
	return out
}

// flawsAsObstacles returns the flaws of both faces as rectangles, wider by
// margin all round.
func flawsAsObstacles(b *face.Board, margin float64) []geom.Polygon {
	var out []geom.Polygon
	for f := range b.Faces {
		if f == 1 && b.Faces[f].Guessed {
			continue
		}
		for _, z := range b.Faces[f].Zones {
			if z.Kind != face.Flaw || len(z.Polygon) < 3 {
				continue
			}
			r := z.Polygon.Bounds()
			if f == 1 {
				r = b.Other().ApplyTo(r.Polygon()).Bounds()
			}
			out = append(out, r.Inset(-margin).Polygon())
		}
	}
	return out
}

// clearRects returns the maximal rectangles outside the obstacles that are at
// least so long and so wide, largest first.
func clearRects(b *face.Board, obstacles []geom.Polygon, long, wide float64) []geom.Rect {
	slabs := slabsOf(b, obstacles)
	var out []geom.Rect
	for i := range slabs {
		cur := slabs[i].free
		for j := i; j < len(slabs); j++ {
			if j > i {
				if slabs[j].x0-slabs[j-1].x1 > 1e-6 {
					break
				}
				cur = common(cur, slabs[j].free, wide)
			}
			if len(cur) == 0 {
				break
			}
			if slabs[j].x1-slabs[i].x0 < long-1e-9 {
				continue
			}
			for _, s := range cur {
				if s.to-s.from < wide-1e-9 ||
					i > 0 && slabs[i].x0-slabs[i-1].x1 < 1e-6 && holds(slabs[i-1].free, s) ||
					j+1 < len(slabs) && slabs[j+1].x0-slabs[j].x1 < 1e-6 && holds(slabs[j+1].free, s) {
					continue
				}
				out = append(out, geom.R(slabs[i].x0, s.from, slabs[j].x1, s.to))
			}
		}
	}
	slices.SortFunc(out, func(p, q geom.Rect) int {
		return cmp.Or(cmp.Compare(q.W()*q.H(), p.W()*p.H()), cmp.Compare(p.Min.X, q.Min.X), cmp.Compare(p.Min.Y, q.Min.Y))
	})
	return out
}
