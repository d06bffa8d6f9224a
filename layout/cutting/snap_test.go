package cutting

import (
	"math"
	"reflect"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

func keys(g []Guide) []string {
	var out []string
	for _, x := range g {
		out = append(out, x.Key)
	}
	return out
}

// sappy has sap along the marked edge of face 1, from 30 wide at the marked
// end to 38 in the middle and 34 at the other end.
func sappy() *face.Board {
	b := board("A", 1000, 200)
	b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 34}, {X: 500, Y: 38}, {X: 0, Y: 30}}}}
	return b
}

func TestSnapByHand(t *testing.T) {
	b := board("A", 1000, 200)
	first := strip("o", b, 25, 4.5, 400, 80, 0) // blank to 450, 89
	others := []geom.Polygon{Blank(&first, plain)}
	for _, c := range []struct {
		name   string
		b      *face.Board
		others []geom.Polygon
		x, y   float64
		up     int
		wx, wy float64
		keys   []string
	}{
		{"far from all", b, nil, 300, 60, 1, 300, 60, nil},
		{"marked edge", b, nil, 300, 6, 1, 300, 4.5, []string{ToMarkedEdge}},
		{"other edge", b, nil, 300, 114, 1, 300, 115.5, []string{ToOtherEdge}},
		{"corner", b, nil, 27, 6, 1, 25, 4.5, []string{ToMarkedEdge, ToMarkedEnd}},
		{"other end", b, nil, 573, 60, 1, 575, 60, []string{ToOtherEnd}},
		// 450 + 3 + 25 along; 89 + 3 + 4.5 across.
		{"a kerf beyond its end", b, others, 480, 60, 1, 478, 60, []string{ToKerf}},
		{"a kerf above it", b, others, 300, 95, 1, 300, 96.5, []string{ToKerf}},
		{"beside its end, in line with its edge", b, others, 480, 6, 1, 478, 4.5, []string{ToMarkedEdge, ToKerf}},
		// Between x = 300 and 700 the sap reaches 38 at most and, at 300,
		// 30 + 8 * 300/500 = 34.8 at least.
		{"clear of the sap", sappy(), nil, 300, 39.2, 1, 300, 38, []string{ToHeartLine}},
		{"sap all along the edge", sappy(), nil, 300, 34, 1, 300, 34.8, []string{ToSapLine}},
		{"the other face has none", sappy(), nil, 300, 39.2, 2, 300, 39.2, nil},
		// The far edge of the strip at y + 80: no sap line lies there.
		{"not its far edge", sappy(), nil, 300, -43, 1, 300, -43, nil},
	} {
		s := strip("s", c.b, c.x, c.y, 400, 80, 0)
		s.Up = c.up
		got, guides := Snap(c.b, c.others, s, plain, 2.5)
		if math.Abs(got.X-c.wx) > 1e-6 || math.Abs(got.Y-c.wy) > 1e-6 || !reflect.DeepEqual(keys(guides), c.keys) {
			t.Errorf("%s: at %.4f, %.4f by %v, want %g, %g by %v", c.name, got.X, got.Y, keys(guides), c.wx, c.wy, c.keys)
		}
	}
}

// Sap along the other edge, drawn on face 2 in its own coordinates: on face 2
// up the far edge of the strip snaps to where it begins.
func TestSnapFarEdgeOnFace2(t *testing.T) {
	b := board("A", 1000, 200)
	poly := geom.R(0, 160, 1000, 200).Polygon()
	b.Faces[1].Zones = []face.Zone{{Kind: face.Sap, Polygon: b.Other().ApplyTo(poly)}}
	s := strip("s", b, 300, 78.5, 400, 80, 0)
	s.Up = 2
	got, guides := Snap(b, nil, s, plain, 3)
	if math.Abs(got.Y-80) > 1e-9 || len(guides) != 1 || guides[0].Key != ToHeartLine {
		t.Fatalf("at y %.4f by %v, want 80 by the heart line", got.Y, guides)
	}
	want := Guide{geom.Pt(300, 160), geom.Pt(700, 160), ToHeartLine}
	if guides[0].A.Dist(want.A) > 1e-9 || guides[0].B.Dist(want.B) > 1e-9 {
		t.Errorf("guide %v, want %v", guides[0], want)
	}
}

