package movement

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Line names the line of a panel that is held still.
type Line string

// Lines.
const (
	Front  Line = "front"
	Back   Line = "back"
	Middle Line = "middle"
	Place  Line = "place" // Fixed.At from the front
)

// Fixed is the line of a panel that is held still, along the grain.
type Fixed struct {
	Line Line
	At   float64 // mm from the front, with Place
}

// Clearance is what is left beyond the movement where nothing else is said,
// mm. An engineering choice.
const Clearance = 1.0

// Travel is how a place of a panel moves against the fixed line, mm: away from
// it is positive.
type Travel struct {
	At       float64 // from the front, now
	From     float64 // how far behind the fixed line; negative in front of it
	Dry, Wet Size
}

func (p *Panel) place(f Fixed) (float64, error) {
	at := 0.0
	switch f.Line {
	case Front:
	case Back:
		at = p.Now
	case Middle:
		at = p.Now / 2
	case Place:
		at = f.At
	default:
		return 0, fmt.Errorf("fixed line %q: want front, back, middle or a place", f.Line)
	}
	if !(at >= 0 && at <= p.Now) {
		return 0, fmt.Errorf("fixed line %g mm from the front: want 0 to %g, the panel's width", at, p.Now)
	}
	return at, nil
}

// Travel returns how a place of the panel, mm from the front, moves.
func (p *Panel) Travel(f Fixed, at float64) (Travel, error) {
	line, err := p.place(f)
	if err != nil {
		return Travel{}, err
	}
	if !(at >= 0 && at <= p.Now) {
		return Travel{}, fmt.Errorf("place %g mm from the front: want 0 to %g, the panel's width", at, p.Now)
	}
	return p.travel(line, at), nil
}

func (p *Panel) travel(line, at float64) Travel {
	t := Travel{At: at, From: at - line}
	t.Dry = p.between(line, at, moisture.Dry)
	t.Wet = p.between(line, at, moisture.Wet)
	return t
}

// between returns the change of the stretch between two places.
func (p *Panel) between(a, b float64, season moisture.Season) Size {
	if a > b {
		a, b = b, a
	}
	x, y := p.upto(a, season), p.upto(b, season)
	return Size{y.Value - x.Value, y.Lo - x.Lo, y.Hi - x.Hi}
}

// out returns how far the place may go away from the fixed line, in how far
// towards it, 0 or more.
func (t Travel) out() float64 { return math.Max(0, math.Max(t.Dry.Hi, t.Wet.Hi)) }
func (t Travel) in() float64  { return math.Max(0, -math.Min(t.Dry.Lo, t.Wet.Lo)) }

// Slot is the room a screw, button or pin needs beside where it sits now, mm,
// clearance included. The slot is in the part that stays; the fastener goes
// with the panel.
type Slot struct {
	Travel
	Away, Toward float64 // on the side away from the fixed line; on that towards it
	// Round is true on the fixed line: a round hole, no play.
	Round bool
	// Clearance is what Away and Toward hold beyond the movement.
	Clearance float64
}

// Length returns the length of the slot, end to end, for a shank of the
// diameter given, mm.
func (s Slot) Length(shank float64) float64 { return shank + s.Away + s.Toward }

// InPanel returns the slot cut in the panel instead, round a fastener that
// stays: the two sides change places.
func (s Slot) InPanel() Slot {
	s.Away, s.Toward = s.Toward, s.Away
	return s
}

// Slots returns the room needed at places across the panel, mm from the
// front, each for the bounds of the movement and a clearance beyond it.
func (p *Panel) Slots(f Fixed, at []float64, clearance float64) ([]Slot, error) {
	if !(clearance >= 0) {
		return nil, fmt.Errorf("clearance %g mm: want 0 or more", clearance)
	}
	out := make([]Slot, len(at))
	for i, a := range at {
		t, err := p.Travel(f, a)
		if err != nil {
			return nil, err
		}
		if t.From == 0 {
			out[i] = Slot{Travel: t, Round: true}
			continue
		}
		out[i] = Slot{Travel: t, Away: t.out() + clearance, Toward: t.in() + clearance, Clearance: clearance}
	}
	return out, nil
}

// Working shows how the room was worked out. It is the one in the part that
// stays.
func (s Slot) Working() moisture.Working {
	if s.Round {
		return moisture.Working{{Formula: "on the fixed line: a round hole", Values: []moisture.Value{mm("from the front", s.At)}, Flag: moisture.Practice}}
	}
	return moisture.Working{
		{Formula: "travel = change of the strips between the fixed line and the fastener", Values: []moisture.Value{mm("from the fixed line", s.From), mm("dry", s.Dry.Value), mm("dry, least", s.Dry.Lo), mm("wet", s.Wet.Value), mm("wet, most", s.Wet.Hi)}, Flag: moisture.Derived},
		{Formula: "room = greatest travel that way + clearance", Values: []moisture.Value{mm("clearance", s.Clearance), mm("away from the fixed line", s.Away), mm("towards it", s.Toward)}, Flag: moisture.Choice},
	}
}
