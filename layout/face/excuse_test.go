package face

import (
	"slices"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// Each excuse on either side of each of its thresholds, 900 x 450. The first
// band front to back is the one asked about.
func TestExcuses(t *testing.T) {
	one := []float64{1}
	cases := []struct {
		name   string
		strips []float64
		zones  []Zone
		want   Excuse
	}{
		// Edge: 80 % of 900 is 720; 15 % of 450 is 67.5.
		{"edge for 725", nil, zones(Sap, rect(0, -9, 725, 30)), ExcuseEdge},
		{"edge for 715", nil, zones(Sap, rect(0, -9, 715, 30)), NoExcuse},
		{"edge, 67 wide", nil, zones(Sap, rect(0, -9, 900, 67)), ExcuseEdge},
		{"edge, 68 wide", nil, zones(Sap, rect(0, -9, 900, 68)), NoExcuse},
		{"1.9 from the edge", nil, zones(Sap, rect(0, 1.9, 900, 30)), ExcuseEdge},
		{"2.1 from the edge", nil, zones(Sap, rect(0, 2.1, 900, 30)), NoExcuse},
		// Answering an edge whole takes 40 %: 360.
		{"edge band of 370, the other edge whole", nil, zones(Sap, rect(0, -9, 370, 60), rect(0, 442, 900, 460)), ExcuseEdge},
		{"edge band of 350, the other edge whole", nil, zones(Sap, rect(0, -9, 350, 60), rect(0, 442, 900, 460)), NoExcuse},
		{"short edge band, the other edge short", nil, zones(Sap, rect(0, -9, 300, 30), rect(300, 440, 1000, 460)), NoExcuse},
		// Mirror: off by 22.5 at most, 60 % of the shorter in common, 2.5 times.
		{"mirrored, off by 22", one, zones(Sap, rect(0, 90, 900, 110), rect(0, 318, 900, 338)), ExcuseMirror},
		{"mirrored, off by 23", one, zones(Sap, rect(0, 90, 900, 110), rect(0, 317, 900, 337)), NoExcuse},
		{"mirrored, 61 % in common", one, zones(Sap, rect(0, 90, 500, 110), rect(195, 340, 695, 360)), ExcuseMirror},
		{"mirrored, 59 % in common", one, zones(Sap, rect(0, 90, 500, 110), rect(205, 340, 705, 360)), NoExcuse},
		{"mirrored, 2.45 times the area", one, zones(Sap, rect(0, 90, 900, 110), rect(0, 325.5, 900, 374.5)), ExcuseMirror},
		{"mirrored, 2.55 times the area", one, zones(Sap, rect(0, 90, 900, 110), rect(0, 324.5, 900, 375.5)), NoExcuse},
		{"centred within 11", one, zones(Sap, rect(0, 226, 900, 246)), ExcuseMirror},
		{"centred within 12", one, zones(Sap, rect(0, 227, 900, 247)), NoExcuse},
		{"centred, 725 long", one, zones(Sap, rect(0, 215, 725, 235)), ExcuseMirror},
		{"centred, 715 long", one, zones(Sap, rect(0, 215, 715, 235)), NoExcuse},
		// Joint at 90: 80 % of the longer, 5 each, factor 2.
		{"halves of 12 and 23", nil, zones(Sap, rect(0, 78, 900, 113)), ExcuseJoint},
		{"halves of 12 and 25", nil, zones(Sap, rect(0, 78, 900, 115)), NoExcuse},
		{"halves of 5.2 and 9", nil, zones(Sap, rect(0, 84.8, 900, 99)), ExcuseJoint},
		{"halves of 4.8 and 9", nil, zones(Sap, rect(0, 85.2, 900, 99)), NoExcuse},
		{"halves 900 and 725 long", nil, zones(Sap, rect(0, 78, 900, 90), rect(0, 90, 725, 105)), ExcuseJoint},
		{"halves 900 and 715 long", nil, zones(Sap, rect(0, 78, 900, 90), rect(0, 90, 715, 105)), NoExcuse},
		// Pair about the joint at 90, strips 90 wide: off by 15 at most.
		{"paired, off by 14", nil, zones(Sap, rect(0, 50, 900, 60), rect(0, 106, 900, 116)), ExcusePair},
		{"paired, off by 16", nil, zones(Sap, rect(0, 50, 900, 60), rect(0, 104, 900, 114)), NoExcuse},
		{"paired, one past the next joint by a hair", []float64{150. / 450, 29.5 / 450, 270.5 / 450}, zones(Sap, rect(0, 120, 900, 140), rect(0, 160, 900, 180)), ExcusePair},
		{"mirrored about a joint two away", nil, zones(Sap, rect(0, 50, 900, 60), rect(0, 255, 900, 265)), NoExcuse},
		// Pattern: three, factor 3 of the median, gaps of 225 at most.
		{"three, the largest gap 224", one, zones(Sap, rect(0, 30, 900, 40), rect(0, 80, 900, 90), rect(0, 314, 900, 324)), ExcusePattern},
		{"three, the largest gap 226", one, zones(Sap, rect(0, 30, 900, 40), rect(0, 80, 900, 90), rect(0, 316, 900, 326)), NoExcuse},
		// Whoever is in a pattern is judged by the median of those in it.
		{"three, and scraps between them", one, zones(Sap, rect(0, 60, 900, 84), rect(0, 185, 900, 209), rect(0, 340, 900, 364),
			rect(100, 130, 200, 140), rect(400, 150, 500, 160), rect(700, 260, 800, 270), rect(300, 300, 400, 310)), ExcusePattern},
		{"three, 3.5 times apart, and a scrap", one, zones(Sap, rect(0, 90, 900, 130), rect(0, 213, 900, 238), rect(0, 340, 900, 347.1), rect(100, 160, 180, 172)), NoExcuse},
		{"two only", one, zones(Sap, rect(0, 100, 900, 110), rect(0, 250, 900, 260)), NoExcuse},
		{"three, one 2.9 times the others", one, zones(Sap, rect(0, 90, 900, 119), rect(0, 200, 900, 210), rect(0, 300, 900, 310)), ExcusePattern},
		{"three, one 3.1 times the others", one, zones(Sap, rect(0, 90, 900, 121), rect(0, 200, 900, 210), rect(0, 300, 900, 310)), NoExcuse},
		{"three, two of them at the same Y", one, zones(Sap, rect(0, 100, 300, 110), rect(500, 100, 800, 110), rect(0, 250, 500, 260)), NoExcuse},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d := drawing{length: 900, width: 450, over: 9, strips: c.strips, show: c.zones}
			for way := range 4 {
				v := d.mirrored(way&1 != 0, way&2 != 0)
				r := ReadFull(v.panel())
				b := &r.Show.Bands[0]
				if way&2 != 0 {
					b = &r.Show.Bands[len(r.Show.Bands)-1]
				}
				if b.Excuse != c.want || b.Lone != (c.want == NoExcuse && r.Show.Unwanted.Value-b.Share < 0.12) {
					t.Errorf("way %d: excuse %q, want %q\n%s", way, b.Excuse, c.want, describe(r))
				}
			}
		})
	}
}

