package wood

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Radius 100, pith 60 from the wider face: half-widths 80 and, 25 mm farther,
// sqrt(100^2 - 85^2) = 52.678.
func TestTwoWidths(t *testing.T) {
	r, h, err := TwoWidths(80, 52.678, 25)
	if err != nil || math.Abs(r-100) > 1e-3 || math.Abs(h-60) > 1e-3 {
		t.Errorf("radius %g, away %g, %v; want 100, 60", r, h, err)
	}
	// Worked chords of radius 100.
	for _, c := range [][2]float64{{60, 80}, {62, 78.46}, {83, 55.78}, {85, 52.68}, {95, 31.22}, {99, 14.11}, {101, 0}} {
		if got := HalfWidth(100, c[0]); math.Abs(got-c[1]) > 0.006 {
			t.Errorf("half-width at %g is %g, want %g", c[0], got, c[1])
		}
	}
	if _, _, err := TwoWidths(50, 80, 25); err == nil {
		t.Error("widths the wrong way round are taken")
	}
}

// log is a round log with taper: the chord of its heartwood on a face gives
// the sapwood there.
type roundLog struct {
	across, depth, radius, taper float64 // taper: mm of radius lost over the board
	ripple                       float64 // mm, ups and downs of the heartwood along the board
}

// faces returns what a board of the log shows: by chord, from the circle.
func (g roundLog) faces(length, width, thickness float64) Faces {
	f := Faces{Length: length, Width: width, Thickness: thickness}
	n := int(length / Step)
	for side := range f.Side {
		for k := range n {
			x := (float64(k) + 0.5) * Step
			r := g.radius - g.taper*x/length + g.ripple*math.Sin(x/23)*math.Cos(x/61+1)
			a := HalfWidth(r, float64(side)*thickness-g.depth)
			lo, hi := math.Max(0, g.across-a), math.Min(width, g.across+a)
			if side == 1 {
				lo, hi = width-hi, width-lo
			}
			s := Station{X: x}
			if hi <= lo {
				lo, hi = 0, 0
			}
			s.add(photo.Sap, Span{0, lo})
			s.add(photo.Heart, Span{lo, hi})
			s.add(photo.Sap, Span{hi, width})
			for _, spans := range []*[]Span{&s.Heart, &s.Sap} {
				var keep []Span
				for _, p := range *spans {
					if p.To > p.From {
						keep = append(keep, p)
					}
				}
				*spans = keep
			}
			f.Side[side] = append(f.Side[side], s)
		}
	}
	return f
}

// A round log with all four edges of the heartwood seen: the bounds hold it
// and are of use.
func TestReadRoundLog(t *testing.T) {
	l, err := Read(t.Context(), roundLog{across: 105, depth: -60, radius: 100}.faces(800, 210, 25))
	if err != nil {
		t.Fatal(err)
	}
	if !l.Across.Holds(105) || !l.Depth.Holds(-60) || !l.HeartRadius.Holds(100) {
		t.Errorf("%v, %v, %v", l.Across, l.Depth, l.HeartRadius)
	}
	if w := l.Across.Hi - l.Across.Lo; w > 80 {
		t.Errorf("across within %g mm", w)
	}
	if math.Abs(l.Across.Best-105) > 5 || math.Abs(l.Depth.Best+60) > 30 {
		t.Errorf("best %g, %g", l.Across.Best, l.Depth.Best)
	}
	if l.Bark != BarkFace2 || !l.Seen {
		t.Errorf("bark side %q", l.Bark)
	}
}

func TestNoSapwoodIsNoKnowledge(t *testing.T) {
	l, err := Read(t.Context(), roundLog{across: 60, depth: 40, radius: 300}.faces(600, 120, 25))
	if err != nil || l.Seen || l.Bark != BarkUnknown {
		t.Errorf("%+v, %v", l, err)
	}
	// The heartwood holds the whole section: its half diagonal is the least
	// radius, 61.3 mm, a swing of a quarter allowed.
	if l.HeartRadius.Lo < 61.3*0.75 {
		t.Errorf("radius from %g", l.HeartRadius.Lo)
	}
}

