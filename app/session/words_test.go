package session

import (
	"strings"
	"testing"

	"heartside/layout/arrange"
	"heartside/layout/face"
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
		face.FlawOnShow, face.FlawInEdge, face.NotSeen, face.PlanesBackwards, face.MoistureDiffers, face.OutsideBoard,
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
