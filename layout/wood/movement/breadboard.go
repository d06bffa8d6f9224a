package movement

import (
	"fmt"

	"heartside/layout/wood/moisture"
)

// Proud is how far a breadboard end stands beyond the panel's edge in each
// season, mm; negative where the panel stands beyond it.
type Proud struct{ Now, Dry, Wet float64 }

// Breadboard is a breadboard end across a panel: glued on the fixed line,
// pinned in slots beyond it. Its own length, along the grain, does not change.
type Breadboard struct {
	Length      float64 // mm
	Front, Back Proud
	// Pins are the slots in the panel's tongue, round pins that stay in the
	// end.
	Pins []Slot

	now      float64
	dry, wet Size
}

// Breadboard returns what becomes of an end of the length given, mm, with pins
// at places from the front. The end lies about the fixed line in the panel's
// own proportion: flush at a fixed edge, even about the middle.
func (p *Panel) Breadboard(f Fixed, length float64, pins []float64, clearance float64) (*Breadboard, error) {
	line, err := p.place(f)
	if err != nil {
		return nil, err
	}
	if !(length > 0) {
		return nil, fmt.Errorf("breadboard end %g mm long: want more than 0; the panel is %g wide now", length, p.Now)
	}
	slots, err := p.Slots(f, pins, clearance)
	if err != nil {
		return nil, fmt.Errorf("pins of the breadboard end: %w", err)
	}
	b := &Breadboard{Length: length, now: p.Now, dry: p.Dry, wet: p.Wet}
	for _, s := range slots {
		b.Pins = append(b.Pins, s.InPanel())
	}
	over := length - p.Now
	share := line / p.Now
	proud := func(over float64, t Travel) Proud { return Proud{over, over - t.Dry.Value, over - t.Wet.Value} }
	b.Front = proud(over*share, p.travel(line, 0))
	b.Back = proud(over*(1-share), p.travel(line, p.Now))
	return b, nil
}

// Working shows how the end was worked out.
func (b *Breadboard) Working() moisture.Working {
	return moisture.Working{{Formula: "how far the end stands out = (its length - the panel's width) on each side of the fixed line",
		Values: []moisture.Value{mm("length", b.Length), mm("width now", b.now), mm("width dry", b.dry.Value), mm("width wet", b.wet.Value),
			mm("front now", b.Front.Now), mm("front dry", b.Front.Dry), mm("front wet", b.Front.Wet), mm("back now", b.Back.Now), mm("back dry", b.Back.Dry), mm("back wet", b.Back.Wet)},
		Flag: moisture.Derived}}
}