// A board mirrored across, or with its faces changed over, mirrors the weight
// of every place of the pith.
func TestPlacesMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := roundLog{
			across: rapid.Float64Range(-20, 160).Draw(t, "across"), depth: rapid.Float64Range(-80, 110).Draw(t, "depth"),
			radius: rapid.Float64Range(60, 160).Draw(t, "radius"), taper: rapid.Float64Range(0, 8).Draw(t, "taper"),
		}
		a, d := rapid.Float64Range(-200, 340).Draw(t, "a"), rapid.Float64Range(-200, 228).Draw(t, "d")
		const w, th = 140.0, 28.0
		weights := func(g roundLog, a, d float64) (out [radii]float64) {
			f := g.faces(200, w, th)
			e := gather(f, [2][]line{lines(f.Side[0], w, 0), lines(f.Side[1], w, 1)})
			e.place(a, d, &out)
			return out
		}
		over, across := g, g
		over.depth, across.across = th-g.depth, w-g.across
		as := weights(g, a, d)
		for name, other := range map[string][radii]float64{"over": weights(over, a, th-d), "across": weights(across, w-a, d)} {
			for k := range as {
				if math.Abs(as[k]-other[k]) > 1e-6*(as[k]+other[k])+1e-24 {
					t.Fatalf("%s: radius %d weighs %g, want %g", name, k, other[k], as[k])
				}
			}
		}
	})
}

func TestReadMirrors(t *testing.T) {
	const w, th = 140.0, 28.0
	g := roundLog{across: 60, depth: 70, radius: 80, taper: 4}
	over, across := g, g
	over.depth, across.across = th-g.depth, w-g.across
	var ls []*Log
	for _, g := range []roundLog{g, over, across} {
		l, err := Read(t.Context(), g.faces(300, w, th))
		if err != nil {
			t.Fatal(err)
		}
		ls = append(ls, l)
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 0.1 }
	if a, b := ls[0], ls[1]; !near(b.Depth.Lo, th-a.Depth.Hi) || !near(b.Depth.Best, th-a.Depth.Best) || !near(b.Across.Best, a.Across.Best) || a.Bark != BarkFace1 || b.Bark != BarkFace2 {
		t.Errorf("faces changed over: %v %v %q against %v %v %q", a.Across, a.Depth, a.Bark, b.Across, b.Depth, b.Bark)
	}
	if a, b := ls[0], ls[2]; !near(b.Across.Lo, w-a.Across.Hi) || !near(b.Across.Best, w-a.Across.Best) || !near(b.Depth.Best, a.Depth.Best) {
		t.Errorf("mirrored across: %v %v against %v %v", a.Across, a.Depth, b.Across, b.Depth)
	}
}

func TestCompareRoundLog(t *testing.T) {
	f := roundLog{across: 150, depth: 60, radius: 140, taper: 12, ripple: 3}.faces(900, 180, 27)
	right := f.Side[1]
	for v, want := range map[Variant]Verdict{AsGiven: Fits, EndsSwapped: LooksMirrored, EdgesSwapped: LooksMirrored, Both: LooksTurned} {
		f.Side[1] = right.Turn(v, f.Length, f.Width)
		fit, err := Compare(t.Context(), f)
		if err != nil || fit.Verdict != want {
			t.Errorf("variant %d: %+v, %v; want %s", v, fit, err, want)
		}
	}
	f.Side[1] = right
	if fit, err := Compare(t.Context(), f); err != nil || fit.EdgesAgree() < 0.99 {
		t.Errorf("edges agree: %+v, %v", fit, err)
	}
	// Without sapwood, and with the same at both edges and all along, no
	// verdict; and it says why.
	for name, g := range map[string]roundLog{
		"no sapwood": {across: 90, depth: 10, radius: 300},
		"symmetric":  {across: 90, depth: -20, radius: 80},
	} {
		f := g.faces(900, 180, 27)
		fit, err := Compare(t.Context(), f)
		if err != nil || fit.Verdict != CannotTell || fit.Why == "" {
			t.Errorf("%s: %+v, %v", name, fit, err)
		}
	}
	// Other evidence decides then.
	sym := roundLog{across: 90, depth: -20, radius: 80}.faces(900, 180, 27)
	fit, err := Compare(t.Context(), sym, Hint{-9, -9, -9, 0})
	if err != nil || fit.Verdict != LooksTurned {
		t.Errorf("with a hint: %+v, %v", fit, err)
	}
}

func TestTurnTwiceIsNothing(t *testing.T) {
	f := roundLog{across: 150, depth: 60, radius: 140, taper: 12}.faces(300, 180, 27).Side[0]
	for v := AsGiven; v <= Both; v++ {
		back := f.Turn(v, 300, 180).Turn(v, 300, 180)
		for i := range f {
			if math.Abs(back[i].X-f[i].X) > 1e-9 || math.Abs(back[i].Heart[0].From-f[i].Heart[0].From) > 1e-9 {
				t.Fatalf("variant %d, station %d: %v, want %v", v, i, back[i], f[i])
			}
		}
	}
}

