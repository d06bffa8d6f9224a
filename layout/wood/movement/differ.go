package movement

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Effect is a difference between two panels in each season, first less second,
// mm.
type Effect struct{ Dry, Wet float64 }

func (e Effect) minus(f Effect) Effect { return Effect{e.Dry - f.Dry, e.Wet - f.Wet} }

// Difference says why two panels move differently over the same width. Sap,
// Rings and Rest sum to Total.
type Difference struct {
	Width      float64 // the width both are brought to, mm
	Total      Effect
	Sap        Effect // from the share of sapwood and its factor
	Rings      Effect // from how the rings lie
	Rest       Effect // from other woods or other moisture contents
	ShareA     float64
	ShareB     float64 // mean share of sapwood by width
	FlatA      float64
	FlatB      float64 // mean flatness of the rings by width
	IfOneTenth Effect  // what Sap would be if sapwood moved a tenth more than heartwood
}

// Differ compares two panels over a width in mm and tells what the difference
// in movement comes from. Panels that differ in sapwood are told its size: 0
// at the factor 1.00.
func Differ(a, b *Panel, width float64) (*Difference, error) {
	if a == nil || b == nil {
		return nil, fmt.Errorf("two panels to compare: one has no strips; place some first")
	}
	if !(width > 0) || math.IsInf(width, 0) {
		return nil, fmt.Errorf("width %g mm to compare over: want more than 0", width)
	}
	as := func(m *Moved) (flat, sap float64) { return m.flatness(), m.sapped() }
	noSap := func(m *Moved) (flat, sap float64) { return m.flatness(), 1 }
	flat := func(*Moved) (flat, sap float64) { return 1, 1 }
	tenth := func(m *Moved) (flat, sap float64) { return m.flatness(), 1 + m.Strip.SapShare*0.1 }
	diff := func(how func(*Moved) (float64, float64)) Effect {
		return a.mean(width, how).minus(b.mean(width, how))
	}
	d := &Difference{Width: width, Total: diff(as)}
	without := diff(noSap)
	d.Rest = diff(flat)
	d.Sap, d.Rings = d.Total.minus(without), without.minus(d.Rest)
	d.IfOneTenth = diff(tenth).minus(without)
	d.ShareA, d.FlatA = a.shares()
	d.ShareB, d.FlatB = b.shares()
	return d, nil
}

// flatness is the one the strip's value was worked out with.
func (m *Moved) flatness() float64 {
	if !m.Strip.Rings.Known() && math.Abs(m.dry.Radial)+math.Abs(m.wet.Radial) > math.Abs(m.dry.Tangential)+math.Abs(m.wet.Tangential) {
		return 0
	}
	return m.Flat
}

// mean returns the movement of a panel of the width given made of these
// strips, with other rings or sapwood.
func (p *Panel) mean(width float64, how func(*Moved) (flat, sap float64)) Effect {
	var e Effect
	for i := range p.Strips {
		m := &p.Strips[i]
		flat, sap := how(m)
		part := m.Strip.Width / p.Now * width * sap
		e.Dry += part * m.dry.At(flat)
		e.Wet += part * m.wet.At(flat)
	}
	return e
}

func (p *Panel) shares() (sap, flat float64) {
	for i := range p.Strips {
		m := &p.Strips[i]
		sap += m.Strip.SapShare * m.Strip.Width / p.Now
		flat += m.Flat * m.Strip.Width / p.Now
	}
	return sap, flat
}

// Working shows how the difference was taken apart.
func (d *Difference) Working() moisture.Working {
	both := func(e Effect) []moisture.Value { return []moisture.Value{mm("dry", e.Dry), mm("wet", e.Wet)} }
	return moisture.Working{
		{Formula: "difference in movement over the same width, first less second", Values: append(both(d.Total), mm("width", d.Width)), Flag: moisture.Derived},
		{Formula: "from sapwood: the same less the difference with the factor 1.00", Values: append(both(d.Sap), moisture.Value{Name: "share of sapwood, first", Number: d.ShareA}, moisture.Value{Name: "second", Number: d.ShareB}), Source: SapText, Flag: moisture.Given},
		{Formula: "were the factor 1.10", Values: both(d.IfOneTenth), Flag: moisture.Choice},
		{Formula: "from the rings: less the difference with all strips flat-sawn", Values: append(both(d.Rings), moisture.Value{Name: "flatness of the rings, first", Number: d.FlatA}, moisture.Value{Name: "second", Number: d.FlatB}), Flag: moisture.Derived},
		{Formula: "from other woods or moisture contents: what is left", Values: both(d.Rest), Flag: moisture.Derived},
	}
}
