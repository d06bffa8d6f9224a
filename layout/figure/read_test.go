package figure

import (
	"context"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/grain"
)

// cathedral is a face of 600 x 210 with parabolas whose tips lie on y = axis
// and point to larger x (to = 1) or smaller x: all places where x + to y'^2 /
// 50 is the same, y' = y - axis. So dy/dx = -to 25 / y'.
func cathedral(t *testing.T, axis, to float64) *Map {
	return mapOf(t, drawn(1, func(x, y float64) float64 {
		return math.Sin(2 * math.Pi * (x + to*(y-axis)*(y-axis)/50) / 60)
	}))
}

func TestCathedralMap(t *testing.T) {
	for _, to := range []float64{1, -1} {
		m := cathedral(t, 75, to)
		for k, c := range m.Cells {
			y := m.Centre(k%m.NX, k/m.NX).Y - 75
			if math.Abs(y) < 25 {
				continue // within a cell there the direction turns through 60 degrees
			}
			want := within(math.Atan2(-to*25, y) * 180 / math.Pi)
			// Over a cell of 30 mm it turns by up to 25 degrees, and what is steeper
			// is wider: the cell tells a mean that leans to its flatter side.
			if differ(c.Angle, want) > 6 || c.Angle*want < 0 {
				t.Errorf("tip to %g, cell %d at y' %g: %+v, want %g", to, k, y, c, want)
			}
		}
	}
}

// A strip of 600 x 120 at y = 20 on a board of 210. By hand from the axes:
//
//	face 1, axis at y = 70: t = 50. Up 1 shows t at v = t: axis at v = 50, and
//	x runs to the right: it points there. Turned, v = 120 - 50 = 70, and the tip
//	points to the left.
//	face 2, axis at y2 = 110: that is y = 100 of face 1, t = 80. Up 2 shows t at
//	v = 120 - t = 40, x still to the right; turned at v = 80, to the left.
//
// In front of the axis of arches that point to the right the grain rises.
func TestArchAsItLies(t *testing.T) {
	maps := [2]*Map{cathedral(t, 70, 1), cathedral(t, 110, 1)}
	b := &face.Board{ID: "A", Length: 600, Width: 210, Thickness: 26}
	for _, c := range []struct {
		up     int
		turned bool
		axis   float64
		points int
	}{{1, false, 50, 1}, {1, true, 70, -1}, {2, false, 40, 1}, {2, true, 80, -1}} {
		s := face.Strip{Board: b, Y: 20, L: 600, W: 120, Up: c.up, Turned: c.turned}
		f := Read(&s, maps, Limits{})
		if f.Kind != Arched || f.Points != c.points || math.Abs(f.Axis-c.axis) > 8 || f.Cut != [2]bool{} {
			t.Errorf("%+v: %+v", c, f)
		}
		if f.Arms[0]*float64(c.points) <= 0 || f.Arms[1]*float64(c.points) >= 0 {
			t.Errorf("%+v: arms %v", c, f.Arms)
		}
		// At the edges the grain follows the parabola: 25 / distance.
		for e, d := range [2]float64{c.axis, c.axis - 120} {
			want := math.Atan2(25, math.Abs(d)-10) * 180 / math.Pi * float64(c.points)
			if e == 1 {
				want = -want
			}
			if math.Abs(f.Edges[e]-want) > 10 {
				t.Errorf("%+v: edge %d runs at %g, about %g wanted", c, e, f.Edges[e], want)
			}
		}
	}
}

