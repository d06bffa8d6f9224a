package model

import (
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

func TestHistoryStory(t *testing.T) {
	p := table()
	h := NewHistory(p)
	if h.CanUndo() || h.CanRedo() || h.Undo() || h.Redo() || h.Dirty() || h.Before() != nil || h.UndoLabel() != "" || h.RedoLabel() != "" {
		t.Fatal("a new history has no past, no future and nothing unsaved")
	}
	flip, turn := FlipStrip{"top", "A1"}, TurnStrip{"top", "A1"}
	h.Commit(flip)
	one := h.Current()
	h.Commit(turn)
	if h.UndoLabel() != "Turn strip A1 end for end" || h.Before() != one || !h.Dirty() {
		t.Fatalf("label %q", h.UndoLabel())
	}
	h.MarkSaved()
	two := h.Current()
	h.Undo()
	if h.RedoLabel() != turn.Label() || h.UndoLabel() != flip.Label() || !h.Dirty() || h.Before() != p {
		t.Fatal("one step back")
	}
	h.Redo()
	if h.Dirty() || h.Current() != two {
		t.Fatal("back at what was saved it is clean")
	}
	h.Undo()

	// Nothing changed, nothing lost: what was undone can still be redone.
	if err := h.Commit(PinStrip{"top", "A1", false}); err != nil || !h.CanRedo() || h.UndoLabel() != flip.Label() {
		t.Fatal("an edit that changes nothing made an entry")
	}
	if err := h.Commit(FlipStrip{"top", "none"}); err == nil || !h.CanRedo() || h.Current() != one {
		t.Fatal("an edit that fails changed something")
	}

	// Another way from here: the old future is gone.
	h.Commit(PinStrip{"top", "A1", true})
	if h.CanRedo() || h.Redo() {
		t.Fatal("redo after diverging")
	}
}

func TestHistoryIsCapped(t *testing.T) {
	h := NewHistory(table())
	for i := range 600 {
		if err := h.Commit(ShiftStrip{"top", "A1", float64(i + 1)}); err != nil {
			t.Fatal(err)
		}
	}
	n := 0
	for h.Undo() {
		n++
	}
	if s := strip(t, h.Current(), "top", "A1"); n != 500 || s.Shift != 100 {
		t.Errorf("%d undone to shift %g, want 500 and 100", n, s.Shift)
	}
}

func TestRetellTellsEveryStateDifferently(t *testing.T) {
	start := table()
	start.Boards[0].Faces[0].Photo = "a.jpg"
	h := NewHistory(start)
	h.Commit(FlipStrip{"top", "A1"})
	h.Commit(TurnStrip{"top", "A1"})
	h.Undo()
	h.MarkSaved()
	if n := len(h.States()); n != 3 {
		t.Fatalf("%d states, want 3", n)
	}
	h.Retell(RenamePhotos(func(name string) string { return "photos/" + name }))
	if h.Dirty() || h.UndoLabel() != "Roll strip A1 over" {
		t.Error("telling differently made an entry, or the project dirty")
	}
	for _, p := range h.States() {
		if got := p.Boards[0].Faces[0].Photo; got != "photos/a.jpg" {
			t.Errorf("photo %q, want photos/a.jpg", got)
		}
		if p.Boards[0] != h.Current().Boards[0] {
			t.Error("states no longer share their boards")
		}
		if p.Boards[1] != start.Boards[1] {
			t.Error("a board without a photo was made anew")
		}
	}
	mid := h.Current()
	h.Redo()
	h.Undo()
	if h.Current() != mid {
		t.Error("redo and undo lose the project")
	}
	h.Undo()
	h.Redo()
	if h.Current() != mid {
		t.Error("undo and redo lose the project")
	}
}

// anyEdit draws an edit that may or may not be possible.
func anyEdit(t *rapid.T, p *Project) Edit {
	panel := rapid.SampledFrom([]string{"top", "side", "nope"}).Draw(t, "panel")
	board := rapid.SampledFrom([]string{"A", "B", "H", "nope"}).Draw(t, "board")
	ids := []string{"A1", "A2", "3", "B1", "B2", "1"}
	s, o := rapid.SampledFrom(ids).Draw(t, "strip"), rapid.SampledFrom(ids).Draw(t, "other")
	x := float64(rapid.IntRange(-5, 1500).Draw(t, "x"))
	n := rapid.IntRange(-1, 5).Draw(t, "n")
	return rapid.SampledFrom([]Edit{
		FlipStrip{panel, s}, TurnStrip{panel, s}, SwapStrips{panel, s, o}, MoveStrip{panel, s, n},
		PlaceStrip{panel, s, board, x, float64(n * 20), float64(n * 30)}, LiftStrip{panel, s},
		ShiftStrip{panel, s, x}, PinStrip{panel, s, n > 2},
		SetStage{panel, s, []Stage{Planned, Sawn, Planed, Jointed, Glued, "odd", ""}[n+1]},
		SetPlaned{panel, s, &PlanedSap{Near: Tape{x, 2, 3}}}, SetPlaned{panel, s, nil},
		AddStrip{panel, NewPlace(NextStripID(p), 930, x), n}, RemoveStrip{panel, s},
		ToSpares{panel, s}, FromSpares{s, panel, n}, RemoveSpare{s},
		Keep{Panel: panel, Name: fmt.Sprint(n)}, UseKept{panel, fmt.Sprint(n)}, DropKept{panel, fmt.Sprint(n)},
		RenameBoard{board, "H"}, RenameBoard{"H", board}, RemoveBoard{board},
		AddBoard{NewBoard(NextBoardID(p), "teak", 2000, x, 25)},
		SetZones{board, n, []Zone{{Sap, ring(0, 0, x, 0, x, 30)}}, ""},
		SetSettings{Settings{Name: fmt.Sprint(n), Units: "mm", Limits: Limits{Streak: x, Mix: [2]float64{0, 1}}}}, NameFront{panel},
		SayOffers{[]string{"Y1"}, []Decision{OfferOpen, OfferKeep, "odd"}[(n+1)%3]}, TakeOffers{[]string{"Y1"}}, DropOffer{"Y1"}, PutOffer{"", Offer{Board: NewBoard(NextBoardID(p), "walnut-black", x, 90, 25)}},
		SetYard{Species: []string{"teak", "walnut-black"}[(n+1)%2]}, SetRecord{[]FinishStep{{What: fmt.Sprint(n), Panels: []string{panel}}}, ""}, SetClear{&ClearStock{Loss: x / 1500}},
		PutPart{"", NewPart("leg "+s, Leg, n, x, 50, 50)}, DropPart{"leg " + s}, PlacePart{"leg", []PartPlace{{Board: board, X: x, Y: 10, L: 300, W: 40}}, ""}, CutEnd{board, n & 1, x}, SpoilBoard{board, n > 2},
		RemovePanel{panel}, AddPanel{NewPanel(panel, RoleTop, 900, 450, 20)}, RenamePanel{panel, "side"},
	}).Draw(t, "edit")
}

// Random edits, undo and redo against a plain list of what was there.
func TestHistoryAgainstAList(t *testing.T) { rapid.Check(t, historyAgainstAList) }

// FuzzEdits lets the fuzzing engine draw the edits.
func FuzzEdits(f *testing.F) { f.Fuzz(rapid.MakeFuzz(historyAgainstAList)) }

func historyAgainstAList(t *rapid.T) {
	first := table()
	h := NewHistory(first)
	states, at, saved := []*Project{first}, 0, 0
	t.Repeat(map[string]func(*rapid.T){
		"edit": func(t *rapid.T) {
			err := h.Commit(anyEdit(t, h.Current()))
			if err == nil && h.Current() != states[at] {
				states, at = append(states[:at+1:at+1], h.Current()), at+1
				if saved > at-1 {
					saved = -1
				}
			}
		},
		"undo": func(t *rapid.T) {
			if h.Undo() != (at > 0) {
				t.Fatal("undo")
			}
			at = max(at-1, 0)
		},
		"redo": func(t *rapid.T) {
			if h.Redo() != (at < len(states)-1) {
				t.Fatal("redo")
			}
			at = min(at+1, len(states)-1)
		},
		"save": func(t *rapid.T) { h.MarkSaved(); saved = at },
		"": func(t *rapid.T) {
			if h.Current() != states[at] {
				t.Fatalf("state %d of %d is another project", at, len(states))
			}
			if h.Dirty() != (at != saved) {
				t.Fatalf("dirty %v at %d, saved at %d", h.Dirty(), at, saved)
			}
			if err := Validate(h.Current()); err != nil {
				t.Fatalf("a rule is broken: %v", err)
			}
		},
	})
	for h.Undo() {
	}
	if h.Current() != first {
		t.Fatal("undone to the start it is another project")
	}
	if !reflect.DeepEqual(first, table()) {
		t.Fatal("the first project has changed")
	}
}

// A history told and taken up again goes back the same way.
func TestHistoryIsResumed(t *testing.T) {
	h := NewHistory(table())
	for i := range 6 {
		if err := h.Commit(ShiftStrip{"top", "A1", float64(i + 1)}); err != nil {
			t.Fatal(err)
		}
		if i == 3 {
			h.MarkSaved()
		}
	}
	h.Undo()
	states := h.Recent(3)
	if len(states) != 4 || states[3].Project != h.Current() || states[0].Label != "" || states[3].Label != h.UndoLabel() {
		t.Fatalf("told as %d states, the last by %q", len(states), states[len(states)-1].Label)
	}
	r := ResumeHistory(states, h.Saved())
	for range 3 {
		if r.Current() != h.Current() || r.Before() != h.Before() || r.UndoLabel() != h.UndoLabel() || r.Dirty() != h.Dirty() {
			t.Errorf("%q dirty %v, want %q dirty %v", r.UndoLabel(), r.Dirty(), h.UndoLabel(), h.Dirty())
		}
		if !r.Undo() || !h.Undo() {
			t.Fatal("no way back")
		}
	}
	if r.CanUndo() || r.Current() != h.Current() {
		t.Error("it goes back further than it was told")
	}
	none := ResumeHistory([]State{{Project: table()}}, nil)
	none.Retell(func(p *Project) *Project { c := *p; return &c })
	if !none.Dirty() || none.CanUndo() {
		t.Error("a project of which nothing is on disk counts as saved")
	}
	none.MarkSaved()
	if none.Dirty() {
		t.Error("saved and not clean")
	}
}
