package face

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

func bandsOf(d drawing) ([]Band, int) {
	r := ReadFull(d.panel())
	return r.Show.Bands, r.Show.Specks
}

// Which fragments make one band, on a panel of 900 x 450 in five strips of 90:
// each pair on either side of the gap it may bridge.
func TestFragmentsJoin(t *testing.T) {
	cases := []struct {
		name  string
		zones []Zone
		want  int
	}{
		{"gap of 9.5 along X, side by side by a corner", zones(Sap, rect(100, 100, 300, 110), rect(309.5, 109, 500, 140)), 1},
		{"gap of 10.5 along X with a fifth of the extent in common", zones(Sap, rect(100, 100, 300, 110), rect(310.5, 108, 500, 140)), 2},
		{"gap of 1.9 across Y", zones(Sap, rect(100, 100, 300, 110), rect(100, 111.9, 300, 120)), 1},
		{"gap of 2.5 across Y", zones(Sap, rect(100, 100, 300, 110), rect(100, 112.5, 300, 120)), 2},
		{"gap of 1.9 across a glue line at 180", zones(Sap, rect(100, 165, 300, 179), rect(100, 180.9, 300, 195)), 1},
		{"gap of 2.5 across a glue line", zones(Sap, rect(100, 165, 300, 179), rect(100, 181.5, 300, 195)), 2},
		{"corners that touch", zones(Sap, rect(100, 100, 300, 110), rect(300.5, 110.5, 500, 120)), 1},
		{"in line, 149 apart", zones(Sap, rect(100, 100, 300, 110), rect(449, 105, 700, 125)), 1},
		{"in line, 151 apart", zones(Sap, rect(100, 100, 300, 110), rect(451, 105, 700, 125)), 2},
		{"149 apart, in common less than half of the smaller", zones(Sap, rect(100, 100, 300, 110), rect(449, 105.5, 700, 125)), 2},
		{"one over the other, extents alike", zones(Sap, geom.Polygon{{X: 100, Y: 100}, {X: 110, Y: 100}, {X: 500, Y: 150}, {X: 500, Y: 160}, {X: 490, Y: 160}, {X: 100, Y: 110}},
			geom.Polygon{{X: 100, Y: 120}, {X: 490, Y: 170}, {X: 480, Y: 172}, {X: 100, Y: 123}}), 2},
		{"through a flaw that both touch", append(zones(Sap, rect(100, 100, 300, 110), rect(310, 130, 500, 140)), zones(Flaw, rect(290, 105, 320, 135))...), 1},
		{"a flaw that only one touches", append(zones(Sap, rect(100, 100, 300, 110), rect(330, 130, 500, 140)), zones(Flaw, rect(290, 105, 320, 135))...), 2},
		{"through a flaw on the far side of a glue line", append(zones(Sap, rect(100, 160, 300, 180), rect(360, 160, 560, 180)), zones(Flaw, rect(290, 180, 370, 200))...), 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			everyWay(t, drawing{length: 900, width: 450, show: c.zones}, func(t *testing.T, d drawing) {
				if got, _ := bandsOf(d); len(got) != c.want {
					t.Errorf("%d bands, want %d", len(got), c.want)
				}
			})
		})
	}
}

func TestSpecksAreCountedNotJudged(t *testing.T) {
	cases := []struct {
		name   string
		length float64
		zone   geom.Polygon
		specks int
	}{
		{"99 mm2", 900, rect(100, 100, 199, 101), 1},
		{"101 mm2", 900, rect(100, 100, 201, 101), 0},
		{"59 long", 900, rect(100, 100, 159, 130), 1},
		{"61 long", 900, rect(100, 100, 161, 130), 0},
		{"5 % of 2000 is 100: 99 long", 2000, rect(100, 100, 199, 130), 1},
		{"5 % of 2000 is 100: 101 long", 2000, rect(100, 100, 201, 130), 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			bands, specks := bandsOf(drawing{length: c.length, width: 450, show: zones(Sap, c.zone)})
			if specks != c.specks || len(bands) != 1-c.specks {
				t.Errorf("%d specks and %d bands", specks, len(bands))
			}
		})
	}
}

// Measures by closed form.
func TestBandMeasures(t *testing.T) {
	everyWay(t, drawing{length: 900, width: 450, show: zones(Sap, rect(100, 110, 700, 140))}, func(t *testing.T, d drawing) {
		b, _ := bandsOf(d)
		layouttest.Near(t, "area", b[0].Area, 18000, 1e-6)
		layouttest.Near(t, "share", b[0].Share, 18000.0/405000, 1e-9)
		layouttest.Near(t, "length", b[0].Length, 600, 1e-9)
		layouttest.Near(t, "mean", b[0].MeanWidth, 30, 1e-9)
		layouttest.Near(t, "greatest", b[0].MaxWidth, 30, 1e-4)
		layouttest.Near(t, "centre off the middle", math.Abs(b[0].CentreY-225), 100, 1e-9)
	})
	// A wedge 600 long, 0 to 60: mean 30, greatest 60, its centre a third up.
	everyWay(t, drawing{length: 900, width: 450, show: zones(Sap, geom.Polygon{{X: 100, Y: 100}, {X: 700, Y: 100}, {X: 700, Y: 160}})}, func(t *testing.T, d drawing) {
		b, _ := bandsOf(d)
		layouttest.Near(t, "wedge's mean", b[0].MeanWidth, 30, 1e-9)
		layouttest.Near(t, "wedge's greatest", b[0].MaxWidth, 60, 0.2)
		layouttest.Near(t, "wedge's centre", math.Abs(b[0].CentreY-225), 105, 1e-6)
	})
	// Cut by a gap of 100 the wooded length is 500, and across a glue line at
	// 180 both halves count.
	everyWay(t, drawing{length: 900, width: 450, show: zones(Sap, rect(100, 160, 400, 200), rect(500, 160, 700, 200))}, func(t *testing.T, d drawing) {
		b, _ := bandsOf(d)
		layouttest.Near(t, "length with the gap", b[0].Length, 600, 1e-9)
		layouttest.Near(t, "mean over the wood", b[0].MeanWidth, 40, 1e-9)
		layouttest.Near(t, "greatest over both halves", b[0].MaxWidth, 40, 1e-4)
		if len(b[0].Strips) != 2 {
			t.Errorf("strips %v", b[0].Strips)
		}
	})
	// Along the front edge for 300 of 900: it leaves the edge by a slope that
	// passes 2 mm after 20 of its 300.
	b, _ := bandsOf(drawing{length: 900, width: 450, over: 8, show: zones(Sap, geom.Polygon{
		{X: 0, Y: -20}, {X: 300, Y: -20}, {X: 300, Y: 0}, {X: 600, Y: 30}, {X: 600, Y: 40}, {X: 300, Y: 30}, {X: 0, Y: 30},
	})})
	layouttest.Near(t, "on the front edge", b[0].Front, 320.0/900, 1e-6)
	layouttest.Near(t, "on the back edge", b[0].Rear, 0, 1e-12)
}

