package cup

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// Strip is a strip as it lies in the panel.
type Strip struct {
	ID      string
	Section Section
	// PithKnown says that the pith of Section was measured or found; Bounds,
	// in the axes of Section, where it may lie (none: just there). Where it is
	// not known only the bark side counts.
	PithKnown bool
	Bounds    geom.Rect
	Bark      Bark
	// Strains are those of the change from as glued to the season; Bend is the
	// curvature of its layers and of moisture over its thickness, 1/mm.
	Strains Strains
	Bend    float64
}

// RolledOver returns the strip with the other face up.
func (s Strip) RolledOver() Strip {
	w, t, b := s.Section.Width, s.Section.Thickness, s.Bounds
	if b != (geom.Rect{}) {
		s.Bounds = geom.R(w-b.Max.X, t-b.Max.Y, w-b.Min.X, t-b.Min.Y)
	}
	s.Section, s.Bark, s.Bend = s.Section.RolledOver(), s.Bark.rolledOver(), -s.Bend
	return s
}

// Turned returns the strip turned end for end.
func (s Strip) Turned() Strip {
	if b := s.Bounds; b != (geom.Rect{}) {
		s.Bounds = geom.R(s.Section.Width-b.Max.X, b.Min.Y, s.Section.Width-b.Min.X, b.Max.Y)
	}
	s.Section = s.Section.Turned()
	return s
}

// Side returns the bark side: of the pith where it is known.
func (s Strip) Side() Bark {
	if s.PithKnown {
		return s.Section.Bark()
	}
	return s.Bark
}

// StripCup is what becomes of one strip.
type StripCup struct {
	ID    string
	Rings *Rings
	// Kappa is its curvature, rings and layers; a range where the pith is not
	// known.
	Kappa Range
	// Guessed says that the pith was not known.
	Guessed bool
}

// Panel is the cup of a panel that nothing holds.
type Panel struct {
	Width, Thickness float64
	Strips           []StripCup // front to back
	// Smooth carries the slope of the face on across every joint, so that
	// strips of one orientation make one arc; Glued keeps every glue line a
	// plane, so that each strip cups by itself and passes on what its edges
	// lean. Smooth is the most to expect; Glued is what elastic wood does.
	// They agree on layers and moisture, not on rings.
	Smooth, Glued Shape
	// Range and GluedRange hold the bow of either where piths are not known,
	// every strip taken at its worst.
	Range, GluedRange Range
	Working           []Step

	sections []Section
}

// Of returns the cup of the strips of a panel, front to back.
func Of(strips []Strip) (*Panel, error) {
	if len(strips) == 0 {
		return nil, fmt.Errorf("a panel of no strips: give at least one")
	}
	p := &Panel{Thickness: strips[0].Section.Thickness}
	var smooth, whole []part
	for _, s := range strips {
		if s.Section.Thickness != p.Thickness {
			return nil, fmt.Errorf("strip %s is %g mm thick, strip %s %g mm: the strips of a panel have one thickness", s.ID, s.Section.Thickness, strips[0].ID, p.Thickness)
		}
		c, section, err := s.cup()
		if err != nil {
			return nil, fmt.Errorf("strip %s: %w", s.ID, err)
		}
		w := s.Section.Width
		p.Width += w
		p.Strips = append(p.Strips, c)
		p.sections = append(p.sections, section)
		smooth = append(smooth, arc(w, c.Kappa.Best))
		whole = append(whole, glued(w, c.Rings.Middle, s.Bend))
	}
	p.Smooth, p.Glued = join(smooth), join(whole)
	p.Smooth.place(p.Width)
	p.Glued.place(p.Width)
	p.Range = p.spread()
	var err error
	if p.GluedRange, err = p.gluedSpread(strips, whole); err != nil {
		return nil, err
	}
	p.Working = p.working()
	return p, nil
}

