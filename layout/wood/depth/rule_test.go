package depth

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// rift is a board whose two faces and ends all differ.
func rift() Board {
	b := Board{Length: 900, Width: 180, Thickness: 28, Pith: []Pith{{0, 20, 90}, {900, 30, 80}}, Heart: 130}
	b.Faces[0] = Face{Known: true, Zones: []face.Zone{
		{Kind: face.Sap, Polygon: geom.Polygon{{X: 0, Y: 120}, {X: 900, Y: 130}, {X: 900, Y: 180}, {X: 0, Y: 180}}},
		{Kind: face.Flaw, Polygon: rect(200, 40, 230, 60)},
		{Kind: face.Unseen, Polygon: rect(600, 10, 640, 30)},
	}}
	b.Faces[1] = Face{Known: true, Zones: []face.Zone{
		{Kind: face.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 900, Y: 0}, {X: 900, Y: 36}, {X: 0, Y: 44}}},
		{Kind: face.Flaw, Polygon: rect(500, 100, 540, 130)},
	}}
	return b
}

func lines(t *testing.T, s *Solid, side int, z, x float64) []float64 {
	t.Helper()
	f, _ := s.At(side, z)
	return sapAt(f, s.b.Width, x)
}

// The sawn face comes back as it is, and the other one from beneath.
func TestSawnFacesAreExact(t *testing.T) {
	b := rift()
	s := mustNew(t, b)
	for side := 1; side <= 2; side++ {
		f, note := s.At(side, 0)
		if note.How != Exact || len(f.Zones) != len(b.Faces[side-1].Zones) || &f.Zones[0] != &b.Faces[side-1].Zones[0] {
			t.Errorf("side %d: the sawn face has changed: %+v", side, note)
		}
		hair := lines(t, s, side, 1e-6, 450)
		sawn := sapAt(f, b.Width, 450)
		if len(hair) != len(sawn) {
			t.Fatalf("side %d: sap %v a hair below %v", side, hair, sawn)
		}
		for i := range sawn {
			near(t, "a hair below", hair[i], sawn[i], fine+0.02)
		}
	}
	all, _ := s.At(1, b.Thickness)
	other, _ := s.At(2, 0)
	got, want := sapAt(all, b.Width, 450), sapAt(other, b.Width, 450)
	if len(got) != 2 || len(want) != 2 {
		t.Fatalf("sap %v, %v", got, want)
	}
	near(t, "planed away", got[0], b.Width-want[1], 0.02)
}

// A board named the other way round (face 2 first, marked edge the other one)
// or seen in a mirror has its lines in the same places.
func TestFaceOrderAndMirrors(t *testing.T) {
	b := rift()
	s := mustNew(t, b)

	// Rolled: face 2 becomes face 1; the pith lies at the other side of both.
	rolled := b
	rolled.Faces = [2]Face{b.Faces[1], b.Faces[0]}
	rolled.Pith = nil
	for _, p := range b.Pith {
		rolled.Pith = append(rolled.Pith, Pith{p.X, b.Width - p.Across, b.Thickness - p.Depth})
	}
	r := mustNew(t, rolled)

	// Mirrored along the length.
	m := geom.Affine{A: -1, C: b.Length, E: 1}
	mirror := b
	mirror.Pith = nil
	for _, p := range b.Pith {
		mirror.Pith = append(mirror.Pith, Pith{b.Length - p.X, p.Across, p.Depth})
	}
	for k := range mirror.Faces {
		mirror.Faces[k].Zones = nil
		for _, z := range b.Faces[k].Zones {
			mirror.Faces[k].Zones = append(mirror.Faces[k].Zones, face.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)})
		}
	}
	e := mustNew(t, mirror)

	for side := 1; side <= 2; side++ {
		for _, z := range []float64{2, 5, 14, 20} {
			for _, x := range []float64{60, 450, 800} {
				want := lines(t, s, side, z, x)
				for name, got := range map[string][]float64{
					"rolled": lines(t, r, 3-side, z, x), "mirrored": lines(t, e, side, z, b.Length-x),
				} {
					if len(got) != len(want) {
						t.Fatalf("%s, side %d, %g mm: sap %v, want %v", name, side, z, got, want)
					}
					for i := range got {
						near(t, name, got[i], want[i], 2*fine+0.02)
					}
				}
				// The same plane from the other side.
				back := lines(t, s, 3-side, b.Thickness-z, x)
				for i := range back {
					near(t, "from the other side", back[i], b.Width-want[len(want)-1-i], 2*fine+0.02)
				}
			}
		}
	}
}

// Knots go in as far as half the thickness; what was not seen stays so.
func TestFlawsAndUnseenAreThoseOfTheNearerFace(t *testing.T) {
	b := rift()
	s := mustNew(t, b)
	at := func(f face.BoardFace, x, y float64) face.Kind {
		k := f.Base
		for _, z := range f.Zones {
			if z.Polygon.Contains(geom.Pt(x, y)) {
				k = z.Kind
			}
		}
		return k
	}
	up, _ := s.At(1, 6)
	down, _ := s.At(1, 20)
	for _, c := range []struct {
		f    face.BoardFace
		x, y float64
		want face.Kind
	}{
		{up, 215, 50, face.Flaw}, {up, 620, 20, face.Unseen}, {up, 520, 65, face.Heart},
		{down, 215, 50, face.Heart}, {down, 620, 20, face.Heart}, {down, 520, 65, face.Flaw}, // 180 - 115
	} {
		if got := at(c.f, c.x, c.y); got != c.want {
			t.Errorf("(%g, %g): %s, want %s", c.x, c.y, got, c.want)
		}
	}
}

