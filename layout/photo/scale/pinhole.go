package scale

import (
	"fmt"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

type vec [3]float64

func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func (a vec) dot(b vec) float64    { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) len() float64         { return math.Sqrt(a.dot(a)) }
func (a vec) mul(k float64) vec    { return vec{a[0] * k, a[1] * k, a[2] * k} }
func (a vec) add(b vec) vec        { return vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vec) minus(b vec) vec      { return a.add(b.mul(-1)) }
func (a vec) unit() vec            { return a.mul(1 / a.len()) }
func (a vec) over(f float64) vec   { return vec{a[0] / f, a[1] / f, a[2]} }
func (a vec) flat() (x, y float64) { return a[0] / a[2], a[1] / a[2] }

// rectangle is a rectangle before a pinhole whose focal length is not told:
// the point at shares (s, t) of its sides lies in the direction
// corner + s along + t across, the first two of the three still to be divided
// by the focal length. The depth of the first corner is 1.
type rectangle struct{ corner, along, across vec }

// model is all that is known of a picture and what was measured in it. Lengths
// of the picture are in units of its longer side.
type model struct {
	lens      photo.Lens
	longer    float64 // pixels
	thickness float64
	stretches []Stretch
	corners   [4]geom.Point // pixels
	rect      rectangle
	shares    [][2]geom.Point // where the marks lie on the rectangle, in parts of its sides

	entered bool
	ratio   float64 // of length to width, its natural logarithm, where entered
}

func newModel(view photo.View, wide, high int, thickness float64, stretches []Stretch) *model {
	return &model{lens: photo.LensOf(wide, high, view.Bow), longer: float64(max(wide, high)),
		thickness: thickness, stretches: stretches, corners: view.Corners}
}

// name tells of which stretch a message is, where there are several.
func (m *model) name(i int) string {
	if len(m.stretches) < 2 {
		return ""
	}
	return fmt.Sprintf("stretch %d: ", i+1)
}

// ray returns the direction of a pixel, not divided by the focal length.
func (m *model) ray(p geom.Point) vec {
	d := m.lens.Straight(p).Sub(m.lens.Middle).Mul(1 / m.longer)
	return vec{d.X, d.Y, 1}
}

// near lays the rectangle through the corners (Zhang and He 2007, equations 11
// and 12) and the marks onto it; an error where a stretch is too short or lies
// beyond what a picture of the plane can show.
func (m *model) near() error {
	var c [4]vec
	for i, p := range m.corners {
		c[i] = m.ray(p)
	}
	// The depths of the corners follow from the sides being parallel.
	k1 := c[0].cross(c[2]).dot(c[3]) / c[1].cross(c[2]).dot(c[3])
	k3 := c[0].cross(c[2]).dot(c[1]) / c[3].cross(c[2]).dot(c[1])
	if !(k1 > 0.02 && k1 < 50 && k3 > 0.02 && k3 < 50) {
		return fmt.Errorf("the four corners are no picture of a board; look at them again")
	}
	m.rect = rectangle{c[0], c[1].mul(k1).minus(c[0]), c[3].mul(k3).minus(c[0])}
	m.shares = nil
	for i, s := range m.stretches {
		name := m.name(i)
		var at [2]geom.Point
		for k, p := range [2]geom.Point{s.A, s.B} {
			q, ok := m.rect.shares(m.ray(p))
			if !ok {
				return fmt.Errorf("%smark %d lies beyond the ground the board lies on", name, k+1)
			}
			at[k] = q
		}
		m.shares = append(m.shares, at)
		if d := at[1].Sub(at[0]); max(math.Abs(d.X), math.Abs(d.Y)) < nearShare {
			return fmt.Errorf("%sthe marks are under %.0f %% of the board from one another; take marks farther apart", name, 100*nearShare)
		}
	}
	return nil
}

// shares returns where a ray meets the plane, in parts of the two sides.
func (r *rectangle) shares(d vec) (geom.Point, bool) {
	// corner + s along + t across = k d, by Cramer's rule.
	n := r.along.cross(r.across)
	den := d.dot(n)
	k := r.corner.dot(n) / den
	if !(k > 0 && k < 1e3) {
		return geom.Point{}, false
	}
	// The sides may be anything but parallel: solve in the plane they span.
	q := d.mul(k).minus(r.corner)
	nn := n.dot(n)
	return geom.Pt(q.cross(r.across).dot(n)/nn, r.along.cross(q).dot(n)/nn), true
}

// focals returns focal lengths to begin from, in units of the longer side:
// usual ones and, where the corners tell it, that with a right angle between
// the sides.
func (r *rectangle) focals() []float64 {
	out := []float64{focalUsual, 0.6, 1.5}
	flat := r.along[0]*r.across[0] + r.along[1]*r.across[1]
	if f2 := -flat / (r.along[2] * r.across[2]); f2 > 0.09 && f2 < 25 {
		out = append(out, math.Sqrt(f2))
	}
	return out
}

// begin returns values to begin the adjustment from at a focal length.
func (m *model) begin(f float64) ([]float64, pose, bool) {
	u, v, x0 := m.rect.along.over(f), m.rect.across.over(f), m.rect.corner.over(f)
	var q pose
	q[0] = u.unit()
	q[1] = v.minus(q[0].mul(v.dot(q[0]))).unit()
	q[2] = q[0].cross(q[1])
	h := -x0.dot(q[2]) // of the camera above the plane, where the depth of the corner is 1
	if !(h > 1e-4) {
		return nil, q, false
	}
	// One scale from all stretches, each as good as another.
	scale := 0.0
	for i, s := range m.stretches {
		d := m.shares[i][1].Sub(m.shares[i][0])
		seen := u.mul(d.X).add(v.mul(d.Y)).len()
		low := 0.0
		if s.Ground {
			low = m.thickness * seen / h
		}
		scale += max(s.Distance-low, 0.1*s.Distance) / seen / float64(len(m.stretches))
	}
	p := make([]float64, atMarks+4*len(m.stretches))
	p[atFocal] = math.Log(f)
	for k := range 3 {
		p[atPlace+k] = x0[k] * scale
	}
	p[atLength], p[atWidth] = math.Log(u.len()*scale), math.Log(v.len()*scale)
	for i, s := range m.stretches {
		for k, sh := range m.shares[i] {
			// In the frame of the face; on the ground the same ray reaches farther.
			x := u.mul(sh.X).add(v.mul(sh.Y)).add(x0).mul(scale)
			if s.Ground {
				x = x.mul(1 + m.thickness/(h*scale))
			}
			d := x.minus(x0.mul(scale))
			p[atMarks+4*i+2*k], p[atMarks+4*i+2*k+1] = d.dot(q[0]), d.dot(q[1])
		}
	}
	return p, q, true
}
