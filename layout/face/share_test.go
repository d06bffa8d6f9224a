package face

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// Areas by closed form: share of a panel 900 x 450 (405000 mm2).
func TestLightShareByClosedForm(t *testing.T) {
	cases := []struct {
		name  string
		zones []Zone
		want  float64
	}{
		{"rectangle 300 x 100", zones(Sap, rect(100, 150, 400, 250)), 30000.0 / 405000},
		{"triangle 400 x 90 / 2", zones(Sap, geom.Polygon{{X: 100, Y: 40}, {X: 500, Y: 40}, {X: 100, Y: 130}}), 18000.0 / 405000},
		{"tapering band 20 to 40", zones(Sap, geom.Polygon{{X: 0, Y: 0}, {X: 900, Y: 0}, {X: 900, Y: 40}, {X: 0, Y: 20}}), 27000.0 / 405000},
		{"whole face", zones(Sap, rect(-100, -100, 1000, 600)), 1},
		{"two that overlap count once", zones(Sap, rect(0, 0, 200, 100), rect(100, 50, 300, 150)), 35000.0 / 405000},
		{"bow tie, even-odd", zones(Sap, geom.Polygon{{X: 100, Y: 100}, {X: 300, Y: 200}, {X: 300, Y: 100}, {X: 100, Y: 200}}), 10000.0 / 405000},
		{"heartwood drawn on top", append(zones(Sap, rect(0, 0, 900, 100)), zones(Heart, rect(0, 50, 900, 100))...), 45000.0 / 405000},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for states := range 4 {
				for _, strips := range [][]float64{nil, uneven, {1}} {
					d := drawing{length: 900, width: 450, show: c.zones, over: 7, states: states, strips: strips}
					r := ReadFull(d.panel())
					layouttest.Near(t, "light", r.Show.Light.Value, c.want, 1e-9)
					layouttest.Near(t, "back", r.Back.Light.Value, 0, 1e-12)
					layouttest.Near(t, "area", r.Show.Area, 405000, 1e-6)
				}
			}
		})
	}
}

func TestUnseenGivesARange(t *testing.T) {
	// 405000 mm2: 40500 sapwood, 81000 not seen.
	d := drawing{length: 900, width: 450, show: append(zones(Sap, rect(0, 0, 900, 45)), zones(Unseen, rect(0, 200, 900, 290))...)}
	r := ReadFull(d.panel())
	layouttest.Near(t, "light of the face", r.Show.Light.Value, 0.1, 1e-9)
	layouttest.Near(t, "hopeful", r.Show.Light.Lo, 0.1, 1e-9)
	layouttest.Near(t, "pessimistic", r.Show.Light.Hi, 0.3, 1e-9)
	layouttest.Near(t, "unseen", r.Show.UnseenPart, 0.2, 1e-9)
	if count(r, NotSeen) != 1 {
		t.Errorf("want not-seen\n%s", describe(r))
	}
	d.wanted, d.base = WantSap, Heart
	r = ReadFull(d.panel())
	layouttest.Near(t, "unwanted heartwood at least", r.Show.Unwanted.Lo, 0.7, 1e-9)
	layouttest.Near(t, "unwanted heartwood at most", r.Show.Unwanted.Hi, 0.9, 1e-9)
}

func TestBothWelcomeHasNoUnwanted(t *testing.T) {
	d := drawing{length: 900, width: 450, wanted: WantBoth, show: zones(Sap, rect(0, 100, 900, 130))}
	r := ReadFull(d.panel())
	if r.Show.Unwanted != (Share{}) || len(r.Show.Bands) != 0 || len(r.Warnings) != 0 {
		t.Errorf("unwanted %v\n%s", r.Show.Unwanted, describe(r))
	}
	layouttest.Near(t, "light", r.Show.Light.Value, 30.0/450, 1e-9)
	// DE is far above twice the spread: the cells that hold sapwood differ. The
	// band fills three rows of 10 mm cells.
	layouttest.Near(t, "coverage", r.Show.Coverage, 30.0/450, 1e-6)
}

