package session

import (
	"strings"
	"testing"

	"heartside/layout/terms"
	"heartside/model"
)

// The same per cent before and after ripping are two things: of a board 200 wide
// with 20 of sapwood along an edge 90 % are heartwood as bought. Of the strip of
// 60 at that edge it is 40 of 60, 66.7 %.
func TestTermsBeforeAndAfterRipping(t *testing.T) {
	p := model.NewProject()
	b := model.NewBoard("A", "walnut-black", 1000, 200, 25)
	for f := range b.Faces {
		b.Faces[f] = model.Face{Known: true, Zones: model.FaceTapeZones(f+1, 1000, 200, model.Tape{20, 20, 20}, model.Tape{})}
	}
	p.Boards = []*model.Board{b}
	n := model.NewPanel("shelf", model.RoleShelf, 900, 180, 20)
	n.Strips = []model.Strip{{ID: "s1", Board: "A", X: 50, Y: 0, L: 900, W: 60, Up: 1}, {ID: "s2", Board: "A", X: 50, Y: 64, L: 900, W: 120, Up: 1}}
	p.Panels = []*model.Panel{n}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	read := func(when terms.When, by terms.Count, of float64) TermsRead {
		t.Helper()
		y, err := TermsOf("90/90", when, by, of, false)
		if err != nil {
			t.Fatal(err)
		}
		got, err := s.OrderTerms(y, nil)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	before := read(terms.BeforeRipping, terms.ByArea, 1)
	if len(before.Rows) != 1 || before.Rows[0].Verdict != "keeps" || before.Rows[0].Better != "90 % (face 1)" || !strings.HasPrefix(before.Lead, "The order keeps") {
		t.Errorf("%+v", before)
	}
	after := read(terms.AfterRipping, terms.ByArea, 1)
	if len(after.Rows) != 2 || !strings.HasPrefix(after.Rows[0].Better, "66.7 %") || after.Rows[0].Keeps != terms.No || after.Rows[1].Keeps != terms.Yes {
		t.Fatalf("%+v", after)
	}
	// 33.3 % of it are sapwood, 23.3 too many: 14 mm of 60.
	if v := after.Rows[0].Verdict; !strings.Contains(v, "14 mm on the better face, by 23.3 %") {
		t.Error(v)
	}
	if !strings.Contains(after.Lead, "1 of 2 strips") || !strings.Contains(after.Lead, "66.7 % of their area") {
		t.Error(after.Lead)
	}
	// Two thirds of the area keep them, half of the number.
	if got := read(terms.AfterRipping, terms.ByArea, 0.6); !strings.HasPrefix(got.Lead, "The order keeps") {
		t.Error(got.Lead)
	}
	if got := read(terms.AfterRipping, terms.ByCount, 0.6); !strings.HasPrefix(got.Lead, "The order does not") {
		t.Error(got.Lead)
	}
	if _, err := TermsOf("90/70", "", terms.ByArea, 1, false); err == nil {
		t.Error("neither before nor after ripping: no error")
	}
}
