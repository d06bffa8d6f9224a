package ageing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"heartside/layout/colour"
)

// Basis is what a colour at an age rests on. The smaller, the weaker.
type Basis int

// The bases.
const (
	None      Basis = iota // no measured data: as today
	Direction              // the direction is known, the size is an illustration
	Measured               // measured by the maker
)

// String names the basis in words.
func (b Basis) String() string {
	switch b {
	case Measured:
		return "measured by the maker"
	case Direction:
		return "direction only; the size is an illustration"
	}
	return NoData
}

// Today is the colour of one kind of wood on a board now.
type Today struct {
	Lab    colour.Lab
	Spread float64 // CIEDE2000; 0 for a colour from the board's own photograph
}

// DrawnSpread is the spread to give a drawing colour that stands for a board
// without a photograph. An engineering choice: a wood has boards a whole class
// of difference apart.
const DrawnSpread = 8.0

// Point is a colour measured at an age.
type Point struct {
	Years float64
	Lab   colour.Lab
}

// Scatter is the spread of a measured colour. Colours scatter by about 2 within
// one wooden surface (CIELAB distance, six woods; Buchelt and Wagenfuehr,
// European Journal of Wood and Wood Products, 2012); that it is held against
// CIEDE2000 is an engineering choice.
const Scatter = 2.0

// Shade is a colour at an age.
type Shade struct {
	Years  float64
	Lab    colour.Lab
	Spread float64 // radius in CIEDE2000 within which the colour may lie
	Basis  Basis
	Source string // in words
}

// Curve is the colour of one kind of wood over the years.
type Curve struct {
	now    Today
	course Course
	step   Step
	tau    float64
	points []knot // measured, by rising years; empty where nothing was
	after  []float64
}

type knot struct {
	years, spread float64
	lab           colour.Lab
}

// New makes the curve of a wood of colour now. Measured points, in any order,
// stand in place of the course: exact at their years, straight in CIELAB
// between them and from today to the first, the last one held. Points of one
// age are averaged. A point at year 0 is where the maker's measurements began:
// then the changes since are laid on the board's own colour.
func New(now Today, c Course, measured []Point) (*Curve, error) {
	if !now.Lab.Known() || !(now.Lab.L >= 0 && now.Lab.L <= 100) {
		return nil, fmt.Errorf("ageing: today's colour %v is none; L runs from 0 to 100", now.Lab)
	}
	if !(now.Spread >= 0) || math.IsInf(now.Spread, 0) {
		return nil, fmt.Errorf("ageing: today's colour has a spread of %g; give 0 or more", now.Spread)
	}
	if err := c.check(); err != nil {
		return nil, err
	}
	out := &Curve{now: now, course: c, step: c.drawn(), tau: c.tau()}
	if !c.Stated() {
		out.tau = defaultTau
	}
	return out, out.measure(measured)
}

func (c *Curve) measure(points []Point) error {
	list := slices.Clone(points)
	for _, p := range list {
		if !(p.Years >= 0) || math.IsInf(p.Years, 0) || !p.Lab.Known() || !(p.Lab.L >= 0 && p.Lab.L <= 100) {
			return fmt.Errorf("ageing: the measurement of %v at %g years cannot be; correct or remove it", p.Lab, p.Years)
		}
	}
	slices.SortFunc(list, byYears)
	base, spread := colour.Lab{}, Scatter
	for i := 0; i < len(list); {
		var m colour.Mean
		at := list[i].Years
		for ; i < len(list) && list[i].Years == at; i++ {
			m.Add(list[i].Lab, 1)
		}
		lab, _ := m.Lab()
		if at == 0 {
			base = minus(c.now.Lab, lab)
			spread = math.Hypot(spread, c.now.Spread)
			continue
		}
		c.points = append(c.points, knot{at, spread, held(plus(lab, base))})
		c.after = append(c.after, at)
	}
	return nil
}

