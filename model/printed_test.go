package model

import (
	"reflect"
	"testing"
)

func TestPrintTakesThePlaceOfWhatWasPrinted(t *testing.T) {
	h := NewHistory(table())
	h.MarkSaved()
	if err := h.Commit(NameFront{"top"}); err != nil {
		t.Fatal(err)
	}
	h.MarkSaved()
	a := PrintedPage{Page: "panel", Of: "top", Part: 1, Paper: "a4", Sheet: "AAAAA", Mark: "1"}
	b := PrintedPage{Page: "boards", Of: "A", Part: 1, Paper: "a4", Sheet: "AAAAA", Mark: "2"}
	h.Amend(Print([]PrintedPage{a, b}))
	if !h.Dirty() {
		t.Error("that a sheet was printed would not be saved")
	}
	later := a
	later.Sheet, later.Mark = "BBBBB", "3"
	h.Amend(Print([]PrintedPage{later}))
	want := []PrintedPage{b, later}
	if got := h.Current().Printed; !reflect.DeepEqual(got, want) {
		t.Errorf("printed %v", got)
	}
	if !h.Undo() || !reflect.DeepEqual(h.Current().Printed, want) {
		t.Error("undo takes paper back")
	}
	if !h.Redo() || h.CanRedo() {
		t.Error("printing is an entry of the history")
	}
	if err := Validate(h.Current()); err != nil {
		t.Error(err)
	}
	h.Amend(Unprint([]PrintedPage{later, b}))
	if h.Current().Printed != nil {
		t.Errorf("thrown away and yet there: %v", h.Current().Printed)
	}
}

func TestPrintedPagesAreChecked(t *testing.T) {
	p := table()
	good := PrintedPage{Page: "panel", Of: "top", Mark: "1"}
	for _, list := range [][]PrintedPage{{{Page: "panel"}}, {{Mark: "1"}}, {{Page: "panel", Mark: "1", Part: -1}}, {good, good}} {
		p.Printed = list
		wantRule(t, Validate(p), RulePrinted)
	}
	p.Printed = []PrintedPage{good, {Page: "panel", Of: "top", Part: 2, Mark: "1"}}
	if err := Validate(p); err != nil {
		t.Error(err)
	}
}
