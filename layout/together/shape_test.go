package together

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Doors of 700 x 100 with corners cut off by 100 along and 50 across hold
// 70 000 - 2500 mm2 each. A groove of 10 mm along the closing edge of the left
// one, which sticks out of it by 20, hides 700 x 10 less the cut corner's share,
// of its own door only.
func TestShapesAndHiddenAreKept(t *testing.T) {
	corner := func(id string) *face.Panel {
		p := door(id, 100, strip(plank(id, [2]float64{10, 30}), 5, false))
		p.Shape = geom.Polygon{{X: 0, Y: 0}, {X: 700, Y: 0}, {X: 700, Y: 50}, {X: 600, Y: 100}, {X: 0, Y: 100}}
		return p
	}
	l, r := corner("l"), corner("r")
	for _, way := range []Way{Across, Along} {
		f, err := Of([]*face.Panel{l, r}, Layout{Way: way, Gap: 3})
		if err != nil {
			t.Fatal(err)
		}
		if a := f.Panel.Shape.InsideArea(); math.Abs(a-2*67_500) > 1e-6 {
			t.Errorf("way %d: the outline holds %g mm2, by hand 135 000", way, a)
		}
		var rd Reader
		if a := rd.Read(f).Show.Area; math.Abs(a-2*67_500) > 1e-6 {
			t.Errorf("way %d: %g mm2 of wood, by hand 135 000", way, a)
		}
	}
	hidden := *l
	hidden.Shape = nil
	hidden.Hidden = []geom.Polygon{geom.R(-1, 90, 720, 120).Polygon()}
	plain := *r
	plain.Shape = nil
	for _, way := range []Way{Across, Along} {
		f, err := Of([]*face.Panel{&hidden, &plain}, Layout{Way: way, Gap: 3})
		if err != nil {
			t.Fatal(err)
		}
		var rd Reader
		if a := rd.Read(f).Show.Area; math.Abs(a-(63_000+70_000)) > 1e-6 {
			t.Errorf("way %d: %g mm2 are seen, by hand 133 000", way, a)
		}
	}
}

// A shorter door lies in the middle of the longer one's length, and is not said
// to be too short.
func TestShorterDoor(t *testing.T) {
	l, r := door("l", 100, strip(plank("A"), 5, false)), door("r", 100, strip(plank("B", [2]float64{10, 30}), 5, false))
	r.Length = 500
	f, err := Beside([]*face.Panel{l, r}, 3)
	if err != nil {
		t.Fatal(err)
	}
	var rd Reader
	got := rd.Read(f)
	if f.Places[1] != geom.R(100, 103, 600, 203) || math.Abs(got.Show.Area-120_000) > 1e-6 {
		t.Errorf("at %v, %g mm2", f.Places[1], got.Show.Area)
	}
	for _, w := range got.Warnings {
		if w.Kind == face.PanelTooSmall {
			t.Errorf("%v", w)
		}
	}
}

// What is laid later reads as the same laid from the first, and what was not
// moved keeps what was found on its planed face by pointer.
func TestLaidAgainReadsTheSame(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 2))
	planed := &face.PlanedFace{Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 20, 740, 40).Polygon()}}}
	make2 := func() []*face.Panel {
		var out []*face.Panel
		for _, id := range []string{"l", "r"} {
			var list []face.Strip
			for k := range 3 {
				s := strip(plank(id+string(rune('A'+k)), [2]float64{10, 15 + 20*rnd.Float64()}), 5, rnd.IntN(2) == 0)
				s.W = 60 + math.Round(40*rnd.Float64())
				list = append(list, s)
			}
			list[2].Planed = planed
			p := door(id, 0, list...)
			p.Width = p.StripsWidth() - 10
			out = append(out, p)
		}
		return out
	}
	for _, way := range []Way{Across, Along} {
		panels := make2()
		f, err := Of(panels, Layout{Way: way, Gap: 3})
		if err != nil {
			t.Fatal(err)
		}
		work := f.Fork()
		planedOf := func(f *Face) *face.PlanedFace {
			for i, s := range f.Panel.Strips {
				if f.Of[i] == 1 && s.Planed != nil {
					return s.Planed
				}
			}
			t.Fatal("nothing was planed")
			return nil
		}
		before := planedOf(work)
		s := panels[0].Strips
		other := []face.Strip{s[2], s[0], s[1]}
		other[1].Turned = !other[1].Turned
		work.Lay(0, other)
		q := *panels[0]
		q.Strips = other
		fresh, err := Of([]*face.Panel{&q, panels[1]}, Layout{Way: way, Gap: 3})
		if err != nil {
			t.Fatal(err)
		}
		var a, b Reader
		a.Read(f)
		x, y := a.Read(work), b.Read(fresh)
		if x.Show.Light != y.Show.Light || len(x.Show.Bands) != len(y.Show.Bands) || len(x.Warnings) != len(y.Warnings) || x.Show.Balance != y.Show.Balance {
			t.Errorf("way %d: laid again %+v, fresh %+v", way, x.Show, y.Show)
		}
		if f.Panel.Strips[1].ID == work.Panel.Strips[1].ID && f.Panel.Strips[0].ID == work.Panel.Strips[0].ID {
			t.Errorf("way %d: the face it was made from changed too", way)
		}
		work.Lay(0, s)
		if got := planedOf(work); got != before {
			t.Errorf("way %d: what was planed has another pointer", way)
		}
	}
}