// At returns the colour after a number of years; what is below 0 or no number
// counts as 0.
func (c *Curve) At(years float64) Shade {
	if !(years > 0) {
		years = 0
	}
	s := Shade{Years: years, Lab: c.now.Lab, Spread: c.now.Spread, Basis: c.Basis(), Source: c.words(years)}
	if years == 0 {
		return s
	}
	if len(c.points) > 0 {
		s.Lab, s.Spread = c.between(years)
		return s
	}
	d := c.step.at(years, c.tau)
	s.Lab = held(plus(c.now.Lab, colour.Lab{L: d.L, A: d.A, B: d.B}))
	s.Spread = math.Hypot(c.now.Spread, d.Spread)
	return s
}

// between returns the colour among the measured points. Half way the spread
// holds half the change between the two, since wood changes faster at first;
// after the last point it grows as the course's does. Engineering choices.
func (c *Curve) between(years float64) (colour.Lab, float64) {
	a := knot{0, c.now.Spread, c.now.Lab}
	for _, b := range c.points {
		if years <= b.years {
			w := (years - a.years) / (b.years - a.years)
			lab := colour.Lab{L: mix(a.lab.L, b.lab.L, w), A: mix(a.lab.A, b.lab.A, w), B: mix(a.lab.B, b.lab.B, w)}
			return lab, mix(a.spread, b.spread, w) + float64(2*w*(1-w)*colour.DeltaE(a.lab, b.lab))
		}
		a = b
	}
	more := c.step.at(years, c.tau).Spread - c.step.at(a.years, c.tau).Spread
	return a.lab, math.Hypot(a.spread, max(more, 0))
}

// Basis returns what the curve rests on.
func (c *Curve) Basis() Basis {
	switch {
	case len(c.points) > 0:
		return Measured
	case c.course.Stated():
		return Direction
	}
	return None
}

// Points returns the curve at the ages the readings are made at: today, one and
// ten years.
func (c *Curve) Points() []Point {
	out := make([]Point, 0, 3)
	for _, y := range [...]float64{0, 1, 10} {
		out = append(out, Point{y, c.At(y).Lab})
	}
	return out
}

// Explain returns what stands behind the curve, for "how is this worked out".
func (c *Curve) Explain() []Claim {
	if len(c.points) == 0 {
		return c.course.Explain()
	}
	return []Claim{{Text: "measured and entered at " + c.ages() + "; straight between, held after"}}
}

func (c *Curve) ages() string {
	words := make([]string, len(c.after))
	for i, y := range c.after {
		words[i] = strconv.FormatFloat(y, 'g', 4, 64)
	}
	if len(c.after) == 1 && c.after[0] == 1 {
		return "1 year"
	}
	return strings.Join(words, ", ") + " years"
}

func (c *Curve) words(years float64) string {
	switch c.Basis() {
	case Measured:
		if last := c.after[len(c.after)-1]; years > last {
			return "measured and entered at " + c.ages() + "; held since"
		}
		return "measured and entered at " + c.ages()
	case Direction:
		s := c.course.Claim
		return c.course.Direction() + " (" + s.Flag.Text() + "); the size is an illustration"
	}
	return "no measured data: drawn as today"
}

func plus(a, b colour.Lab) colour.Lab {
	return colour.Lab{L: a.L + b.L, A: a.A + b.A, B: a.B + b.B}
}

func minus(a, b colour.Lab) colour.Lab {
	return colour.Lab{L: a.L - b.L, A: a.A - b.A, B: a.B - b.B}
}

// held keeps the lightness within black and white.
func held(c colour.Lab) colour.Lab {
	c.L = min(max(c.L, 0), 100)
	return c
}

// byYears orders points so that their mean does not depend on how they came.
func byYears(a, b Point) int {
	return cmp.Or(cmp.Compare(a.Years, b.Years), cmp.Compare(a.Lab.L, b.Lab.L),
		cmp.Compare(a.Lab.A, b.Lab.A), cmp.Compare(a.Lab.B, b.Lab.B))
}
