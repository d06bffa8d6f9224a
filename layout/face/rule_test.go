package face

import (
	"fmt"
	"slices"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// ruleCase is a drawn case with what the lone-streak rule must say of it. Kinds
// that must and must not be warned of stand beside it.
type ruleCase struct {
	name    string
	draw    func(l, w float64) []Zone
	strips  []float64
	lone    int
	must    []WarningKind
	mustNot []WarningKind
}

// uneven are strips of different widths whose joints keep clear of the streaks
// drawn below, as the five equal ones do.
var uneven = []float64{0.15, 0.25, 0.14, 0.21, 0.25}

// Positions and widths are shares of a panel 900 x 450, taken over to the
// other sizes.
var ruleCases = []ruleCase{
	{name: "no unwanted wood", draw: func(l, w float64) []Zone { return nil }},
	{name: "one full-length band of 25 off-centre", lone: 1, mustNot: []WarningKind{SliverKind},
		draw: func(l, w float64) []Zone { return zones(Sap, rect(0, 0.30*w, l, (0.30+25.0/450)*w)) }},
	{name: "one full-length band of 60 off-centre", lone: 1,
		draw: func(l, w float64) []Zone { return zones(Sap, rect(0, 0.26*w, l, (0.26+60.0/450)*w)) }},
	{name: "bands along both outside edges", must: nil, mustNot: []WarningKind{OneSidedEdge},
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(-50, -50, l+50, 30.0/450*w), rect(-50, (1-22.0/450)*w, l+50, w+50))
		}},
	{name: "bands along both outside edges, one tapering out halfway", mustNot: []WarningKind{OneSidedEdge},
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(-50, -50, l+50, 30.0/450*w),
				geom.Polygon{{X: 0, Y: w + 50}, {X: 0, Y: (1 - 22.0/450) * w}, {X: l / 2, Y: w}, {X: l / 2, Y: w + 50}})
		}},
	{name: "band along one outside edge", must: []WarningKind{OneSidedEdge},
		draw: func(l, w float64) []Zone { return zones(Sap, rect(-50, -50, l+50, 30.0/450*w)) }},
	{name: "wedges at both ends of one off-centre strip", lone: 1,
		draw: func(l, w float64) []Zone {
			a, b := 0.24*w, 0.32*w
			return zones(Sap, geom.Polygon{{X: 0, Y: a}, {X: 0, Y: b}, {X: 0.3 * l, Y: a}},
				geom.Polygon{{X: l, Y: a}, {X: l, Y: b}, {X: 0.7 * l, Y: a}})
		}},
	{name: "wedges at both ends, on either side of one strip", lone: 1,
		draw: func(l, w float64) []Zone {
			return zones(Sap, geom.Polygon{{X: 0, Y: 0.21 * w}, {X: 0, Y: 0.27 * w}, {X: 0.3 * l, Y: 0.21 * w}},
				geom.Polygon{{X: l, Y: 0.39 * w}, {X: l, Y: 0.32 * w}, {X: 0.7 * l, Y: 0.39 * w}})
		}},
	{name: "one streak cut in three by knots", lone: 1,
		draw: func(l, w float64) []Zone {
			return append(zones(Sap, rect(0, 0.27*w, l, 0.33*w)),
				zones(Flaw, rect(0.3*l, 0.25*w, 0.34*l, 0.36*w), rect(0.6*l, 0.25*w, 0.66*l, 0.36*w))...)
		}},
	{name: "slanting streak across a glue line", lone: 1,
		draw: func(l, w float64) []Zone {
			return zones(Sap, geom.Polygon{{X: 0, Y: 0.30 * w}, {X: l, Y: 0.44 * w}, {X: l, Y: 0.48 * w}, {X: 0, Y: 0.34 * w}})
		}},
	{name: "joint of 40 against 2", lone: 1, strips: []float64{0.2, 0.1, 0.3, 0.4},
		draw: func(l, w float64) []Zone { return zones(Sap, rect(0, 0.3*w-2, l, (0.3+40.0/450)*w)) }},
	{name: "two halves of 24 and 30 along a whole joint", strips: []float64{0.2, 0.1, 0.3, 0.4},
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, (0.3-24.0/450)*w, l, (0.3+30.0/450)*w))
		}},
	{name: "white line of 2.5", must: []WarningKind{SliverKind},
		draw: func(l, w float64) []Zone { return zones(Sap, rect(0, 0.3*w, l, 0.3*w+2.5)) }},
	{name: "mirrored pair about the centre line",
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, 0.24*w, l, 0.29*w), rect(0, 0.71*w, l, 0.76*w))
		}},
	{name: "pair mirrored about an off-centre joint", strips: []float64{0.12, 0.14, 0.14, 0.3, 0.3},
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, 0.17*w, l, 0.20*w), rect(0, 0.32*w, l, 0.35*w))
		}},
	{name: "three like bands spread over the width",
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, 0.11*w, l, 0.14*w), rect(0, 0.45*w, l, 0.49*w), rect(0, 0.83*w, l, 0.86*w))
		}},
	{name: "three bands crowded in one third", lone: 3, strips: []float64{0.38, 0.22, 0.4},
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, 0.05*w, l, 0.08*w), rect(0, 0.15*w, l, 0.18*w), rect(0, 0.26*w, l, 0.29*w))
		}},
	{name: "three bands crowded in one third, one in each strip", lone: 3, strips: slices.Repeat([]float64{1.0 / 9}, 9),
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, 0.15*w, l, 0.18*w), rect(0, 0.26*w, l, 0.29*w), rect(0, 0.375*w, l, 0.405*w))
		}},
	{name: "two pairs, each about its own joint", strips: slices.Repeat([]float64{0.1}, 10),
		draw: func(l, w float64) []Zone {
			return zones(Sap, rect(0, 0.15*w, l, 0.17*w), rect(0, 0.23*w, l, 0.25*w), rect(0, 0.37*w, l, 0.39*w), rect(0, 0.41*w, l, 0.43*w))
		}},
	{name: "inside the trimmed edge only",
		draw: func(l, w float64) []Zone { return zones(Sap, rect(-50, -50, l+50, -0.5)) }},
}

