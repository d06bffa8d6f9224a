package figure

import "math"

// EdgeFigure is the figure of a strip that meets a joint, and where in which
// log its board was sawn.
type EdgeFigure struct {
	Figure
	Log   string // "" not known
	Order int
}

// FaultKind names what speaks against two figures side by side.
type FaultKind string

// Faults of a joint.
const (
	AngleStep  FaultKind = "figure-step"    // the grain along the joint runs another way behind it; Measure in degrees
	ClippedFig FaultKind = "figure-clipped" // an arch is cut off at the joint; Measure is how many
	Opposed    FaultKind = "figure-opposed" // arches point opposite ways
	OutOfOrder FaultKind = "figure-order"   // boards of one log that were not next to each other; Measure is how far apart
)

// Fault is one thing that speaks against two figures side by side.
type Fault struct {
	Kind           FaultKind
	Points         float64 // above 0
	Measure, Limit float64
}

// Rules are the weights of the faults of a joint, in points, and what they are
// held against. All are engineering choices with no published source; that
// straight grain should meet straight grain, arches stay whole and point one
// way, and neighbours of a log stay neighbours is common practice, no source.
type Rules struct {
	Step     float64 // the directions differ by StepFull
	StepFrom float64 // degrees that are not seen over a joint
	StepFull float64
	Clipped  float64 // an arch is cut off
	Opposed  float64
	Order    float64 // boards of one log, not neighbours in it
}

// DefaultRules are used by Joint. They are small beside what sapwood at a joint
// counts for.
var DefaultRules = Rules{Step: 0.8, StepFrom: 4, StepFull: 20, Clipped: 0.4, Opposed: 0.4, Order: 0.2}

// Joint returns what speaks against b directly behind a, by DefaultRules.
func Joint(a, b EdgeFigure) []Fault { return DefaultRules.Joint(a, b) }

// Joint returns what speaks against b directly behind a. What is not known
// speaks against nothing. Two halves of arches that point the same way and meet
// at their axes make a whole one.
func (r Rules) Joint(a, b EdgeFigure) []Fault {
	var out []Fault
	add := func(k FaultKind, points, measure, limit float64) {
		if points > 0 {
			out = append(out, Fault{k, points, measure, limit})
		}
	}
	if a.Kind != Unknown && b.Kind != Unknown {
		whole := a.Cut[1] && b.Cut[0] && a.Points == b.Points
		d := math.Abs(within(a.Edges[1] - b.Edges[0]))
		if d > r.StepFrom && !whole {
			add(AngleStep, r.Step*min(1, (d-r.StepFrom)/max(r.StepFull-r.StepFrom, 1e-9)), d, r.StepFrom)
		}
		clipped := 0.0
		for _, cut := range [2]bool{a.Cut[1], b.Cut[0]} {
			if cut && !whole {
				clipped++
			}
		}
		add(ClippedFig, r.Clipped*clipped, clipped, 0)
		if a.Kind == Arched && b.Kind == Arched && a.Points != b.Points {
			add(Opposed, r.Opposed, 2, 0)
		}
	}
	if a.Log != "" && a.Log == b.Log && a.Order != b.Order {
		if d := math.Abs(float64(a.Order) - float64(b.Order)); d > 1 {
			add(OutOfOrder, r.Order, d, 1)
		}
	}
	return out
}
