package movement

import (
	"math"
	"testing"

	"heartside/layout/layouttest"
	"heartside/layout/wood/moisture"

	"pgregory.net/rapid"
)

// Five strips of flat-sawn sugar maple, 500 mm, built at 7 %, dry 6, wet 11,
// held in the middle, 1 mm clearance. The screw 50 mm from the front lies 200
// from the line: wet 200*0.00353*4 = 2.824 out, dry 200*0.00353 = 0.706 in.
func TestSlots(t *testing.T) {
	p := sum(t, flat(maple(), 100, 100, 100, 100, 100), span(7, 6, 11), 0)
	got, err := p.Slots(Fixed{Line: Middle}, []float64{50, 250, 450}, 1)
	if err != nil {
		t.Fatal(err)
	}
	s := got[0]
	layouttest.Near(t, "away", s.Away, 3.824, 1e-9)
	layouttest.Near(t, "toward", s.Toward, 1.706, 1e-9)
	layouttest.Near(t, "length on a 5 mm shank", s.Length(5), 10.53, 1e-9)
	if in := s.InPanel(); in.Away != s.Toward || in.Toward != s.Away {
		t.Errorf("in the panel %v", in)
	}
	if !got[1].Round || got[1].Length(5) != 5 {
		t.Errorf("on the line: %+v", got[1])
	}
	// Held in front, the screw at 450 takes 450*0.00353*4 = 6.354.
	front, err := p.Slots(Fixed{Line: Front}, []float64{450}, 1)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "held in front", front[0].Away, 7.354, 1e-9)
	// Bounds are what the slot is made for: 15 % more of 2.824 and 0.706.
	wide := sum(t, flat(maple(), 500), span(7, 6, 11), 0.15)
	if got, err = wide.Slots(Fixed{Line: Middle}, []float64{50}, 1); err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "away, with bounds", got[0].Away, 1+2.824*1.15, 1e-9)
	layouttest.Near(t, "toward, with bounds", got[0].Toward, 1+0.706*1.15, 1e-9)
}

// Quarter-sawn in front, flat-sawn behind: the same distance does not move the
// same. 250*0.00165*4 = 1.65 and 250*0.00353*4 = 3.53.
func TestTravelGoesByTheStripsBetween(t *testing.T) {
	strips := flat(maple(), 250, 250)
	strips[0].Rings = AtAngle(90)
	p := sum(t, strips, span(7, 7, 11), 0)
	for at, want := range map[float64]float64{0: 1.65, 500: 3.53, 125: 0.825, 250: 0} {
		got, err := p.Travel(Fixed{Line: Place, At: 250}, at)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "wet", got.Wet.Value, want, 1e-9)
	}
}

func TestSlotsMirrorAboutTheMiddle(t *testing.T) {
	rows := tableRows(t)
	rapid.Check(t, func(t *rapid.T) {
		var half []Strip
		for range rapid.IntRange(1, 4).Draw(t, "strips") {
			half = append(half, drawStrip(t, rows))
		}
		strips := append([]Strip{}, half...)
		for i := range half {
			strips = append(strips, half[len(half)-1-i])
		}
		p, err := Sum(strips, span(9, 6, 13), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		at := rapid.Float64Range(0, 0.49).Draw(t, "at") * p.Now
		s, err := p.Slots(Fixed{Line: Middle}, []float64{at, p.Now - at}, Clearance)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s[0].Away-s[1].Away) > 1e-9 || math.Abs(s[0].Toward-s[1].Toward) > 1e-9 {
			t.Fatalf("%+v and %+v", s[0], s[1])
		}
		// In every season the fastener stays in its slot.
		for _, c := range s {
			for _, size := range []Size{c.Dry, c.Wet} {
				if size.Hi > c.Away || -size.Lo > c.Toward {
					t.Fatalf("%v leaves the slot %+v", size, c)
				}
			}
		}
	})
}

// The gap of one door, 450 mm of flat-sawn cherry, dry 6, wet 12 %, hinged in
// front, least gap 1 mm: the whole movement is 450*0.00248*6 = 6.696.
func TestGapKnowsTheSeasonOfTheBuild(t *testing.T) {
	year := span(8, 6, 12)
	for season, want := range map[moisture.Season][3]float64{ // to leave, dry, wet
		moisture.Dry: {7.696, 7.696, 1},
		moisture.Wet: {1, 7.696, 1},
		moisture.Now: {5.464, 7.696, 1},
	} {
		// Fitted in each season at 450 mm as measured then.
		p := sum(t, flat(cherry(), 450), year.BuiltIn(season), 0)
		hinge, closing, err := p.Gaps(Fixed{Line: Front}, 1)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, string(season)+", leave", closing.Leave, want[0], 1e-9)
		layouttest.Near(t, string(season)+", dry", closing.DryGap, want[1], 1e-9)
		layouttest.Near(t, string(season)+", wet", closing.WetGap, want[2], 1e-9)
		if hinge.Leave != 1 || hinge.DryGap != 1 {
			t.Errorf("at the hinge %+v", hinge)
		}
	}
}