// Other unwanted wood of 12 % or more makes company.
func TestLoneOnlyWhereOthersAreFew(t *testing.T) {
	for _, c := range []struct {
		wide float64
		lone int
	}{{53, 2}, {55, 1}} { // 12 % of 450 is 54
		d := drawing{length: 900, width: 450, strips: []float64{1}, show: zones(Sap, rect(0, 100, 900, 110), rect(0, 280, 900, 280+c.wide))}
		r := ReadFull(d.panel())
		if got := count(r, LoneStreak); got != c.lone {
			t.Errorf("%g mm beside it: %d lone, want %d\n%s", c.wide, got, c.lone, describe(r))
		}
	}
}

// Wood not seen yet is no company: one streak of 60 mm with 250 of 450 mm not
// seen stands alone, and so does one of 25 beside one of 49 (10.9 %).
func TestUnseenIsNoCompany(t *testing.T) {
	for _, c := range []struct {
		sap  []Zone
		lone int
	}{
		{zones(Sap, rect(0, 60, 900, 120)), 1},
		{zones(Sap, rect(0, 20, 900, 45), rect(0, 120, 900, 169)), 2},
	} {
		d := drawing{length: 900, width: 450, strips: []float64{1}, show: append(c.sap, zones(Unseen, rect(0, 190, 900, 440))...)}
		r := ReadFull(d.panel())
		n := 0
		for _, b := range r.Show.Bands {
			if b.Lone {
				n++
			}
		}
		if n != c.lone {
			t.Errorf("%d lone streaks, want %d\n%s", n, c.lone, describe(r))
		}
	}
}

