package look

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/figure"
	"heartside/layout/geom"
)

// Grain that runs 20 degrees apart over a joint has all of the weight of a
// step; boards of one log that were not neighbours in it that of the order.
// Turned end for end both ends of the wood run the same way.
func TestFigureAtAJoint(t *testing.T) {
	a, b := plank("A", face.Heart), plank("B", face.Heart)
	straight, err := figure.FromLines([][]geom.Point{{{X: 0, Y: 50}, {X: 1000, Y: 50}}, {{X: 0, Y: 90}, {X: 1000, Y: 90}}}, 1000, 100, 0)
	if err != nil {
		t.Fatal(err)
	}
	var lines [][]geom.Point
	for x := -400.0; x < 1000; x += 60 { // up to the right at 20 degrees
		lines = append(lines, []geom.Point{{X: x, Y: 0}, {X: x + 100/math.Tan(20*math.Pi/180), Y: 100}})
	}
	slanting, err := figure.FromLines(lines, 1000, 100, 0)
	if err != nil {
		t.Fatal(err)
	}
	rules := DefaultRules
	rules.Grain = map[*face.Board]Grain{
		a: {Maps: [2]*figure.Map{straight, straight}, Log: "L1", Order: 1},
		b: {Maps: [2]*figure.Map{slanting, slanting}, Log: "L1", Order: 4},
	}
	for _, p := range []*face.Panel{top(strip(a), strip(b)), top(turned(strip(b)), turned(strip(a)))} {
		sc := NewJudge(p, AsLaid, rules).Score(p, face.ReadFull(p))
		if got := points(sc, FigureStep); math.Abs(got-rules.Figure.Step) > 0.1*rules.Figure.Step {
			t.Errorf("step %.3f, want about %.3f", got, rules.Figure.Step)
		}
		near(t, "order", points(sc, FigureOrder), rules.Figure.Order)
	}
	if sc := scored(top(strip(a), strip(b)), AsLaid); points(sc, FigureStep) != 0 {
		t.Error("grain that nobody told of speaks against a joint")
	}
}
