package together

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

func plank(id string, bands ...[2]float64) *face.Board {
	b := &face.Board{ID: id, Length: 1000, Width: 120, Thickness: 25}
	for _, y := range bands {
		b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: face.Sap, Polygon: geom.R(0, y[0], 1000, y[1]).Polygon()})
	}
	return b
}

func door(id string, width float64, strips ...face.Strip) *face.Panel {
	return &face.Panel{ID: id, Length: 700, Width: width, Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits, Strips: strips}
}

// strip is cut from a board so that 5 mm come off each long edge and 20 each
// end of a door of 700 mm.
func strip(b *face.Board, y float64, turned bool) face.Strip {
	return face.Strip{ID: b.ID + "1", Board: b, X: 100, Y: y, L: 740, W: 110, Up: 1, Turned: turned}
}

// By hand: two doors of 100 mm, each of one strip of 110 with sapwood 20 mm
// wide from the board's y = 10 to 30, the strip from y = 5. Trimmed, the left
// door's sapwood lies from 0 to 20. The right one is turned end for end: its
// own lies from 80 to 100, in the whole from 183 to 203.
func TestDoorsMirrorEachOther(t *testing.T) {
	l := door("left", 100, strip(plank("A", [2]float64{10, 30}), 5, false))
	r := door("right", 100, strip(plank("B", [2]float64{10, 30}), 5, true))
	if alone := face.ReadFull(l); len(alone.Show.Bands) != 1 {
		t.Fatalf("the left door has %d bands", len(alone.Show.Bands))
	}
	f, err := Beside([]*face.Panel{l, r}, 3)
	if err != nil {
		t.Fatal(err)
	}
	p := f.Panel
	if p.Width != 203 || p.Length != 700 || len(p.Strips) != 3 || p.Strips[1].W != 3 || f.Of[1] != -1 || f.Of[2] != 1 {
		t.Fatalf("together %g x %g of %d strips", p.Length, p.Width, len(p.Strips))
	}
	read := face.ReadFull(p)
	if len(read.Show.Bands) != 2 {
		t.Fatalf("%d bands", len(read.Show.Bands))
	}
	for i, want := range []float64{10, 193} {
		if y := read.Show.Bands[i].CentreY; math.Abs(y-want) > 1e-6 {
			t.Errorf("band %d at %.3f, by hand %.0f", i, y, want)
		}
	}
	// The gap is no wood: 40 mm of 200.
	if v := read.Show.Light.Value; math.Abs(v-0.2) > 1e-9 {
		t.Errorf("sapwood %.5f, by hand 0.2", v)
	}
	if math.Abs(read.Show.Balance) > 1e-9 {
		t.Errorf("balance %.4f", read.Show.Balance)
	}
}

// A streak alone in one door is answered by its mirror image in the other.
func TestStreakIsAnsweredAcrossTheGap(t *testing.T) {
	one := func(id string, turned bool) *face.Panel {
		return door(id, 300, strip(plank(id+"A"), 5, false), strip(plank(id+"B", [2]float64{30, 50}), 5, turned), strip(plank(id+"C"), 5, false))
	}
	lone := func(p *face.Panel) (n int) {
		for _, w := range face.ReadFull(p).Warnings {
			if w.Kind == face.LoneStreak {
				n++
			}
		}
		return n
	}
	l, r := one("l", false), one("r", true)
	if lone(l) != 1 || lone(r) != 1 {
		t.Fatalf("alone: %d and %d streaks", lone(l), lone(r))
	}
	f, err := Beside([]*face.Panel{l, r}, 3)
	if err != nil {
		t.Fatal(err)
	}
	if n := lone(f.Panel); n != 0 {
		t.Errorf("%d streaks stand alone together", n)
	}
	f, err = Beside([]*face.Panel{l, one("r", false)}, 3)
	if err != nil {
		t.Fatal(err)
	}
	if n := lone(f.Panel); n == 0 {
		t.Error("a streak that is not mirrored does not stand alone")
	}
}

// Whatever the way it lies, a trimmed strip shows at each place of the panel
// what the whole one does.
func TestTrimmedShowsTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 300 {
		b := plank("A", [2]float64{10, 30})
		s := face.Strip{ID: "A1", Board: b, X: 50 + 20*r.Float64(), Y: 2 + 5*r.Float64(), L: 740, W: 110, Angle: 4*r.Float64() - 2,
			Up: 1 + r.IntN(2), Turned: r.IntN(2) == 0, Shift: 10*r.Float64() - 5}
		p := door("left", 80+40*r.Float64(), s)
		got, ok := Trimmed(p, 0)
		if !ok {
			t.Fatal("nothing is left")
		}
		q := *p
		q.Strips = []face.Strip{got}
		for range 20 {
			at := geom.Pt(700*r.Float64(), p.Width*r.Float64())
			if y := at.Y - p.StripY(0); y < 0 || y > s.W {
				continue
			}
			want := p.PanelToFace(0, face.Show).Apply(at)
			// The rest lies where it lay: its front edge at that of the panel.
			if y0 := math.Max(p.StripY(0), 0); math.Abs(q.StripY(0)-y0) > 1e-9 {
				t.Fatalf("it begins at %.3f, not %.3f", q.StripY(0), y0)
			}
			if have := q.PanelToFace(0, face.Show).Apply(at); have.Dist(want) > 1e-6 {
				t.Fatalf("up %d turned %v angle %.2f: %v shows %v, not %v", s.Up, s.Turned, s.Angle, at, have, want)
			}
		}
	}
}

func TestBesideRefuses(t *testing.T) {
	l := door("left", 100, strip(plank("A"), 5, false))
	r := door("right", 100, strip(plank("B"), 5, false))
	if _, err := Beside([]*face.Panel{l}, 3); err == nil {
		t.Error("one panel is seen together")
	}
	r.Wanted = face.WantSap
	if _, err := Beside([]*face.Panel{l, r}, 3); err == nil {
		t.Error("panels that want other wood are one")
	}
	r.Wanted, r.Width = face.WantHeart, 0
	if _, err := Beside([]*face.Panel{l, r}, 3); err == nil {
		t.Error("a panel without width is one of them")
	}
}