// Strips that fall short of the panel by what a file rounds off, or by up to
// 2 mm, still make its edge.
func TestEdgeOfStripsThatFallShort(t *testing.T) {
	for _, short := range []float64{0, 0.0001, 0.01, 1, 3.9} {
		d := drawing{length: 900, width: 400, strips: []float64{1. / 3, 1. / 3, 1. / 3}, show: zones(Sap, rect(0, 0, 900, 30+short/2))}
		p := d.panel()
		p.Width = 400 + short
		r := ReadFull(p)
		if b := r.Show.Bands[0]; b.Excuse != ExcuseEdge || count(r, OneSidedEdge) != 1 {
			t.Errorf("short by %g: %q\n%s", short, b.Excuse, describe(r))
		}
	}
}

// A chip or a sliver does not answer a band along the other edge.
func TestWhatAnswersAnEdge(t *testing.T) {
	for _, c := range []struct {
		other geom.Polygon
		told  int
	}{
		{rect(0, 440, 75, 450), 1}, {rect(0, 448.5, 900, 450), 1}, {rect(0, 430, 450, 450), 0},
	} {
		d := drawing{length: 900, width: 450, strips: []float64{1}, show: zones(Sap, rect(0, 0, 900, 30), c.other)}
		if r := ReadFull(d.panel()); count(r, OneSidedEdge) != c.told {
			t.Errorf("%v answers: %d told, want %d\n%s", c.other, count(r, OneSidedEdge), c.told, describe(r))
		}
	}
}

func TestOneStreakOneWarning(t *testing.T) {
	// A band hard against the joint at 90, on its front side: 25 of 450 is 5.6 %
	// and its balance point 0.33 off, so three kinds fit.
	d := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 65, 900, 90))}
	everyWay(t, d, func(t *testing.T, d drawing) {
		r := ReadFull(d.panel())
		if len(r.Warnings) != 1 || r.Warnings[0].Kind != LoneStreak || r.Warnings[0].Why != "hard" {
			t.Fatalf("want one hard lone streak\n%s", describe(r))
		}
		var under []WarningKind
		for _, w := range r.Warnings[0].Under {
			under = append(under, w.Kind)
		}
		if !slices.Equal(under, []WarningKind{OneSidedJoint, Lopsided}) {
			t.Errorf("under it: %v", under)
		}
	})
	// The same band away from the joint: it whispers.
	soft := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 60, 900, 85), rect(0, 380, 900, 390))}
	hard := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 50, 900, 75), rect(0, 360, 900, 366))}
	a, b := ReadFull(soft.panel()), ReadFull(hard.panel())
	if a.Warnings[0].Why == "hard" || b.Warnings[0].Why != "hard" || b.Warnings[0].Measure <= 0 {
		t.Errorf("the hard border ranks first\n%s\n%s", describe(a), describe(b))
	}
	if b.Warnings[0].Weight <= a.Warnings[0].Weight || b.Warnings[0].Band != b.Show.Bands[1].ID {
		t.Errorf("the hard border outweighs a larger band\n%s", describe(b))
	}
}

