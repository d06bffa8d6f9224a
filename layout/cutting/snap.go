package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// What a strip may snap to.
const (
	ToMarkedEnd  = "marked-end"
	ToOtherEnd   = "other-end"
	ToMarkedEdge = "marked-edge"
	ToOtherEdge  = "other-edge"
	ToKerf       = "kerf"       // a kerf away from another blank
	ToInLine     = "in-line"    // an edge or end in line with that of another blank
	ToHeartLine  = "heart-line" // a long edge where the sapwood, or the heartwood drawn on it, ends
	ToSapLine    = "sap-line"   // a long edge that runs in that wood all along, just
)

// Guide is a line that an edge was brought to, in face-1 coordinates.
type Guide struct {
	A, B geom.Point
	Key  string // what it is, one of the To constants
}

// pull is a way to move a strip: by d along the unit direction n.
type pull struct {
	n     geom.Point
	d     float64
	cost  float64
	key   string
	a, b  geom.Point // the guide before the move; with follows it moves along
	moves bool
}

// sameWay is the cosine above which two directions count as parallel: a
// quarter of a degree.
const sameWay = 0.99999

// Snap moves a strip, by tol mm at most in each of two directions, to what
// lies near: its blank flush with an edge or end of its board, a kerf away
// from or in line with other blanks, and its own long edges to the sap line of
// the face that shows. The nearest wins; of equally near ones the
// board's own comes first, then the blanks in their order, then the sap line. It returns the moved strip and a guide for each direction that
// caught, or the strip as it was and none. others are the blanks of the other
// strips on the board.
func Snap(b *face.Board, others []geom.Polygon, s face.Strip, a Allowances, tol float64) (face.Strip, []Guide) {
	s.Board = b
	if !sound(&s) || !(tol > 0) {
		return s, nil
	}
	var list []pull
	add := func(p pull) {
		if math.Abs(p.d) <= tol {
			p.cost += math.Abs(p.d)
			list = append(list, p)
		}
	}
	blank := Blank(&s, a)
	pullsToBoard(b, blank, add)
	for _, o := range others {
		if len(o) >= 3 {
			pullsToBlank(blank, o, a.Kerf, tol, add)
		}
	}
	pullsToSap(&s, add)
	first := best(list, nil)
	if first == nil {
		return s, nil
	}
	move := first.n.Mul(first.d)
	guides := []Guide{first.guide(move)}
	if second := best(list, first); second != nil {
		// Both hold at once where the move has the wanted part along each.
		den := first.n.Cross(second.n)
		both := geom.Pt(first.d*second.n.Y-second.d*first.n.Y, second.d*first.n.X-first.d*second.n.X).Mul(1 / den)
		if both.Len() <= 2*tol {
			move = both
			guides = []Guide{first.guide(move), second.guide(move)}
		}
	}
	s.X, s.Y = s.X+move.X, s.Y+move.Y
	return s, guides
}

func (p *pull) guide(move geom.Point) Guide {
	if p.moves {
		return Guide{p.a.Add(move), p.b.Add(move), p.key}
	}
	return Guide{p.a, p.b, p.key}
}

// best returns the cheapest pull, of those well across other where given.
func best(list []pull, other *pull) *pull {
	var out *pull
	for i := range list {
		p := &list[i]
		if other != nil && math.Abs(p.n.Cross(other.n)) < 0.3 {
			continue
		}
		if out == nil || p.cost < out.cost-1e-9 {
			out = p
		}
	}
	return out
}

func pullsToBoard(b *face.Board, blank geom.Polygon, add func(pull)) {
	box := blank.Bounds()
	x, y := geom.Pt(1, 0), geom.Pt(0, 1)
	from, to := b.Left()
	corner := [4]geom.Point{{X: from}, {X: to}, {X: to, Y: b.Width}, {X: from, Y: b.Width}}
	add(pull{n: x, d: from - box.Min.X, key: ToMarkedEnd, a: corner[0], b: corner[3]})
	add(pull{n: x, d: to - box.Max.X, key: ToOtherEnd, a: corner[1], b: corner[2]})
	add(pull{n: y, d: -box.Min.Y, key: ToMarkedEdge, a: corner[0], b: corner[1]})
	add(pull{n: y, d: b.Width - box.Max.Y, key: ToOtherEdge, a: corner[3], b: corner[2]})
}

