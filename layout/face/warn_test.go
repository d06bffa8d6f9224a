package face

import (
	"math"
	"slices"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// find returns the first warning of a kind.
func find(r *Reading, kind WarningKind) *Warning {
	for i := range r.Warnings {
		if r.Warnings[i].Kind == kind {
			return &r.Warnings[i]
		}
	}
	return nil
}

func TestOverLimit(t *testing.T) {
	d := drawing{length: 900, width: 450, show: zones(Sap, rect(-9, -9, 909, 45), rect(-9, 405, 909, 459)), back: zones(Sap, rect(0, 0, 900, 90))}
	p := d.panel() // both 20 %
	for _, c := range []struct {
		limit [2]float64
		sides []Side
	}{
		{[2]float64{1, 1}, nil}, {[2]float64{0.2, 0.2}, nil}, {[2]float64{0.19, 1}, []Side{Show}},
		{[2]float64{1, 0.1}, []Side{Back}}, {[2]float64{0, 0}, []Side{Show, Back}},
	} {
		p.Limit = c.limit
		r := ReadFull(p)
		var sides []Side
		for _, w := range r.Warnings {
			if w.Kind == OverLimit {
				sides = append(sides, w.Side)
				layouttest.Near(t, "measure", w.Measure, 0.2, 1e-9)
			}
		}
		slices.Sort(sides)
		if !slices.Equal(sides, c.sides) {
			t.Errorf("limit %v: over on %v, want %v", c.limit, sides, c.sides)
		}
	}
	// What is not seen may be enough: told as such.
	d.show = append(d.show, zones(Unseen, rect(0, 200, 900, 250))...)
	p = d.panel()
	p.Limit[0] = 0.25
	w := find(ReadFull(p), OverLimit)
	if w == nil || w.Why != "unseen" {
		t.Fatalf("%+v", w)
	}
	layouttest.Near(t, "pessimistic", w.Measure, 140.0/450, 1e-9)
}

func TestFlawOnShow(t *testing.T) {
	d := drawing{length: 900, width: 450, show: zones(Flaw, rect(100, 100, 120, 120)), back: zones(Flaw, rect(300, 100, 320, 120))}
	p := d.panel()
	r := ReadFull(p)
	if w := find(r, FlawOnShow); count(r, FlawOnShow) != 1 || w.Place != geom.R(100, 100, 120, 120) || w.Strips[0] != "s2" {
		t.Errorf("%+v", w)
	}
	p.BothShow = true
	r = ReadFull(p)
	if count(r, FlawOnShow) != 2 || len(r.Back.Flaws) != 1 || r.Back.Flaws[0].Place != geom.R(300, 330, 320, 350) {
		t.Errorf("both show\n%s", describe(r))
	}
	p.Hidden = []geom.Polygon{rect(90, 90, 130, 130)}
	if r = ReadFull(p); count(r, FlawOnShow) != 1 {
		t.Errorf("hidden, and told all the same\n%s", describe(r))
	}
}

func TestGuessedFaceIsNotSeen(t *testing.T) {
	p := drawing{length: 900, width: 450}.panel()
	p.Strips[1].Board.Faces[p.Strips[1].Up-1].Guessed = true
	p.Strips[3].Board.Faces[2-p.Strips[3].Up].Guessed = true // its back: nobody sees it
	r := ReadFull(p)
	w := find(r, NotSeen)
	if count(r, NotSeen) != 1 || w.Why != "guessed" || !slices.Equal(w.Strips, []string{"s2"}) {
		t.Errorf("%+v\n%s", w, describe(r))
	}
	if !r.Strips[1].Guessed || !r.Strips[3].Guessed || r.Strips[0].Guessed {
		t.Errorf("%+v", r.Strips)
	}
}

func TestPlanesBackwards(t *testing.T) {
	set := func(planes ...Planes) *Panel {
		p := drawing{length: 900, width: 450}.panel()
		for i, v := range planes {
			p.Strips[i].Board.Planes = v
		}
		return p
	}
	from, to := PlanesFromMarked, PlanesToMarked
	cases := []struct {
		name string
		p    *Panel
		want []string
	}{
		{"all alike", set(from, from, from, from, from), nil},
		{"one against four", set(from, to, from, from, from), []string{"s2"}},
		{"mixed and unknown say nothing", set(from, PlanesMixed, from, PlanesUnknown, from), nil},
		{"as many against as with: the front one decides", set(from, to, to, from, PlanesUnknown), []string{"s2", "s3"}},
	}
	// Turned or rolled over it is reversed, by both restored.
	turned := set(from, from, from, from, from)
	turned.Strips[0].Turned, turned.Strips[1].Up = true, 2
	turned.Strips[2].Turned, turned.Strips[2].Up = true, 2
	cases = append(cases, struct {
		name string
		p    *Panel
		want []string
	}{"turned, rolled over, both", turned, []string{"s1", "s2"}})
	for _, c := range cases {
		w := find(ReadFull(c.p), PlanesBackwards)
		if (w == nil) != (c.want == nil) || (w != nil && !slices.Equal(w.Strips, c.want)) {
			t.Errorf("%s: %+v, want %v", c.name, w, c.want)
		}
	}
}

func TestMoistureDiffers(t *testing.T) {
	p := drawing{length: 900, width: 450}.panel()
	for i, m := range []float64{8, 10, 12.1, 0, 20} {
		p.Strips[i].Board.Moisture = m
	}
	r := ReadFull(p)
	w := find(r, MoistureDiffers)
	if count(r, MoistureDiffers) != 1 || !slices.Equal(w.Strips, []string{"s2", "s3"}) || !slices.Equal(w.Boards, []string{"B2", "B3"}) {
		t.Fatalf("%+v\n%s", w, describe(r))
	}
	layouttest.Near(t, "difference", w.Measure, 2.1, 1e-9)
}

func TestPanelTooSmall(t *testing.T) {
	p := drawing{length: 900, width: 450, over: 5}.panel() // 460 wide, 910 long
	p.PanelEdge = 5
	if r := ReadFull(p); count(r, PanelTooSmall) != 0 {
		t.Errorf("just enough\n%s", describe(r))
	}
	p.PanelEdge = 5.5
	if w := find(ReadFull(p), PanelTooSmall); w == nil || w.Why != "width" || w.Measure != 10 || w.Limit != 11 {
		t.Errorf("%+v", w)
	}
	p.PanelEdge = 0
	p.Strips[2].Shift = -6 // reaches from -11 to 899
	w := find(ReadFull(p), PanelTooSmall)
	if w == nil || w.Why != "length" || !slices.Equal(w.Strips, []string{"s3"}) {
		t.Fatalf("%+v", w)
	}
	layouttest.Near(t, "short by", w.Measure, -1, 1e-9)
	// An ellipse asks less of its outer strips.
	p.Strips[2].Shift = 0
	p.Strips[0].L = 600
	if r := ReadFull(p); count(r, PanelTooSmall) != 1 {
		t.Errorf("a strip of 600 in a rectangle\n%s", describe(r))
	}
	p.Shape = geom.Ellipse(geom.R(0, 0, 900, 450), 200)
	// The front strip reaches to Y = 90: half width 450 sqrt(1 - 0.6^2) = 360.
	if r := ReadFull(p); count(r, PanelTooSmall) != 1 {
		t.Errorf("720 are needed\n%s", describe(r))
	}
	p.Strips[0].L = 722
	if r := ReadFull(p); count(r, PanelTooSmall) != 0 {
		t.Errorf("722 are enough\n%s", describe(r))
	}
}

// A panel that is not fully placed is judged by what is there.
func TestHalfPlacedPanel(t *testing.T) {
	d := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 100, 900, 130))}
	p := d.panel()
	p.Strips[3].Board, p.Strips[4].Board = nil, nil
	r := ReadFull(p)
	layouttest.Near(t, "area", r.Show.Area, 270*900, 1e-6)
	layouttest.Near(t, "light", r.Show.Light.Value, 30.0/270, 1e-9)
	if r.Placed != 3 || !r.Strips[4].Empty || r.Joints[2].Kind != Unjudged || count(r, LoneStreak) != 1 {
		t.Errorf("placed %d\n%s", r.Placed, describe(r))
	}
	layouttest.Near(t, "share of the band", r.Show.Bands[0].Share, 30.0/270, 1e-9)
}

