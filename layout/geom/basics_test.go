package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestZeroValues(t *testing.T) {
	var r Rect
	if !r.Empty() || r.W() != 0 || r.H() != 0 || r.Union(R(1, 2, 3, 4)) != R(1, 2, 3, 4) || R(1, 2, 3, 4).Union(r) != R(1, 2, 3, 4) {
		t.Error("the zero rectangle is not empty")
	}
	var p Polygon
	if p.Area() != 0 || p.InsideArea() != 0 || p.Bounds() != (Rect{}) || p.Contains(Point{}) || p.String() != "" || len(p.Simplify(1)) != 0 {
		t.Error("the nil ring is not empty")
	}
	if (Trapezoid{}).Area() != 0 {
		t.Error("the zero trapezoid has area")
	}
	if _, ok := (Affine{}).Inverse(); ok {
		t.Error("the zero map has an inverse")
	}
	if got := Decompose(nil, nil, 0, nil); got != nil {
		t.Errorf("nothing decomposed: %v", got)
	}
}

func TestAreasByHand(t *testing.T) {
	near(t, "right triangle", poly(t, "0,0 30,0 0,40").SignedArea(), 600, 0)
	near(t, "clockwise", poly(t, "0,40 30,0 0,0").SignedArea(), -600, 0)
	near(t, "clockwise area", poly(t, "0,40 30,0 0,0").Area(), 600, 0)
	near(t, "trapezoid", Trapezoid{X0: 2, X1: 12, Lo0: 1, Lo1: 2, Hi0: 5, Hi1: 8}.Area(), 50, 0)
	if b := poly(t, "3,9 -1,4 7,2").Bounds(); b != R(-1, 2, 7, 9) {
		t.Errorf("bounds %v", b)
	}
}

// The area of an ellipse is pi a b; n points on it hold sin(2 pi/n)/(2 pi/n)
// of that.
func TestTrapezoidBounds(t *testing.T) {
	got := Trapezoid{X0: 2, X1: 5, Lo0: 1, Lo1: -3, Hi0: 4, Hi1: 7}.Bounds()
	if want := (Rect{Min: Pt(2, -3), Max: Pt(5, 7)}); got != want {
		t.Errorf("%v, want %v", got, want)
	}
}

// A square of 1/4 x 1/4 mm so far off that 1/16 is less than the last digit
// of the products SignedArea adds up.
func TestLocalAreaKeepsItsDigits(t *testing.T) {
	const far = 1 << 40
	p := Polygon{{far, far}, {far + 0.25, far}, {far + 0.25, far + 0.25}, {far, far + 0.25}}
	if got := p.LocalArea(); got != 0.0625 {
		t.Errorf("%g, want 0.0625", got)
	}
	p[1], p[3] = p[3], p[1]
	if got := p.LocalArea(); got != -0.0625 {
		t.Errorf("clockwise %g, want -0.0625", got)
	}
}

func TestEllipse(t *testing.T) {
	for _, n := range []int{3, 4, 12, 180} {
		p := Ellipse(R(10, 20, 110, 60), n)
		a := 2 * math.Pi / float64(n)
		near(t, "area", p.SignedArea(), math.Pi*50*20*math.Sin(a)/a, 1e-9)
		for _, q := range p {
			near(t, "equation", math.Pow((q.X-60)/50, 2)+math.Pow((q.Y-40)/20, 2), 1, 1e-12)
		}
		if len(p) != n {
			t.Errorf("%d points, want %d", len(p), n)
		}
	}
	if p := Ellipse(R(0, 0, 2, 2), -1); len(p) != 3 {
		t.Errorf("too few asked for: %d points", len(p))
	}
}

func TestAffineByHand(t *testing.T) {
	m := Rotate(90).Then(Scale(2, 3)).Then(Translate(10, 20))
	if got := m.Apply(Pt(1, 5)); got != Pt(0, 23) { // (1,5) to (-5,1) to (-10,3) to (0,23)
		t.Errorf("got %v", got)
	}
	near(t, "area factor", m.Det(), 6, 0)
	got := Rotate(30).Apply(Pt(2, 0))
	near(t, "x", got.X, math.Sqrt(3), 1e-15)
	near(t, "y", got.Y, 1, 1e-15)
	for _, quarter := range []float64{-270, -180, -90, 0, 90, 180, 270, 360} {
		q := Rotate(quarter).Apply(Pt(1, 0))
		if q.X != math.Trunc(q.X) || q.Y != math.Trunc(q.Y) {
			t.Errorf("a turn of %g is not exact: %v", quarter, q)
		}
	}
}

func TestAffineInverseGoesBack(t *testing.T) {
	f := func(t *rapid.T, name string) float64 { return rapid.Float64Range(-10, 10).Draw(t, name) }
	rapid.Check(t, func(t *rapid.T) {
		m := Affine{f(t, "a"), f(t, "b"), f(t, "c"), f(t, "d"), f(t, "e"), f(t, "f")}
		if math.Abs(m.Det()) < 0.01 {
			t.Skip("flattens the plane")
		}
		back, ok := m.Inverse()
		if !ok {
			t.Fatal("no inverse")
		}
		q := Pt(f(t, "x"), f(t, "y"))
		if got := back.Apply(m.Apply(q)); got.Dist(q) > 1e-9 {
			t.Fatalf("%v comes back as %v", q, got)
		}
	})
}

func TestPolygonTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p Polygon
		for range rapid.IntRange(0, 6).Draw(t, "points") {
			p = append(p, Pt(rapid.Float64().Draw(t, "x"), rapid.Float64().Draw(t, "y")))
		}
		got, err := ParsePolygon(p.String())
		if err != nil || len(got) != len(p) {
			t.Fatalf("%v: %v, %v", p, got, err)
		}
		for i := range p {
			if got[i] != p[i] {
				t.Fatalf("%v came back as %v", p[i], got[i])
			}
		}
	})
	if got := poly(t, " 0,0\t100,0\n100,50.5 ").String(); got != "0,0 100,0 100,50.5" {
		t.Errorf("got %q", got)
	}
	for _, bad := range []string{"1", "1,2,3", "a,1", "1,", "NaN,1", "1,Inf", "1;2"} {
		if p, err := ParsePolygon(bad); err == nil {
			t.Errorf("%q was read as %v", bad, p)
		}
	}
}