func TestLopsided(t *testing.T) {
	// Two pieces at 100 and 200: neither makes most of it alone and nothing else
	// fits. Shares and balance by hand: 2 x 20000 mm2 of 405000 is 9.9 %; the
	// balance point 150, 75 off the middle of 225: 0.1667.
	d := drawing{length: 900, width: 450, strips: []float64{1}, show: zones(Sap, rect(100, 90, 900, 110), rect(100, 190, 900, 210), rect(100, 350, 900, 351.9))}
	r := ReadFull(d.panel())
	if anywhere(r.Warnings, Lopsided) != 1 {
		t.Errorf("want lopsided\n%s", describe(r))
	}
	layouttest.Near(t, "balance", r.Show.Balance, ((16000*100+16000*200+1520*350.95)/33520.0-225)/450, 1e-9)
	for _, c := range []struct {
		name  string
		zones []Zone
		want  int
	}{
		{"4.9 %", zones(Sap, rect(0, 100, 900, 122)), 0},
		{"5.1 %", zones(Sap, rect(0, 100, 900, 123)), 1},
		{"balance 0.099 off", zones(Sap, rect(0, 165.5, 900, 195.5)), 0},
		{"balance 0.101 off", zones(Sap, rect(0, 164.5, 900, 194.5)), 1},
	} {
		d := drawing{length: 900, width: 450, strips: []float64{1}, show: c.zones}
		everyWay(t, d, func(t *testing.T, d drawing) {
			if r := ReadFull(d.panel()); anywhere(r.Warnings, Lopsided) != c.want {
				t.Errorf("%s: want %d lopsided\n%s", c.name, c.want, describe(r))
			}
		})
	}
}

// While a strip is dragged a threshold must be passed by a tenth.
func TestHoldKeepsWarningsSteady(t *testing.T) {
	// An edge band is excused at a mean width of 67.5 at most. Its width is
	// moved to and fro; other thresholds are far.
	band := func(w float64) *Panel {
		return drawing{length: 900, width: 450, strips: []float64{1}, over: 9, show: zones(Sap, rect(0, -9, 900, w))}.panel()
	}
	steps := []struct {
		width      float64
		held, free int
	}{
		{60, 0, 0}, {70, 0, 1}, {74, 0, 1}, {75, 1, 1}, {70, 1, 1}, {66, 1, 0}, {61, 1, 0}, {60, 0, 0}, {66, 0, 0},
	}
	r, plain := NewReader(), NewReader()
	r.Read(band(60))
	r.Begin()
	for i, s := range steps {
		if got := count(r.Read(band(s.width)), LoneStreak); got != s.held {
			t.Errorf("step %d, %g wide: %d held, want %d", i, s.width, got, s.held)
		}
		if got := count(plain.Read(band(s.width)), LoneStreak); got != s.free {
			t.Errorf("step %d, %g wide: %d free, want %d", i, s.width, got, s.free)
		}
	}
	r.Read(band(70))
	r.End()
	if got, want := r.Read(band(70)), ReadFull(band(70)); !same(got, want) {
		t.Errorf("after the drag: %s", difference(got, want))
	}
	// The first reading of a drag that follows none is plain.
	r = NewReader()
	r.Begin()
	if got := count(r.Read(band(70)), LoneStreak); got != 1 {
		t.Errorf("first reading: %d lone", got)
	}
}

func TestHoldKeepsTheReference(t *testing.T) {
	p := wideTop(3)
	r := NewReader()
	r.Read(p)
	r.Begin()
	before := r.held
	q := *p
	q.Strips = slices.Clone(p.Strips)
	for i := range q.Strips { // all sapwood now: the wanted wood is another
		b := *q.Strips[i].Board
		b.Faces[q.Strips[i].Up-1].Zones = zones(Sap, rect(0, 0, 2700, 80))
		q.Strips[i].Board = &b
	}
	r.Read(&q)
	if r.held != before {
		t.Error("the reference moved during a drag")
	}
	r.End()
	r.Read(&q)
	if r.held == before {
		t.Error("the reference stayed after the drag")
	}
}

func TestStripsOfAStreakWorstFirst(t *testing.T) {
	d := drawing{length: 900, width: 450, show: zones(Sap, geom.Polygon{{X: 0, Y: 84}, {X: 900, Y: 84}, {X: 900, Y: 130}, {X: 0, Y: 130}})}
	r := ReadFull(d.panel())
	if count(r, LoneStreak) != 1 || !slices.Equal(r.Warnings[0].Strips, []string{"s2", "s1"}) {
		t.Errorf("want s2 before s1\n%s", describe(r))
	}
}