func TestWaneyOutlineAndBoardEndAreBlank(t *testing.T) {
	b := &Board{ID: "A", Length: 800, Width: 100, Thickness: 20, AssumedHeart: drawnHeart, AssumedSap: drawnSap}
	b.Faces[0].Outline = geom.Polygon{{X: 0, Y: 0}, {X: 800, Y: 40}, {X: 800, Y: 100}, {X: 0, Y: 100}}
	b.Faces[0].Zones = zones(Sap, geom.Polygon{{X: -50, Y: -50}, {X: 850, Y: -50}, {X: 850, Y: 50}, {X: 0, Y: 10}, {X: -50, Y: 10}})
	p := &Panel{ID: "p", Length: 900, Width: 100, Thickness: 20, Limit: [2]float64{1, 1}, Strips: []Strip{{ID: "s", Board: b, L: 900, W: 100, Up: 1}}}
	r := ReadFull(p)
	// Wood: 80000 less the triangle 800 x 40 / 2; sapwood between the lines from
	// (0, 0) to (800, 40) and (0, 10) to (800, 10 + 40*800/850): the second
	// passes through (0, 10) and (850, 50).
	sap := 800 * ((10 - 0) + (10 + 40*800.0/850 - 40)) / 2
	layouttest.Near(t, "wood", r.Show.Area, 64000, 1e-6)
	layouttest.Near(t, "sapwood", r.Show.Light.Value*r.Show.Area, sap, 1e-6)
	layouttest.Near(t, "back", r.Back.Area, 80000, 1e-6)
}

func TestHiddenAndShape(t *testing.T) {
	d := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 0, 900, 90)), back: zones(Sap, rect(0, 0, 900, 90))}
	p := d.panel()
	p.Hidden = []geom.Polygon{rect(0, 0, 900, 60)}
	r := ReadFull(p)
	layouttest.Near(t, "show", r.Show.Light.Value, 30.0/390, 1e-9)
	layouttest.Near(t, "the back is seen whole", r.Back.Light.Value, 90.0/450, 1e-9)
	// A triangle with its long side in front: height 450, the lowest 90 hold
	// 1 - (360/450)^2 of it.
	p = d.panel()
	p.Shape = geom.Polygon{{X: 0, Y: 0}, {X: 900, Y: 0}, {X: 450, Y: 450}}
	r = ReadFull(p)
	layouttest.Near(t, "area", r.Show.Area, 202500, 1e-6)
	layouttest.Near(t, "triangle", r.Show.Light.Value, 1-0.64, 1e-9)
	layouttest.Near(t, "triangle's back", r.Back.Light.Value, 1-0.64, 1e-9)
	// An ellipse: the part below y = -h of one of half height b is
	// (acos(k) - k sqrt(1 - k^2)) / pi with k = h/b; here k = 135/225.
	p = d.panel()
	p.Shape = geom.Ellipse(geom.R(0, 0, 900, 450), 2000)
	r = ReadFull(p)
	layouttest.Near(t, "ellipse", r.Show.Light.Value, (math.Acos(0.6)-0.6*0.8)/math.Pi, 1e-5)
}

func TestPlanedFaceReplacesZones(t *testing.T) {
	for _, c := range states {
		p := markedPanel(c.up, c.turned, 0)
		s := &p.Strips[0]
		s.Board.Faces[0].Zones = zones(Sap, rect(0, 0, 2400, 210))
		s.Board.Faces[1].Zones = zones(Sap, rect(0, 0, 2400, 210))
		// A square of 10 about (s, t) = (100, 20): 100 mm2 of 900 x 85.
		s.Planed = &PlanedFace{Zones: zones(Sap, rect(95, 15, 105, 25))}
		r := ReadFull(p)
		layouttest.Near(t, "show", r.Show.Light.Value, 100.0/76500, 1e-9)
		layouttest.Near(t, "back", r.Back.Light.Value, 1, 1e-9)
	}
}

