package trace

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// grid turns corners of a mask's cells into face mm.
type grid struct {
	w, h          int
	length, width float64
}

func gridOf(m *photo.Mask) grid { return grid{m.W, m.H, m.Length, m.Width} }

// at returns the place of corner (i, j); halves lie amid cells. The outline is
// met exactly.
func (g grid) at(i, j float64) geom.Point {
	x, y := g.length*i/float64(g.w), g.width*(float64(g.h)-j)/float64(g.h)
	if i == float64(g.w) {
		x = g.length
	}
	if j == 0 {
		y = g.width
	}
	return geom.Pt(x, y)
}

func (g grid) corner(v int32) geom.Point {
	return g.at(float64(int(v)%(g.w+1)), float64(int(v)/(g.w+1)))
}

// middle returns the place amid two neighbouring corners.
func (g grid) middle(a, b int32) geom.Point {
	w1 := g.w + 1
	return g.at(float64(int(a)%w1+int(b)%w1)/2, float64(int(a)/w1+int(b)/w1)/2)
}

// line is an arc as places on the face.
type line struct {
	full   []geom.Point // the border as it is
	thin   []geom.Point // fewer points
	closed bool         // the last point is not the first again
	most   float64      // mm that thin may lie off full
}

// smoothCut is how far, in cell diagonals, the chain of the middles of sides
// lies off the sides themselves: it cuts each corner at half a side, sqrt(1/2)/2
// of a side off, which is a quarter of the diagonal.
const smoothCut = 0.25

// lineOf takes the middles of an arc's sides where it turns, and its ends. An
// oblique straight border so loses its steps. raw keeps the corners instead.
func (g grid) lineOf(a *arc, raw bool) line {
	c := a.corners
	l := line{closed: a.closed}
	across := func(k int) int32 { // the step from corner k to k+1
		n := len(c) - 1
		if a.closed {
			k = (k + n) % n
		}
		if k < 0 || k >= n {
			return 0
		}
		return c[k+1] - c[k]
	}
	if !a.closed {
		l.full = append(l.full, g.corner(c[0]))
	}
	for k := 0; k+1 < len(c); k++ {
		s := across(k)
		switch {
		case raw && (a.closed || k > 0):
			if across(k-1) != s {
				l.full = append(l.full, g.corner(c[k]))
			}
		case !raw && (across(k-1) != s || across(k+1) != s):
			l.full = append(l.full, g.middle(c[k], c[k+1]))
		}
	}
	if !a.closed {
		l.full = append(l.full, g.corner(c[len(c)-1]))
	}
	return l
}

// shorten makes thin anew for what may now be left out.
func (l *line) shorten() {
	switch {
	case l.most <= 0 || len(l.full) < 3:
		l.thin = l.full
	case !l.closed && l.full[0] == l.full[len(l.full)-1]:
		// A ring that ends where it sets out.
		b := farFrom(l.full, l.full[0])
		l.thin = append(thinOpen(l.full[:b+1], l.most), thinOpen(l.full[b:], l.most)[1:]...)
	case !l.closed:
		l.thin = thinOpen(l.full, l.most)
	default:
		// Two far ends of the ring stay.
		a := farFrom(l.full, l.full[0])
		turned := append(append(make([]geom.Point, 0, len(l.full)+1), l.full[a:]...), l.full[:a]...)
		b := farFrom(turned, turned[0])
		turned = append(turned, turned[0])
		one, two := thinOpen(turned[:b+1], l.most), thinOpen(turned[b:], l.most)
		l.thin = append(append(make([]geom.Point, 0, len(one)+len(two)), one[:len(one)-1]...), two[:len(two)-1]...)
		if len(l.thin) < 3 {
			l.thin = l.full
		}
	}
}

func farFrom(p []geom.Point, q geom.Point) int {
	at, most := 0, -1.0
	for i, r := range p {
		if d := r.Sub(q); d.Dot(d) > most {
			at, most = i, d.Dot(d)
		}
	}
	return at
}

// mostHalvings is how often a line that meets another is given half the room
// before it keeps all its points, which meet nothing.
const mostHalvings = 6

