package movement

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Gap is the gap at an edge of a panel that stands in an opening: a door, a
// drawer front, a panel in a frame. The opening is taken to stay, as it does
// where its sides run along the grain past the edge.
type Gap struct {
	Travel         // of the edge
	Leave  float64 // to leave now, mm
	DryGap float64 // what becomes of it in the dry season, mm
	WetGap float64 // and in the wet
	Most   float64 // at the driest, with the bounds, mm
	Least  float64 // what stays at the dampest, with the bounds, mm
}

// Gaps returns the gaps to leave now at the front and the back edge so that
// least, in mm, stays between the edge and the opening in every season. Now is
// the season of the build: the same door needs the whole of its movement in
// the dry season and next to nothing in the wet one. A door is held at its
// hinges, a drawer front where it rests: f is that edge.
func (p *Panel) Gaps(f Fixed, least float64) (front, back Gap, err error) {
	line, err := p.place(f)
	if err != nil {
		return Gap{}, Gap{}, err
	}
	if !(least >= 0) {
		return Gap{}, Gap{}, fmt.Errorf("least gap %g mm: want 0 or more", least)
	}
	return p.gap(line, 0, least), p.gap(line, p.Now, least), nil
}

func (p *Panel) gap(line, at, least float64) Gap {
	t := p.travel(line, at)
	leave := t.out() + least
	return Gap{Travel: t, Leave: leave, Least: least, DryGap: leave - t.Dry.Value, WetGap: leave - t.Wet.Value, Most: leave + t.in()}
}

// Working shows how the gap was worked out.
func (g Gap) Working() moisture.Working {
	return moisture.Working{
		{Formula: "travel = change of the strips between the fixed line and the edge, from the season of the build", Values: []moisture.Value{mm("from the fixed line", math.Abs(g.From)), mm("dry", g.Dry.Value), mm("wet", g.Wet.Value), mm("wet, most", g.Wet.Hi)}, Flag: moisture.Derived},
		{Formula: "gap now = greatest travel outward + least gap", Values: []moisture.Value{mm("least gap", g.Least), mm("now", g.Leave), mm("dry", g.DryGap), mm("wet", g.WetGap), mm("most", g.Most)}, Flag: moisture.Choice},
	}
}

// Groove is a groove in a frame that holds a panel loose.
type Groove struct {
	Depth     float64 // mm
	Clearance float64 // between the panel's edge and the bottom, at the dampest
	Overlap   float64 // of the panel in the groove, at the driest
}

// LeastOverlap is how much of a panel stays in the groove at the driest where
// nothing else is said, mm. An engineering choice.
const LeastOverlap = 3.0

// GrooveSide is one edge of a panel in its groove, mm.
type GrooveSide struct {
	Gap                    // to the bottom of the groove
	OverlapNow, OverlapDry float64
	OverlapLeast           float64 // at the driest, with the bounds
	Depth                  float64 // of the groove
	DepthNeeded            float64 // for the overlap asked for
	Holds                  bool    // the groove is deep enough
}

// GrooveFit is a panel in the grooves of a frame, mm.
type GrooveFit struct {
	Front, Back GrooveSide
	Bottoms     float64 // from groove bottom to groove bottom
	Shoulders   float64 // from edge to edge of the frame: the sight width
	// Pushed is the least overlap left where the panel is not held at its fixed
	// line and lies against the bottom of the other groove, at the driest.
	Pushed float64
}

// InGroove returns how to leave a panel in the grooves of a frame now. The
// panel is pinned on the fixed line, as a rule the middle.
func (p *Panel) InGroove(f Fixed, g Groove) (*GrooveFit, error) {
	if !(g.Depth > 0) || !(g.Overlap >= 0) {
		return nil, fmt.Errorf("groove %g mm deep, overlap %g mm: want a depth above 0 and an overlap of 0 or more", g.Depth, g.Overlap)
	}
	front, back, err := p.Gaps(f, g.Clearance)
	if err != nil {
		return nil, err
	}
	side := func(gap Gap) GrooveSide {
		need := gap.Most + g.Overlap
		return GrooveSide{Gap: gap, OverlapNow: g.Depth - gap.Leave, OverlapDry: g.Depth - gap.DryGap, OverlapLeast: g.Depth - gap.Most, Depth: g.Depth, DepthNeeded: need, Holds: g.Depth >= need-1e-9}
	}
	fit := &GrooveFit{Front: side(front), Back: side(back)}
	fit.Bottoms = p.Now + front.Leave + back.Leave
	fit.Shoulders = fit.Bottoms - 2*g.Depth
	fit.Pushed = g.Depth - front.Most - back.Most
	return fit, nil
}

// Working shows how the groove was worked out.
func (s GrooveSide) Working() moisture.Working {
	return append(s.Gap.Working(), moisture.Step{Formula: "overlap = depth - gap; depth needed = greatest gap + least overlap",
		Values: []moisture.Value{mm("depth", s.Depth), mm("overlap now", s.OverlapNow), mm("overlap, least", s.OverlapLeast), mm("depth needed", s.DepthNeeded)}, Flag: moisture.Choice})
}
