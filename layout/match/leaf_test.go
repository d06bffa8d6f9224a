package match

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Boards of 1000 x 200, a strip of 600 x 80 at (100, 30). Worked by hand from
// the axes: two faces that touch see each other mirrored, so with the marked
// ends at one end (x, y) of the one lies on (x, 200 - y) of the other, and with
// the ends apart on (1000 - x, y). Face 2 has y from the other edge.
//
//	2 on 1: y is 200 - y of face 1 twice: the same place on B.
//	1 on 1: from 30 to 110 becomes from 90 to 170.
//	1 on 1, ends apart: from x 100 to 700 becomes from 300 to 900.
//	2 on 1, ends apart: both.
//
// Opened at the rear edge of A the mirrored wood begins at B's front edge. A
// with face 1 up, unturned, has y = 110 at the rear; B of the third case has
// that at t = 80, which is in front where a strip with face 1 up is turned.
func TestBookByHand(t *testing.T) {
	a, b := plank("A", 1000, 200), plank("B", 1000, 200)
	for _, c := range []struct {
		faceA, faceB int
		apart        bool
		turnedA      bool
		x, y         float64
		turnedB      bool
	}{
		{2, 1, false, false, 100, 30, false},
		{2, 1, false, true, 100, 30, true},
		{1, 2, false, false, 100, 30, false},
		{1, 1, false, false, 100, 90, false},
		{2, 2, false, false, 100, 90, false},
		{1, 1, true, false, 300, 30, true},
		{1, 1, true, true, 300, 30, false},
		{2, 1, true, false, 300, 90, true},
	} {
		s := strip("A1", a, 100, 30, 600, 80)
		s.Up, s.Turned = c.faceA, c.turnedA
		l, err := Match(Sibling{A: a, B: b, FaceA: c.faceA, FaceB: c.faceB, EndsApart: c.apart}, &s, Book, Options{})
		if err != nil {
			t.Fatal(err)
		}
		got := l.Strip
		if got.Board != b || got.Up != c.faceB || got.Turned != c.turnedB || math.Abs(got.X-c.x) > 1e-9 || math.Abs(got.Y-c.y) > 1e-9 || got.L != 600 || got.W != 80 || math.Abs(got.Angle) > 1e-9 {
			t.Errorf("%+v gives %+v", c, got)
		}
	}
}

// A slip match shows faces that looked the same way: beside face 1 of A, whose
// face 2 lay on face 1 of B, stands face 1 of B, and beside face 2 face 2.
func TestSlipByHand(t *testing.T) {
	a, b := plank("A", 1000, 200), plank("B", 1000, 200)
	s := strip("A1", a, 100, 30, 600, 80)
	sib := Sibling{A: a, B: b, FaceA: 2, FaceB: 1}
	for up := 1; up <= 2; up++ {
		s.Up = up
		l, err := Match(sib, &s, Slip, Options{})
		if err != nil || l.Strip.Up != up || l.Strip.Turned || l.Strip.X != 100 || l.Strip.Y != 30 {
			t.Errorf("up %d: %+v, %v", up, l.Strip, err)
		}
		back, err := Match(sib, &l.Strip, Slip, Options{})
		if err != nil || back.Strip.Board != a || back.Strip.Up != up || back.Strip.Turned || back.Strip.X != 100 || back.Strip.Y != 30 {
			t.Errorf("and back: %+v, %v", back.Strip, err)
		}
	}
}

// At 10 degrees, mirrored: the corner is the image of A's far corner at the
// marked end, (100 - 80 sin 10, 30 + 80 cos 10), and the angle -10.
func TestBookAtAnAngle(t *testing.T) {
	a, b := plank("A", 1000, 300), plank("B", 1000, 300)
	s := strip("A1", a, 100, 30, 600, 80)
	s.Angle = 10
	l, err := Match(Sibling{A: a, B: b, FaceA: 1, FaceB: 1}, &s, Book, Options{})
	if err != nil {
		t.Fatal(err)
	}
	sin, cos := math.Sincos(10 * math.Pi / 180)
	near(t, "x", l.Strip.X, 100-80*sin, 1e-9)
	near(t, "y", l.Strip.Y, 300-30-80*cos, 1e-9)
	near(t, "angle", l.Strip.Angle, -10, 1e-9)
	if l.Strip.Turned {
		t.Error("turned")
	}
}