// thinAll shortens all lines so that none meets another or itself but at the
// ends they share, and leaves those in the same order round about.
func thinAll(lines []line, knots []knot, most float64) {
	for i := range lines {
		lines[i].most = most
		lines[i].shorten()
	}
	for k := range mostHalvings {
		bad := meeting(lines, knots)
		if len(bad) == 0 {
			return
		}
		for _, i := range bad {
			lines[i].most /= 2
			if k == mostHalvings-1 {
				lines[i].most = 0
			}
			lines[i].shorten()
		}
	}
	if len(meeting(lines, knots)) > 0 {
		for i := range lines {
			lines[i].most = 0
			lines[i].shorten()
		}
	}
}

// side is one straight piece of a line.
type side struct {
	a, b               geom.Point
	lox, hix, loy, hiy float64
	line               int
}

// knot is a place where lines end: the ways that set out there, anticlockwise.
type knot []int32

// turned reports whether the ways no longer set out in that order.
func (k knot) turned(lines []line) bool {
	var sum float64
	angle := func(way int32) float64 {
		p := lines[way/2].thin
		a, b := p[0], p[1]
		if way&1 == 1 {
			a, b = p[len(p)-1], p[len(p)-2]
		}
		return math.Atan2(b.Y-a.Y, b.X-a.X)
	}
	for i, way := range k {
		d := angle(k[(i+1)%len(k)]) - angle(way)
		if d <= 0 {
			d += 2 * math.Pi
		}
		sum += d
	}
	return sum > 3*math.Pi // once round is 2 pi
}

// meeting returns the lines that meet another or themselves or have changed
// order where they end.
func meeting(lines []line, knots []knot) []int {
	var sides []side
	for i, l := range lines {
		n := len(l.thin)
		for k := range l.thin {
			if k+1 == n && !l.closed {
				break
			}
			a, b := l.thin[k], l.thin[(k+1)%n]
			sides = append(sides, side{a, b, min(a.X, b.X), max(a.X, b.X), min(a.Y, b.Y), max(a.Y, b.Y), i})
		}
	}
	slices.SortStableFunc(sides, func(s, t side) int { return cmp.Compare(s.lox, t.lox) })
	bad := map[int]bool{}
	for _, k := range knots {
		if k.turned(lines) {
			for _, way := range k {
				bad[int(way/2)] = true
			}
		}
	}
	var active []int
	for n := range sides {
		s := &sides[n]
		live := active[:0]
		for _, k := range active {
			t := &sides[k]
			if t.hix < s.lox {
				continue
			}
			live = append(live, k)
			if t.loy <= s.hiy && s.loy <= t.hiy && (!bad[s.line] || !bad[t.line]) && meet(s, t) {
				bad[s.line], bad[t.line] = true, true
			}
		}
		active = append(live, n)
	}
	out := make([]int, 0, len(bad))
	for i := range bad {
		out = append(out, i)
	}
	slices.Sort(out)
	return out
}

// rounding is the distance in mm within which a point counts as on a side: far
// under a cell, far over the rounding of a board's coordinates.
const rounding = 1e-7

// meet reports whether two sides have a place in common other than one end of
// each.
func meet(s, t *side) bool {
	if s.a == t.b || s.b == t.a {
		t = &side{a: t.b, b: t.a}
	}
	switch {
	case s.a == t.a && s.b == t.b:
		return true
	case s.a == t.a:
		return folds(s.a, s.b, t.b)
	case s.b == t.b:
		return folds(s.b, s.a, t.a)
	}
	near := func(q, a, b geom.Point) bool { return geom.SegmentDistance(q, a, b) < rounding }
	if near(s.a, t.a, t.b) || near(s.b, t.a, t.b) || near(t.a, s.a, s.b) || near(t.b, s.a, s.b) {
		return true
	}
	_, _, _, ok := geom.SegmentsMeet(s.a, s.b, t.a, t.b)
	return ok
}

// folds reports whether two sides from one end lie on one another.
func folds(from, a, b geom.Point) bool {
	u, v := a.Sub(from), b.Sub(from)
	if u.Dot(v) <= 0 {
		return false
	}
	if u.Dot(u) > v.Dot(v) {
		u, v = v, u
	}
	// u is the shorter: does its end lie on v?
	return geom.SegmentDistance(u, geom.Point{}, v) < rounding
}
