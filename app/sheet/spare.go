package sheet

import (
	"cmp"
	"slices"
	"strings"

	"heartside/app/session"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Offcuts at least so long and so wide are named, at most so many of a board.
const (
	longSpare, wideSpare = 150, 40
	mostSpares           = 3
)

// spareText names the largest clear rectangles that stay of a board once its
// strips are sawn, each beside the others.
func (b *builder) spareText(bd *face.Board, parts []place, l snapped, cuts []cut) string {
	var out []string
	for _, r := range spares(bd, parts, crosses(cuts), session.AllowancesOf(b.in.Project.Allowances)) {
		t := say.F("%s from %s", b.say.size(r.W(), r.H()), l.along(b.say, r.Min.X))
		if flawIn(bd, r) {
			t += say.T(", with a flaw in it")
		}
		out = append(out, t)
	}
	if len(out) == 0 {
		return ""
	}
	return say.F("%s (from cut 1). Label them: heart and sap for finish tests.", strings.Join(out, "; "))
}

// crosses are where the board is cut across, from the marked end.
func crosses(cuts []cut) []float64 {
	var out []float64
	for i := range cuts {
		if cuts[i].across() {
			out = append(out, cuts[i].p.X)
		}
	}
	return out
}

// apart splits rectangles where a kerf parts the board at one of the places,
// the largest first.
func apart(list []geom.Rect, at []float64, kerf float64) []geom.Rect {
	for _, x := range at {
		var out []geom.Rect
		for _, r := range list {
			if r.Max.X <= x || r.Min.X >= x+kerf {
				out = append(out, r)
				continue
			}
			if r.Min.X < x {
				out = append(out, geom.R(r.Min.X, r.Min.Y, x, r.Max.Y))
			}
			if r.Max.X > x+kerf {
				out = append(out, geom.R(x+kerf, r.Min.Y, r.Max.X, r.Max.Y))
			}
		}
		list = out
	}
	slices.SortStableFunc(list, func(p, q geom.Rect) int { return cmp.Compare(q.W()*q.H(), p.W()*p.H()) })
	return list
}

// spares picks the largest clear rectangle between the cross-cuts, then the
// largest clear of that, and so on.
func spares(bd *face.Board, parts []place, cross []float64, a cutting.Allowances) []geom.Rect {
	var taken []face.Strip
	for _, p := range parts {
		taken = append(taken, *p.strip)
	}
	var out []geom.Rect
	for len(out) < mostSpares {
		found := false
		for _, r := range apart(cutting.Free(bd, taken, a), cross, a.Kerf) {
			if r.W() < longSpare || r.H() < wideSpare {
				continue
			}
			// Taken as a strip whose blank is the rectangle.
			in := geom.R(r.Min.X+a.Ends, r.Min.Y+a.Joint+a.Rest, r.Max.X-a.Ends, r.Max.Y-a.Joint-a.Rest)
			if r.W() <= 2*a.Ends || r.H() <= 2*(a.Joint+a.Rest) {
				continue
			}
			taken = append(taken, face.Strip{ID: "spare", Board: bd, X: in.Min.X, Y: in.Min.Y, L: in.W(), W: in.H(), Up: 1})
			out = append(out, r)
			found = true
			break
		}
		if !found {
			break
		}
	}
	return out
}

// flawIn reports whether a flaw of either face may lie in r, on face 1.
func flawIn(bd *face.Board, r geom.Rect) bool {
	for f := range bd.Faces {
		m := geom.Identity
		if f == 1 {
			m = bd.Other()
		}
		for _, z := range bd.Faces[f].Zones {
			if z.Kind == face.Flaw && !m.ApplyTo(z.Polygon).Bounds().Intersect(r).Empty() {
				return true
			}
		}
	}
	return false
}
