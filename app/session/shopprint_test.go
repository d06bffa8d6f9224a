package session

import (
	"reflect"
	"testing"

	"heartside/model"
)

func TestComparePapers(t *testing.T) {
	page := func(kind, of string, part int, mark string) model.PrintedPage {
		return model.PrintedPage{Page: kind, Of: of, Part: part, Paper: "a4", Sheet: "A7KQ2", Mark: mark}
	}
	printed := []model.PrintedPage{page("panel", "Top", 1, "1"), page("boards", "A", 1, "2"), page("boards", "B", 1, "3"), page("boards", "B", 2, "4"), page("fit", "Top", 1, "5")}
	for _, c := range []struct {
		now  []model.PrintedPage
		want []string
	}{
		{printed, nil},
		{[]model.PrintedPage{page("panel", "Top", 1, "x"), page("boards", "A", 1, "2"), page("boards", "B", 1, "x"), page("boards", "B", 2, "4"), page("fit", "Top", 1, "5")},
			[]string{"Panel Top and board B have changed since the sheet A7KQ2: print these 2 pages again."}},
		{[]model.PrintedPage{page("panel", "Top", 1, "1"), page("boards", "A", 1, "x"), page("boards", "B", 1, "3"), page("boards", "B", 2, "4"), page("fit", "Top", 1, "5")},
			[]string{"Board A has changed since the sheet A7KQ2: print this page again."}},
		// Board B is cut into no more, C is, and labels were never printed.
		{[]model.PrintedPage{page("panel", "Top", 1, "1"), page("boards", "A", 1, "2"), page("boards", "C", 1, "9"), page("fit", "Top", 1, "5"), page("labels", "", 1, "7")},
			[]string{"Not printed yet: board C (1 page).", "Board B is not on the sheet any more: throw the 2 pages away."}},
	} {
		if got := ComparePapers(printed, c.now).Words(); !reflect.DeepEqual(got, c.want) {
			t.Errorf("said %q, want %q", got, c.want)
		}
	}
}

func TestPrintedIsKeptThroughUndo(t *testing.T) {
	s := New(fourStrips(), Options{})
	defer s.Close()
	mustCommit(t, s, model.FlipStrip{Panel: "top", Strip: "A1"})
	s.hist.MarkSaved()
	pages := []model.PrintedPage{{Page: "panel", Of: "top", Part: 1, Mark: "1"}}
	s.Printed(pages)
	if !s.Dirty() || s.UndoLabel() != "Roll strip A1 over" {
		t.Errorf("dirty %v, undo %q", s.Dirty(), s.UndoLabel())
	}
	s.Undo()
	if !reflect.DeepEqual(s.Committed().Printed, pages) {
		t.Error("undo forgets the paper")
	}
	s.ThrownAway(pages)
	if s.Committed().Printed != nil {
		t.Error("thrown away and yet there")
	}
}
