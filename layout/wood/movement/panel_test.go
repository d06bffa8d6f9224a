package movement

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
	"heartside/layout/wood/moisture"

	"pgregory.net/rapid"
)

func span(now, dry, wet float64) moisture.Span {
	at := func(mc float64) moisture.Level { return moisture.Level{MC: mc, Origin: moisture.FromReading} }
	return moisture.Span{Now: at(now), Dry: at(dry), Wet: at(wet)}
}

func sum(t *testing.T, strips []Strip, s moisture.Span, spread float64) *Panel {
	t.Helper()
	p, err := Sum(strips, s, Options{Spread: spread})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func flat(w Wood, widths ...float64) []Strip {
	var out []Strip
	for i, v := range widths {
		out = append(out, Strip{ID: string(rune('a' + i)), Wood: w, Width: v, Rings: AtAngle(0)})
	}
	return out
}

// The coefficient is for 1 % of moisture: 600 mm of cherry from 7 to 12 % move
// 600 * 0.00248 * 5 = 7.44 mm and not the 1.49 of one per cent.
func TestSeasonIsNotOnePerCent(t *testing.T) {
	p := sum(t, flat(cherry(), 200, 200, 200), span(7, 7, 12), 0)
	layouttest.Near(t, "wet", p.Change(moisture.Wet).Value, 7.44, 1e-9)
	layouttest.Near(t, "dry", p.Change(moisture.Dry).Value, 0, 0)
}

// 100 mm of sugar maple, rings unknown, 8 to 12 %: 1.412 mm flat, 0.660
// quarter; the bounds with 15 % of either: 0.561 and 1.6238.
func TestUnknownRingsGiveARange(t *testing.T) {
	p := sum(t, []Strip{{Wood: maple(), Width: 100}}, span(8, 8, 12), 0)
	layouttest.Near(t, "safe", p.Wet.Value, 101.412, 1e-9)
	layouttest.Near(t, "least", p.Wet.Lo, 100.660, 1e-9)
	layouttest.Near(t, "most", p.Wet.Hi, 101.412, 1e-9)
	p = sum(t, []Strip{{Wood: maple(), Width: 100}}, span(12, 8, 12), 0.15)
	layouttest.Near(t, "safe when it dries", p.Dry.Value, 98.588, 1e-9)
	layouttest.Near(t, "least", p.Dry.Lo, 100-1.6238, 1e-9)
	layouttest.Near(t, "most", p.Dry.Hi, 100-0.561, 1e-9)
}

// Sapwood 1.10 times heartwood, half of the strip: 1.05 times the movement.
func TestSapFactor(t *testing.T) {
	w := maple()
	s := Strip{Wood: w, Width: 100, SapShare: 0.5, Rings: AtAngle(0)}
	plain := sum(t, []Strip{s}, span(8, 8, 12), 0)
	layouttest.Near(t, "no factor", plain.Change(moisture.Wet).Value, 1.412, 1e-9)
	s.Wood.SapFactor = 1.1
	layouttest.Near(t, "1.10", sum(t, []Strip{s}, span(8, 8, 12), 0).Change(moisture.Wet).Value, 1.412*1.05, 1e-9)
}

// A strip at 11 % glued among others at 8 % comes down to the same 8 %.
func TestStripWithItsOwnReading(t *testing.T) {
	damp := 11.0
	strips := flat(maple(), 100, 100)
	strips[1].MC = &damp
	p := sum(t, strips, span(8, 8, 8), 0)
	layouttest.Near(t, "a", p.Strips[0].Dry.Value, 100, 0)
	layouttest.Near(t, "b", p.Strips[1].Dry.Value, 100-100*0.00353*3, 1e-9)
}

func drawStrip(t *rapid.T, rows []row) Strip {
	r := rapid.SampledFrom(rows).Draw(t, "wood")
	s := Strip{ID: r.species, Wood: Wood{Name: r.species, CT: num(r.ct), CR: num(r.cr), ST: num(r.st), SR: num(r.sr), FSP: r.fsp, SapFactor: rapid.Float64Range(0.8, 1.2).Draw(t, "factor")},
		Width: rapid.Float64Range(10, 300).Draw(t, "width"), SapShare: rapid.Float64Range(0, 1).Draw(t, "sap")}
	switch rapid.IntRange(0, 2).Draw(t, "rings") {
	case 0:
		s.Rings = AtAngle(rapid.Float64Range(0, 90).Draw(t, "angle"))
	case 1:
		f := rapid.Float64Range(-200, 200)
		s.Rings = FromPith(geom.Pt(f.Draw(t, "across"), f.Draw(t, "depth")), geom.R(0, 0, s.Width, 25))
	}
	return s
}

func TestPanelIsTheSumOfItsStrips(t *testing.T) {
	rows := tableRows(t)
	rapid.Check(t, func(t *rapid.T) {
		var strips []Strip
		for range rapid.IntRange(1, 8).Draw(t, "strips") {
			strips = append(strips, drawStrip(t, rows))
		}
		mc := rapid.Float64Range(0, 35)
		now, dry := mc.Draw(t, "now"), mc.Draw(t, "dry")
		sp := span(now, dry, dry+rapid.Float64Range(0, 10).Draw(t, "swing"))
		o := Options{Spread: rapid.Float64Range(0, 0.3).Draw(t, "spread")}
		p, err := Sum(strips, sp, o)
		if err != nil {
			t.Fatal(err)
		}
		var dryW, wetW, lo, hi float64
		for _, s := range strips {
			one, err := Sum([]Strip{s}, sp, o)
			if err != nil {
				t.Fatal(err)
			}
			dryW, wetW, lo, hi = dryW+one.Dry.Value, wetW+one.Wet.Value, lo+one.Wet.Lo, hi+one.Wet.Hi
		}
		if p.Dry.Value != dryW || p.Wet.Value != wetW || p.Wet.Lo != lo || p.Wet.Hi != hi {
			t.Fatalf("%v and %v, the strips %g and %g", p.Dry, p.Wet, dryW, wetW)
		}
		for _, size := range []Size{p.Dry, p.Wet} {
			if size.Lo > size.Value+1e-9 || size.Hi < size.Value-1e-9 {
				t.Fatalf("%v lies outside its bounds", size)
			}
		}
		if p.Dry.Value > p.Wet.Value+0.03*math.Abs(p.Wet.Value-p.Now)+0.03*math.Abs(p.Dry.Value-p.Now) {
			t.Fatalf("drier is wider: %v, %v", p.Dry, p.Wet)
		}
		// No change of moisture, no movement, whatever the spread.
		still, err := Sum(strips, span(now, now, now), o)
		if err != nil || still.Dry != exact(still.Now) || still.Wet != exact(still.Now) {
			t.Fatalf("moves by itself: %v %v, %v", still.Dry, still.Wet, err)
		}
		// At its back edge a stretch from the front has moved as the panel has.
		if d := p.upto(p.Now, moisture.Wet).Value - p.Change(moisture.Wet).Value; math.Abs(d) > 1e-9 {
			t.Fatalf("the stretch to the back is off by %g", d)
		}
	})
}

func TestPanelsThatCannotBe(t *testing.T) {
	good := Strip{ID: "A1", Wood: maple(), Width: 100}
	bad := func(change func(*Strip)) []Strip {
		s := good
		change(&s)
		return []Strip{s}
	}
	nan := math.NaN()
	for name, strips := range map[string][]Strip{
		"none":     nil,
		"no width": bad(func(s *Strip) { s.Width = 0 }),
		"nan":      bad(func(s *Strip) { s.Width = nan }),
		"sap":      bad(func(s *Strip) { s.SapShare = 1.5 }),
		"angle":    bad(func(s *Strip) { s.Rings = AtAngle(200) }),
		"wood":     bad(func(s *Strip) { s.Wood = Wood{} }),
		"mc":       bad(func(s *Strip) { s.MC = &nan }),
	} {
		if _, err := Sum(strips, span(8, 6, 12), DefaultOptions()); err == nil {
			t.Errorf("%s passes", name)
		} else if len(strips) > 0 && !strings.Contains(err.Error(), "A1") {
			t.Errorf("%s: %q does not name the strip", name, err)
		}
	}
	if _, err := Sum([]Strip{good}, span(8, 12, 6), DefaultOptions()); err == nil {
		t.Error("dry above wet passes")
	}
	if _, err := Sum([]Strip{good}, span(8, 6, 12), Options{Spread: -1}); err == nil {
		t.Error("a negative spread passes")
	}
}

func TestWorkingEndsInTheWidth(t *testing.T) {
	s := Strip{ID: "A1", Wood: maple(), Width: 100, SapShare: 0.2, Rings: AtAngle(30)}
	s.Wood.SapFactor = 1.1
	p := sum(t, []Strip{s, s}, span(8, 5, 12), 0.15)
	for _, season := range []moisture.Season{moisture.Dry, moisture.Wet} {
		var names []string
		for _, step := range append(p.Working(season), p.Strips[0].Working(season, p.Options)...) {
			for _, v := range step.Values {
				names = append(names, v.Name)
				if v.Name == "then" && v.Number != p.Width(season).Value || v.Name == "width then" && v.Number != p.Strips[0].Width(season).Value {
					t.Errorf("%s: %v", season, v)
				}
			}
		}
		all := strings.Join(names, "|")
		for _, want := range []string{"then", "width then", "k", "spread", "eT", "angle"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: no %q in %s", season, want, all)
			}
		}
	}
}

func BenchmarkSum24(b *testing.B) {
	var strips []Strip
	for range 24 {
		strips = append(strips, Strip{Wood: cherry(), Width: 80, Rings: FromPith(geom.Pt(40, -90), geom.R(0, 0, 80, 25))})
	}
	sp := span(8, 6, 12)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Sum(strips, sp, DefaultOptions()); err != nil {
			b.Fatal(err)
		}
	}
}
