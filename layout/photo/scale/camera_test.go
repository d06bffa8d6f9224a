package scale

import (
	"math"
	"math/rand/v2"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// shot is a pinhole camera over a board that lies on the ground, written out by
// hand: world x and y on the face, z up, the face at z = 0. The camera looks
// straight down at (lookX, lookY) and is then tilted and turned.
type shot struct {
	wide, high  int
	focal       float64 // pixels
	tilt, pan   float64 // degrees: about the picture's x axis, then about its y axis
	roll        float64 // about the axis of the lens
	distance    float64 // mm from the place looked at
	lookX       float64
	lookY       float64
	bow         float64
	length, wid float64
	thick       float64
}

type mat [3][3]float64

func (a mat) times(b mat) (c mat) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				c[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return c
}

// see projects a point of the world: x' = K [R | t] x, y down in the picture.
func (s shot) see(x, y, z float64) geom.Point {
	rad := math.Pi / 180
	sin, cos := math.Sin, math.Cos
	a, b, c := s.tilt*rad, s.pan*rad, s.roll*rad
	down := mat{{1, 0, 0}, {0, -1, 0}, {0, 0, -1}} // looking straight down
	rx := mat{{1, 0, 0}, {0, cos(a), -sin(a)}, {0, sin(a), cos(a)}}
	ry := mat{{cos(b), 0, sin(b)}, {0, 1, 0}, {-sin(b), 0, cos(b)}}
	rz := mat{{cos(c), -sin(c), 0}, {sin(c), cos(c), 0}, {0, 0, 1}}
	r := rz.times(ry).times(rx).times(down)
	d := [3]float64{x - s.lookX, y - s.lookY, z}
	var p [3]float64
	for i := range 3 {
		for k := range 3 {
			p[i] += r[i][k] * d[k]
		}
	}
	p[2] += s.distance
	px, py := s.focal*p[0]/p[2], s.focal*p[1]/p[2]
	// The division model the other way round: r_u = r_d / (1 + b r_d^2), by
	// repeated substitution, radii in half diagonals.
	half := math.Hypot(float64(s.wide), float64(s.high)) / 2
	k := 1.0
	for range 200 {
		rd := k * math.Hypot(px, py) / half
		k = 1 + s.bow*rd*rd
	}
	return geom.Pt(float64(s.wide)/2+k*px, float64(s.high)/2+k*py)
}

func (s shot) view() photo.View {
	return photo.View{Corners: [4]geom.Point{s.see(0, 0, 0), s.see(s.length, 0, 0), s.see(s.length, s.wid, 0), s.see(0, s.wid, 0)}, Bow: s.bow}
}

// tape is a stretch between two places, on the face or on the ground under it.
func (s shot) tape(x0, y0, x1, y1 float64, ground bool) Stretch {
	z := 0.0
	if ground {
		z = -s.thick
	}
	return Stretch{A: s.see(x0, y0, z), B: s.see(x1, y1, z), Distance: math.Hypot(x1-x0, y1-y0), Ground: ground}
}

// clicked moves corners and marks by up to Click pixels either way.
func clicked(r *rand.Rand, v photo.View, list []Stretch) (photo.View, []Stretch) {
	off := func(p geom.Point) geom.Point {
		return p.Add(geom.Pt((2*r.Float64()-1)*Click, (2*r.Float64()-1)*Click))
	}
	for i := range v.Corners {
		v.Corners[i] = off(v.Corners[i])
	}
	out := append([]Stretch(nil), list...)
	for i := range out {
		out[i].A, out[i].B = off(out[i].A), off(out[i].B)
	}
	return v, out
}

// board is 1118 x 159 x 27 mm, in a picture of 2000 x 1500 pixels.
func board() shot {
	return shot{wide: 2000, high: 1500, focal: 1700, distance: 1300, lookX: 559, lookY: 90, length: 1118, wid: 159, thick: 27}
}
