package model

import (
	"reflect"
	"testing"
)

func TestAddBoardsIsOneEntry(t *testing.T) {
	h := NewHistory(NewProject())
	list := []*Board{NewBoard("K", "teak", 900, 100, 25), NewBoard("L", "teak", 800, 110, 25)}
	if err := h.Commit(AddBoards{list}); err != nil {
		t.Fatal(err)
	}
	if n, _ := h.Depth(); n != 1 || len(h.Current().Boards) != 2 {
		t.Errorf("%d entries and %d boards, want 1 and 2", n, len(h.Current().Boards))
	}
	list[0].Length = 1
	if h.Current().Boards[0].Length != 900 {
		t.Error("the caller's board changed the project")
	}
	if err := h.Commit(AddBoards{[]*Board{NewBoard("M", "teak", 900, 100, 25), NewBoard("K", "teak", 900, 100, 25)}}); err == nil || len(h.Current().Boards) != 2 {
		t.Errorf("a letter twice: %v with %d boards", err, len(h.Current().Boards))
	}
	if err := h.Commit(AddBoards{[]*Board{nil}}); err == nil {
		t.Error("no board was added")
	}
}

// A photograph that is read later belongs to the edit that brought it: undo
// takes both back, redo brings both, and the project is no longer as saved.
func TestAmendReadsIntoEveryState(t *testing.T) {
	h := NewHistory(table())
	before := h.Current()
	open := Face{Photo: "a1.jpg", Split: &Split{By: SplitOpen}}
	a := *h.Current().Board("A")
	a.Faces = [2]Face{open, open}
	if err := h.Commit(SetBoards{[]*Board{&a}, "Take in photographs"}); err != nil {
		t.Fatal(err)
	}
	h.MarkSaved()
	if err := h.Commit(FlipStrip{"top", "A1"}); err != nil {
		t.Fatal(err)
	}
	h.Undo()
	got := Face{Photo: "a1.jpg", Base: Heart, Split: &Split{By: SplitFound, Sure: 0.9}, Known: true}
	read := Read("A", 1, "a1.jpg", got)
	h.Amend(read)
	h.Amend(Read("A", 2, "other.jpg", got))
	h.Amend(Read("Z", 1, "a1.jpg", got))
	h.Amend(Read("A", 0, "a1.jpg", got))
	if n, m := h.Depth(); n != 1 || m != 1 {
		t.Fatalf("%d and %d entries, want 1 and 1", n, m)
	}
	if !h.Dirty() {
		t.Error("what was read is not in the file, and the project counts as saved")
	}
	for i := range 2 {
		a := h.Current().Board("A")
		if !reflect.DeepEqual(a.Faces[0], got) || !a.Faces[1].Open() {
			t.Errorf("state %d: faces %+v", i, a.Faces)
		}
		h.Redo()
	}
	h.Undo()
	h.Undo()
	if h.Current() != before {
		t.Error("undo does not lead back to the start")
	}
	// Read once, it waits no longer: what the maker drew since stays.
	drawn := got
	drawn.Split = &Split{By: SplitChecked, Sure: 0.9}
	h.Redo()
	if err := h.Commit(SetFace{"A", 1, drawn}); err != nil {
		t.Fatal(err)
	}
	h.Amend(read)
	if !reflect.DeepEqual(h.Current().Board("A").Faces[0], drawn) {
		t.Error("a late reading overwrote what the maker drew")
	}
}
