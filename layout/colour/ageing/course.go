package ageing

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/colour"
)

// Species is what is known of the ageing of a wood. The zero value knows
// nothing.
type Species struct {
	ID         string
	Heart, Sap Course
	Blotches   bool    // takes dye unevenly
	Notes      []Claim // of this wood
	Cautions   []Claim // of dyeing it
}

// Course is how one kind of wood changes its colour indoors. The zero value
// stands for no measured data.
type Course struct {
	Turns     []Turn // none where nothing was stated
	Claim     Claim  // the direction in words
	Scale     Scale
	Step      Step
	Exposures []Exposure
}

// Scale is the time in which most of the change happens, years; To is 0 where
// no source gives one.
type Scale struct {
	From, To float64
	Claim    Claim
}

// Step is the change that is drawn after one and after ten years. It is an
// illustration in the stated direction, never a measurement.
type Step struct{ One, Ten Shift }

// Shift is a change in CIELAB with the radius, in CIEDE2000, within which the
// colour may lie instead.
type Shift struct{ L, A, B, Spread float64 }

// Exposure is a published change under a lamp. It gives an order of size. It is
// not a number of years indoors and is never used as one.
type Exposure struct {
	Light string // lamp and time
	// Changes in CIELAB, 0 where not given; DE is the CIELAB distance.
	DL, DA, DB, DE float64
	Claim          Claim
}

// Stated reports whether a direction was stated.
func (c *Course) Stated() bool { return len(c.Turns) > 0 }

// Direction returns the turns in words: "darkens and reddens".
func (c *Course) Direction() string {
	switch n := len(c.Turns); n {
	case 0:
		return NoData
	case 1:
		return string(c.Turns[0])
	default:
		words := make([]string, n)
		for i, t := range c.Turns {
			words[i] = string(t)
		}
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}

// Explain returns all that stands behind the course, for "how is this worked
// out".
func (c *Course) Explain() []Claim {
	if !c.Stated() {
		return []Claim{{Text: "no measured data: drawn as today"}}
	}
	out := []Claim{c.Claim}
	if c.Scale.To > 0 {
		out = append(out, c.Scale.Claim)
	} else {
		out = append(out, Claim{Text: fmt.Sprintf("no time was stated; drawn with a time constant of %g years", defaultTau), Flag: Illustration})
	}
	for _, n := range []struct {
		years string
		s     Shift
	}{{"one year", c.Step.One}, {"ten years", c.Step.Ten}} {
		out = append(out, Claim{
			Text: fmt.Sprintf("drawn after %s: L %+g, a %+g, b %+g, give or take %g in CIEDE2000", n.years, n.s.L, n.s.A, n.s.B, n.s.Spread),
			Flag: Illustration,
		})
	}
	for _, e := range c.Exposures {
		out = append(out, e.Claim)
	}
	return out
}

// check returns an error where the numbers cannot be drawn.
func (c *Course) check() error {
	for _, s := range []Shift{c.Step.One, c.Step.Ten} {
		if !(colour.Lab{L: s.L, A: s.A, B: s.B}).Known() || !(s.Spread >= 0) || math.IsInf(s.Spread, 0) {
			return fmt.Errorf("ageing: the change %+v is no change of a colour; give finite numbers and a spread of 0 or more", s)
		}
	}
	if c.Step.Ten.Spread < c.Step.One.Spread {
		return fmt.Errorf("ageing: the spread falls from %g to %g between one and ten years; it can only grow", c.Step.One.Spread, c.Step.Ten.Spread)
	}
	if s := c.Scale; !(s.From >= 0 && s.To >= s.From) || math.IsInf(s.To, 0) {
		return fmt.Errorf("ageing: %g to %g years is no span of time; give the shorter first", s.From, s.To)
	}
	return nil
}

// Engineering choices, in years.
const (
	defaultTau = 2.0  // where no source gives a time: most of the change within six years
	minTau     = 0.25 // and bounds that keep the curve well apart at one and ten years
	maxTau     = 10.0
)

// tau returns the time constant of the course: 95 per cent are done in the
// middle of the stated time.
func (c *Course) tau() float64 {
	if c.Scale.To <= 0 {
		return defaultTau
	}
	return min(max((c.Scale.From+c.Scale.To)/2/math.Log(20), minTau), maxTau)
}

// unknown is the step of a wood of which nothing is known: as today, and the
// spread of about the greatest change drawn for any wood. An engineering choice.
func unknown() Step { return Step{One: Shift{Spread: 5}, Ten: Shift{Spread: 8}} }

// drawn returns the step to draw with.
func (c *Course) drawn() Step {
	if !c.Stated() {
		return unknown()
	}
	return c.Step
}

// LastYear is the age up to which a step is drawn on; later it is held.
const LastYear = 20.0

// at returns the change after a number of years, 0 or more. It runs as
// 1 - exp(-t/tau) between today, one and ten years, where it has the values of
// the step, and on in the same way to LastYear.
func (s Step) at(years, tau float64) Shift {
	done := func(t float64) float64 { return -math.Expm1(-t / tau) }
	t := min(years, LastYear)
	from, to, w := Shift{}, s.One, 0.0
	if t <= 1 {
		w = done(t) / done(1)
	} else {
		from, to = s.One, s.Ten
		w = (done(t) - done(1)) / (done(10) - done(1))
	}
	return Shift{mix(from.L, to.L, w), mix(from.A, to.A, w), mix(from.B, to.B, w), mix(from.Spread, to.Spread, w)}
}

// mix goes from a to b as w goes from 0 to 1. The products are rounded before
// they are summed, so that processors agree, and the ends are exact.
func mix(a, b, w float64) float64 {
	if a == b {
		return a
	}
	return float64((1-w)*a) + float64(w*b)
}
