package movement

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Strip is a strip as it lies in a panel.
type Strip struct {
	ID       string
	Wood     Wood
	Width    float64 // mm now, as it counts in the panel
	SapShare float64 // sapwood's share of the section, 0 to 1
	Rings    Rings
	MC       *float64 // its own moisture content now, %; nil: the room's
}

// Size is a value between bounds.
type Size struct{ Value, Lo, Hi float64 }

func exact(v float64) Size { return Size{v, v, v} }

func (s Size) plus(t Size) Size { return Size{s.Value + t.Value, s.Lo + t.Lo, s.Hi + t.Hi} }

func (s Size) times(f float64) Size {
	t := Size{s.Value * f, s.Lo * f, s.Hi * f}
	if f < 0 {
		t.Lo, t.Hi = t.Hi, t.Lo
	}
	return t
}

// Options say how a panel is reckoned.
type Options struct {
	// Spread is the share by which single boards differ from the averages of
	// the tables; it widens the bounds alone.
	Spread float64
}

// DefaultOptions returns a spread of 0.15: an engineering choice.
func DefaultOptions() Options { return Options{Spread: 0.15} }

// Moved is a strip and what becomes of its width.
type Moved struct {
	Strip    Strip
	Flat     float64 // see Rings.Flat
	Dry, Wet Size    // width, mm

	dry, wet Strain
}

// Strain returns the strain of the strip's wood from now to a season.
func (m *Moved) Strain(season moisture.Season) Strain {
	if season == moisture.Wet {
		return m.wet
	}
	return m.dry
}

// Width returns the strip's width in a season.
func (m *Moved) Width(season moisture.Season) Size {
	switch season {
	case moisture.Dry:
		return m.Dry
	case moisture.Wet:
		return m.Wet
	}
	return exact(m.Strip.Width)
}

// Panel is a panel and what becomes of its width.
type Panel struct {
	Now      float64 // mm
	Dry, Wet Size    // mm; the sums of the strips
	Strips   []Moved // front to back
	Span     moisture.Span
	Options  Options
}

// Sum returns the width of a panel of strips, front to back, in each season.
// That free strips add up is what was found for boards laid side by side: no
// practical constraint on shrinkage from their neighbours (FPL research paper
// on flooring, R, abstract).
func Sum(strips []Strip, span moisture.Span, o Options) (*Panel, error) {
	if err := span.Check(); err != nil {
		return nil, err
	}
	if !(o.Spread >= 0 && o.Spread < 1) {
		return nil, fmt.Errorf("spread %g: want 0 to less than 1", o.Spread)
	}
	if len(strips) == 0 {
		return nil, fmt.Errorf("panel without strips: place one first")
	}
	p := &Panel{Span: span, Options: o, Strips: make([]Moved, len(strips))}
	for i, s := range strips {
		m, err := move(s, span, o)
		if err != nil {
			return nil, fmt.Errorf("strip %s: %w", s.ID, err)
		}
		p.Strips[i] = m
		p.Now += s.Width
		p.Dry, p.Wet = p.Dry.plus(m.Dry), p.Wet.plus(m.Wet)
	}
	return p, nil
}

func move(s Strip, span moisture.Span, o Options) (Moved, error) {
	if !(s.Width > 0) || math.IsInf(s.Width, 0) {
		return Moved{}, fmt.Errorf("width %g mm: want more than 0", s.Width)
	}
	if !(s.SapShare >= 0 && s.SapShare <= 1) {
		return Moved{}, fmt.Errorf("share of sapwood %g: want 0 to 1", s.SapShare)
	}
	if err := s.Rings.Check(); err != nil {
		return Moved{}, err
	}
	m := Moved{Strip: s, Flat: s.Rings.Flat()}
	var err error
	if m.dry, err = s.Wood.Strain(m.now(span), span.Dry.MC); err != nil {
		return Moved{}, err
	}
	if m.wet, err = s.Wood.Strain(m.now(span), span.Wet.MC); err != nil {
		return Moved{}, err
	}
	m.Dry, m.Wet = m.width(m.dry, o), m.width(m.wet, o)
	return m, nil
}

func (m *Moved) now(span moisture.Span) float64 {
	if m.Strip.MC != nil {
		return *m.Strip.MC
	}
	return span.Now.MC
}

// sapped is the factor of the strip's mixture of heartwood and sapwood.
func (m *Moved) sapped() float64 { return 1 + m.Strip.SapShare*(m.Strip.Wood.Sap()-1) }

func (m *Moved) width(s Strain, o Options) Size {
	w, k := m.Strip.Width, m.sapped()
	lo, hi := m.Strip.Rings.bounds()
	e := [2]float64{s.At(lo) * k, s.At(hi) * k}
	// The safe value of unknown rings is the greater movement.
	value := s.At(m.Flat) * k
	if !m.Strip.Rings.Known() && math.Abs(e[0]) > math.Abs(value) {
		value = e[0]
	}
	a, b := math.Min(e[0], e[1]), math.Max(e[0], e[1])
	return Size{w * (1 + value), w * (1 + a - math.Abs(a)*o.Spread), w * (1 + b + math.Abs(b)*o.Spread)}
}

// Width returns the panel's width in a season, mm.
func (p *Panel) Width(season moisture.Season) Size {
	switch season {
	case moisture.Dry:
		return p.Dry
	case moisture.Wet:
		return p.Wet
	}
	return exact(p.Now)
}

// Change returns what a season adds to the width now, mm.
func (p *Panel) Change(season moisture.Season) Size {
	return p.Width(season).plus(exact(-p.Now))
}

// upto returns the change of the stretch from the front to a place.
func (p *Panel) upto(at float64, season moisture.Season) Size {
	var sum Size
	for i := range p.Strips {
		m := &p.Strips[i]
		part := math.Min(1, at/m.Strip.Width)
		if part <= 0 {
			break
		}
		sum = sum.plus(m.Width(season).plus(exact(-m.Strip.Width)).times(part))
		at -= m.Strip.Width
	}
	return sum
}
