package stock

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

func plank(id string, length, width float64) *face.Board {
	return &face.Board{ID: id, Length: length, Width: width, Thickness: 26}
}

func zone(k face.Kind, p geom.Polygon) face.Zone { return face.Zone{Kind: k, Polygon: p} }

// By hand: a sap wedge along the marked edge, 40 mm at the marked end and
// nothing at 400 mm. Up to x = 200 it holds (40 + 20) / 2 * 200 = 6000 mm2. A
// knot 20 x 20, grown by 6 to 32 x 32 = 1024 mm2.
func TestTableByHand(t *testing.T) {
	b := plank("A", 400, 100)
	b.Faces[0].Zones = []face.Zone{
		zone(face.Sap, layouttest.Poly(t, "0,0 400,0 0,40")),
		zone(face.Flaw, geom.R(300, 60, 320, 80).Polygon()),
	}
	b.Faces[1].Base = face.Sap
	tab, err := NewTable(b, 0, 2, 6)
	if err != nil {
		t.Fatal(err)
	}
	w := tab.On(1, geom.R(0, 0, 200, 100))
	layouttest.Near(t, "sap", w.Sap, 6000, 1e-6)
	layouttest.Near(t, "heart", w.Heart, 14000, 1e-6)
	layouttest.Near(t, "light", w.Light(), 0.3, 1e-9)
	w = tab.On(1, geom.R(200, 40, 400, 100))
	layouttest.Near(t, "flaw", w.Flaw, 400, 1e-6)
	layouttest.Near(t, "near", w.NearFlaw, 1024, 1e-6)
	layouttest.Near(t, "beside", tab.On(1, geom.R(200, 40, 294, 100)).NearFlaw, 0, 1e-9)
	w = tab.On(1, geom.R(-10, 0, 10, 10))
	layouttest.Near(t, "outside", w.Outside, 100, 1e-6)
	layouttest.Near(t, "face 2", tab.On(2, geom.R(100, 10, 200, 30)).Sap, 2000, 1e-6)
}

// random draws a board with zones of all kinds and waney edges on both faces.
func random(rng *rand.Rand, id string) *face.Board {
	b := plank(id, 700+100*float64(rng.IntN(4)), 120+20*float64(rng.IntN(5)))
	for f := range b.Faces {
		bf := &b.Faces[f]
		if rng.IntN(2) == 0 {
			bf.Outline = geom.Polygon{{X: 0, Y: 9 * rng.Float64()}, {X: b.Length / 2, Y: 14 * rng.Float64()}, {X: b.Length, Y: 9 * rng.Float64()},
				{X: b.Length, Y: b.Width}, {X: 0, Y: b.Width - 12*rng.Float64()}}
		}
		line := geom.Polygon{{X: 0, Y: 0}, {X: b.Length, Y: 0}}
		for x := b.Length; x >= 0; x -= 100 {
			line = append(line, geom.Pt(x, 20+25*rng.Float64()))
		}
		bf.Zones = append(bf.Zones, zone(face.Sap, line))
		for range rng.IntN(3) {
			x, y := b.Length*rng.Float64(), b.Width*rng.Float64()
			k := face.Flaw
			if rng.IntN(3) == 0 {
				k = face.Unseen
			}
			bf.Zones = append(bf.Zones, zone(k, geom.Ellipse(geom.R(x, y, x+10+30*rng.Float64(), y+8+20*rng.Float64()), 12)))
		}
	}
	return b
}

