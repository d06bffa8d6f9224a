package movement

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/layouttest"
	"heartside/layout/wood/moisture"

	"pgregory.net/rapid"
)

func join(t *testing.T, a, b Member, held bool) *Meeting {
	t.Helper()
	m, err := Join(a, b, held, DefaultJoinLimits())
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// A 400 mm cherry top, 8 to 12 %, screwed along its end to a batten whose
// grain runs along the joint: 400*0.00248*4 = 3.968 against 400*0.0015*4/30 =
// 0.08; 3.888 over 400 is 0.00972, at 972 MPa 9.45 MPa.
func TestCrossGrainJoint(t *testing.T) {
	top := sum(t, flat(cherry(), 200, 200), span(8, 7, 12), 0)
	batten := sum(t, flat(cherry(), 60), span(8, 7, 12), 0)
	m := join(t, Member{Name: "top", Panel: top}, Member{Name: "batten", Panel: batten, Grain: true, Length: 400}, true)
	layouttest.Near(t, "difference", m.Most, 3.888, 1e-9)
	layouttest.Near(t, "strain", m.Strain, 0.00972, 1e-9)
	layouttest.Near(t, "stress", m.Stress.Value, 9.45, 0.01)
	if m.Class != WillSplit || m.Stress.Flag != moisture.Memory || len(m.LetMove) < 3 || !strings.Contains(m.Text, "split") {
		t.Errorf("%+v", m)
	}
	if free := join(t, m.A, m.B, false); free.Class != WillSplit || free.Text == m.Text {
		t.Errorf("free: %q", free.Text)
	}
	// Turned round it is the same joint.
	if back := join(t, m.B, m.A, true); math.Abs(back.Most-m.Most) > 1e-9 || back.Class != m.Class {
		t.Errorf("%g turned round %g", m.Most, back.Most)
	}
}

func TestJointsThatMoveAlike(t *testing.T) {
	a := sum(t, flat(cherry(), 200, 200), span(8, 6, 12), 0)
	for name, m := range map[string]*Meeting{
		"both across":   join(t, Member{Panel: a}, Member{Panel: a}, true),
		"both along":    join(t, Member{Panel: a, Grain: true, Length: 900}, Member{Panel: a, Grain: true, Length: 700}, true),
		"narrow across": join(t, Member{Panel: sum(t, flat(cherry(), 40), span(8, 6, 12), 0)}, Member{Panel: a, Grain: true, Length: 40}, true),
	} {
		if m.Class != MovesAlike || len(m.LetMove) != 0 {
			t.Errorf("%s: %s, %g mm", name, m.Class, m.Most)
		}
	}
}

// Both 400 mm of sugar maple, quarter-sawn and flat-sawn halves the other way
// round: alike at both ends, 200*4*(0.00353-0.00165) = 1.504 apart in the
// middle.
func TestDifferenceInsideAJoint(t *testing.T) {
	there, back := flat(maple(), 200, 200), flat(maple(), 200, 200)
	there[0].Rings, back[1].Rings = AtAngle(90), AtAngle(90)
	sp := span(8, 8, 12)
	m := join(t, Member{Panel: sum(t, there, sp, 0)}, Member{Panel: sum(t, back, sp, 0)}, true)
	layouttest.Near(t, "ends", m.Wet.Ends.Value, 0, 1e-9)
	layouttest.Near(t, "middle", m.Most, 1.504, 1e-9)
	if m.Class != SmallApart || m.Stress != (Number{}) {
		t.Errorf("%s, stress %v", m.Class, m.Stress)
	}
}

// Rings nobody knows: alike as far as told, apart by the whole of flat against
// quarter at the worst: 400*4*(0.00353-0.00165) = 3.008.
func TestUnknownRingsInAJoint(t *testing.T) {
	sp := span(8, 8, 12)
	p := sum(t, []Strip{{ID: "a", Wood: maple(), Width: 400}}, sp, 0)
	m := join(t, Member{Panel: p}, Member{Panel: p}, true)
	layouttest.Near(t, "worst", m.AtWorst, 3.008, 1e-9)
	if m.Class != MovesAlike || m.Worst != WillSplit || !strings.Contains(m.Text, "not known") {
		t.Errorf("%s, worst %s: %s", m.Class, m.Worst, m.Text)
	}
}

func TestClassesBegin(t *testing.T) {
	l := DefaultJoinLimits()
	for d, want := range map[float64]Class{0: MovesAlike, 0.49: MovesAlike, 0.5: SmallApart, 1.99: SmallApart, 2: WillSplit, 9: WillSplit} {
		if got := l.class(d); got != want {
			t.Errorf("%g mm: %s, want %s", d, got, want)
		}
	}
}

func TestJointsThatCannotBe(t *testing.T) {
	p := sum(t, flat(maple(), 100), span(8, 6, 12), 0)
	for name, b := range map[string]Member{"no panel": {Name: "side"}, "no length": {Name: "side", Panel: p, Grain: true}, "nan": {Name: "side", Panel: p, Grain: true, Length: math.NaN()}} {
		if _, err := Join(Member{Panel: p}, b, true, DefaultJoinLimits()); err == nil || !strings.Contains(err.Error(), "side") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestMeetingShowsItsWorking(t *testing.T) {
	p := sum(t, flat(cherry(), 400), span(8, 6, 12), 0)
	w := join(t, Member{Panel: p}, Member{Panel: p, Grain: true, Length: 400}, true).Working()
	if len(w) != 4 || w[3].Flag != moisture.Memory || w[2].Source != LimitText {
		t.Errorf("%v", w)
	}
}

// Two panels of sugar maple over 500 mm, 8 to 12 %. Flat against quarter:
// 500*4*0.00188 = 3.76. All sapwood at 1.10 against none: 500*4*0.00353*0.1 =
// 0.706; at 1.00 nothing.
func TestDiffer(t *testing.T) {
	sp := span(8, 8, 12)
	quarter := flat(maple(), 500)
	quarter[0].Rings = AtAngle(90)
	d, err := Differ(sum(t, flat(maple(), 250, 250), sp, 0), sum(t, quarter, sp, 0), 500)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "rings", d.Rings.Wet, 3.76, 1e-9)
	layouttest.Near(t, "total", d.Total.Wet, 3.76, 1e-9)
	layouttest.Near(t, "sap", d.Sap.Wet, 0, 1e-12)
	layouttest.Near(t, "dry", d.Total.Dry, 0, 0)

	for factor, want := range map[float64]float64{0: 0, 1: 0, 1.1: 0.706} {
		sappy := flat(maple(), 500)
		sappy[0].SapShare, sappy[0].Wood.SapFactor = 1, factor
		d, err := Differ(sum(t, sappy, sp, 0), sum(t, flat(maple(), 500), sp, 0), 500)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "sap", d.Sap.Wet, want, 1e-9)
		layouttest.Near(t, "if a tenth more", d.IfOneTenth.Wet, 0.706, 1e-9)
		if d.ShareA != 1 || d.ShareB != 0 || d.Rings.Wet != 0 {
			t.Errorf("%+v", d)
		}
	}
	if _, err := Differ(nil, nil, 500); err == nil {
		t.Error("nothing compares with nothing")
	}
	if p := sum(t, quarter, sp, 0); p != nil {
		if _, err := Differ(p, p, 0); err == nil {
			t.Error("no width passes")
		}
	}
}

func TestEffectsSumToTheDifference(t *testing.T) {
	rows := tableRows(t)
	rapid.Check(t, func(t *rapid.T) {
		draw := func() *Panel {
			var strips []Strip
			for range rapid.IntRange(1, 4).Draw(t, "strips") {
				strips = append(strips, drawStrip(t, rows))
			}
			p, err := Sum(strips, span(9, 5, 13), Options{})
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		a, b := draw(), draw()
		d, err := Differ(a, b, 400)
		if err != nil {
			t.Fatal(err)
		}
		direct := a.Change(moisture.Wet).Value/a.Now*400 - b.Change(moisture.Wet).Value/b.Now*400
		if math.Abs(d.Total.Wet-direct) > 1e-9 || math.Abs(d.Sap.Wet+d.Rings.Wet+d.Rest.Wet-direct) > 1e-9 {
			t.Fatalf("%+v, directly %g", d, direct)
		}
	})
}
