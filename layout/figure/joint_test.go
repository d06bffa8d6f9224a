package figure

import (
	"math"
	"testing"
)

func kindsOf(list []Fault) (out []FaultKind) {
	for _, f := range list {
		out = append(out, f.Kind)
	}
	return out
}

func TestJoint(t *testing.T) {
	straight := EdgeFigure{Figure: Figure{Kind: Straight, Edges: [2]float64{1, -1}}}
	steep := EdgeFigure{Figure: Figure{Kind: Slanting, Edges: [2]float64{11, 11}}}
	right := EdgeFigure{Figure: Figure{Kind: Arched, Edges: [2]float64{3, -3}, Points: 1}}
	left := EdgeFigure{Figure: Figure{Kind: Arched, Edges: [2]float64{-3, 3}, Points: -1}}
	behind := EdgeFigure{Figure: Figure{Kind: Arched, Edges: [2]float64{-20, -4}, Points: 1, Cut: [2]bool{true, false}}}
	before := EdgeFigure{Figure: Figure{Kind: Arched, Edges: [2]float64{4, 20}, Points: 1, Cut: [2]bool{false, true}}}
	in := func(f EdgeFigure, order int) EdgeFigure { f.Log, f.Order = "L1", order; return f }
	for i, c := range []struct {
		a, b EdgeFigure
		want []FaultKind
	}{
		{straight, straight, nil},
		{straight, steep, []FaultKind{AngleStep}},
		{straight, right, nil},                 // an arch whose edges run straight stands beside straight grain
		{right, right, []FaultKind{AngleStep}}, // -3 against 3: more than 4
		{right, left, []FaultKind{Opposed}},
		{straight, behind, []FaultKind{AngleStep, ClippedFig}},
		{straight, before, []FaultKind{AngleStep}},
		{before, behind, nil}, // two halves make one
		{behind, before, []FaultKind{AngleStep}},
		{EdgeFigure{}, steep, nil},
		{in(straight, 2), in(straight, 3), nil},
		{in(straight, 2), in(straight, 5), []FaultKind{OutOfOrder}},
		{in(EdgeFigure{}, 5), in(straight, 2), []FaultKind{OutOfOrder}},
	} {
		got := kindsOf(Joint(c.a, c.b))
		if len(got) != len(c.want) {
			t.Errorf("case %d: %v, want %v", i, got, c.want)
			continue
		}
		for k := range got {
			if got[k] != c.want[k] {
				t.Errorf("case %d: %v, want %v", i, got, c.want)
			}
		}
	}
	// 12 degrees: half the way from 4 to 20, half of 0.8 points.
	f := Joint(straight, steep)[0]
	if math.Abs(f.Points-0.4) > 1e-9 || f.Measure != 12 || f.Limit != 4 {
		t.Errorf("%+v", f)
	}
	// Directions are of lines: 89 and -89 are 2 apart.
	up, down := straight, straight
	up.Edges, down.Edges = [2]float64{89, 89}, [2]float64{-89, -89}
	if got := Joint(up, down); len(got) != 0 {
		t.Errorf("89 against -89: %+v", got)
	}
}

// Turned half round as a whole, a pair has the same faults.
func TestJointTurnedRound(t *testing.T) {
	a := Figure{Kind: Arched, Edges: [2]float64{5, -12}, Points: 1, Cut: [2]bool{false, true}}
	b := Figure{Kind: Arched, Edges: [2]float64{9, -2}, Points: -1}
	round := func(f Figure) EdgeFigure {
		f.Edges[0], f.Edges[1] = f.Edges[1], f.Edges[0]
		f.Cut[0], f.Cut[1] = f.Cut[1], f.Cut[0]
		f.Points = -f.Points
		return EdgeFigure{Figure: f}
	}
	one, two := Joint(EdgeFigure{Figure: a}, EdgeFigure{Figure: b}), Joint(round(b), round(a))
	if len(one) != 3 || len(two) != 3 {
		t.Fatalf("%+v, %+v", one, two)
	}
	for i := range one {
		if one[i] != two[i] {
			t.Errorf("%+v, %+v", one[i], two[i])
		}
	}
}
