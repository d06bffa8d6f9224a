package render

import (
	"math"

	"heartside/layout/geom"
)

// miterLimit is how far a sharp corner may reach, in half widths; sharper
// ones are cut off.
const miterLimit = 4

// strokeRings returns the area a pen covers as rings that all run the same
// way round, to be filled by winding number. Ends are square across the line
// unless the pen is round.
func strokeRings(p Path, pen Pen) [][]geom.Point {
	var out [][]geom.Point
	for _, l := range p {
		for _, run := range dash(l, pen.Dash) {
			out = strokeLine(out, run, pen)
		}
	}
	return out
}

func strokeLine(out [][]geom.Point, l Line, pen Pen) [][]geom.Point {
	h := pen.Width / 2
	pts := distinct(l)
	if len(pts) == 0 || !(h > 0) {
		return out
	}
	if len(pts) == 1 {
		if pen.Round {
			out = append(out, Round(pts[0], h)[0].Points)
		}
		return out
	}
	n := len(pts)
	segs := n - 1
	if l.Closed && n > 2 {
		segs = n
	}
	for i := 0; i < segs; i++ {
		a, b := pts[i], pts[(i+1)%n]
		u := b.Sub(a).Mul(1 / a.Dist(b))
		v := geom.Pt(-u.Y*h, u.X*h)
		out = append(out, []geom.Point{a.Sub(v), b.Sub(v), b.Add(v), a.Add(v)})
		if i+1 < segs || segs == n {
			c := pts[(i+2)%n]
			out = join(out, b, u, c.Sub(b).Mul(1/b.Dist(c)), h, pen.Round)
		}
	}
	if pen.Round && segs < n {
		out = append(out, Round(pts[0], h)[0].Points, Round(pts[n-1], h)[0].Points)
	}
	return out
}

// join fills the wedge outside the corner at b between directions u and w.
func join(out [][]geom.Point, b, u, w geom.Point, h float64, round bool) [][]geom.Point {
	turn := u.Cross(w)
	if math.Abs(turn) < 1e-9 && u.Dot(w) > 0 {
		return out
	}
	if round {
		return append(out, Round(b, h)[0].Points)
	}
	s := -1.0 // side of the outside of the corner
	if turn < 0 {
		s = 1
	}
	p := b.Add(geom.Pt(-u.Y, u.X).Mul(s * h))
	q := b.Add(geom.Pt(-w.Y, w.X).Mul(s * h))
	ring := []geom.Point{b, p, q}
	if k := 1 + u.Dot(w); k > 2/(miterLimit*miterLimit) {
		tip := p.Add(q).Sub(b).Sub(b).Mul(1 / k)
		ring = []geom.Point{b, p, b.Add(tip), q}
	}
	if s > 0 {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	return append(out, ring)
}

// distinct drops points that repeat the one before.
func distinct(l Line) []geom.Point {
	pts := make([]geom.Point, 0, len(l.Points))
	for _, p := range l.Points {
		if len(pts) == 0 || pts[len(pts)-1].Dist(p) > 1e-9 {
			pts = append(pts, p)
		}
	}
	if l.Closed && len(pts) > 1 && pts[0].Dist(pts[len(pts)-1]) <= 1e-9 {
		pts = pts[:len(pts)-1]
	}
	return pts
}

// mostDashes bounds the pieces one line is cut into.
const mostDashes = 20000

// dash cuts a line into the pieces a pattern of lines and gaps leaves.
func dash(l Line, pattern []float64) []Line {
	var sum float64
	for _, d := range pattern {
		if d < 0 || math.IsNaN(d) {
			return []Line{l}
		}
		sum += d
	}
	pts := l.Points
	if len(pts) < 2 {
		return []Line{l}
	}
	if l.Closed && len(pts) > 2 {
		pts = append(append([]geom.Point{}, pts...), pts[0])
	}
	var length float64
	for i := 1; i < len(pts); i++ {
		length += pts[i].Dist(pts[i-1])
	}
	if len(pattern) == 0 || sum <= 0 || length/sum*float64(len(pattern)) > mostDashes {
		return []Line{l}
	}
	var out []Line
	k, left := 0, pattern[0]
	run := []geom.Point{pts[0]}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		d := a.Dist(b)
		at := 0.0
		for d-at > left {
			at += left
			p := a.Lerp(b, at/d)
			if k%2 == 0 {
				out = append(out, Line{Points: append(run, p)})
			}
			run = []geom.Point{p}
			k++
			left = pattern[k%len(pattern)]
		}
		left -= d - at
		run = append(run, b)
	}
	if k%2 == 0 && len(run) > 1 {
		out = append(out, Line{Points: run})
	}
	return out
}