// Numbers that are none must not stop the reading.
func TestUnsoundInput(t *testing.T) {
	nan := math.NaN()
	base := func() *Panel {
		return drawing{length: 900, width: 450, show: zones(Sap, rect(0, 100, 900, 130))}.panel()
	}
	for name, spoil := range map[string]func(p *Panel){
		"strip length": func(p *Panel) { p.Strips[0].L = nan }, "strip width": func(p *Panel) { p.Strips[0].W = -5 },
		"angle": func(p *Panel) { p.Strips[0].Angle = math.Inf(1) }, "shift": func(p *Panel) { p.Strips[0].Shift = nan },
		"panel": func(p *Panel) { p.Length = nan }, "flat panel": func(p *Panel) { p.Width = 0 }, "endless": func(p *Panel) { p.Length = math.Inf(1) },
		"zone": func(p *Panel) {
			p.Strips[0].Board.Faces[0].Zones = zones(Sap, geom.Polygon{{X: nan, Y: 0}, {X: 1, Y: 1}, {X: 2, Y: 0}})
		},
		"empty zone": func(p *Panel) { p.Strips[0].Board.Faces[0].Zones = zones(Sap, nil, geom.Polygon{{X: 1, Y: 1}}) },
		"kind":       func(p *Panel) { p.Strips[0].Board.Faces[0].Base = 200 }, "board": func(p *Panel) { p.Strips[0].Board.Length = nan },
		"up": func(p *Panel) { p.Strips[0].Up = 7 }, "no strips": func(p *Panel) { p.Strips = nil },
		"far away": func(p *Panel) { p.Strips[0].Shift = 1e9 }, "field": func(p *Panel) { p.Strips[0].Board.Faces[0].Field = fieldless() },
	} {
		p := base()
		spoil(p)
		r := NewReader()
		r.Read(p)
		r.Read(base())
		if got := r.Read(p); len(got.Strips) > 5 {
			t.Errorf("%s: %d strips", name, len(got.Strips))
		}
	}
}