// slow counts points of a fine grid: independent of the decomposition.
func slow(p *Panel, side Side, step float64) (light float64, area float64) {
	var sap, all float64
	nx, ny := math.Ceil(p.Length/step/2), math.Ceil(4*p.Width/step) // most borders run along
	for i := 0.5; i < nx; i++ {
		for j := 0.5; j < ny; j++ {
			x, y := i*p.Length/nx, j*p.Width/ny
			q := geom.Pt(x, y)
			for i := range p.Strips {
				s := &p.Strips[i]
				u, v := x-p.Left(i), y-p.StripY(i)
				if s.Board == nil || u < 0 || u >= s.L || v < 0 || v >= s.W {
					continue
				}
				f := s.Up
				if side == Back {
					f = 3 - f
				}
				switch s.Board.Faces[f-1].At(p.PanelToFace(i, side).Apply(q), s.Board) {
				case Sap:
					sap++
					all++
				case Heart, Flaw, Unseen:
					all++
				}
			}
		}
	}
	return sap / all, all * p.Length / nx * p.Width / ny
}

func TestSharesAgainstSlowReference(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for n := range 12 {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			p := randomPanel(rng)
			r := ReadFull(p)
			for side := Show; side <= Back; side++ {
				f := &r.Show
				if side == Back {
					f = &r.Back
				}
				light, area := slow(p, side, 1)
				layouttest.Near(t, "area", f.Area, area, 0.003*p.Length*p.Width)
				// Shares are of what is known; the reference counts all wood.
				layouttest.Near(t, "light", f.Light.Value*(1-f.UnseenPart), light, 0.003)
			}
		})
	}
}

// randomPanel is a panel of a few strips at small angles from boards with
// wandering, crossing zones.
func randomPanel(rng *rand.Rand) *Panel {
	p := &Panel{ID: "random", Length: 300 + rng.Float64()*300, Thickness: 20, Limit: [2]float64{0.2, 1}, Limits: DefaultLimits, PanelEdge: 3}
	p.BothShow = rng.IntN(2) == 1
	n := 2 + rng.IntN(4)
	for i := range n {
		b := &Board{
			ID: fmt.Sprintf("B%d", i), Length: 700 + rng.Float64()*300, Width: 120 + rng.Float64()*60, Thickness: 24,
			AssumedHeart: drawnHeart, AssumedSap: drawnSap, Planes: Planes(rng.IntN(4)), Moisture: 7 + 4*rng.Float64(),
		}
		for f := range b.Faces {
			bf := &b.Faces[f]
			bf.Zones = append(bf.Zones, Zone{Sap, sapEdge(rng, b, rng.IntN(2) == 1, 3+rng.IntN(30))})
			if rng.IntN(2) == 0 {
				bf.Zones = append(bf.Zones, Zone{Kind(rng.IntN(4)), blob(rng, rng.Float64()*b.Length, rng.Float64()*b.Width, 10+rng.Float64()*60, 3+rng.IntN(12))})
			}
			if rng.IntN(4) == 0 {
				bf.Outline = geom.Polygon{{X: 0, Y: rng.Float64() * 15}, {X: b.Length / 2, Y: rng.Float64() * 15}, {X: b.Length, Y: 0}, {X: b.Length, Y: b.Width}, {X: 0, Y: b.Width}}
			}
			if rng.IntN(3) == 0 {
				bf.Field, bf.Reference = fieldOf(rng, bf, b, 5), [2]string{"", "card"}[rng.IntN(2)]
			}
		}
		p.Strips = append(p.Strips, randomStrip(rng, b, i, p.Length))
	}
	p.Width = p.StripsWidth() - 8 + rng.Float64()*12
	return p
}

func randomStrip(rng *rand.Rand, b *Board, i int, length float64) Strip {
	return Strip{
		ID: fmt.Sprintf("s%d", i), Board: b, X: rng.Float64() * 80, Y: 10 + rng.Float64()*20, L: length + rng.Float64()*40 - 5,
		W: 40 + rng.Float64()*60, Angle: rng.Float64()*8 - 4, Up: 1 + rng.IntN(2), Turned: rng.IntN(2) == 1,
		Shift: rng.Float64()*10 - 5,
	}
}
