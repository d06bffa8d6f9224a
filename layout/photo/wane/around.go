package wane

import (
	"errors"
	"math"
	"slices"

	"heartside/layout/geom"
)

// Around proposes the rectangle about a waney board from points of its
// outline in a picture, pixels: the ends are its straight cuts, the long sides
// the tightest straight lines that leave all of it on one side, as near to it
// in the mean as such lines can be. The corners go round as those of package
// photo do, the left end first, of a board that stands the lower one.
func Around(outline []geom.Point) ([4]geom.Point, error) {
	s, err := shapeOf(outline)
	if err != nil {
		return [4]geom.Point{}, err
	}
	s.left, s.right = endOf(s.hull, s.along.Mul(-1)), endOf(s.hull, s.along)
	return s.rectangle(1)
}

// shape is a board as a picture shows it.
type shape struct {
	hull        geom.Polygon
	along       geom.Point // from its left end
	left, right [2]geom.Point
}

func shapeOf(outline []geom.Point) (*shape, error) {
	s := &shape{hull: hullOf(outline)}
	if len(s.hull) < 4 {
		return nil, errors.New("laying a rectangle about a board: its outline is a line or less; mark the corners by hand")
	}
	s.along = axis(outline)
	if flat := math.Abs(s.along.X) >= math.Abs(s.along.Y); flat && s.along.X < 0 || !flat && s.along.Y > 0 {
		s.along = s.along.Mul(-1)
	}
	if low, high := s.reach(); high-low < 8 {
		return nil, errors.New("laying a rectangle about a board: its outline is too small; mark the corners by hand")
	}
	return s, nil
}

// reach is how far the board lies along its own direction.
func (s *shape) reach() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range s.hull {
		low, high = math.Min(low, p.Dot(s.along)), math.Max(high, p.Dot(s.along))
	}
	return low, high
}

// rectangle lays the sides. By slant, 0 to 1, they follow the board where it
// gets narrower towards one end, as if only the perspective made it so; with 0
// they are parallel in the picture.
func (s *shape) rectangle(slant float64) ([4]geom.Point, error) {
	var q [4]geom.Point
	low, high := s.reach()
	up := geom.Pt(s.along.Y, -s.along.X)
	lower, upper := tangent(s.hull, s.along, up.Mul(-1), (low+high)/2), tangent(s.hull, s.along, up, (low+high)/2)
	if slant < 1 {
		slope := func(l [2]geom.Point) float64 {
			d := l[1].Sub(l[0])
			return d.Dot(up) / d.Dot(s.along)
		}
		a, b := slope(lower), slope(upper)
		mean, half := (a+b)/2, (b-a)/2*slant
		lower, upper = s.support(mean-half, -1), s.support(mean+half, 1)
	}
	for i, pair := range [4][2][2]geom.Point{{s.left, lower}, {lower, s.right}, {s.right, upper}, {upper, s.left}} {
		p, ok := meet(pair[0], pair[1])
		if !ok {
			return q, errors.New("laying a rectangle about a board: its sides do not meet; mark the corners by hand")
		}
		q[i] = p
	}
	return q, nil
}

// support is the line of a slope that leaves the hull just on one side.
func (s *shape) support(slope, side float64) [2]geom.Point {
	up := geom.Pt(s.along.Y, -s.along.X)
	far, at := math.Inf(-1), geom.Point{}
	for _, p := range s.hull {
		if d := side * (p.Dot(up) - slope*p.Dot(s.along)); d > far {
			far, at = d, p
		}
	}
	return [2]geom.Point{at, at.Add(s.along).Add(up.Mul(slope))}
}

// axis is the direction in which points lie apart most.
func axis(list []geom.Point) geom.Point {
	var m geom.Point
	for _, p := range list {
		m = m.Add(p.Mul(1 / float64(len(list))))
	}
	var xx, xy, yy float64
	for _, p := range list {
		d := p.Sub(m)
		xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
	}
	a := math.Atan2(2*xy, xx-yy) / 2
	return geom.Pt(math.Cos(a), math.Sin(a))
}

// hullOf is the convex hull, its points going round (Andrew 1979).
func hullOf(list []geom.Point) geom.Polygon {
	p := slices.Clone(list)
	slices.SortFunc(p, func(a, b geom.Point) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	var out geom.Polygon
	for range 2 {
		from := len(out)
		for _, q := range p {
			for len(out) >= from+2 && out[len(out)-1].Sub(out[len(out)-2]).Cross(q.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, q)
		}
		out = out[:len(out)-1]
		slices.Reverse(p)
	}
	return out
}

// tangent is the line that leaves a hull on one side, out pointing away from
// it, and lies nearest to it in the mean: the edge of the hull over the middle.
func tangent(hull geom.Polygon, along, out geom.Point, middle float64) [2]geom.Point {
	var best [2]geom.Point
	far := math.Inf(-1)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		u, v := a.Dot(along), b.Dot(along)
		if (u-middle)*(v-middle) > 0 || u == v {
			continue
		}
		at := a.Lerp(b, (middle-u)/(v-u)).Dot(out)
		if at > far {
			far, best = at, [2]geom.Point{a, b}
		}
	}
	return best
}

// endOf is the sawn end of a hull on one side: its longest edge that faces that
// way, or the line across where there is none to speak of.
func endOf(hull geom.Polygon, way geom.Point) [2]geom.Point {
	const facing = 0.8 // cosine of the angle; an engineering choice
	far := math.Inf(-1)
	var tip geom.Point
	size := hull.Bounds()
	fine := hull.Simplify(0.004 * math.Max(size.W(), size.H()))
	var best [2]geom.Point
	most := 0.0
	for i, a := range fine {
		if d := a.Dot(way); d > far {
			far, tip = d, a
		}
		b := fine[(i+1)%len(fine)]
		e := b.Sub(a)
		l := e.Len()
		if l == 0 {
			continue
		}
		// Hulls go round anticlockwise by the axes' own sense.
		if n := geom.Pt(e.Y, -e.X).Mul(1 / l); n.Dot(way) > facing && l > most {
			most, best = l, [2]geom.Point{a, b}
		}
	}
	if most == 0 {
		return [2]geom.Point{tip, tip.Add(geom.Pt(-way.Y, way.X))}
	}
	// As far out as the hull.
	e := best[1].Sub(best[0])
	n := geom.Pt(e.Y, -e.X).Mul(1 / e.Len())
	out := 0.0
	for _, p := range hull {
		out = math.Max(out, p.Sub(best[0]).Dot(n))
	}
	if out < 0.15*e.Len() {
		best[0], best[1] = best[0].Add(n.Mul(out/2)), best[1].Add(n.Mul(out/2))
	}
	return best
}

// meet is where two lines cross.
func meet(a, b [2]geom.Point) (geom.Point, bool) {
	u, v := a[1].Sub(a[0]), b[1].Sub(b[0])
	d := u.Cross(v)
	if !(math.Abs(d) > 1e-6*u.Len()*v.Len()) {
		return geom.Point{}, false
	}
	return a[0].Add(u.Mul(b[0].Sub(a[0]).Cross(v) / d)), true
}
