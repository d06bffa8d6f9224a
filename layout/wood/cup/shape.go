package cup

import (
	"math"

	"heartside/layout/geom"
)

// Shape is the show side of a panel seen from its end, freed of its best-fit
// line. Widths are those before the change; that the panel gets narrower or
// wider is another reading.
type Shape struct {
	// Points run from the front edge to the back edge.
	Points []geom.Point
	// Sagitta is the rise of the best parabola over the whole width: the bow
	// of the panel, positive where the show face is hollow. PeakToPeak is the
	// distance between the highest and the lowest point, Washboard the
	// greatest departure of a strip from its own chord. All mm.
	Sagitta, PeakToPeak, Washboard float64
	Joints                         []Joint

	lean []float64 // how far the section leans at each point, anticlockwise, rad
}

// Joint is a glue line: where it lies from the front edge, and the slope of
// the face in front of it and behind it against the best-fit line, degrees.
type Joint struct{ At, Front, Rear float64 }

// Kink is how sharply the face bends at the joint, degrees.
func (j Joint) Kink() float64 { return j.Rear - j.Front }

// part is one strip's share in a shape.
type part struct {
	width       float64
	z           []float64 // heights over the chord, evenly spaced; nil for an arc
	kappa       float64   // of the arc
	front, rear float64   // how the edges lean against the chord, or the slope of the arc's ends
}

// arc returns a part that is an arc of a circle. Against its chord its ends
// slope by half of what it turns.
func arc(width, kappa float64) part {
	return part{width: width, kappa: kappa, front: -kappa * width / 2, rear: kappa * width / 2}
}

// glued returns a part of the line's own form, whose edges stay planes; bend
// is the curvature of the layers, which turns the edges too.
func glued(width float64, l Line, bend float64) part {
	p := part{width: width, front: l.front - bend*width/2, rear: l.rear + bend*width/2}
	for k, q := range l.Points {
		v := width * float64(k) / steps
		p.z = append(p.z, q.Y-bend*v*(width-v)/2)
	}
	return p
}

// join lays parts side by side: heights meet at every joint, and so do the
// leans.
func join(parts []part) Shape {
	s := Shape{Points: []geom.Point{{}}, lean: []float64{0}}
	var lean float64
	for i, p := range parts {
		start := s.Points[len(s.Points)-1]
		tilt := lean - p.front // of the chord
		if i == 0 {
			tilt = 0
			s.lean[0] = p.front
		}
		sin, cos := math.Sincos(tilt)
		for k := 1; k <= steps; k++ {
			share := float64(k) / steps
			v := p.width * share
			var d geom.Point
			if p.z != nil {
				d = geom.Pt(v*cos-p.z[k]*sin, v*sin+p.z[k]*cos)
			} else { // exact arc: a chord half-way between the slopes of its ends
				half := p.kappa * v / 2
				c := v * sinc(half)
				ds, dc := math.Sincos(tilt + p.front + half)
				d = geom.Pt(c*dc, c*ds)
			}
			s.Points = append(s.Points, start.Add(d))
			s.lean = append(s.lean, tilt+p.front+(p.rear-p.front)*share)
		}
		lean = tilt + p.rear
	}
	s.measure(parts)
	return s
}

func sinc(x float64) float64 {
	if math.Abs(x) < 1e-8 {
		return 1
	}
	return math.Sin(x) / x
}

// measure turns the shape level and fills in what follows from the points.
func (s *Shape) measure(parts []part) {
	slope := s.level()
	for i := range s.lean {
		s.lean[i] -= slope
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range s.Points {
		lo, hi = math.Min(lo, p.Y), math.Max(hi, p.Y)
	}
	s.PeakToPeak = hi - lo
	_, _, kappa := parabola(s.Points)
	span := s.Points[len(s.Points)-1].X - s.Points[0].X
	s.Sagitta = kappa * span * span / 8
	at := 0.0
	for i, p := range parts {
		a, b := s.Points[i*steps], s.Points[(i+1)*steps]
		along := b.Sub(a)
		for k := i*steps + 1; k < (i+1)*steps; k++ {
			s.Washboard = math.Max(s.Washboard, math.Abs(along.Cross(s.Points[k].Sub(a)))/along.Len())
		}
		if i == 0 {
			at += p.width
			continue
		}
		j, deg := i*steps, 180/math.Pi
		joint := Joint{At: at, Front: s.lean[j] * deg, Rear: s.lean[j] * deg}
		if p.z != nil {
			joint.Front, joint.Rear = s.slope(j, -1)*deg, s.slope(j, 1)*deg
		}
		s.Joints = append(s.Joints, joint)
		at += p.width
	}
}

// level turns and moves the points so that their best-fit line is Z = 0 and
// the middle of the panel keeps its Y; it returns the angle taken out.
func (s *Shape) level() float64 {
	n := len(s.Points)
	from, to := s.Points[0], s.Points[n-1]
	chord := math.Atan2(to.Y-from.Y, to.X-from.X)
	turn := func(by float64) {
		m := geom.Rotate(-by * 180 / math.Pi)
		for i, p := range s.Points {
			s.Points[i] = m.Apply(p)
		}
	}
	turn(chord)
	var w0, y1, y2, z0, yz float64
	mid := (s.Points[0].X + s.Points[n-1].X) / 2
	for i, p := range s.Points {
		w := s.Points[min(i+1, n-1)].X - s.Points[max(i-1, 0)].X
		y := p.X - mid
		w0 += w
		y1 += w * y
		y2 += w * y * y
		z0 += w * p.Y
		yz += w * y * p.Y
	}
	rest := math.Atan((yz - y1*z0/w0) / (y2 - y1*y1/w0))
	turn(rest)
	first, last := s.Points[0].X, s.Points[n-1].X
	z0, w0 = 0, 0
	for i, p := range s.Points {
		w := s.Points[min(i+1, n-1)].X - s.Points[max(i-1, 0)].X
		z0 += w * p.Y
		w0 += w
	}
	for i := range s.Points {
		s.Points[i] = s.Points[i].Sub(geom.Pt((first+last)/2, z0/w0))
	}
	return chord + rest
}

// slope returns the slope at point j toward one side, from three points.
func (s *Shape) slope(j, side int) float64 {
	a, b, c := s.Points[j], s.Points[j+side], s.Points[j+2*side]
	return math.Atan((-3*a.Y + 4*b.Y - c.Y) / (-3*a.X + 4*b.X - c.X))
}

// place moves the shape so that its middle lies at Y = half the width.
func (s *Shape) place(width float64) {
	for i := range s.Points {
		s.Points[i].X += width / 2
	}
}
