package tool

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// covers checks the outline of a stroke against what a round brush covers,
// point by point: the outline is traced on cells of a quarter radius, so that
// a border lies within half a cell's diagonal (0.18 r) and the tolerance of
// thinning (0.19 r) of the true one.
func covers(t *testing.T, rings []geom.Polygon, stroke []geom.Point, r float64, board geom.Rect) {
	t.Helper()
	away := func(p geom.Point) float64 {
		d := p.Dist(stroke[0])
		for i := 1; i < len(stroke); i++ {
			d = min(d, fromSegmentSlow(p, stroke[i-1], stroke[i]))
		}
		return d
	}
	box := geom.Polygon(stroke).Bounds().Inset(-2 * r)
	in := 0
	for x := box.Min.X; x < box.Max.X; x += r / 7 {
		for y := box.Min.Y; y < box.Max.Y; y += r / 7 {
			p, got := geom.Pt(x, y), false
			for _, g := range rings {
				got = got || g.Contains(p)
			}
			if got {
				in++
			}
			edge := min(x-board.Min.X, board.Max.X-x, y-board.Min.Y, board.Max.Y-y)
			switch d := away(p); {
			case got && (d > 1.38*r || edge < -1e-9):
				t.Fatalf("%v is painted, %.3g off the stroke of radius %g", p, d, r)
			case !got && d < 0.62*r && edge > 0.38*r:
				t.Fatalf("%v is left out, %.3g off the stroke of radius %g", p, d, r)
			}
		}
	}
	if in == 0 {
		t.Fatal("nothing is painted")
	}
}

// fromSegmentSlow measures the distance at a thousand places of the segment.
func fromSegmentSlow(p, a, b geom.Point) float64 {
	best := math.Inf(1)
	n := int(a.Dist(b)) + 2
	for i := 0; i <= n; i++ {
		best = min(best, p.Dist(a.Lerp(b, float64(i)/float64(n))))
	}
	return best
}

// Strokes on face 1 of board A: a dab at (800, 120), one along, one off the
// far edge, and one over the marked end's corner.
func TestPaintAZone(t *testing.T) {
	for _, c := range []struct {
		name string
		r    float64
		face int
		at   []geom.Point // on the surface
	}{
		{"dab", 12, 1, []geom.Point{{X: 500, Y: 340}}},
		{"along", 12, 1, []geom.Point{{X: 300, Y: 340}, {X: 350, Y: 338}, {X: 500, Y: 345}}},
		{"fine", 3, 1, []geom.Point{{X: 300, Y: 340}, {X: 340, Y: 330}}},
		{"off the edge", 25, 1, []geom.Point{{X: 300, Y: 310}, {X: 330, Y: 290}, {X: 360, Y: 310}}},
		{"at the corner", 50, 1, []geom.Point{{X: 102, Y: 399}, {X: 90, Y: 380}}},
		{"face 2", 12, 2, []geom.Point{{X: 300, Y: 450}, {X: 400, Y: 470}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			was := len(b.zones(c.face))
			var stroke []geom.Point
			var s State = NewZones(model.Sap, c.r)
			for i, p := range c.at {
				stroke = append(stroke, b.FaceAt("A", c.face, p))
				if i == 0 {
					s = b.play(s, press(p.X, p.Y))
				} else {
					s = b.play(s, drag(p.X, p.Y))
				}
				if b.preview == nil || b.sketch.Radius != c.r || b.sketch.Centre != stroke[i] {
					t.Errorf("while painting: %+v", b.sketch)
				}
			}
			end := c.at[len(c.at)-1]
			s = b.play(s, release(end.X, end.Y))
			b.wantOne(s, start)
			if b.hist.UndoLabel() != "Paint a sap zone on board A" {
				t.Errorf("label %q", b.hist.UndoLabel())
			}
			var rings []geom.Polygon
			for _, z := range b.zones(c.face)[was:] {
				if z.Kind != model.Sap {
					t.Errorf("kind %s", z.Kind)
				}
				rings = append(rings, z.Polygon)
			}
			covers(t, rings, stroke, c.r, geom.R(0, 0, 2400, 210))
			if h := s.(Zones); h.Zone != len(b.zones(c.face))-1 || b.last().Zone != h.Zone {
				t.Errorf("in hand %+v", h)
			}
		})
	}
	b := newBench(t)
	start := b.Project()
	s := b.play(NewZones(model.Sap, 12), press(500, 340), drag(600, 340), typed(Escape), drag(700, 340), release(700, 340))
	if b.still(start); s != NewZones(model.Sap, 12) || b.sketch.Radius != 0 {
		t.Errorf("escape leaves %#v, %+v", s, b.sketch)
	}
}