// A strip beside the axis holds half an arch, cut off at that edge; far from it
// only slanting grain.
func TestClippedArch(t *testing.T) {
	maps := [2]*Map{cathedral(t, 70, 1), nil}
	b := &face.Board{ID: "A", Length: 600, Width: 210, Thickness: 26}
	s := face.Strip{Board: b, Y: 80, L: 600, W: 100, Up: 1}
	f := Read(&s, maps, Limits{})
	if f.Kind != Arched || f.Cut != [2]bool{true, false} || f.Points != 1 || math.Abs(f.Axis+10) > 8 {
		t.Errorf("beside the axis: %+v", f)
	}
	s.Turned = true
	if f = Read(&s, maps, Limits{}); f.Cut != [2]bool{false, true} || f.Points != -1 {
		t.Errorf("turned: %+v", f)
	}
	s = face.Strip{Board: b, Y: 62, L: 600, W: 100, Up: 1}
	if f = Read(&s, maps, Limits{}); f.Kind != Arched || !f.Cut[0] {
		t.Errorf("axis 8 mm inside the edge of 100: %+v", f)
	}
	s = face.Strip{Board: b, Y: 140, L: 600, W: 60, Up: 1}
	f = Read(&s, maps, Limits{})
	// Between y' = 70 and 130 the grain falls at atan(25 / 100) = 14 degrees.
	if f.Kind != Slanting || math.Abs(f.Angle+14) > 3 {
		t.Errorf("far from the axis: %+v", f)
	}
	s.Up = 2
	if f = Read(&s, maps, Limits{}); f.Kind != Unknown {
		t.Errorf("face 2 has no map: %+v", f)
	}
}

// Straight grain at 8 degrees to the board: a strip along it is straight, one
// square to the board slants by 8, turned or not, and rolled over the face that
// runs at -8 by its own.
func TestStraightAndSlanting(t *testing.T) {
	sin, cos := math.Sincos(8 * math.Pi / 180)
	maps := [2]*Map{
		mapOf(t, drawn(1, func(x, y float64) float64 { return math.Sin(2 * math.Pi * (y*cos - x*sin) / 9) })),
		mapOf(t, drawn(1, func(x, y float64) float64 { return math.Sin(2 * math.Pi * (y*cos + x*sin) / 9) })),
	}
	b := &face.Board{ID: "A", Length: 600, Width: 210, Thickness: 26}
	for _, c := range []struct {
		s    face.Strip
		kind Kind
		want float64
	}{
		{face.Strip{Y: 20, L: 500, W: 90, Up: 1}, Slanting, 8},
		{face.Strip{Y: 20, L: 500, W: 90, Up: 1, Turned: true}, Slanting, 8},
		{face.Strip{X: 40, Y: 20, L: 500, W: 90, Angle: 8, Up: 1}, Straight, 0},
		{face.Strip{X: 40, Y: 20, L: 500, W: 90, Angle: 8, Up: 1, Turned: true}, Straight, 0},
		{face.Strip{Y: 20, L: 500, W: 90, Up: 2}, Slanting, -8},
		// Face 2 is seen rolled over: what stands at 8 on face 1 stands at -8 on
		// face 2, so along this strip its grain is straight, too.
		{face.Strip{X: 40, Y: 20, L: 500, W: 90, Angle: 8, Up: 2}, Straight, 0},
	} {
		c.s.Board = b
		f := Read(&c.s, maps, Limits{})
		if f.Kind != c.kind || math.Abs(f.Angle-c.want) > 0.5 {
			t.Errorf("%+v: %+v", c.s, f)
		}
		for _, e := range f.Edges {
			if math.Abs(e-c.want) > 0.5 {
				t.Errorf("%+v: edges %v", c.s, f.Edges)
			}
		}
	}
}

func TestNoiseHasNoFigure(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	maps := [2]*Map{mapOf(t, drawn(1, func(_, _ float64) float64 { return rng.NormFloat64() })), nil}
	b := &face.Board{ID: "A", Length: 600, Width: 210}
	s := face.Strip{Board: b, L: 600, W: 210, Up: 1}
	if f := Read(&s, maps, Limits{}); f.Kind != Unknown {
		t.Errorf("noise: %+v", f)
	}
	s.L = math.NaN()
	if f := Read(&s, maps, Limits{}); f.Kind != Unknown {
		t.Errorf("no length: %+v", f)
	}
}

