package model

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

// Hand-worked: a face 1000 long and 200 wide.
func TestZonesFromTape(t *testing.T) {
	for _, c := range []struct {
		name      string
		near, far Tape
		want      []geom.Polygon
	}{
		{"no sap", Tape{}, Tape{}, nil},
		{"near edge", Tape{20, 30, 10}, Tape{}, []geom.Polygon{ring(0, 0, 1000, 0, 1000, 10, 500, 30, 0, 20)}},
		{"far edge", Tape{}, Tape{20, 30, 10}, []geom.Polygon{ring(0, 180, 500, 170, 1000, 190, 1000, 200, 0, 200)}},
		{"in the middle only", Tape{0, 30, 0}, Tape{}, []geom.Polygon{ring(0, 0, 1000, 0, 500, 30)}},
		{"runs out at the other end", Tape{20, 10, 0}, Tape{}, []geom.Polygon{ring(0, 0, 1000, 0, 500, 10, 0, 20)}},
		{"runs out in the middle", Tape{20, 0, 0}, Tape{}, []geom.Polygon{ring(0, 0, 500, 0, 0, 20)}},
		{"only at the other end", Tape{0, 0, 20}, Tape{}, []geom.Polygon{ring(500, 0, 1000, 0, 1000, 20)}},
		{"both ends, not the middle", Tape{20, 0, 16}, Tape{}, []geom.Polygon{ring(0, 0, 500, 0, 0, 20), ring(500, 0, 1000, 0, 1000, 16)}},
		{"wider than the board", Tape{250, 200, 200}, Tape{}, []geom.Polygon{ring(0, 0, 1000, 0, 1000, 200, 500, 200, 0, 200)}},
		{"no widths", Tape{math.NaN(), -5, 0}, Tape{}, nil},
	} {
		var got []geom.Polygon
		for _, z := range ZonesFromTape(1000, 200, c.near, c.far) {
			if z.Kind != Sap || z.Polygon.SignedArea() <= 0 {
				t.Errorf("%s: %s running the wrong way: %v", c.name, z.Kind, z.Polygon)
			}
			got = append(got, z.Polygon)
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			if !sameRing(got[i], c.want[i]) {
				t.Errorf("%s: %v, want %v", c.name, got[i], c.want[i])
			}
		}
	}
}

// sameRing compares two rings that may begin at different corners.
func sameRing(a, b geom.Polygon) bool {
	for k := range a {
		if reflect.DeepEqual(append(append(geom.Polygon{}, a[k:]...), a[:k]...), b) {
			return true
		}
	}
	return false
}

// Areas by the trapezium rule over the two halves, worked by hand.
func TestTapeAreas(t *testing.T) {
	for _, c := range []struct {
		tape Tape
		area float64
	}{
		{Tape{20, 30, 10}, 500*25 + 500*20}, {Tape{0, 30, 0}, 15000}, {Tape{20, 0, 16}, 9000}, {Tape{7, 7, 7}, 7000},
	} {
		var sum float64
		for _, z := range ZonesFromTape(1000, 200, Tape{}, c.tape) {
			sum += z.Polygon.Area()
		}
		if math.Abs(sum-c.area) > 1e-9 {
			t.Errorf("%v: %g mm2, want %g", c.tape, sum, c.area)
		}
	}
}

func TestTapeFromZones(t *testing.T) {
	zones := []Zone{
		{Sap, ring(0, 0, 1000, 0, 1000, 10, 500, 30, 0, 20)},
		{Sap, ring(0, 180, 500, 170, 1000, 190, 1000, 200, 0, 200)},
	}
	near, far := TapeFromZones(1000, 200, "", zones)
	if near != (Tape{20, 30, 10}) || far != (Tape{20, 30, 10}) {
		t.Errorf("read %v and %v", near, far)
	}
	// A knot in the sap ends the run from the edge; a later heart zone as well.
	near, _ = TapeFromZones(1000, 200, "", append(zones, Zone{Flaw, ring(400, 12, 600, 12, 600, 18, 400, 18)}))
	if near != (Tape{20, 12, 10}) {
		t.Errorf("with a knot %v", near)
	}
	// Maple stated as sap with brown heart drawn.
	near, far = TapeFromZones(1000, 200, Sap, []Zone{{Heart, ring(0, 60, 1000, 60, 1000, 140, 0, 140)}})
	if near != (Tape{60, 60, 60}) || far != (Tape{60, 60, 60}) {
		t.Errorf("maple %v, %v", near, far)
	}
	// Sap all the way across counts from either edge.
	near, far = TapeFromZones(1000, 200, "", ZonesFromTape(1000, 200, Tape{120, 0, 0}, Tape{90, 0, 0}))
	if near != (Tape{200, 0, 0}) || far != (Tape{200, 0, 0}) {
		t.Errorf("meeting %v, %v", near, far)
	}
}

func TestTapeThereAndBack(t *testing.T) {
	width := rapid.Custom(func(t *rapid.T) Tape {
		var w Tape
		for i := range w {
			w[i] = float64(rapid.IntRange(0, 99).Draw(t, "mm"))
		}
		return w
	})
	rapid.Check(t, func(t *rapid.T) {
		near, far := width.Draw(t, "near"), width.Draw(t, "far")
		length := float64(rapid.IntRange(300, 4000).Draw(t, "length"))
		zones := ZonesFromTape(length, 200, near, far)
		n, f := TapeFromZones(length, 200, "", zones)
		for i := range n {
			if math.Abs(n[i]-near[i]) > 1e-3 || math.Abs(f[i]-far[i]) > 1e-3 {
				t.Fatalf("%v, %v read back as %v, %v", near, far, n, f)
			}
		}
		p := table()
		p.Boards[1].Length, p.Boards[1].Width = length, 200
		p.Boards[1].Faces[0].Zones = zones
		if err := Validate(p); err != nil {
			t.Fatalf("%v, %v: %v", near, far, err)
		}
	})
}

// The marked edge is at the bottom of face 1 and at the top of face 2.
func TestPhysicalEdges(t *testing.T) {
	marked, other := Tape{20, 25, 30}, Tape{1, 2, 3}
	f1 := FaceTapeZones(1, 1000, 200, marked, other)
	f2 := FaceTapeZones(2, 1000, 200, marked, other)
	if got := f1[0].Polygon.Bounds(); got.Min.Y != 0 || got.Max.Y != 30 {
		t.Errorf("face 1: sap of the marked edge at %v", got)
	}
	if got := f2[1].Polygon.Bounds(); got.Min.Y != 170 || got.Max.Y != 200 {
		t.Errorf("face 2: sap of the marked edge at %v", got)
	}
	// Both run from the marked end, x = 0 on either face.
	b := NewBoard("A", "teak", 1000, 200, 25)
	b.Faces[0].Zones, b.Faces[1].Zones = f1, f2
	for face := 1; face <= 2; face++ {
		if m, o := FaceTape(b, face); m != marked || o != other {
			t.Errorf("face %d: read %v and %v", face, m, o)
		}
	}
}

func TestPlanedZonesLieInTheStrip(t *testing.T) {
	s := Strip{L: 900, W: 80, Planed: &PlanedSap{Near: Tape{10, 12, 14}, Far: Tape{0, 0, 6}}}
	z := PlanedZones(s)
	if len(z) != 2 || !sameRing(z[0].Polygon, ring(0, 0, 900, 0, 900, 14, 450, 12, 0, 10)) ||
		!sameRing(z[1].Polygon, ring(900, 74, 900, 80, 450, 80)) {
		t.Errorf("%v", z)
	}
}
