package movement

import (
	"fmt"
	"math"

	"heartside/layout/geom"
	"heartside/layout/wood/moisture"
)

// Rings is how the growth rings lie in a strip. The zero value is unknown.
type Rings struct {
	known   bool
	angled  bool
	angle   float64 // degrees between the face and the rings
	pith    geom.Point
	section geom.Rect
}

// AtAngle returns rings at one angle to the face, in degrees: 0 flat-sawn, 90
// quarter-sawn.
func AtAngle(degrees float64) Rings { return Rings{known: true, angled: true, angle: degrees} }

// FromPith returns the rings about a pith. pith and section are (across,
// depth) in the board, mm: section is the strip's part of the board's end.
func FromPith(pith geom.Point, section geom.Rect) Rings {
	return Rings{known: true, pith: pith, section: section}
}

// Known reports whether anything is known of the rings.
func (r Rings) Known() bool { return r.known }

// Check says what is wrong with the rings.
func (r Rings) Check() error {
	switch {
	case !r.known:
		return nil
	case r.angled:
		if !(r.angle >= 0 && r.angle <= 90) {
			return fmt.Errorf("ring angle %g degrees: want 0 (flat-sawn) to 90 (quarter-sawn)", r.angle)
		}
	case !finite(r.pith.X, r.pith.Y, r.section.Min.X, r.section.Min.Y, r.section.Max.X, r.section.Max.Y):
		return fmt.Errorf("pith at %g across, %g deep: want numbers", r.pith.X, r.pith.Y)
	case r.section.W() <= 0 || r.section.H() < 0:
		return fmt.Errorf("section of %g x %g mm: want a width and a thickness", r.section.W(), r.section.H())
	}
	return nil
}

// Angle returns the angle in degrees, 0 to 90, between the face and the ring
// through a place of the section, both (across, depth). At the pith itself it
// is 0.
func Angle(pith, at geom.Point) float64 {
	d := at.Sub(pith)
	if d == (geom.Point{}) {
		return 0
	}
	return math.Atan2(math.Abs(d.X), math.Abs(d.Y)) * 180 / math.Pi
}

// Flat returns how flat the rings lie, averaged over the strip's section: the
// mean of the squared cosine of the angle between face and rings, 1 flat-sawn
// to 0 quarter-sawn. Unknown rings count as flat.
func (r Rings) Flat() float64 {
	switch {
	case !r.known:
		return 1
	case r.angled:
		c := math.Cos(r.angle * math.Pi / 180)
		return c * c
	}
	return meanFlat(r.section.Min.X-r.pith.X, r.section.Max.X-r.pith.X, r.section.Min.Y-r.pith.Y, r.section.Max.Y-r.pith.Y)
}

// bounds returns the least and greatest flatness the rings may have.
func (r Rings) bounds() (lo, hi float64) {
	if !r.known {
		return 0, 1
	}
	f := r.Flat()
	return f, f
}

// thin is where the differences of the closed form lose their digits and one
// line does, mm.
const thin = 0.1

// meanFlat returns the mean of h^2/(u^2+h^2) over u0..u1 across and h0..h1
// deep, both from the pith, in closed form.
func meanFlat(u0, u1, h0, h1 float64) float64 {
	var mean float64
	if h1-h0 < thin {
		h := (h0 + h1) / 2
		if h == 0 {
			return 0
		}
		mean = h / (u1 - u0) * (math.Atan(u1/h) - math.Atan(u0/h))
	} else {
		mean = (flatInt(u1, h1) - flatInt(u0, h1) - flatInt(u1, h0) + flatInt(u0, h0)) / ((u1 - u0) * (h1 - h0))
	}
	return math.Max(0, math.Min(1, mean))
}

// flatInt is the integral of h^2/(u^2+h^2) over 0..u and 0..h.
func flatInt(u, h float64) float64 {
	if u == 0 || h == 0 {
		return 0
	}
	return h*h/2*math.Atan(u/h) + u/2*(h-u*math.Atan(h/u))
}

// Working shows how the flatness was worked out.
func (r Rings) Working() moisture.Working {
	flat := moisture.Value{Name: "f", Number: r.Flat()}
	switch {
	case !r.known:
		return moisture.Working{{Formula: "ring angle not known: taken as flat-sawn, f = 1, which moves most; f = 0, quarter-sawn, is the other bound", Values: []moisture.Value{flat}, Flag: moisture.Choice}}
	case r.angled:
		return moisture.Working{{Formula: "f = cos^2(angle between face and rings)", Values: []moisture.Value{{Name: "angle", Number: r.angle, Unit: "deg"}, flat}, Source: "strain transform; compare MacLean, FPL Report R1473 (1945)", Flag: moisture.Memory}}
	}
	mid := r.section.Centre()
	return moisture.Working{{Formula: "f = mean over the strip's section of h^2/(u^2 + h^2) = cos^2(angle between face and rings), u across and h deep from the pith",
		Values: []moisture.Value{{Name: "strip's middle from the pith, across", Number: mid.X - r.pith.X, Unit: "mm"}, {Name: "deep", Number: mid.Y - r.pith.Y, Unit: "mm"},
			{Name: "angle there", Number: Angle(r.pith, mid), Unit: "deg"}, flat},
		Source: "strain transform; compare MacLean, FPL Report R1473 (1945)", Flag: moisture.Derived}}
}
