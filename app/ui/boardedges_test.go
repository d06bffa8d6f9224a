package ui

import (
	"strings"
	"testing"

	"heartside/model"
)

func TestRackTakesWaneyBoards(t *testing.T) {
	s := open(t, model.NewProject(), 100)
	s.act("rack")
	e := s.rack.boards
	r := e.rows[0]
	r.size[0].SetText("2400")
	r.size[2].SetText("50")
	r.chalked.SetChecked(true)
	// A sawn board needs its width.
	if _, f := r.board(); f == nil || !strings.Contains(f.err.Error(), "width") {
		t.Errorf("no width: %+v", f)
	}
	r.waney.SetChecked(true)
	if !strings.Contains(r.size[1].PlaceHolder, "greatest") {
		t.Errorf("the width asks for %q", r.size[1].PlaceHolder)
	}
	b, f := r.board()
	if f != nil || b.Edges != model.EdgesMeasured || !(b.Width > 0) {
		t.Fatalf("a waney board without a width: %+v, %+v", b, f)
	}
	r.size[1].SetText("420")
	if b, f = r.board(); f != nil || b.Edges != model.EdgesWaney || b.Width != 420 {
		t.Errorf("a waney board 420 wide: %+v, %+v", b, f)
	}
	// The next board of the stack is of the same kind.
	if n := e.addRow(); !n.waney.Checked {
		t.Error("the next row begins as sawn")
	}
	e.keep()
	if got := s.ses.Project().Boards; len(got) != 1 || got[0].Edges != model.EdgesWaney {
		t.Errorf("added %+v", got)
	}
}

func TestBoardFormKeepsItsEdges(t *testing.T) {
	p := stack("A")
	b := *p.Board("A")
	b.Edges = model.EdgesMeasured
	s := open(t, p, 100)
	f := newBoardForm(s.Window, &b, &b)
	if got, err := f.board(); err != nil || got.Edges != model.EdgesMeasured {
		t.Errorf("kept as it was: %v, %v", got, err)
	}
	f.edges.SetSelectedIndex(1)
	if got, err := f.board(); err != nil || got.Edges != model.EdgesWaney {
		t.Errorf("chosen: %v, %v", got, err)
	}
}