// A wedge of sapwood, 30 mm at the marked end and none at the other: at x its
// depth is 30 (1 - x/300). The mask and the zones say the same.
func TestSampling(t *testing.T) {
	zones := FromZones(300, 100, photo.Heart, nil, []Zone{
		{photo.Sap, geom.Polygon{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 0, Y: 30}}},
		{photo.Flaw, geom.R(140, 50, 160, 70).Polygon()},
	})
	m := photo.NewMask(300, 100, 1)
	for j := range m.H {
		for i := range m.W {
			x, y := float64(i)+0.5, float64(m.H-1-j)+0.5
			l := photo.Heart
			if y < 30*(1-x/300) {
				l = photo.Sap
			}
			if x > 140 && x < 160 && y > 50 && y < 70 {
				l = photo.Flaw
			}
			m.Pix[j*m.W+i] = l
		}
	}
	mask := FromMask(m)
	if len(zones) != 30 || len(mask) != 30 {
		t.Fatalf("%d and %d stations, want 30", len(zones), len(mask))
	}
	for i := range zones {
		want := 30 * (1 - zones[i].X/300)
		for name, s := range map[string]Station{"zones": zones[i], "mask": mask[i]} {
			lo, hi, bare := s.heart(100)
			if math.Abs(lo-want) > 1 || hi != 100 || bare {
				t.Errorf("%s at %g: heart %g to %g, want %g to 100", name, s.X, lo, hi, want)
			}
		}
	}
	if k := knotsOf(mask, 100); len(k) != 1 || k[0].Dist(geom.Pt(150, 60)) > 6 {
		t.Errorf("knots %v, want one at (150, 60)", k)
	}
	if FromMask(nil) != nil || FromZones(0, 1, photo.Heart, nil, nil) != nil {
		t.Error("nothing gives a face")
	}
}

func TestEndRunsThroughWhatTheFacesShow(t *testing.T) {
	g := roundLog{across: 105, depth: -60, radius: 100}
	l, err := Read(t.Context(), g.faces(800, 210, 25))
	if err != nil {
		t.Fatal(err)
	}
	v, err := l.End(400)
	if err != nil {
		t.Fatal(err)
	}
	// Face 1: 105 +- 80; face 2: 105 +- 52.68.
	for _, p := range []geom.Point{{X: 25, Y: 0}, {X: 185, Y: 0}, {X: 52.3, Y: 25}, {X: 157.7, Y: 25}} {
		if _, _, d := v.Heart.Nearest(p); d > 4 {
			t.Errorf("outline passes %v at %.1f mm", p, d)
		}
	}
	if !(v.Least.Area() < v.Heart.Area() && v.Heart.Area() < v.Most.Area()) || len(v.Rings) == 0 {
		t.Errorf("areas %g, %g, %g, %d rings", v.Least.Area(), v.Heart.Area(), v.Most.Area(), len(v.Rings))
	}
	if _, err := l.End(math.NaN()); err == nil {
		t.Error("no place gives a section")
	}
}

func TestBadBoardsAreRefused(t *testing.T) {
	good := roundLog{across: 105, depth: -60, radius: 100}.faces(100, 210, 25)
	for name, change := range map[string]func(*Faces){
		"thickness": func(f *Faces) { f.Thickness = 0 },
		"width":     func(f *Faces) { f.Width = math.NaN() },
		"order":     func(f *Faces) { f.Side[0] = Face{f.Side[0][1], f.Side[0][0]} },
		"span":      func(f *Faces) { f.Side[1] = Face{{X: 1, Heart: []Span{{5, 2}}}} },
	} {
		f := good
		change(&f)
		if _, err := Read(t.Context(), f); err == nil {
			t.Errorf("%s: read", name)
		}
		if _, err := Compare(t.Context(), f); err == nil {
			t.Errorf("%s: compared", name)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := Read(ctx, good); err == nil {
		t.Error("goes on when stopped")
	}
	fit, err := Compare(t.Context(), Faces{Length: 1, Width: 1, Thickness: 1})
	if err != nil || fit.Verdict != CannotTell {
		t.Errorf("no faces: %+v, %v", fit, err)
	}
}

func BenchmarkRead(b *testing.B) {
	f := roundLog{across: 105, depth: -60, radius: 100}.faces(800, 210, 25)
	for b.Loop() {
		if _, err := Read(context.Background(), f); err != nil {
			b.Fatal(err)
		}
	}
}
