package match

import (
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// Room returns how far a strip may slide along itself on its board, mm, lo
// towards the marked end (0 or less) and hi away from it: until its blank
// leaves the board or comes nearer than a kerf to the blank of another of the
// strips that lie on the board. A strip that has been sawn, or measured after
// planing, or is pinned, has none. Waney outlines are not looked at.
func Room(s *face.Strip, others []face.Strip, a cutting.Allowances) (lo, hi float64) {
	if !sound(s) || s.Stage >= face.Sawn || s.Planed != nil || s.Pinned {
		return 0, 0
	}
	m, ok := s.ToBoard().Inverse()
	if !ok {
		return 0, 0
	}
	lo, hi = math.Inf(-1), math.Inf(1)
	blank := cutting.Blank(s, a)
	from, to := s.Board.Left()
	along := geom.Rotate(s.Angle).Apply(geom.Pt(1, 0))
	for _, q := range blank {
		slideWithin(&lo, &hi, q.X-from, along.X, to-from)
		slideWithin(&lo, &hi, q.Y, along.Y, s.Board.Width)
	}
	own := m.ApplyTo(blank).Bounds()
	const far = 4 * most
	path := geom.R(-far, own.Min.Y-a.Kerf+1e-6, far, own.Max.Y+a.Kerf-1e-6)
	for i := range others {
		o := &others[i]
		if o.ID == s.ID || !sound(o) || o.Board != s.Board && o.Board.ID != s.Board.ID {
			continue
		}
		b := m.ApplyTo(cutting.Blank(o, a)).ClipRect(path)
		if len(b) < 3 {
			continue
		}
		box := b.Bounds()
		switch {
		case box.Min.X >= own.Max.X-1e-6:
			hi = min(hi, box.Min.X-a.Kerf-own.Max.X)
		case box.Max.X <= own.Min.X+1e-6:
			lo = max(lo, box.Max.X+a.Kerf-own.Min.X)
		default:
			return 0, 0
		}
	}
	if lo > 1e-9 || hi < -1e-9 || math.IsInf(lo, 0) || math.IsInf(hi, 0) {
		return 0, 0 // it does not lie well as it is
	}
	return min(lo, 0), max(hi, 0)
}

// slideWithin narrows lo and hi so that v + d*k stays from 0 to most.
func slideWithin(lo, hi *float64, v, k, most float64) {
	if math.Abs(k) < 1e-12 {
		return
	}
	a, b := -v/k, (most-v)/k
	*lo, *hi = max(*lo, min(a, b)), min(*hi, max(a, b))
}