// Whatever the boards, the cut and the strip: at every place of the leaf lies
// the wood that touched that of the mirror place of the strip, or, slipped,
// that lay over the same place.
func TestLeafIsMirroredEverywhere(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 300 {
		a, b := plank("A", 900+200*rng.Float64(), 150+50*rng.Float64()), plank("B", 900+200*rng.Float64(), 150+50*rng.Float64())
		sib := Sibling{A: a, B: b, FaceA: 1 + rng.IntN(2), FaceB: 1 + rng.IntN(2), EndsApart: rng.IntN(2) == 1, DX: 40 - 80*rng.Float64(), DY: 20 - 40*rng.Float64()}
		first, other, fa, fb := a, b, sib.FaceA, sib.FaceB
		swap := rng.IntN(2) == 1
		if swap {
			first, other, fa, fb = b, a, fb, fa
		}
		s := strip("S", first, 100*rng.Float64(), 40*rng.Float64(), 500, 70)
		s.Angle, s.Turned = 40-80*rng.Float64(), rng.IntN(2) == 1
		kind := [2]Kind{Book, Slip}[rng.IntN(2)]
		s.Up = fa
		if kind == Slip {
			s.Up = 1 + rng.IntN(2)
		}
		l, err := Match(sib, &s, kind, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if l.Strip.Board != other || kind == Book && l.Strip.Up != fb || kind == Slip && (l.Strip.Up == fb) == (s.Up == fa) {
			t.Fatalf("%+v of %+v: %+v", kind, s, l.Strip)
		}
		for range 5 {
			uv := geom.Pt(500*rng.Float64(), 70*rng.Float64())
			from := uv
			if kind == Book {
				from.Y = 70 - uv.Y
			}
			// Both on the touching faces, A's taken through the cut.
			p, q := s.PlaceToFace(fa).Apply(from), l.Strip.PlaceToFace(fb).Apply(uv)
			if swap {
				p, q = q, p
			}
			if d := sib.touch().Apply(p).Dist(q); d > 1e-6 {
				t.Fatalf("%+v, %s of %+v: %g apart", sib, kind, s, d)
			}
		}
	}
}

// The touching faces have sap of 20 + 0.02 x and, a kerf further in, of 22 +
// 0.02 x: the opened sap lines stand 2 mm apart everywhere. Slipped, A's face
// 1, which has none, lies beside B's.
func TestLevelOfALeaf(t *testing.T) {
	a := beyond(plank("A", 1000, 200), 2, face.Sap, func(x float64) float64 { return 20 + 0.02*x })
	b := edged(plank("B", 1000, 200), 1, face.Sap, func(x float64) float64 { return 22 + 0.02*x })
	s := strip("A1", a, 50, 0, 900, 120)
	s.Up = 2
	sib := Sibling{A: a, B: b, FaceA: 2, FaceB: 1}
	l, err := Match(sib, &s, Book, Options{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", l.Mean, 2, 1e-6)
	near(t, "greatest", l.Greatest, 2, 1e-6)
	near(t, "compared", l.Compared, 1, 1e-6)
	if len(l.Off) != 90 || l.Outside != 0 {
		t.Errorf("%d places, %g outside", len(l.Off), l.Outside)
	}
	// Behind it the sap of both meets: 20 + 0.02 x 50 at the left.
	near(t, "left", l.Behind.FrontW[0], 21, 1e-2)
	near(t, "left of the other", l.Behind.RearW[0], 23, 1e-2)
	near(t, "in front", l.Before.Greatest, 0, 1e-9)
	s.Up = 1
	l, err = Match(sib, &s, Slip, Options{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slipped at the left", l.Off[0], 22+0.02*55, 1e-6)
	near(t, "slipped mean", l.Mean, 22+0.02*500, 1e-6)
}

func TestWhatCannotMatch(t *testing.T) {
	a, b := plank("A", 1000, 200), plank("B", 500, 200)
	s := strip("A1", a, 100, 30, 600, 80)
	for _, c := range []struct {
		sib  Sibling
		kind Kind
		want string
	}{
		{Sibling{A: a, B: b, FaceA: 2, FaceB: 1}, Book, "roll it over"},
		{Sibling{A: a, B: b}, Book, "which faces touched"},
		{Sibling{A: b, B: b, FaceA: 1, FaceB: 2}, Book, "not on B"},
		{Sibling{A: a, FaceA: 1, FaceB: 2}, Book, "sizes"},
		{Sibling{A: a, B: b, FaceA: 1, FaceB: 2}, "fan", "a match is"},
	} {
		if _, err := Match(c.sib, &s, c.kind, Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v", c.want, err)
		}
	}
	// The other board ends 200 mm before the strip does.
	l, err := Match(Sibling{A: a, B: b, FaceA: 1, FaceB: 2}, &s, Book, Options{})
	if err != nil || math.Abs(l.Outside-200) > 1e-9 {
		t.Errorf("outside by %g, %v", l.Outside, err)
	}
}

// Three boards of one log and one of another. A's face 2 and B's face 1 show
// the same sap; B is marked the other way up to C: their faces 2 touched.
func TestSiblings(t *testing.T) {
	wedge := func(w, k float64) func(float64) float64 { return func(x float64) float64 { return w + k*x } }
	a := beyond(plank("A", 1000, 200), 2, face.Sap, wedge(20, 0.05))
	b := edged(plank("B", 1000, 200), 1, face.Sap, wedge(22, 0.05))
	beyond(b, 2, face.Sap, wedge(60, 0.05))
	c := edged(plank("C", 1000, 200), 2, face.Sap, wedge(62, 0.05))
	got := Siblings([]Cut{{c, "L1", 3}, {a, "L1", 1}, {plank("D", 1000, 200), "L2", 2}, {b, "L1", 2}, {plank("E", 1000, 200), "", 4}})
	if len(got) != 2 || got[0].A != a || got[0].B != b || got[1].A != b || got[1].B != c {
		t.Fatalf("siblings %+v", got)
	}
	if s := got[0]; s.FaceA != 2 || s.FaceB != 1 || s.EndsApart || !s.Assumed || s.Agree < 0.98 {
		t.Errorf("first %+v", s)
	}
	if s := got[1]; s.FaceA != 2 || s.FaceB != 2 || s.EndsApart {
		t.Errorf("second %+v", s)
	}
}