// Rectangles on cell borders against the exact areas of the polygons; others
// within what MostOff tells. Square and at an angle, both faces.
func TestTableAgainstPolygons(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 4))
	for n := range 24 {
		b := random(rng, "A")
		for f := range b.Faces { // zones only: outlines at an angle are cut by the frame
			if n%3 == 0 {
				b.Faces[f].Outline = nil
			}
		}
		angle := []float64{0, 1.5, -2.25}[n%3]
		cell := []float64{1, 2}[n%2]
		tab, err := NewTable(b, angle, cell, 5)
		if err != nil {
			t.Fatal(err)
		}
		l, w := tab.Size()
		for k := range 30 {
			r := geom.R(l*rng.Float64(), w*rng.Float64(), l*rng.Float64(), w*rng.Float64())
			if k%2 == 0 {
				r = geom.R(cell*math.Round(r.Min.X/cell), cell*math.Round(r.Min.Y/cell), cell*math.Round(r.Max.X/cell), cell*math.Round(r.Max.Y/cell))
			}
			if r.Empty() {
				continue
			}
			tol := tab.MostOff(r) + 1e-4
			if k%2 == 0 && tol > 1e-3 {
				t.Fatalf("cell-aligned %v: off by up to %g", r, tol)
			}
			for f := 1; f <= 2; f++ {
				got := tab.On(f, r)
				for kind := face.Heart; kind <= face.Unseen; kind++ {
					layouttest.Near(t, fmt.Sprintf("board %d, %v on face %d, %s", n, r, f, kind), got.Of(kind), exactly(tab, r, f, kind), tol)
				}
			}
		}
	}
}

// exactly returns the area of a kind in a rectangle of the frame on face n, from
// the polygons: the pieces of the face, each clipped to the strip.
func exactly(tab *Table, r geom.Rect, n int, kind face.Kind) float64 {
	s := tab.Strip(r)
	bf := &s.Board.Faces[n-1]
	m := s.ToBoard()
	if n == 2 {
		m = m.Then(s.Board.Other())
	}
	ring := bf.Outline
	if len(ring) < 3 {
		ring = geom.R(0, 0, s.Board.Length, s.Board.Width).Polygon()
	}
	strip := m.ApplyTo(geom.R(0, 0, s.L, s.W).Polygon())
	var layers []geom.Layer
	for _, z := range bf.Zones {
		layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: z.Polygon})
	}
	sum := 0.0
	ring = ring.ClipRect(geom.R(0, 0, s.Board.Length, s.Board.Width))
	for _, part := range geom.Decompose(nil, ring, int(bf.Base), layers) {
		if part.Label == int(kind) {
			ring := geom.Polygon{{X: part.X0, Y: part.Lo0}, {X: part.X1, Y: part.Lo1}, {X: part.X1, Y: part.Hi1}, {X: part.X0, Y: part.Hi0}}
			sum += ring.ClipConvex(strip).Area()
		}
	}
	return sum
}

// A border that falls 20 mm over 1000 lies at atan(-0.02) = -1.146 degrees.
func TestAnglesFollowTheSapLine(t *testing.T) {
	b := plank("A", 1000, 200)
	b.Faces[0].Zones = []face.Zone{zone(face.Sap, layouttest.Poly(t, "0,0 1000,0 1000,30 0,50"))}
	got := Angles(b)
	if len(got) != 2 || got[0] != 0 {
		t.Fatalf("angles %v, want 0 and one more", got)
	}
	layouttest.Near(t, "angle", got[1], -1.1458, 0.03)
	if got := Angles(plank("B", 1000, 200)); len(got) != 1 {
		t.Errorf("a board all of one wood: %v", got)
	}
	// A waney marked edge that rises by 26 mm over 1000: 1.489 degrees.
	w := plank("W", 1000, 200)
	w.Faces[0].Outline = layouttest.Poly(t, "0,0 1000,26 1000,200 0,200")
	got = Angles(w)
	if len(got) != 2 {
		t.Fatalf("angles %v, want 0 and one more", got)
	}
	layouttest.Near(t, "wane", got[1], 1.4894, 0.03)
}

func TestTableErrors(t *testing.T) {
	for _, c := range []struct {
		b                   *face.Board
		angle, cell, margin float64
	}{{nil, 0, 1, 0}, {plank("A", 0, 9), 0, 1, 0}, {plank("A", 90, 9), 90, 1, 0}, {plank("A", 90, 9), 0, 0, 0}, {plank("A", 90, 9), 0, 1, -1}, {plank("A", 1e6, 9e5), 0, 1, 0}} {
		if _, err := NewTable(c.b, c.angle, c.cell, c.margin); err == nil {
			t.Errorf("%+v: no error", c)
		}
	}
}