// A drawn flat-sawn board: rings about a pith 60 mm under the middle that draw
// in by 60 mm a metre towards larger x. A ring just under the face comes to an
// end there, so the arches point to larger x; with the rings drawn in the other
// way to smaller x.
func TestDrawnRings(t *testing.T) {
	for _, taper := range []float64{60, -60} {
		img := grain.Draw(grain.Spec{
			Seed: 3, Length: 900, Width: 180, Thickness: 26, PxPerMM: 1, Face: 1,
			Heart: color.RGBA{150, 90, 60, 255}, Sap: color.RGBA{220, 200, 160, 255},
			Wood: grain.Wood{Ring: 5, Late: 4, Rings: 0.6},
			Pith: grain.Pith{Across: 90, Depth: 60, Taper: taper},
		})
		m, err := FromImage(context.Background(), img, 900, 180, 30)
		if err != nil {
			t.Fatal(err)
		}
		s := face.Strip{Board: &face.Board{Length: 900, Width: 180}, L: 900, W: 180, Up: 1}
		f := Read(&s, [2]*Map{m, nil}, Limits{})
		if f.Kind != Arched || float64(f.Points)*taper <= 0 || math.Abs(f.Axis-90) > 30 {
			t.Errorf("taper %g: %+v", taper, f)
		}
	}
}

// Lines drawn along two arms of an arch and one straight line.
func TestLines(t *testing.T) {
	straight := []geom.Point{{X: 0, Y: 20}, {X: 600, Y: 20}}
	m, err := FromLines([][]geom.Point{straight}, 600, 210, 30)
	if err != nil {
		t.Fatal(err)
	}
	for k, c := range m.Cells {
		if differ(c.Angle, 0) > 1e-6 || !(c.Coherence > 0) {
			t.Fatalf("cell %d: %+v", k, c)
		}
	}
	// On the line it is sure, 120 mm away half as much.
	if a, b := m.At(geom.Pt(300, 15)), m.At(geom.Pt(300, 135)); a.Coherence < 0.95 || math.Abs(b.Coherence-0.5) > 0.1 {
		t.Errorf("coherence %g and %g", a.Coherence, b.Coherence)
	}
	// Drawn parabolas y' = +-sqrt(50 (580 - x)), in one stroke each, pointing to
	// larger x about y = 105.
	var lines [][]geom.Point
	for _, tip := range []float64{580, 400} {
		var line []geom.Point
		for y := -100.0; y <= 100; y += 5 {
			if x := tip - y*y/50; x >= 0 {
				line = append(line, geom.Pt(x, 105+y))
			}
		}
		lines = append(lines, line)
	}
	if m, err = FromLines(lines, 600, 210, 30); err != nil {
		t.Fatal(err)
	}
	// At y' = 60 on the first, x = 580 - 72 = 508: falls at atan(25 / 60).
	if c := m.At(geom.Pt(508, 165)); differ(c.Angle, -math.Atan(25.0/60)*180/math.Pi) > 8 {
		t.Errorf("on the arm: %+v", c)
	}
	s := face.Strip{Board: &face.Board{Length: 600, Width: 210}, X: 150, L: 430, W: 210, Up: 1}
	f := Read(&s, [2]*Map{m, nil}, Limits{})
	if f.Kind != Arched || f.Points != 1 || math.Abs(f.Axis-105) > 10 {
		t.Errorf("drawn arches: %+v", f)
	}
	// With a picture that says otherwise the lines hold beside them.
	other := &Map{Length: 600, Width: 210, NX: 1, NY: 1, Cells: []Cell{{45, 0.9}}}
	if m, err = FromLines([][]geom.Point{straight}, 600, 210, 30); err != nil {
		t.Fatal(err)
	}
	if c := other.With(m).Cells[0]; c.Angle <= 0 || c.Angle >= 45 {
		t.Errorf("85 mm away: %+v", c)
	}
	fine := mapOf(t, drawn(1, func(x, y float64) float64 { return math.Sin((y - x) / 2) })).With(m)
	if c := fine.At(geom.Pt(300, 15)); differ(c.Angle, 0) > 5 {
		t.Errorf("beside the line: %+v", c)
	}
	if c := fine.At(geom.Pt(300, 195)); differ(c.Angle, 45) > 20 {
		t.Errorf("far from it: %+v", c)
	}
}