// cup returns the strip's own curvature, and the section it was taken from.
func (s Strip) cup() (StripCup, Section, error) {
	c := StripCup{ID: s.ID, Guessed: !s.PithKnown}
	if badNumber(s.Bend) || math.Abs(s.Bend)*s.Section.Width > 1 {
		return c, Section{}, fmt.Errorf("layers that bend by %g 1/mm: too much for wood", s.Bend)
	}
	section := s.Section
	if !s.PithKnown {
		section = section.guess(s.Bark)
	}
	var err error
	if c.Rings, err = Cup(section, s.Strains); err != nil {
		return c, section, err
	}
	k := c.Rings.Middle.Kappa
	c.Kappa = Range{k, k, k}
	switch {
	case s.PithKnown && s.Bounds != (geom.Rect{}):
		if c.Kappa, err = Within(section, s.Bounds, s.Strains); err != nil {
			return c, section, fmt.Errorf("bounds of the pith: %w", err)
		}
	case c.Guessed:
		r, steps, err := FromBark(section.Width, section.Thickness, s.Bark, s.Strains)
		if err != nil {
			return c, section, err
		}
		c.Kappa = r
		c.Rings.Working = append(c.Rings.Working, steps...)
	}
	c.Kappa.Lo += s.Bend
	c.Kappa.Best += s.Bend
	c.Kappa.Hi += s.Bend
	return c, section, nil
}

// spread returns the bow of the smooth shape with every curvature at the end
// of its range that makes it least and most; bow is a sum of the curvatures,
// each times its influence.
func (p *Panel) spread() Range {
	r := Range{p.Smooth.Sagitta, p.Smooth.Sagitta, p.Smooth.Sagitta}
	for i, s := range p.Strips {
		if s.Kappa.Lo == s.Kappa.Hi {
			continue
		}
		const unit = 1e-7 // so small that slopes stay small
		var parts []part
		for j, t := range p.sections {
			k := 0.0
			if j == i {
				k = unit
			}
			parts = append(parts, arc(t.Width, k))
		}
		influence := join(parts).Sagitta / unit
		lo, hi := influence*(s.Kappa.Lo-s.Kappa.Best), influence*(s.Kappa.Hi-s.Kappa.Best)
		r.Lo += min(lo, hi)
		r.Hi += max(lo, hi)
	}
	return r
}

// gluedSpread does the same for the glued shape, by putting the pith of one
// strip after the other where it may lie.
func (p *Panel) gluedSpread(strips []Strip, parts []part) (Range, error) {
	bow := p.Glued.Sagitta
	r := Range{bow, bow, bow}
	for i, s := range strips {
		lo, hi := 0.0, 0.0
		kept := parts[i]
		for _, pith := range s.possible() {
			section := s.Section
			section.Pith = pith
			c, err := Cup(section, s.Strains)
			if err != nil {
				return r, fmt.Errorf("strip %s: %w", s.ID, err)
			}
			parts[i] = glued(section.Width, c.Middle, s.Bend)
			d := join(parts).Sagitta - bow
			lo, hi = min(lo, d), max(hi, d)
		}
		parts[i] = kept
		r.Lo += lo
		r.Hi += hi
	}
	return r, nil
}

func (p *Panel) working() []Step {
	values := []Value{{Name: "panel width", Number: p.Width, Unit: mm}}
	for i, s := range p.Strips {
		values = append(values, Value{Name: fmt.Sprintf("strip %s, width", s.ID), Number: p.sections[i].Width, Unit: mm}, Value{Name: fmt.Sprintf("strip %s, curvature", s.ID), Number: s.Kappa.Best, Unit: perMM})
	}
	return []Step{{
		Formula: "slope after a strip = slope before + curvature x width, along arcs of circles; best-fit line taken out; bow = curvature of the best parabola x width^2 / 8",
		Values:  append(values, Value{Name: "bow", Number: p.Smooth.Sagitta, Unit: mm}, Value{Name: "highest to lowest", Number: p.Smooth.PeakToPeak, Unit: mm}, Value{Name: "greatest rise within a strip", Number: p.Smooth.Washboard, Unit: mm}),
		Source:  "Derived here; the face keeps its slope across a joint. The most to expect", Flag: "C",
	}, {
		Formula: "lean of the glue line after a strip = lean before + what the strip's edges lean apart; each strip keeps its own form",
		Values:  []Value{{Name: "bow", Number: p.Glued.Sagitta, Unit: mm}, {Name: "highest to lowest", Number: p.Glued.PeakToPeak, Unit: mm}, {Name: "greatest rise within a strip", Number: p.Glued.Washboard, Unit: mm}},
		Source:  "Derived here; checked against plane finite elements of a glued panel", Flag: "C",
	}}
}
