package file

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"heartside/model"
)

const cutText = `heartside: 1
boards:
  - {id: A, species: teak, length: 2400, width: 210, thickness: 26, cut: {marked: 60, other: 12.5}}
  - {id: B, species: teak, length: 900, width: 90, thickness: 20, cut: {other: 5}}
panels: [{id: top, length: 600, width: 80, thickness: 20}]
printed:
  - {page: panel, of: top, part: 1, paper: a4, sheet: A7KQ2, mark: 0f3c}
  - {page: boards, of: A, mark: 77aa}
`

// The numbers are those of the text.
func TestCutEndsAndPrintedPagesAreRead(t *testing.T) {
	p, notices, err := Read([]byte(cutText), "x.yaml")
	if err != nil || len(notices) != 0 {
		t.Fatal(err, notices)
	}
	if p.Boards[0].Cut != [2]float64{60, 12.5} || p.Boards[1].Cut != [2]float64{0, 5} {
		t.Errorf("cut off %v and %v", p.Boards[0].Cut, p.Boards[1].Cut)
	}
	want := []model.PrintedPage{
		{Page: "panel", Of: "top", Part: 1, Paper: "a4", Sheet: "A7KQ2", Mark: "0f3c"},
		{Page: "boards", Of: "A", Mark: "77aa"},
	}
	if !reflect.DeepEqual(p.Printed, want) {
		t.Errorf("printed %+v", p.Printed)
	}
	text := string(Marshal(p))
	for _, line := range []string{
		"    cut: {marked: 60, other: 12.5}\n", "    cut: {marked: 0, other: 5}\n",
		"  - {page: panel, of: top, part: 1, paper: a4, sheet: A7KQ2, mark: 0f3c}\n", "  - {page: boards, of: A, mark: 77aa}\n",
	} {
		if !strings.Contains(text, line) {
			t.Errorf("not written: %s", line)
		}
	}
	if q, _, err := Read([]byte(text), "y.yaml"); err != nil || !reflect.DeepEqual(p, q) {
		t.Errorf("came back changed, or not at all: %v", err)
	}
}

// Files from before say nothing of it and are written as ever.
func TestFilesWithoutCutEndsReadAsBefore(t *testing.T) {
	p := read(t, "contract.yaml")
	for _, b := range p.Boards {
		if b.Cut != [2]float64{} {
			t.Errorf("board %s: cut off %v", b.ID, b.Cut)
		}
	}
	if text := string(Marshal(p)); p.Printed != nil || strings.Contains(text, "cut:") || strings.Contains(text, "printed:") {
		t.Error("something is read or written that is not there")
	}
}

func TestFaultsOfCutEndsNameTheLine(t *testing.T) {
	for _, c := range []struct {
		from, to, field string
		line            int
	}{
		{"marked: 60", "marked: 2390", "boards[A].cut", 3},
		{"marked: 60", "marked: -1", "boards[A].cut", 3},
		{"marked: 60", "end: 60", "boards[A].cut.end", 3},
		{"mark: 77aa", "mark: ''", "printed[1]", 8},
	} {
		_, _, err := Read([]byte(strings.Replace(cutText, c.from, c.to, 1)), "x.yaml")
		var got Errors
		if !errors.As(err, &got) || len(got) != 1 || got[0].Line != c.line || got[0].Field != c.field || got[0].Hint == "" {
			t.Errorf("%s: %v", c.to, err)
		}
	}
}
