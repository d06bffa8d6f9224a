package session

import (
	"strings"
	"testing"

	"heartside/layout/arrange"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/unit"
)

func plainWords(sys unit.System) words {
	return words{sys: sys, role: "top", panel: &face.Panel{Width: 400}, number: func(id string) string { return strings.ToUpper(id) }}
}

// What is said of the wood warned of names its own strip, whichever strip the
// fix moves.
func TestFixNamesTheRightStrip(t *testing.T) {
	w := plainWords(unit.MM)
	x := &face.Warning{Kind: face.LoneStreak, Strips: []string{"c2"}}
	own := &arrange.Fix{How: face.ExcuseJoint, Meets: []string{"c1"}, Steps: []arrange.Step{{Kind: arrange.Turn, Strips: []string{"c2"}}}}
	if got, want := w.fix(x, own), "turn strip C2 end for end; its light edge then meets strip C1's"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	partner := &arrange.Fix{How: face.ExcuseJoint, Meets: []string{"c1"}, Partner: true, Steps: []arrange.Step{{Kind: arrange.RollOver, Strips: []string{"c1"}}}}
	if got, want := w.fix(x, partner), "roll strip C1 over; strip C2's light edge then meets strip C1's"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestFixSaysWhere(t *testing.T) {
	w := plainWords(unit.MM)
	f := &arrange.Fix{
		Steps: []arrange.Step{{Kind: arrange.MoveOnBoard, Strips: []string{"f1"}}},
		Panel: []face.Strip{{ID: "f1", Board: &face.Board{ID: "F"}, X: 340, Y: 22}},
	}
	if got := w.fix(&face.Warning{}, f); !strings.Contains(got, "on board F, 340 mm from the marked end and 22 mm from the marked edge") {
		t.Error(got)
	}
}

// Stock taken off the faces otherwise is told for both, and the edit holds it.
func TestFixTakesStockOff(t *testing.T) {
	w := plainWords(unit.MM)
	f := &arrange.Fix{
		Steps: []arrange.Step{{Kind: arrange.TakeOff, Strips: []string{"f1"}, By: 1}},
		Panel: []face.Strip{{ID: "f1", Up: 2, Off: face.Off{Set: true, Face: [2]float64{3.5, 1}}}},
	}
	if got, want := w.fix(&face.Warning{}, f), "take 1 mm off the show face of strip F1 and 3.5 mm off the other"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	off := [2]float64{2, 2.5}
	known := map[string]model.Strip{"f1": {ID: "f1", Off: &off}}
	if got := laid(known, f.Panel)[0].Off; got == nil || *got != [2]float64{3.5, 1} || off != [2]float64{2, 2.5} {
		t.Errorf("off %v, before %v", got, off)
	}
	f.Panel[0].Off = face.Off{Set: true, Face: off}
	if got := laid(known, f.Panel)[0].Off; got != &off {
		t.Error("what stays as it is keeps its place")
	}
}

// What planing brings is said in the maker's words.
func TestPlaningBringsInWords(t *testing.T) {
	w := plainWords(unit.MM)
	x := &face.Warning{Kind: face.SapAfterPlaning, Strips: []string{"a2"}, Why: "fresh", Measure: 9, Limit: 3}
	if got, _ := w.say(x); got != "Planing brings 9 mm of sapwood into strip A2" {
		t.Error(got)
	}
	x.Why = "more"
	if got, _ := w.say(x); got != "Planing brings 9 mm more sapwood into strip A2" {
		t.Error(got)
	}
	x.Why, x.Measure, x.Limit = "limit", 0.15, 0.1
	if got, _ := w.say(x); got != "Planing brings the sapwood over your limit: 15 %, limit 10 %" {
		t.Error(got)
	}
	w.wanted = face.WantSap
	if got, _ := w.say(x); got != "Planing brings the heartwood over your limit: 15 %, limit 10 %" {
		t.Error(got)
	}
}

// A length too small to be shown is still there.
func TestSomeIsNeverNothing(t *testing.T) {
	for _, c := range []struct {
		sys  unit.System
		mm   float64
		want string
	}{
		{unit.MM, 0.02, "less than 0.1 mm"}, {unit.MM, 5, "5 mm"}, {unit.MM, 0, "0 mm"},
		{unit.Inch, 0.3, `less than 1/16"`}, {unit.Inch, 25.4, `1"`},
	} {
		if got := plainWords(c.sys).some(c.mm); got != c.want {
			t.Errorf("%g mm: %q, want %q", c.mm, got, c.want)
		}
	}
}

// Every kind of warning has words of its own, on either face and with either
// wood wanted.
func TestEveryWarningHasWords(t *testing.T) {
	for _, k := range []face.WarningKind{
		face.LoneStreak, face.SliverKind, face.OneSidedJoint, face.OneSidedEdge, face.Lopsided, face.OverLimit,
		face.FlawOnShow, face.FlawInEdge, face.NotSeen, face.SapAfterPlaning, face.PlanesBackwards, face.StripeRisk, face.MoistureDiffers, face.OutsideBoard,
		face.PartsOverlap, face.UnderMachineLimit, face.OverMachineWidth, face.PanelTooSmall, face.ColoursNotComparable,
	} {
		w := plainWords(unit.MM)
		for _, side := range []face.Side{face.Show, face.Back} {
			title, text := w.say(&face.Warning{Kind: k, Side: side, Strips: []string{"a1"}})
			if title == string(k) || title == "" || text == "" {
				t.Errorf("%s: %q, %q", k, title, text)
			}
		}
		w.wanted = face.WantSap
		if title, text := w.say(&face.Warning{Kind: k, Strips: []string{"a1"}}); strings.Contains(title+text, "light ") {
			t.Errorf("%s speaks of light wood where dark is unwanted: %s. %s", k, title, text)
		}
	}
}