// Whatever the hand does, the outline is one that a face takes: its sides do
// not cross, it has an area and few corners for its length.
func TestAnyStrokeIsAZone(t *testing.T) {
	const seed = 20240611
	rnd := rand.New(rand.NewPCG(seed, 1))
	for n := range 120 {
		b := newBench(t)
		r := []float64{3, 6, 12, 25, 50}[rnd.IntN(5)]
		at := geom.Pt(150+rnd.Float64()*900, 300+rnd.Float64()*70)
		dir, length := rnd.Float64()*7, 0.0
		s := b.play(NewZones(model.Sap, r), press(at.X, at.Y))
		for range 1 + rnd.IntN(25) {
			dir += rnd.NormFloat64()
			step := rnd.ExpFloat64() * 12
			at = at.Add(geom.Pt(step*math.Cos(dir), step*math.Sin(dir)))
			at.Y = min(max(at.Y, 285), 399)
			length += 2 * step
			s = b.play(s, drag(at.X, at.Y))
		}
		s = b.play(s, release(at.X, at.Y))
		if b.refused != 0 || b.commits != 1 || s.Busy() || b.preview != nil {
			t.Fatalf("seed %d, stroke %d, radius %g: %d refused, %q", seed, n, r, b.refused, b.sketch.Say)
		}
		corners := 0
		for _, z := range b.zones(1)[1:] {
			corners += len(z.Polygon)
		}
		// A chosen bound, far below the eight steps of the trace a radius.
		if most := 3*(2*length+2*math.Pi*r)/r + 8; float64(corners) > most {
			t.Errorf("seed %d, stroke %d: %d corners for a border of some %.0f radii", seed, n, corners, (2*length+2*math.Pi*r)/r)
		}
	}
}

// pattern marks cells of 1 mm from rows of text, the top row last in y.
func pattern(rows ...string) *grid {
	g := newGrid(geom.R(0, 0, float64(len(rows[0])), float64(len(rows))), 1)
	for k, row := range rows {
		for i, c := range row {
			g.on[(len(rows)-1-k)*g.nx+i] = c == '#'
		}
	}
	return g
}

// Areas are those of the cells with the holes filled, counted by eye.
func TestBordersOfCells(t *testing.T) {
	for _, c := range []struct {
		name  string
		rows  []string
		areas []float64
	}{
		{"one", []string{"#"}, []float64{1}},
		{"none", []string{".."}, nil},
		{"an L", []string{"#..", "#..", "###"}, []float64{5}},
		{"a hole is filled", []string{"###", "#.#", "###"}, []float64{9}},
		{"apart", []string{"#.#"}, []float64{1, 1}},
		{"corner to corner is apart", []string{".#", "#."}, []float64{1, 1}},
		{"corner to corner the other way", []string{"#.", ".#"}, []float64{1, 1}},
		{"a bay that closes at a corner stays open", []string{"####", "#..#", "#.#.", "####"}, []float64{12}},
		{"a comb", []string{"#.#.#", "#####"}, []float64{8}},
	} {
		got := pattern(c.rows...).borders()
		if len(got) != len(c.areas) {
			t.Errorf("%s: %d borders", c.name, len(got))
			continue
		}
		for i, p := range got {
			if p.SignedArea() != c.areas[i] {
				t.Errorf("%s: border %d holds %v, want %v anticlockwise", c.name, i, p.SignedArea(), c.areas[i])
			}
		}
	}
}

// A square with extra corners on its sides keeps the four; a spike of more
// than the tolerance stays.
func TestSimplify(t *testing.T) {
	p := simplify(ring(0, 0, 5, 0.1, 10, 0, 10, 5, 10, 10, 4, 9.9, 0, 10, 0.1, 5), 0.5)
	if len(p) != 4 || p.Area() != 100 {
		t.Errorf("%v", p)
	}
	if p = simplify(ring(0, 0, 10, 0, 10, 10, 5, 12, 0, 10), 0.5); len(p) != 5 {
		t.Errorf("%v", p)
	}
}