// 300 mm of flat-sawn walnut, pinned in the middle, built at 8, dry 6, wet 12:
// each edge goes out 150*0.00274*4 = 1.644 and in 150*0.00274*2 = 0.822.
// Groove 10 deep, 1 left at the bottom, 3 to stay in.
func TestPanelInAGroove(t *testing.T) {
	p := sum(t, flat(walnut(), 100, 100, 100), span(8, 6, 12), 0)
	fit, err := p.InGroove(Fixed{Line: Middle}, Groove{Depth: 10, Clearance: 1, Overlap: LeastOverlap})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"gap now", fit.Front.Leave, 2.644}, {"gap dry", fit.Front.DryGap, 3.466}, {"gap wet", fit.Front.WetGap, 1},
		{"overlap now", fit.Front.OverlapNow, 7.356}, {"overlap dry", fit.Front.OverlapDry, 6.534}, {"least", fit.Back.OverlapLeast, 6.534},
		{"depth needed", fit.Back.DepthNeeded, 6.466}, {"bottoms", fit.Bottoms, 305.288}, {"shoulders", fit.Shoulders, 285.288}, {"pushed", fit.Pushed, 3.068},
	} {
		layouttest.Near(t, c.name, c.got, c.want, 1e-9)
	}
	if !fit.Front.Holds {
		t.Error("10 mm do not hold")
	}
	shallow, err := p.InGroove(Fixed{Line: Middle}, Groove{Depth: 6, Clearance: 1, Overlap: 3})
	if err != nil || shallow.Front.Holds {
		t.Errorf("6 mm hold, 6.466 needed: %v", err)
	}
}

// 800 mm of flat-sawn white oak at 8 %, dry 6 (-5.84), wet 12 (+11.68).
func TestBreadboard(t *testing.T) {
	p := sum(t, flat(whiteOak(), 200, 200, 200, 200), span(8, 6, 12), 0)
	b, err := p.Breadboard(Fixed{Line: Middle}, 800, []float64{100, 400}, 1)
	if err != nil {
		t.Fatal(err)
	}
	want := Proud{0, 2.92, -5.84}
	for _, got := range []Proud{b.Front, b.Back} {
		layouttest.Near(t, "now", got.Now, want.Now, 1e-9)
		layouttest.Near(t, "dry", got.Dry, want.Dry, 1e-9)
		layouttest.Near(t, "wet", got.Wet, want.Wet, 1e-9)
	}
	// The pin 300 from the middle: the tongue goes out 300*0.00365*4 = 4.38 past
	// it, so its slot reaches towards the middle, and in 2.19.
	layouttest.Near(t, "slot towards the middle", b.Pins[0].Toward, 5.38, 1e-9)
	layouttest.Near(t, "slot away", b.Pins[0].Away, 3.19, 1e-9)
	if !b.Pins[1].Round {
		t.Error("the middle pin has a slot")
	}
	long, err := p.Breadboard(Fixed{Line: Front}, 806, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	if long.Front != (Proud{}) {
		t.Errorf("flush in front: %v", long.Front)
	}
	for i, got := range []float64{long.Back.Now, long.Back.Dry, long.Back.Wet} {
		layouttest.Near(t, "back", got, [3]float64{6, 11.84, -5.68}[i], 1e-9)
	}
}

func TestFitsThatCannotBe(t *testing.T) {
	p := sum(t, flat(maple(), 500), span(7, 6, 11), 0)
	middle := Fixed{Line: Middle}
	errs := map[string]error{}
	_, errs["line"] = p.Travel(Fixed{Line: "side"}, 10)
	_, errs["no line"] = p.Travel(Fixed{}, 10)
	_, errs["line outside"] = p.Travel(Fixed{Line: Place, At: 501}, 10)
	_, errs["place outside"] = p.Travel(middle, -1)
	_, errs["place nan"] = p.Travel(middle, math.NaN())
	_, errs["clearance"] = p.Slots(middle, []float64{10}, -1)
	_, _, errs["least"] = p.Gaps(middle, math.NaN())
	_, errs["depth"] = p.InGroove(middle, Groove{Overlap: 3})
	_, errs["end"] = p.Breadboard(middle, 0, nil, 1)
	_, errs["pin"] = p.Breadboard(middle, 500, []float64{600}, 1)
	for name, err := range errs {
		if err == nil {
			t.Errorf("%s passes", name)
		}
	}
}

func TestFitsShowTheirWorking(t *testing.T) {
	p := sum(t, flat(maple(), 500), span(7, 6, 11), 0)
	slots, err := p.Slots(Fixed{Line: Middle}, []float64{50, 250}, 1)
	if err != nil {
		t.Fatal(err)
	}
	fit, err := p.InGroove(Fixed{Line: Middle}, Groove{Depth: 10, Clearance: 1, Overlap: 3})
	if err != nil {
		t.Fatal(err)
	}
	b, err := p.Breadboard(Fixed{Line: Middle}, 500, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	holds := func(w moisture.Working, v float64) bool {
		for _, s := range w {
			for _, x := range s.Values {
				if x.Number == v && x.Unit == "mm" {
					return true
				}
			}
		}
		return false
	}
	if !holds(slots[0].Working(), slots[0].Away) || !holds(slots[1].Working(), 250) || !holds(fit.Front.Working(), fit.Front.DepthNeeded) || !holds(fit.Front.Gap.Working(), fit.Front.Leave) || !holds(b.Working(), b.Front.Wet) {
		t.Error("a result is missing from its working")
	}
}