var ruleSizes = [][2]float64{{900, 450}, {620, 380}, {1500, 700}, {2400, 1000}}

func TestLoneStreakOfDrawnCases(t *testing.T) {
	for _, c := range ruleCases {
		for _, size := range ruleSizes {
			layouts := [][]float64{{0.2, 0.2, 0.2, 0.2, 0.2}, uneven}
			if c.strips != nil {
				layouts = [][]float64{c.strips}
			}
			for k, strips := range layouts {
				t.Run(fmt.Sprintf("%s/%v/%d", c.name, size, k), func(t *testing.T) {
					d := drawing{length: size[0], width: size[1], strips: strips, over: 6, show: c.draw(size[0], size[1])}
					everyWay(t, d, func(t *testing.T, d drawing) { c.check(t, d) })
				})
			}
		}
	}
}

func (c *ruleCase) check(t *testing.T, d drawing) {
	t.Helper()
	r := ReadFull(d.panel())
	if got := count(r, LoneStreak); got != c.lone {
		t.Errorf("%d lone streaks, want %d\n%s", got, c.lone, describe(r))
	}
	for _, k := range c.must {
		if anywhere(r.Warnings, k) == 0 {
			t.Errorf("no %s\n%s", k, describe(r))
		}
	}
	for _, k := range c.mustNot {
		if anywhere(r.Warnings, k) > 0 {
			t.Errorf("%s\n%s", k, describe(r))
		}
	}
}

func TestSpeckIsNoSliver(t *testing.T) {
	d := drawing{length: 2400, width: 1000, show: zones(Sap, rect(300, 310, 345, 313.2))}
	everyWay(t, d, func(t *testing.T, d drawing) {
		r := ReadFull(d.panel())
		if len(r.Warnings) != 0 || r.Show.Specks != 1 || len(r.Show.Bands) != 0 {
			t.Errorf("want one speck and no warning\n%s", describe(r))
		}
	})
}

