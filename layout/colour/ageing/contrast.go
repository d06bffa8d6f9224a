package ageing

import (
	"math"

	"heartside/layout/colour"
)

// Contrast is the CIEDE2000 difference between two woods at an age.
type Contrast struct {
	Years     float64
	DE        float64 // between the two colours
	Low, High float64 // what it may be within the spreads: bounds to about 0.5, not a likelihood
	DL        float64 // lightness of the second less that of the first
	Basis     Basis   // the weaker of the two
}

// Class returns how much the difference matters to the eye.
func (c Contrast) Class() colour.Class { return colour.ClassOf(c.DE) }

// Between returns the contrast of two shades; heartwood goes first.
func Between(heart, sap Shade) Contrast {
	c := Contrast{
		Years: heart.Years, DE: colour.DeltaE(heart.Lab, sap.Lab),
		DL: sap.Lab.L - heart.Lab.L, Basis: min(heart.Basis, sap.Basis),
	}
	c.Low, c.High = c.DE, c.DE
	for _, a := range rim(heart, sap.Lab) {
		for _, b := range rim(sap, heart.Lab) {
			d := colour.DeltaE(a, b)
			c.Low, c.High = min(c.Low, d), max(c.High, d)
		}
	}
	if heart.Spread+sap.Spread >= c.DE {
		c.Low = 0 // the two may be one colour
	}
	return c
}

// rim returns the colour of a shade and colours at its spread: along the axes
// of CIELAB, their 20 diagonals, and to and from the other colour.
func rim(s Shade, other colour.Lab) []colour.Lab {
	out := []colour.Lab{s.Lab}
	if s.Spread <= 0 {
		return out
	}
	add := func(l, a, b float64) {
		if n := math.Sqrt(float64(l*l) + float64(a*a) + float64(b*b)); n > 0 {
			out = append(out, reach(s, l/n, a/n, b/n))
		}
	}
	for l := -1.0; l <= 1; l++ {
		for a := -1.0; a <= 1; a++ {
			for b := -1.0; b <= 1; b++ {
				add(l, a, b)
			}
		}
	}
	to := minus(other, s.Lab)
	add(to.L, to.A, to.B)
	add(-to.L, -to.A, -to.B)
	return out
}

// reach goes from a shade in a direction until its spread is used up, or to
// black or white.
func reach(s Shade, l, a, b float64) colour.Lab {
	at := func(d float64) colour.Lab {
		return held(plus(s.Lab, colour.Lab{L: float64(d * l), A: float64(d * a), B: float64(d * b)}))
	}
	// The difference grows nearly in step with the distance, so scaling by what
	// is missing gets there in a few steps.
	d := s.Spread
	for range 12 {
		got := colour.DeltaE(s.Lab, at(d))
		if got <= 0 || math.Abs(got-s.Spread) < 1e-4*s.Spread {
			break
		}
		d = min(d*s.Spread/got, 16*s.Spread) // held at black or white it never gets there
	}
	return at(d)
}

// ContrastAt returns the contrast of heartwood and sapwood after some years.
func ContrastAt(heart, sap *Curve, years float64) Contrast {
	return Between(heart.At(years), sap.At(years))
}

// Outlook is the contrast now, after one and after ten years.
type Outlook struct{ Now, One, Ten Contrast }

// OutlookOf returns the outlook of heartwood beside sapwood.
func OutlookOf(heart, sap *Curve) Outlook {
	return Outlook{ContrastAt(heart, sap, 0), ContrastAt(heart, sap, 1), ContrastAt(heart, sap, 10)}
}

// Greatest returns the greatest of the three, the earliest of equals. It is
// what a streak is judged by.
func (o Outlook) Greatest() Contrast {
	out := o.Now
	for _, c := range []Contrast{o.One, o.Ten} {
		if c.DE > out.DE {
			out = c
		}
	}
	return out
}

// Change is what the contrast does over ten years.
type Change int

// The changes.
const (
	Holds Change = iota // by less than the eye calls another colour
	Grows
	Shrinks
)

// String names the change in words.
func (c Change) String() string {
	switch c {
	case Grows:
		return "grows"
	case Shrinks:
		return "shrinks"
	}
	return "stays about the same"
}

// Change returns what the contrast does from now to ten years, and whether it
// does so everywhere within the spreads. A change under 2 holds: observers of
// finished wood called a CIELAB distance of 2 another colour (Drvna industrija
// 71(2), 2020); that it is held against CIEDE2000 is an engineering choice.
func (o Outlook) Change() (c Change, sure bool) {
	switch d := o.Ten.DE - o.Now.DE; {
	case d >= 2:
		return Grows, o.Ten.Low > o.Now.High
	case d <= -2:
		return Shrinks, o.Ten.High < o.Now.Low
	}
	return Holds, false
}

// Appears returns the first of one and ten years at which the contrast reaches
// a limit that it does not reach today.
func (o Outlook) Appears(limit float64) (Contrast, bool) {
	if o.Now.DE >= limit {
		return Contrast{}, false
	}
	for _, c := range []Contrast{o.One, o.Ten} {
		if c.DE >= limit {
			return c, true
		}
	}
	return Contrast{}, false
}

// MayAppear reports whether it could be reached within the spreads, today not
// counted. Where the basis is None that says only that nothing is known.
func (o Outlook) MayAppear(limit float64) bool {
	return o.Now.DE < limit && (o.One.High >= limit || o.Ten.High >= limit)
}
