package session

import (
	"strings"
	"testing"
	"time"

	"heartside/layout/layouttest"
	"heartside/model"
	"heartside/model/unit"
)

// quantitySession has a panel of 1000 x 400 x 20 of which a strip lies on board A,
// 2000 x 250 x 25; board B, 1000 x 300 x 25, is not cut.
func quantitySession(t *testing.T) *Session {
	p := model.NewProject()
	p.Name = "Shelf"
	p.Boards = []*model.Board{model.NewBoard("A", "walnut-black", 2000, 250, 25), model.NewBoard("B", "walnut-black", 1000, 300, 25)}
	n := model.NewPanel("shelf", model.RoleShelf, 1000, 400, 20)
	st := model.NewPlace("1", 1030, 200)
	st.Board, st.X, st.Y = "A", 50, 10
	n.Strips = []model.Strip{st, model.NewPlace("2", 1030, 200)}
	p.Panels = []*model.Panel{n}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	return s
}

// By the trade notes: with 30 % waste 143 are bought for 100, adding 30 % covers 23
// % only. 0.4 m2 / 0.7 = 0.571 m2; at 25 mm 0.0143 m3; 0.4 x 1.3 = 0.520.
func TestQuantityToBuy(t *testing.T) {
	s := quantitySession(t)
	got, err := s.ToBuy(0.30)
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(got, "\n")
	for _, want := range []string{"Buy 0.571 m², at 25 mm thick 0.0143 m³ for 0.400 m²", "buy 143 for 100", "adding 43 %", "gives 0.520 m² and covers only 23 % lost"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
	if got, err = s.ToBuy(0); err != nil || len(got) != 1 || !strings.Contains(got[0], "Buy 0.400 m²") {
		t.Errorf("without waste: %v, %v", got, err)
	}
	for _, bad := range []float64{1, 1.2, -0.1} {
		if _, err := s.ToBuy(bad); err == nil {
			t.Errorf("a waste of %g: no error", bad)
		}
	}
	if err := s.Commit(model.SetSettings{Settings: model.Settings{Units: unit.Inch}}); err != nil {
		t.Fatal(err)
	}
	// 0.4 m2 are 4.3056 square feet; / 0.7 = 6.15. At 25 mm (0.98425 inches) 6.05
	// board feet.
	if got, _ = s.ToBuy(0.30); !strings.Contains(got[0], "Buy 6.15 ft²") || !strings.Contains(got[0], "6.05 bd ft") {
		t.Errorf("in inches: %v", got)
	}
}

// One of two like strips lies on board A: half of 0.4 m2 is made of its 0.5 m2, 60 %
// lost; with the other one on B all of it, of 0.8 m2, 50 %; of B alone 0.2 of 0.3, a
// third. 20 of 25 mm are finished thickness, apart.
func TestThisJobsWaste(t *testing.T) {
	s := quantitySession(t)
	if got := s.CutBoards(); len(got) != 1 || got[0] != "A" {
		t.Fatalf("boards that are cut: %v", got)
	}
	now := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	j, err := s.ThisJob([]string{"A"}, now)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "waste", j.Waste(), 0.60, 1e-9)
	layouttest.Near(t, "thickness", j.Thick, 0.80, 1e-9)
	if j.Species != "walnut-black" || j.Name != "Shelf" || !strings.Contains(s.JobWords(&j), "0.200 m² finished of 0.500 m² bought, 60 % lost; of the thickness, apart, 20 % planed off") {
		t.Errorf("%+v, %s", j, s.JobWords(&j))
	}
	if _, err := s.ThisJob([]string{"B"}, now); err == nil {
		t.Error("of a board that nothing lies on: no error")
	}
	if err := s.Commit(model.PlaceStrip{Panel: "shelf", Strip: "2", Board: "B", X: -20, Y: 10}); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		boards []string
		want   float64
	}{{[]string{"A", "B"}, 0.50}, {[]string{"B"}, 1.0 / 3}} {
		if j, err = s.ThisJob(c.boards, now); err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, strings.Join(c.boards, ","), j.Waste(), c.want, 1e-9)
	}
	if _, err := s.ThisJob(nil, now); err == nil {
		t.Error("of no board: no error")
	}
}

// Jobs of 1 and 3 m2 bought with 0.5 and 0.9 finished: 1.4 of 4, 65 % lost.
func TestWasteOfOwnJobs(t *testing.T) {
	jobs := []PastJob{
		{Species: "walnut-black", Finished: 0.5e6, Bought: 1e6}, {Species: "walnut-black", Finished: 0.9e6, Bought: 3e6},
		{Species: "cherry-black", Finished: 0.8e6, Bought: 1e6}, {Species: "walnut-black"}, {Species: "walnut-black", Finished: 2, Bought: 1},
	}
	w, from := WasteOf(jobs, "walnut-black")
	layouttest.Near(t, "walnut", w, 0.65, 1e-9)
	if !strings.Contains(from, "2 jobs in") {
		t.Error(from)
	}
	w, from = WasteOf(jobs, "teak") // 2.2 of 5
	layouttest.Near(t, "all", w, 0.56, 1e-9)
	if !strings.Contains(from, "3 jobs in other woods") {
		t.Error(from)
	}
	if _, from = WasteOf(jobs, ""); strings.Contains(from, "other woods") {
		t.Error(from)
	}
	if w, from = WasteOf(nil, "teak"); w != 0.30 || !strings.Contains(from, "no source") {
		t.Error(w, from)
	}
}
