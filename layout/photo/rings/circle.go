package rings

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// Circle is a ring or an edge of heartwood, mm.
type Circle struct {
	Middle geom.Point
	Radius float64
}

// Through returns the circle through three points: where the perpendicular
// bisectors of two sides meet.
func Through(a, b, c geom.Point) (Circle, error) {
	u, v := b.Sub(a), c.Sub(a)
	det := 2 * u.Cross(v)
	size := math.Max(u.Len(), v.Len())
	if !(math.Abs(det) > 1e-6*size*size) || math.IsInf(det, 0) {
		return Circle{}, fmt.Errorf("the three points lie in line: click points of one ring, well apart")
	}
	uu, vv := u.Dot(u), v.Dot(v)
	m := geom.Pt((v.Y*uu-u.Y*vv)/det, (u.X*vv-v.X*uu)/det)
	return Circle{a.Add(m), m.Len()}, nil
}

// Fit returns the circle that fits three or more points best in the sense of
// Taubin (1991), by Newton's method as Chernov (2010, Circular and Linear
// Regression) gives it. Three points are met exactly.
func Fit(points []geom.Point) (Circle, error) {
	n := float64(len(points))
	if n < 3 {
		return Circle{}, fmt.Errorf("%d points: a circle needs three", len(points))
	}
	if n == 3 {
		return Through(points[0], points[1], points[2])
	}
	var mid geom.Point
	for _, p := range points {
		mid = mid.Add(p.Mul(1 / n))
	}
	var xx, yy, xy, xz, yz, zz float64
	for _, p := range points {
		d := p.Sub(mid)
		z := d.Dot(d)
		xx += d.X * d.X / n
		yy += d.Y * d.Y / n
		xy += d.X * d.Y / n
		xz += d.X * z / n
		yz += d.Y * z / n
		zz += z * z / n
	}
	z := xx + yy
	cov := xx*yy - xy*xy
	a3 := 4 * z
	a2 := -3*z*z - zz
	vz := zz - z*z
	a1 := vz*z + 4*cov*z - xz*xz - yz*yz
	a0 := xz*(xz*yy-yz*xy) + yz*(yz*xx-xz*xy) - vz*cov
	x := 0.0
	for range 50 {
		y := a0 + x*(a1+x*(a2+x*a3))
		dy := a1 + x*(2*a2+3*x*a3)
		next := x - y/dy
		if math.IsNaN(next) || math.Abs(next-x) < 1e-12*z {
			break
		}
		x = next
	}
	det := x*x - x*z + cov
	if !(math.Abs(det) > 1e-9*z*z) {
		return Circle{}, fmt.Errorf("the points lie in line: click points of one ring, well apart")
	}
	c := geom.Pt((xz*(yy-x)-yz*xy)/(2*det), (yz*(xx-x)-xz*xy)/(2*det))
	return Circle{c.Add(mid), math.Sqrt(c.Dot(c) + z + 2*x)}, nil
}
