package sheet

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Offcuts at least so long or so wide are named; less is kindling.
const longSpare, wideSpare = 150, 30

// spareText names what stays of a board once its strips are sawn: lengths
// between and beyond the stretches, and what is left beside the blanks.
func (b *builder) spareText(bd *face.Board, parts []place) string {
	a := b.in.Project.Allowances
	var out []string
	length := func(x0, x1 float64) {
		if x1-x0 >= longSpare {
			out = append(out, b.offcut(bd, geom.R(x0, 0, x1, bd.Width)))
		}
	}
	from := 0.0
	for _, list := range inStretches(a, parts) {
		r := reach(a, list)
		length(from, r.Min.X-a.Kerf)
		x0, x1 := math.Max(r.Min.X, 0), math.Min(r.Max.X, bd.Length)
		for _, side := range [...][2]float64{{0, r.Min.Y - a.Kerf}, {r.Max.Y + a.Kerf, bd.Width}} {
			if side[1]-side[0] >= wideSpare && x1-x0 >= longSpare {
				out = append(out, b.offcut(bd, geom.R(x0, side[0], x1, side[1])))
			}
		}
		from = r.Max.X + a.Kerf
	}
	length(from, bd.Length)
	if len(out) == 0 {
		return ""
	}
	return strings.Join(out, "; ") + ". Label them: heart and sap for finish tests."
}

// offcut says how large a piece is, where it lies and whether a flaw or a
// waney edge is in it.
func (b *builder) offcut(bd *face.Board, r geom.Rect) string {
	t := fmt.Sprintf("%s from %s", b.say.size(r.W(), r.H()), b.say.len(r.Min.X))
	for _, f := range bd.Faces {
		if f.Outline != nil {
			return t + ", wane not counted off"
		}
	}
	if flawIn(bd, r) {
		t += ", with a flaw in it"
	}
	return t
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
