package face

import (
	"slices"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// steep is a board, 26 mm thick, with wood of one kind from its marked edge to a
// line that lies 40 mm from it on face 1 and slope mm further for each mm below.
type steep struct {
	b        *Board
	slope    float64
	from, to float64 // along the board
	kind     Kind
	made     map[[2]float64]*Board
}

func (s *steep) faces(b *Board, off [2]float64) {
	line := func(depth float64) float64 { return min(b.Width, 40+s.slope*depth) }
	b.Faces[0] = BoardFace{Base: Sap - s.kind, Zones: []Zone{{s.kind, geom.R(s.from, 0, s.to, line(off[0])).Polygon()}}}
	b.Faces[1] = BoardFace{Base: Sap - s.kind, Zones: []Zone{{s.kind, geom.R(s.from, b.Width-line(26-off[1]), s.to, b.Width).Polygon()}}}
}

func (s *steep) Finished(off [2]float64) *Board {
	if s.made[off] == nil {
		b := *s.b
		b.Deep, b.Sawn, b.Thickness = nil, s.b, 26-off[0]-off[1]
		s.faces(&b, off)
		s.made[off] = &b
	}
	return s.made[off]
}

// steepPanel is one strip of 60 mm of such a board, cut where y begins, in a
// panel of 900 x 60 x 20; 5 of 6 mm come off face 1, which shows.
func steepPanel(slope, y float64) (*Panel, *steep) {
	b := &Board{ID: "A", Length: 1000, Width: 150, Thickness: 26, AssumedHeart: drawnHeart, AssumedSap: drawnSap}
	s := &steep{b: b, slope: slope, to: 1000, kind: Sap, made: map[[2]float64]*Board{}}
	s.faces(b, [2]float64{})
	b.Deep = s
	limits := DefaultLimits
	limits.Streak = 0 // a streak is told otherwise
	return &Panel{ID: "p", Length: 900, Width: 60, Thickness: 20, Limit: [2]float64{1, 1}, Limits: limits,
		Strips: []Strip{{ID: "A2", Board: b, Y: y, L: 900, W: 60, Up: 1, Off: Off{true, [2]float64{5, 1}}}}}, s
}

// brings returns the warning that planing brings wood to the show face, also
// from under another.
func brings(r *Reading, why string) *Warning {
	all := slices.Clone(r.Warnings)
	for i := 0; i < len(all); i++ {
		if all[i].Kind == SapAfterPlaning && (why == "" || all[i].Why == why) {
			return &all[i]
		}
		all = append(all, all[i].Under...)
	}
	return nil
}

// A strip sawn beside the sap line is clean; 5 mm deeper the line has moved by 5
// times the slope.
func TestPlaningBringsSapIntoTheFace(t *testing.T) {
	for _, c := range []struct {
		name  string
		slope float64
		y     float64
		alter func(*Panel, *steep)
		why   string
		mm    float64
	}{
		{"9 mm where there was none", 1.8, 40, nil, "fresh", 9},
		{"2.5 mm are no more than a sliver", 0.5, 40, nil, "", 0},
		{"sawn clear of it: 9 mm less 4", 1.8, 44, nil, "fresh", 5},
		{"9 mm more of what the sawn face shows", 1.8, 38, nil, "", 0},
		{"what the sawn face shows is trimmed off", 1.8, 35, func(p *Panel, _ *steep) { p.Width, p.Strips[0].W = 60, 70 }, "fresh", 9},
		{"12 mm more of what the sawn face shows", 2.4, 38, nil, "more", 12},
		{"the line moves the other way", -1.8, 30, nil, "", 0},
		{"the stock comes off the other face", 1.8, 40, func(p *Panel, _ *steep) { p.Strips[0].Off.Face = [2]float64{1, 5} }, "", 0},
		{"turned end for end", 1.8, 40, func(p *Panel, _ *steep) { p.Strips[0].Turned = true }, "fresh", 9},
		{"rolled over: it goes", 1.8, 40, func(p *Panel, _ *steep) { p.Strips[0].Up = 2 }, "", 0},
		{"along 50 mm", 1.8, 40, func(_ *Panel, s *steep) { s.from, s.to = 300, 350 }, "", 0},
		{"along 80 mm", 1.8, 40, func(_ *Panel, s *steep) { s.from, s.to = 300, 380 }, "fresh", 9},
		{"both are welcome", 1.8, 40, func(p *Panel, _ *steep) { p.Wanted = WantBoth }, "", 0},
		{"not planed yet", 1.8, 40, func(p *Panel, _ *steep) { p.ToPlane = 1 }, "", 0},
		{"measured on the planed wood", 1.8, 40, func(p *Panel, _ *steep) { p.Strips[0].Planed = &PlanedFace{Base: Sap} }, "", 0},
		{"trimmed off", 1.8, 40, func(p *Panel, _ *steep) { p.Width = 40 }, "", 0},
	} {
		for _, swap := range []bool{false, true} {
			p, s := steepPanel(c.slope, c.y)
			if swap {
				p.Wanted, s.kind = WantSap, Heart
			}
			if c.alter != nil {
				c.alter(p, s)
			}
			s.faces(s.b, [2]float64{})
			r := ReadFull(p)
			w := brings(r, "")
			switch {
			case (w == nil) != (c.why == ""):
				t.Errorf("%s, swapped %v: %+v, want %q\n%s", c.name, swap, w, c.why, describe(r))
			case w != nil:
				if w.Why != c.why || w.Side != Show || !slices.Equal(w.Strips, []string{"A2"}) {
					t.Errorf("%s, swapped %v: %+v", c.name, swap, w)
				}
				layouttest.Near(t, c.name, w.Measure, c.mm, 1e-6)
				layouttest.Near(t, c.name+", place", w.Place.H(), c.mm, 1e-6)
			}
		}
	}
}

// The limits are the project's.
func TestLimitsOfWhatPlaningBrings(t *testing.T) {
	p, _ := steepPanel(1.8, 40)
	p.Limits.Fresh = 9.5
	if w := brings(ReadFull(p), ""); w != nil {
		t.Errorf("9 mm, limit 9.5: %+v", w)
	}
	p, _ = steepPanel(1.8, 38)
	p.Limits.More = 8.5
	if w := brings(ReadFull(p), "more"); w == nil || w.Limit != 8.5 {
		t.Errorf("9 mm more, limit 8.5: %+v", w)
	}
	p.Limits = Limits{Contrast: 6} // says nothing of it
	if w := brings(ReadFull(p), ""); w != nil {
		t.Errorf("9 mm more, by default: %+v", w)
	}
}

// Of 60 mm 9 are new: 15 per cent, and none as sawn.
func TestPlaningPassesTheLimit(t *testing.T) {
	for limit, want := range map[float64]bool{0.10: true, 0.16: false} {
		p, _ := steepPanel(1.8, 40)
		p.Limit[Show] = limit
		w := brings(ReadFull(p), "limit")
		if (w != nil) != want {
			t.Errorf("limit %g: %+v", limit, w)
		}
		if w != nil {
			layouttest.Near(t, "share", w.Measure, 9.0/60, 1e-9)
		}
	}
	// As sawn 6 of 60 mm are over a limit of 5 per cent already.
	p, _ := steepPanel(1.8, 34)
	p.Limit[Show] = 0.05
	if w := brings(ReadFull(p), "limit"); w != nil || count(ReadFull(p), OverLimit) != 1 {
		t.Errorf("over it as sawn: %+v", w)
	}
}

// A streak that only the finished face has is told with the streak.
func TestPlaningMakesTheStreak(t *testing.T) {
	p, _ := steepPanel(1.8, 40)
	p.Limits = DefaultLimits
	for _, id := range []string{"f", "r"} {
		b := &Board{ID: id, Length: 1000, Width: 150, Thickness: 20, AssumedHeart: drawnHeart, AssumedSap: drawnSap}
		s := Strip{ID: id, Board: b, L: 900, W: 120, Up: 1}
		if id == "f" {
			p.Strips = append([]Strip{s}, p.Strips...)
		} else {
			p.Strips = append(p.Strips, s)
		}
	}
	p.Width = 300
	r := ReadFull(p)
	w := find(r, LoneStreak)
	if w == nil || len(r.Warnings) != 1 || anywhere(w.Under, SapAfterPlaning) != 1 || brings(r, "streak") == nil {
		t.Errorf("want a lone streak and under it what makes it\n%s", describe(r))
	}
	p.Strips[1].Off.Face = [2]float64{0.5, 5.5}
	if r := ReadFull(p); brings(r, "") != nil {
		t.Errorf("0.9 mm\n%s", describe(r))
	}
}

// Strips in turns make stripes; two halves that plane opposite ways do not.
func TestStripeRisk(t *testing.T) {
	const a, b, u, m = PlanesFromMarked, PlanesToMarked, PlanesUnknown, PlanesMixed
	for _, c := range []struct {
		planes [5]Planes
		want   []string
		turns  float64
	}{
		{[5]Planes{a, a, a, a, a}, nil, 0},
		{[5]Planes{a, a, b, b, b}, nil, 0},
		{[5]Planes{b, a, a, a, a}, nil, 0},
		{[5]Planes{a, b, a, a, a}, []string{"s2"}, 2},
		{[5]Planes{a, b, a, b, a}, []string{"s2", "s4"}, 4},
		{[5]Planes{a, u, b, m, a}, []string{"s3"}, 2},
		{[5]Planes{a, u, m, u, a}, nil, 0},
		{[5]Planes{u, b, a, a, b}, []string{"s3", "s4"}, 2}, // as many each way: the front one decides
	} {
		p := drawing{length: 900, width: 450}.panel()
		for i, v := range c.planes {
			p.Strips[i].Board.Planes = v
		}
		r := ReadFull(p)
		var got *Warning
		if w := find(r, PlanesBackwards); w != nil && len(w.Under) > 0 {
			got = &w.Under[0]
		}
		if anywhere(r.Warnings, StripeRisk) != len(c.want[:min(1, len(c.want))]) || (got == nil) != (c.want == nil) {
			t.Errorf("%v: %+v, want %v\n%s", c.planes, got, c.want, describe(r))
		}
		if got != nil && (got.Kind != StripeRisk || !slices.Equal(got.Strips, c.want) || got.Measure != c.turns) {
			t.Errorf("%v: %+v, want %v, %g turns", c.planes, got, c.want, c.turns)
		}
	}
	// Turned end for end or rolled over it lies against the others, by both not.
	for i, want := range []int{0, 1, 1, 0} {
		p := drawing{length: 900, width: 450}.panel()
		for k := range p.Strips {
			p.Strips[k].Board.Planes = a
		}
		p.Strips[2].Turned, p.Strips[2].Up = i%2 == 1, 1+i/2
		if r := ReadFull(p); anywhere(r.Warnings, StripeRisk) != want {
			t.Errorf("state %d\n%s", i, describe(r))
		}
	}
}
