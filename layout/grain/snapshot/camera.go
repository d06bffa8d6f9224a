package snapshot

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

type vec [3]float64

func (a vec) dot(b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) sub(b vec) vec     { return vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func (a vec) unit() vec {
	k := 1 / math.Sqrt(a.dot(a))
	return vec{a[0] * k, a[1] * k, a[2] * k}
}

// Camera is a pinhole over the face, which lies in the plane z = 0 with its
// middle at the origin, x along it and z towards the camera.
type Camera struct {
	W, H    int        // pixels
	Focal   float64    // pixels
	Dist    float64    // to what it looks at, mm
	Tilt    float64    // from straight down, degrees
	Towards float64    // the side it is tilted to, degrees from x
	Turn    float64    // of the board in the picture, degrees anticlockwise
	Look    geom.Point // of the plane z = 0, in the middle of the picture
	Bow     float64    // of photo.Lens
}

// view is a camera made ready.
type view struct {
	pos, right, down, ahead vec
	focal                   float64
	mid                     geom.Point
	lens                    photo.Lens
}

func (c *Camera) view() *view {
	st, ct := math.Sincos(c.Tilt * math.Pi / 180)
	sa, ca := math.Sincos(c.Towards * math.Pi / 180)
	v := &view{focal: c.Focal, mid: geom.Pt(float64(c.W)/2, float64(c.H)/2), lens: photo.LensOf(c.W, c.H, c.Bow)}
	v.ahead = vec{-st * ca, -st * sa, -ct}
	v.pos = vec{c.Look.X + c.Dist*st*ca, c.Look.Y + c.Dist*st*sa, c.Dist * ct}
	// The picture's right is the board's x, turned.
	sr, cr := math.Sincos(-c.Turn * math.Pi / 180)
	along := vec{cr, sr, 0}
	v.down = v.ahead.cross(along).unit()
	v.right = v.down.cross(v.ahead)
	return v
}

// project returns where the picture shows a point of space.
func (v *view) project(p vec) geom.Point {
	d := p.sub(v.pos)
	k := v.focal / d.dot(v.ahead)
	return v.lens.Bowed(v.mid.Add(geom.Pt(k*d.dot(v.right), k*d.dot(v.down))))
}

// ray returns the direction seen at a place of the picture.
func (v *view) ray(p geom.Point) vec {
	q := v.lens.Straight(p).Sub(v.mid).Mul(1 / v.focal)
	var d vec
	for i := range d {
		d[i] = v.ahead[i] + q.X*v.right[i] + q.Y*v.down[i]
	}
	return d
}

// fit moves the camera away until points fill a share of the picture.
func (c *Camera) fit(points []vec, fill float64) {
	for range 12 {
		v := c.view()
		most := 0.0
		for _, p := range points {
			q := v.project(p).Sub(v.mid)
			most = math.Max(most, math.Max(math.Abs(q.X)/v.mid.X, math.Abs(q.Y)/v.mid.Y))
		}
		if d := p0(points, v); d < 100 {
			c.Dist += 200
			continue
		}
		c.Dist *= clamp(most/fill, 0.5, 2)
	}
}

// p0 is the least distance of points before the camera.
func p0(points []vec, v *view) float64 {
	least := math.Inf(1)
	for _, p := range points {
		least = math.Min(least, p.sub(v.pos).dot(v.ahead))
	}
	return least
}

// planCamera holds a camera over a box's face.
func planCamera(r dice, level, w, h int, length, width float64, end bool) Camera {
	tilt := []float64{0, 7, 12, 20, 25, 25}[level]
	turn := []float64{0, 5, 10, 18, 25, 25}[level]
	bow := []float64{0, 0.02, 0.04, 0.07, 0.1, 0.12}[level]
	c := Camera{W: w, H: h, Focal: float64(max(w, h)) * r.in(0.72, 1.15), Dist: 1.5 * length,
		Tilt: tilt * math.Sqrt(r.Float64()), Towards: r.in(0, 360), Turn: turn * r.in(-1, 1), Bow: bow * r.in(-1, 0.6)}
	if !end && r.yes(0.04) || h > w {
		c.Turn += 90 * r.sign()
	}
	var corners []vec
	for _, q := range [4]vec{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		corners = append(corners, vec{q[0] * length / 2, q[1] * width / 2})
	}
	fill := r.in(0.62, 0.93)
	c.Look = geom.Pt(r.in(-1, 1)*0.04*length, r.in(-1, 1)*math.Min(width*0.5, 0.12*length))
	c.fit(corners, fill)
	return c
}
