package model

import (
	"testing"

	"heartside/layout/geom"
)

// Face 1 of a board of unknown width is read 300 mm wide, then face 2 330 mm:
// by hand, the board becomes 300 and then 330 mm wide, and what was on it moves
// 15 mm, half of the difference. The picture is 1 pixel a mm.
func TestReadWaneyTakesTheWidestFace(t *testing.T) {
	p := table()
	a := *p.Board("A")
	a.Edges, a.Width = EdgesMeasured, 200
	open := &Split{By: SplitOpen}
	a.Faces = [2]Face{{Photo: "1.jpg", Split: open, Known: true}, {Photo: "2.jpg", Split: open, Known: true}}
	h := NewHistory(p)
	if err := h.Commit(SetBoards{[]*Board{&a}, "Take in photographs"}); err != nil {
		t.Fatal(err)
	}
	strip := func() Strip { return h.Current().Panels[0].Strips[0] }
	at := strip()
	if at.Board != "A" {
		t.Fatal("the first strip lies on another board")
	}
	face := func(name string, width float64) Face {
		return Face{
			Photo: name, Known: true, Base: Heart, Split: &Split{By: SplitFound, Sure: 0.9},
			Corners: &[4]geom.Point{{X: 100, Y: 500}, {X: 100 + a.Length, Y: 500}, {X: 100 + a.Length, Y: 500 - width}, {X: 100, Y: 500 - width}},
			Outline: geom.Polygon{{}, {X: a.Length, Y: 10}, {X: a.Length, Y: width}, {Y: width - 20}},
			Zones:   []Zone{{Sap, geom.Polygon{{}, {X: a.Length}, {X: a.Length, Y: 30}, {Y: 30}}}},
		}
	}
	h.Amend(ReadWaney("A", 1, "1.jpg", face("1.jpg", 300), 300))
	b := h.Current().Board("A")
	if b.Width != 300 || b.Faces[0].Outline[1].Y != 10 || b.Faces[0].Corners[0].Y != 500 || strip().Y != at.Y+50 {
		t.Fatalf("after face 1: width %g, outline %v, strip at %g", b.Width, b.Faces[0].Outline, strip().Y)
	}
	h.Amend(ReadWaney("A", 2, "2.jpg", face("2.jpg", 330), 330))
	b = h.Current().Board("A")
	one, two := b.Faces[0], b.Faces[1]
	if b.Width != 330 || one.Outline[1].Y != 25 || one.Zones[0].Polygon[0].Y != 15 || two.Outline[1].Y != 10 || strip().Y != at.Y+65 {
		t.Errorf("after face 2: width %g, outlines %v and %v, strip at %g", b.Width, one.Outline, two.Outline, strip().Y)
	}
	if q := one.Corners; q[0].Dist(geom.Pt(100, 515)) > 1e-6 || q[2].Dist(geom.Pt(100+a.Length, 185)) > 1e-6 {
		t.Errorf("corners of face 1 at %v", *q)
	}
	if err := Validate(h.Current()); err != nil {
		t.Errorf("a rule is broken: %v", err)
	}
	// The narrower face comes second: it lies in the middle.
	h = NewHistory(p)
	if err := h.Commit(SetBoards{[]*Board{&a}, "Take in photographs"}); err != nil {
		t.Fatal(err)
	}
	h.Amend(ReadWaney("A", 1, "1.jpg", face("1.jpg", 330), 330))
	h.Amend(ReadWaney("A", 2, "2.jpg", face("2.jpg", 300), 300))
	b = h.Current().Board("A")
	if b.Width != 330 || b.Faces[1].Outline[1].Y != 25 || b.Faces[0].Outline[1].Y != 10 {
		t.Errorf("narrower second: width %g, outlines %v and %v", b.Width, b.Faces[0].Outline, b.Faces[1].Outline)
	}
	// A width from the tape stays.
	a.Edges, a.Width = EdgesWaney, 340
	h = NewHistory(p)
	if err := h.Commit(SetBoards{[]*Board{&a}, "Take in photographs"}); err != nil {
		t.Fatal(err)
	}
	h.Amend(ReadWaney("A", 1, "1.jpg", face("1.jpg", 340), 340))
	h.Amend(ReadWaney("A", 2, "other.jpg", face("other.jpg", 340), 340))
	if b = h.Current().Board("A"); b.Width != 340 || b.Faces[0].Outline[1].Y != 10 || !b.Faces[1].Open() {
		t.Errorf("by tape: width %g, outline %v", b.Width, b.Faces[0].Outline)
	}
}

func TestEdgesAreOfAList(t *testing.T) {
	b := *table().Board("A")
	b.Edges = "frayed"
	if _, err := Apply(table(), SetBoard{&b}); err == nil {
		t.Error("edges of no kind were taken")
	}
	for _, e := range []Edges{EdgesSawn, EdgesWaney, EdgesMeasured} {
		b.Edges = e
		if _, err := Apply(table(), SetBoard{&b}); err != nil || b.Waney() != (e != EdgesSawn) {
			t.Errorf("%q: %v, waney %v", e, err, b.Waney())
		}
	}
}
