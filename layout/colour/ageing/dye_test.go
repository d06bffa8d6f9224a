package ageing

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/colour"
)

// Greys, so that differences follow from lightness alone (see the greys of the
// contrast): heart 54 today, measured 46 in ten years. Dyed to 54 it matches
// now, and in ten years differs by 8, the mean being 50, where SL is 1. Dyed to
// 46 the other way round. Dyed to 50, by 4 either way:
// 4 / SL, mean 52: SL = 1 + 0.015 x 4 / sqrt(24) = 1.01225, 3.952. Dyed to 52,
// as in one year: 2 / (1 + 0.015 x 9 / sqrt(29)) = 1.951 now, and in ten years
// 6 / (1 + 0.015 x 1 / sqrt(21)) = 5.980.
func TestDyeStaysWhileTheHeartDarkens(t *testing.T) {
	heart := curve(t, colour.Lab{L: 54}, Course{}, Point{1, colour.Lab{L: 52}}, Point{10, colour.Lab{L: 46}})
	sap := curve(t, colour.Lab{L: 80}, Course{})
	p, err := PlanDye(heart, sap, 0.42, []Claim{{Text: "test first", Flag: Practice}})
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		aim      Aim
		now, ten float64
	}{{HeartNow, 0, 8}, {HeartOne, 1.951, 5.980}, {HeartTen, 8, 0}, {HeartMidst, 3.952, 3.952}}
	if len(p.Matches) != len(want) {
		t.Fatalf("%d matches", len(p.Matches))
	}
	for i, w := range want {
		m := p.Matches[i]
		if m.Aim != w.aim || math.Abs(m.Now.DE-w.now) > 0.002 || math.Abs(m.Ten.DE-w.ten) > 0.002 || m.TooLight {
			t.Errorf("%v: now %.3f, in ten years %.3f, by hand %.3f and %.3f", m.Aim, m.Now.DE, m.Ten.DE, w.now, w.ten)
		}
		// No hand matches better than it can be seen, and later it is less sure.
		if m.Now.High < m.Now.DE+1.5 || m.Ten.High-m.Ten.DE < m.Now.High-m.Now.DE {
			t.Errorf("%v: %+v, then %+v", m.Aim, m.Now, m.Ten)
		}
	}
	if best, ok := p.Steadiest(); !ok || best.Aim != HeartMidst {
		t.Errorf("steadiest is %v", best.Aim)
	}
	if p.Area != 0.42 || p.Pieces.Count != 4 || len(p.Cautions) != 1 {
		t.Errorf("%+v", p)
	}
	if math.Abs(p.Undyed.Now.DE-OutlookOf(heart, sap).Now.DE) > 0 {
		t.Error("the bare sapwood is another one")
	}
}

func TestDyeOnlyDarkens(t *testing.T) {
	heart := curve(t, colour.Lab{L: 85}, Course{})
	sap := curve(t, colour.Lab{L: 70}, Course{})
	if m := Dye(heart, sap, HeartNow); !m.TooLight {
		t.Errorf("%+v", m)
	}
	// Of heartwood without data no aim is better than another.
	p, err := PlanDye(heart, sap, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	if m, ok := p.Steadiest(); ok {
		t.Errorf("nothing is known, but %v is steadiest", m.Aim)
	}
}

func TestPieces(t *testing.T) {
	p := PiecesFor(3)
	if p.Count != 3 || p.Length < 150 || p.Width < 75 || !strings.Contains(p.String(), "3 of at least 150 x 75 mm") || PiecesFor(0).Count != 1 {
		t.Errorf("%v", p)
	}
}

func TestPlanRefuses(t *testing.T) {
	c := curve(t, colour.Lab{L: 60}, Course{})
	for _, area := range []float64{-1, math.NaN(), math.Inf(1)} {
		if _, err := PlanDye(c, c, area, nil); err == nil || !strings.Contains(err.Error(), "m2") {
			t.Errorf("%g m2: %v", area, err)
		}
	}
	if _, ok := (Plan{}).Steadiest(); ok {
		t.Error("an empty plan has a best match")
	}
}

// Everything that is drawn and not measured says so.
func TestExplainNamesTheIllustration(t *testing.T) {
	c := darkening()
	n := 0
	for _, k := range c.Explain() {
		if strings.Contains(k.Text, "drawn after") {
			n++
			if k.Flag != Illustration || !strings.Contains(k.Line(), "not measured") {
				t.Errorf("%q", k.Line())
			}
		}
	}
	if n != 2 || !strings.Contains(c.Explain()[0].Line(), "no measured change") {
		t.Errorf("%v", c.Explain())
	}
	if k := (&Course{}).Explain(); len(k) != 1 || !strings.Contains(k[0].Text, NoData) {
		t.Errorf("%v", k)
	}
	if got := (&Course{Turns: []Turn{Darkens, Reddens, Yellows}}).Direction(); got != "darkens, reddens and yellows" {
		t.Error(got)
	}
}

func TestWords(t *testing.T) {
	for got, want := range map[string]string{
		Secondary.Text():    "trade experience, no measured change",
		Memory.Text():       "from memory: not confirmed",
		Practice.Text():     "common practice, no source",
		Illustration.Text(): "illustration, not measured",
		NoFlag.Text():       "no measured data",
		None.String():       "no measured data",
		Grows.String():      "grows",
		Shrinks.String():    "shrinks",
		HeartTen.String():   "the heartwood in ten years",
		Claim{Text: "darker", Flag: Read, Cited: "a paper", Kin: true}.Line(): "darker (a near relative of this wood) - a paper; read in the named publication",
		Claim{Text: NoData}.Line(): NoData,
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if Turn("glows").Known() || Flag("X").Known() || NoFlag.Known() || !Read.Known() || !Dulls.Known() {
		t.Error("a word is taken for another")
	}
}