// pullsToBlank pulls a blank to a kerf's distance from another one and, where
// their edges run the same way, into line with it.
func pullsToBlank(own, other geom.Polygon, kerf, tol float64, add func(pull)) {
	for i := range own {
		p, pp := own[i], own[(i+1)%len(own)]
		n, ok := outward(p, pp, 1)
		if !ok {
			continue
		}
		for k := range other {
			q, qq := other[k], other[(k+1)%len(other)]
			m, ok := outward(q, qq, turnOf(other))
			if !ok {
				continue
			}
			gap := q.Sub(p).Dot(n)
			switch along := m.Dot(n); {
			case along < -sameWay && shared(p, pp, q, qq) > -tol:
				add(pull{n: n, d: gap - kerf, key: ToKerf, a: p, b: pp, moves: true})
			case along > sameWay:
				add(pull{n: n, d: gap, cost: tol / 4, key: ToInLine, a: q, b: qq})
			}
		}
	}
	cornerPulls(own, other, tol, func(n, at, end geom.Point, apart float64) {
		add(pull{n: n, d: kerf - apart, key: ToKerf, a: at, b: end})
	})
	cornerPulls(other, own, tol, func(n, at, end geom.Point, apart float64) {
		add(pull{n: n, d: apart - kerf, key: ToKerf, a: at, b: end, moves: true})
	})
}

// cornerPulls calls f for each edge of ring whose outer side the other ring
// faces with a corner, not with an edge: with the edge's outward normal, its
// ends and the distance of that corner.
func cornerPulls(other, ring geom.Polygon, tol float64, f func(n, at, end geom.Point, apart float64)) {
	for k := range ring {
		q, qq := ring[k], ring[(k+1)%len(ring)]
		n, ok := outward(q, qq, turnOf(ring))
		if !ok {
			continue
		}
		nearest, flat := 0, false
		for i, c := range other {
			d := c.Sub(q).Dot(n) - other[nearest].Sub(q).Dot(n)
			switch {
			case i > 0 && math.Abs(d) < slack:
				flat = true
			case d < 0:
				nearest, flat = i, false
			}
		}
		along := qq.Sub(q)
		at := other[nearest].Sub(q).Dot(along) / along.Len()
		if !flat && at > -tol && at < along.Len()+tol {
			f(n, q, qq, other[nearest].Sub(q).Dot(n))
		}
	}
}

// shared returns the length that two edges have in common along the first,
// negative where they are apart.
func shared(p, pp, q, qq geom.Point) float64 {
	d := pp.Sub(p)
	l := d.Len()
	a, b := q.Sub(p).Dot(d)/l, qq.Sub(p).Dot(d)/l
	return math.Min(l, math.Max(a, b)) - math.Max(0, math.Min(a, b))
}

func turnOf(p geom.Polygon) float64 {
	if p.SignedArea() < 0 {
		return -1
	}
	return 1
}

// pullsToSap pulls the strip's own long edges to the sap line.
func pullsToSap(s *face.Strip, add func(pull)) {
	m := s.ToBoard()
	across := m.Apply(geom.Pt(0, 1)).Sub(m.Apply(geom.Point{}))
	for _, l := range SapLines(s) {
		p := pull{n: across, d: l.T, key: ToSapLine, a: m.Apply(geom.Pt(0, l.T)), b: m.Apply(geom.Pt(s.L, l.T))}
		if l.Far {
			p.d -= s.W
		}
		if l.Clear {
			p.key = ToHeartLine
		}
		add(p)
	}
}