// On the back everything is seen rolled over: place, centre and balance.
func TestBackIsSeenRolledOver(t *testing.T) {
	r := ReadFull(drawing{length: 900, width: 450, back: zones(Sap, rect(100, 110, 700, 140))}.panel())
	b := r.Back.Bands[0]
	if b.Place != geom.R(100, 310, 700, 340) {
		t.Errorf("place %v", b.Place)
	}
	layouttest.Near(t, "centre", b.CentreY, 325, 1e-9)
	layouttest.Near(t, "balance", r.Back.Balance, 100.0/450, 1e-9)
	// Front and rear stay those of the panel: the band lies by the front edge.
	r = ReadFull(drawing{length: 900, width: 450, over: 5, back: zones(Sap, rect(-20, -20, 920, 30))}.panel())
	layouttest.Near(t, "front", r.Back.Bands[0].Front, 1, 1e-6)
	layouttest.Near(t, "rear", r.Back.Bands[0].Rear, 0, 1e-9)
}

func TestSliver(t *testing.T) {
	cases := []struct {
		name string
		zone geom.Polygon
		want bool
	}{
		{"2.9 x 900", rect(0, 110, 900, 112.9), true},
		{"3.1 x 900", rect(0, 110, 900, 113.1), false},
		{"2.9 x 149", rect(100, 110, 249, 112.9), false},
		{"2.9 x 151", rect(100, 110, 251, 112.9), true},
		{"a needle from 0 to 5.8 is no sliver", geom.Polygon{{X: 0, Y: 110}, {X: 900, Y: 110}, {X: 900, Y: 115.8}}, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := ReadFull(drawing{length: 900, width: 450, show: zones(Sap, c.zone)}.panel())
			if got := count(r, SliverKind) == 1; got != c.want || r.Show.Bands[0].Sliver != c.want || count(r, LoneStreak) == 1 == c.want {
				t.Errorf("sliver %v, want %v\n%s", got, c.want, describe(r))
			}
		})
	}
}

// A hard border is a glue line with wanted wood beyond it for half the band's
// length; the joint here is at 180.
func TestHardBorder(t *testing.T) {
	cases := []struct {
		name  string
		zones []Zone
		want  bool
	}{
		{"along the whole joint", zones(Sap, rect(0, 150, 900, 180)), true},
		{"along 500 of 900", zones(Sap, geom.Polygon{{X: 0, Y: 150}, {X: 900, Y: 150}, {X: 900, Y: 170}, {X: 500, Y: 180}, {X: 0, Y: 180}}), true},
		{"along 400 of 900", zones(Sap, geom.Polygon{{X: 0, Y: 150}, {X: 900, Y: 150}, {X: 900, Y: 170}, {X: 400, Y: 180}, {X: 0, Y: 180}}), false},
		{"in the strip's middle", zones(Sap, rect(0, 140, 900, 160)), false},
		{"both halves meet", zones(Sap, rect(0, 160, 900, 200)), false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			everyWay(t, drawing{length: 900, width: 450, show: c.zones}, func(t *testing.T, d drawing) {
				if b, _ := bandsOf(d); b[0].Hard != c.want {
					t.Errorf("hard %v, want %v", b[0].Hard, c.want)
				}
			})
		})
	}
}

// A shaped panel: the band that follows the outline lies along the edge.
func TestEdgeBandOfAShape(t *testing.T) {
	d := drawing{length: 900, width: 450, show: zones(Sap, rect(-10, -10, 910, 460)), strips: []float64{0.3, 0.4, 0.3}}
	inner := geom.Ellipse(geom.R(25, 25, 875, 425), 200)
	d.show = append(d.show, Zone{Heart, inner})
	p := d.panel()
	p.Shape = geom.Ellipse(geom.R(0, 0, 900, 450), 200)
	r := ReadFull(p)
	if len(r.Show.Bands) != 1 {
		t.Fatalf("want one ring\n%s", describe(r))
	}
	b := r.Show.Bands[0]
	layouttest.Near(t, "front", b.Front, 1, 0.01)
	layouttest.Near(t, "rear", b.Rear, 1, 0.01)
	// Area between two ellipses; the polygons lose the same small share of each.
	layouttest.Near(t, "area", b.Area, math.Pi*(450*225-425*200), 0.001*math.Pi*450*225)
	if count(r, PanelTooSmall) != 0 {
		t.Errorf("the strips cover the shape\n%s", describe(r))
	}
}
