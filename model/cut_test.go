package model

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

func TestCutEnd(t *testing.T) {
	p := table()
	q := must(t, p, CutEnd{"A", 0, 60})
	a := q.Board("A")
	if a.Cut != [2]float64{60, 0} || p.Board("A").Cut != [2]float64{} || q.Panel("top") != p.Panel("top") || q.Board("B") != p.Board("B") {
		t.Errorf("cut %v; or more than the board has changed", a.Cut)
	}
	// 2400 long, 60 gone at the marked end, then 140 at the other: wood from 60
	// to 2260.
	q = must(t, q, CutEnd{"A", 1, 140})
	if from, to := q.Board("A").Left(); from != 60 || to != 2260 {
		t.Errorf("wood from %g to %g", from, to)
	}
	if r := must(t, must(t, q, CutEnd{"A", 0, 0}), CutEnd{"A", 1, 0}); !reflect.DeepEqual(r.Board("A"), p.Board("A")) {
		t.Error("putting both ends back does not give the board as it was")
	}
	for want, e := range map[string]CutEnd{
		"Cut off the marked end of board A": {"A", 0, 60}, "Cut off the other end of board A": {"A", 1, 5}, "Put back the marked end of board A": {"A", 0, 0},
	} {
		if e.Label() != want {
			t.Errorf("label %q, want %q", e.Label(), want)
		}
	}
}

func TestCutEndLeavesWood(t *testing.T) {
	p := must(t, table(), CutEnd{"A", 0, 1000})
	for _, e := range []CutEnd{{"A", 1, 1400}, {"A", 1, -1}, {"A", 0, 2400}, {"A", 2, 10}} { // 1000 and 1400 are all of 2400
		_, err := Apply(p, e)
		r := wantRule(t, err, RuleCut)
		if r.Board != "A" || r.Rule.Hint() == "" {
			t.Errorf("%+v: %v", e, err)
		}
	}
	must(t, p, CutEnd{"A", 1, 1399}) // 1 mm is left
	_, err := Apply(p, CutEnd{"Q", 0, 10})
	wantRule(t, err, RuleUnknownBoard)
	// A face whose wood ends at 500 has nothing beyond it.
	w := table()
	w.Boards[1].Edges = EdgesWaney
	w.Boards[1].Faces[0].Outline = geom.Polygon{{X: 0, Y: 0}, {X: 500, Y: 0}, {X: 500, Y: 160}, {X: 0, Y: 160}}
	_, err = Apply(w, CutEnd{"B", 0, 500})
	if r := wantRule(t, err, RuleCut); !strings.Contains(r.Detail, "face 1") {
		t.Error(r)
	}
	must(t, w, CutEnd{"B", 0, 499})
}

// Whatever is cut off, nothing on the board moves, and undo gives the very same
// project.
func TestCutEndMovesNothing(t *testing.T) {
	rapid.Check(t, func(g *rapid.T) {
		p := table()
		h := NewHistory(p)
		for range rapid.IntRange(1, 6).Draw(g, "cuts") {
			e := CutEnd{rapid.SampledFrom([]string{"A", "B"}).Draw(g, "board"), rapid.IntRange(0, 1).Draw(g, "end"), rapid.Float64Range(0, 899).Draw(g, "off")}
			if err := h.Commit(e); err != nil {
				g.Fatal(err)
			}
		}
		q := h.Current()
		for i, b := range q.Boards {
			c := *b
			c.Cut = [2]float64{}
			if !reflect.DeepEqual(&c, p.Boards[i]) {
				g.Fatalf("board %s is not as it was but for its ends", b.ID)
			}
		}
		for i, n := range q.Panels {
			if n != p.Panels[i] {
				g.Fatalf("panel %s has changed", n.ID)
			}
		}
		if !reflect.DeepEqual(q.Spares, p.Spares) || !reflect.DeepEqual(q.Parts, p.Parts) {
			g.Fatal("a spare or a part moved")
		}
		for h.Undo() {
		}
		if h.Current() != p {
			g.Fatal("undo does not give the very same project")
		}
	})
}