func TestStreakOnTheBackOnly(t *testing.T) {
	for _, size := range ruleSizes {
		d := drawing{length: size[0], width: size[1], back: zones(Sap, rect(0, 0.3*size[1], size[0], 0.36*size[1]))}
		everyWay(t, d, func(t *testing.T, d drawing) {
			p := d.panel()
			if r := ReadFull(p); count(r, LoneStreak) != 0 || len(r.Back.Bands) != 1 {
				t.Errorf("want one band on the back and no streak\n%s", describe(r))
			}
			p.BothShow = true
			r := ReadFull(p)
			if count(r, LoneStreak) != 1 || r.Warnings[0].Side != Back {
				t.Errorf("where both show, want it named\n%s", describe(r))
			}
		})
	}
}

// The streak's colour is chosen so that CIEDE2000 against the heartwood has a
// closed form: two greys that differ in lightness alone differ by dL / SL,
// SL = 1 + 0.015 (Lm - 50)^2 / sqrt(20 + (Lm - 50)^2), Lm their mean (Sharma,
// Wu and Dalal 2005). Around Lm = 50 that is dL itself.
func TestStreakByAge(t *testing.T) {
	grey := func(l float64) colour.Lab { return colour.Lab{L: l} }
	cases := []struct {
		name   string
		ageing *Ageing
		lone   int
		later  bool
	}{
		{name: "4 today and never more"},
		{name: "4 today, 3 in ten years", ageing: &Ageing{Sap: []AgedColour{{10, grey(51)}}}},
		{name: "4 today, 8 in ten years", ageing: &Ageing{Sap: []AgedColour{{10, grey(56)}}}, lone: 1, later: true},
		{name: "8 after one year, 4 after ten", ageing: &Ageing{Sap: []AgedColour{{10, grey(52)}, {1, grey(56)}}}, lone: 1, later: true},
		{name: "the heartwood darkens", ageing: &Ageing{Heart: []AgedColour{{10, grey(44)}}}, lone: 1, later: true},
		{name: "8 only after a hundred years", ageing: &Ageing{Sap: []AgedColour{{100, grey(56)}}}},
	}
	for _, c := range cases {
		for _, size := range ruleSizes {
			t.Run(fmt.Sprintf("%s/%v", c.name, size), func(t *testing.T) {
				d := drawing{length: size[0], width: size[1], ageing: c.ageing, show: zones(Sap, rect(0, 0.3*size[1], size[0], 0.36*size[1]))}
				p := d.panel()
				for i := range p.Strips {
					p.Strips[i].Board.AssumedHeart, p.Strips[i].Board.AssumedSap = grey(48), grey(52)
				}
				r := ReadFull(p)
				if got := count(r, LoneStreak); got != c.lone {
					t.Fatalf("%d lone streaks, want %d\n%s", got, c.lone, describe(r))
				}
				if c.lone > 0 && r.Warnings[0].Later != c.later {
					t.Errorf("later %v, want %v", r.Warnings[0].Later, c.later)
				}
			})
		}
	}
}

func TestUnknownColourCountsAsOver(t *testing.T) {
	p := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 140, 900, 160))}.panel()
	for i := range p.Strips {
		p.Strips[i].Board.AssumedHeart, p.Strips[i].Board.AssumedSap = colour.Lab{}, colour.Lab{}
	}
	r := ReadFull(p)
	if count(r, LoneStreak) != 1 || !r.Warnings[0].Assumed || !r.Show.Bands[0].Unknown || r.Show.Contrast.Known {
		t.Errorf("want one streak marked assumed and no contrast\n%s", describe(r))
	}
}

func TestEmptyPanelIsSilent(t *testing.T) {
	p := &Panel{ID: "p", Length: 900, Width: 450, Thickness: 20, PanelEdge: 5, Strips: make([]Strip, 3)}
	for _, q := range []*Panel{p, {ID: "q", Length: 900, Width: 450}, {ID: "r"}} {
		if r := ReadFull(q); len(r.Warnings) != 0 || r.Placed != 0 {
			t.Errorf("%s: %v", q.ID, r.Warnings)
		}
	}
	if r := ReadFull(p); len(r.Strips) != 3 || !r.Strips[1].Empty || len(r.Joints) != 2 || r.Joints[0].Kind != Unjudged {
		t.Errorf("places not read as empty: %+v", r)
	}
}