// A flaw on the line is no line of its own: the sapwood goes on behind it.
func TestFlawsDoNotMoveTheLine(t *testing.T) {
	b := rift()
	plain := mustNew(t, b)
	b.Faces[0].Zones = append(append([]face.Zone{}, b.Faces[0].Zones...), face.Zone{Kind: face.Flaw, Polygon: rect(400, 150, 480, 180)})
	s := mustNew(t, b)
	for i := range s.x {
		if got, want := s.faces[0][i].end, plain.faces[0][i].end; math.Abs(got[1]-want[1]) > 1e-9 {
			t.Fatalf("section %d ends at %v, want %v", i, got, want)
		}
	}
}

// Waney outlines go straight from face to face: 180 to 160 mm through 28.
func TestOutlines(t *testing.T) {
	b := rift()
	b.Faces[1].Outline = geom.Polygon{{X: 0, Y: 20}, {X: 900, Y: 20}, {X: 900, Y: 180}, {X: 0, Y: 180}}
	s := mustNew(t, b)
	f, _ := s.At(1, 7)
	if f.Outline == nil {
		t.Fatal("no outline")
	}
	box := f.Outline.Bounds()
	near(t, "lower", box.Min.Y, 0, 0.01)
	near(t, "upper", box.Max.Y, 180-20*7/28.0, 0.01)
	near(t, "length", box.W(), 900, 0.01)
}

// What is drawn is a face like any other: rings that do not cross themselves,
// few points, inside the board.
func TestRingsAreSound(t *testing.T) {
	b := wavy()
	for _, set := range []func(*Board){
		func(*Board) {},
		func(b *Board) { b.Pith, b.Heart = []Pith{{0, 100, 120}}, 140 },
	} {
		w := b
		set(&w)
		s := mustNew(t, w)
		for _, z := range []float64{0.5, 3, 13, 25} {
			f, _ := s.At(1, z)
			n := 0
			for i, q := range f.Zones {
				n += len(q.Polygon)
				if err := q.Polygon.Validate(); err != nil {
					t.Errorf("%g mm: zone %d: %v", z, i, err)
				}
				if box := q.Polygon.Bounds(); box.Min.X < -1e-9 || box.Max.X > w.Length+1e-9 || box.Min.Y < -1e-9 || box.Max.Y > w.Width+1e-9 {
					t.Errorf("%g mm: zone %d reaches %v", z, i, box)
				}
			}
			if n == 0 || n > 4*len(b.Faces[0].Zones[0].Polygon) {
				t.Errorf("%g mm: %d points", z, n)
			}
		}
	}
}

func TestBadBoards(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(*Board){
		"length":    func(b *Board) { b.Length = 0 },
		"width":     func(b *Board) { b.Width = nan },
		"thickness": func(b *Board) { b.Thickness = -1 },
		"heart":     func(b *Board) { b.Heart = nan },
		"pith":      func(b *Board) { b.Pith = []Pith{{0, nan, 3}} },
		"zone":      func(b *Board) { b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{{X: nan}}}} },
		"outline":   func(b *Board) { b.Faces[1].Outline = geom.Polygon{{Y: math.Inf(1)}} },
		"no face":   func(b *Board) { b.Faces = [2]Face{}; b.Pith = nil },
	} {
		b := rift()
		spoil(&b)
		if s, err := New(b); err == nil || s != nil {
			t.Errorf("%s: no error", name)
		}
	}
	// Odd but allowed: all flaw, all sap, empty zones, a pith in the board.
	for name, make := range map[string]func(*Board){
		"flaw":  func(b *Board) { b.Faces[0].Zones = []face.Zone{{Kind: face.Flaw, Polygon: rect(0, 0, 900, 180)}} },
		"base":  func(b *Board) { b.Faces[0].Base, b.Faces[1].Base = face.Unseen, face.Unseen },
		"sap":   func(b *Board) { b.Faces[0].Base, b.Faces[1].Base = face.Sap, face.Sap },
		"empty": func(b *Board) { b.Faces[0].Zones = []face.Zone{{}} },
		"pith":  func(b *Board) { b.Pith = []Pith{{0, 90, 14}, {0, 90, 14}} },
		"on it": func(b *Board) { b.Pith = []Pith{{0, 120, 0}} },
		"none":  func(b *Board) { b.Faces[1].Outline = rect(2000, 0, 2100, 10) },
	} {
		b := rift()
		make(&b)
		s, err := New(b)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, z := range []float64{-1, nan, 0, 3, 28, 99} {
			for side := range 4 {
				f, _ := s.At(side, z)
				for _, q := range f.Zones {
					for _, p := range q.Polygon {
						if !finite(p.X) || !finite(p.Y) {
							t.Fatalf("%s: a place %v at %g mm of side %d", name, p, z, side)
						}
					}
				}
			}
		}
	}
}