// On a maple face, sap with a heart streak drawn on it, it is the streak that
// edges are laid to.
func TestSnapToHeartDrawnOnSap(t *testing.T) {
	b := board("A", 1000, 200)
	b.Faces[0].Base = face.Sap
	b.Faces[0].Zones = []face.Zone{{Kind: face.Heart, Polygon: geom.R(0, 90, 1000, 110).Polygon()}}
	s := strip("s", b, 300, 111, 400, 60, 0)
	if got, g := Snap(b, nil, s, plain, 2); math.Abs(got.Y-110) > 1e-9 || !reflect.DeepEqual(keys(g), []string{ToHeartLine}) {
		t.Errorf("above: %.3f by %v", got.Y, keys(g))
	}
	s.Y = 29
	if got, g := Snap(b, nil, s, plain, 2); math.Abs(got.Y-30) > 1e-9 || !reflect.DeepEqual(keys(g), []string{ToHeartLine}) {
		t.Errorf("below: %.3f by %v", got.Y, keys(g))
	}
}

// Slanted strips: two of one angle come a kerf apart, and the corner of a
// slanted one touches the board's edge.
func TestSnapSlanted(t *testing.T) {
	b := board("A", 2000, 600)
	o := strip("o", b, 400, 200, 500, 80, 20)
	other := Blank(&o, plain)
	s := moveAcross(o, 89+3+1.7)
	got, guides := Snap(b, []geom.Polygon{other}, s, plain, 2)
	if c := Clearance(Blank(&got, plain), other); math.Abs(c-3) > 1e-6 || len(guides) == 0 || guides[0].Key != ToKerf && guides[len(guides)-1].Key != ToKerf {
		t.Errorf("%.4f apart by %v, want 3", c, keys(guides))
	}
	lone := strip("s", b, 400, 9, 500, 80, 20)
	low := Blank(&lone, plain).Bounds().Min.Y
	lone.Y -= low - 1.2 // the lowest corner 1.2 above the edge
	got, guides = Snap(b, nil, lone, plain, 2)
	if y := Blank(&got, plain).Bounds().Min.Y; math.Abs(y) > 1e-9 || !reflect.DeepEqual(keys(guides), []string{ToMarkedEdge}) {
		t.Errorf("lowest corner at %.4f by %v", y, keys(guides))
	}
	// A straight one against the corner of the slanted one: 3 apart.
	top := other.Bounds().Max.Y
	var corner geom.Point
	for _, q := range other {
		if q.Y == top {
			corner = q
		}
	}
	flat := strip("f", b, corner.X-200, top+3+4.5+1.4, 500, 80, 0)
	got, guides = Snap(b, []geom.Polygon{other}, flat, plain, 2)
	if c := Clearance(Blank(&got, plain), other); math.Abs(c-3) > 1e-6 || !reflect.DeepEqual(keys(guides), []string{ToKerf}) {
		t.Errorf("corner to edge: %.4f apart by %v", c, keys(guides))
	}
}

func moveAcross(s face.Strip, d float64) face.Strip {
	sin, cos := math.Sincos(s.Angle * math.Pi / 180)
	s.X, s.Y = s.X-d*sin, s.Y+d*cos
	return s
}

func TestSnapOff(t *testing.T) {
	b := board("A", 1000, 200)
	s := strip("s", b, 25.5, 5, 400, 80, 0)
	for _, tol := range []float64{0, -1, math.NaN()} {
		if got, g := Snap(b, nil, s, plain, tol); got != s || g != nil {
			t.Errorf("tolerance %g moved it", tol)
		}
	}
}

func TestSweep(t *testing.T) {
	b := board("A", 1000, 200)
	for _, c := range []struct {
		name    string
		to      geom.Point
		x, y, a float64
	}{
		{"along", geom.Pt(500, 100), 200, 60, 0},
		{"nearly along", geom.Pt(500, 100+300*math.Tan(2.9*math.Pi/180)), 200, 60, 0},
		{"towards the marked end", geom.Pt(50, 101), -200, 60, 0},
		// 3-4-5: the corner lies 40 to the right of the sweep, (0.6, -0.8) * 40.
		{"slanted", geom.Pt(200+80, 100+60), 200 + 24, 100 - 32, 36.86989764584402},
		{"slanted back", geom.Pt(200-80, 100-60), 200 + 24 - 400*0.8, 100 - 32 - 400*0.6, 36.86989764584402},
		{"straight across", geom.Pt(200, 180), 240, 100, 90},
		{"straight across the other way", geom.Pt(200, 20), 240, 100 - 400, 90},
		{"nowhere", geom.Pt(200, 100), 200, 60, 0},
	} {
		s := Sweep(b, geom.Pt(200, 100), c.to, 400, 80)
		if math.Abs(s.X-c.x) > 1e-9 || math.Abs(s.Y-c.y) > 1e-9 || math.Abs(s.Angle-c.a) > 1e-9 || s.L != 400 || s.W != 80 || s.Board != b {
			t.Errorf("%s: %+v, want %g, %g at %g", c.name, s, c.x, c.y, c.a)
		}
	}
}
