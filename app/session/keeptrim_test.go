package session

import (
	"context"
	"math"
	"strings"
	"testing"

	"heartside/layout/cost"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/unit"
)

// heldAgainst are the words for figures given by hand.
func heldAgainst(t *testing.T, k *KeptTrimmed, c ClearOffer) Against {
	t.Helper()
	a, err := k.Against(c)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func valuesOf(t *testing.T, a Against, name string) []string {
	t.Helper()
	for _, r := range a.Rows {
		if r.Name == name {
			return r.Values
		}
	}
	t.Fatalf("there is no row %q", name)
	return nil
}

// byHand are two plans for 0.7 m2 finished, 25.4 mm thick. Keeping uses 1.0 m2:
// 30 % is lost. Trimming uses 1.4 m2: 50 % is lost. A square metre an inch thick
// is 1e6 / 92903.04 = 10.7639 board feet; at 1.00 a board foot keeping costs
// 10.76 and trimming 15.07.
func byHand() *KeptTrimmed {
	p := func(way cost.Way, used float64) KeptPlan {
		return KeptPlan{Planned: Planned{ID: string(way)}, Thickness: 25.4, Cost: cost.Plan{Way: way, Finished: 0.7e6, Used: used, Lost: used - 0.7e6,
			UsedVolume: used * 25.4, LostVolume: (used - 0.7e6) * 25.4, Cost: used / 92903.04, Priced: true}}
	}
	return &KeptTrimmed{Keep: p(cost.Keep, 1e6), Trim: p(cost.Trim, 1.4e6), sys: unit.Inch, wood: "light wood"}
}

// 30 % waste: buy 100 / (1 - 0.30) = 142.9 for 100 and add 43 %, not 30 %.
// Clear at 1.30 with 25 % lost: 1 - 0.75/1.30 = 42.3 % is even with stock at 1.00.
// Even price against keeping: used face of clear is 0.7/0.75 = 0.9333 m2, so
// 1.0/0.9333 = 1.07 a board foot; against trimming 1.4/0.9333 = 1.50.
func TestKeepTrimByHand(t *testing.T) {
	a := heldAgainst(t, byHand(), ClearOffer{Rate: cost.Rate{Amount: 1.30, Per: cost.PerBoardFoot}, Loss: LossClear, Thickness: 25.4})
	if got := valuesOf(t, a, "To buy for 100 finished"); !strings.HasPrefix(got[0], "143: add 43") || !strings.HasPrefix(got[1], "200: add 100") || !strings.HasPrefix(got[2], "133: add 33") {
		t.Errorf("to buy: %q", got)
	}
	// Clear: 0.9333 m2 * 10.7639 * 1.30 = 13.06.
	if got := valuesOf(t, a, "Cost of the wood used"); got[0] != "10.76" || got[1] != "15.07" || got[2] != "13.06" {
		t.Errorf("cost: %q", got)
	}
	// Kept out of the bin: 0.7 - 0.3 = 0.4 m2 = 4.31 ft2, an inch thick 4.31 bd ft.
	if got := valuesOf(t, a, "Kept out of the bin"); !strings.HasPrefix(got[0], "4.31 ft², 4.31 bd ft") || !strings.HasPrefix(got[1], "nothing") {
		t.Errorf("spared: %q", got)
	}
	all := strings.Join(a.Verdicts, "\n")
	for _, want := range []string{"buy 143 for 100 finished", "at 1.07 a board foot costs as much as the plan that keeps", "dearer one",
		"at 1.50 a board foot costs as much as the plan that trims", "cheaper one", "costs 4.31 more"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
	if !strings.Contains(all, "even with them when "+unit.FormatPercent(1-0.75/1.30)+" of them is lost") {
		t.Errorf("the even loss is not 42.3 %% in\n%s", all)
	}
}

// Without prices nothing reads as free, and it is said what to do.
func TestKeepTrimWithoutPrices(t *testing.T) {
	k := byHand()
	for _, p := range []*KeptPlan{&k.Keep, &k.Trim} {
		p.Cost.Priced, p.Cost.Cost, p.Unpriced = false, 0, []string{"A", "B"}
	}
	a := heldAgainst(t, k, ClearOffer{Rate: cost.Rate{Per: cost.PerBoardFoot}, Loss: LossClear, Thickness: 25.4})
	for _, r := range a.Rows {
		for _, v := range r.Values {
			if strings.Contains(v, "0.00") && strings.HasPrefix(r.Name, "Cost") {
				t.Errorf("%s says %q", r.Name, v)
			}
		}
	}
	if got := valuesOf(t, a, "Cost of the wood used"); got[0] != "not known: no price for A and B" || got[2] != "no price yet" {
		t.Errorf("cost: %q", got)
	}
	if all := strings.Join(append(a.Verdicts, a.Warnings...), "\n"); strings.Contains(all, "Even price") || strings.Count(all, "have no price") != 1 || !strings.Contains(all, "Board in hand…, Price") {
		t.Errorf("it says\n%s", all)
	}
}

// A loss of all of it leaves the rows of the two plans.
func TestKeepTrimOfImpossibleClearStock(t *testing.T) {
	a, err := byHand().Against(ClearOffer{Rate: cost.Rate{Amount: 1, Per: cost.PerBoardFoot}, Loss: 1, Thickness: 25.4})
	if err == nil || len(a.Rows) == 0 {
		t.Fatalf("error %v, %d rows", err, len(a.Rows))
	}
	if got := valuesOf(t, a, "Wood used up"); got[0] == "not known" || got[2] != "not known" {
		t.Errorf("used: %q", got)
	}
}

// edged is a shelf of 700 x 240 mm and boards of 2000 x 200 mm with 60 mm of
// sapwood along one edge of both faces.
func edged() *model.Project {
	p := model.NewProject()
	for _, id := range []string{"A", "B", "C"} {
		b := bareBoard(id, 2000, 200)
		for f := range b.Faces {
			b.Faces[f].Zones = []model.Zone{{Kind: model.Sap, Polygon: rect(0, 0, 2000, 60)}}
		}
		p.Boards = append(p.Boards, b)
	}
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 700, 240, 20))
	return p
}

func keptTrimmed(t *testing.T, s *Session, panel string) *KeptTrimmed {
	t.Helper()
	job, err := s.KeepTrim(panel)
	if err != nil {
		t.Fatal(err)
	}
	got, err := job.Run(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// 140 mm of each board is heartwood: 240 mm are to be had from two strips
// without any sapwood, which wastes the 60 mm; keeping uses no more than that.
// Finished is 0.700 x 0.240 = 0.168 m2 both times. The boards are 25 mm and the
// shelf is 20: planing takes 0.168e6 x 5 = 840 000 mm3, told once.
func TestKeepTrimOfEdgedBoards(t *testing.T) {
	s := New(edged(), Options{})
	defer s.Close()
	k := keptTrimmed(t, s, "shelf")
	if k.Trim.Cost.Missing > 1 || k.Keep.Cost.Missing > 1 || math.Abs(k.Keep.Cost.Finished-168000) > 1 || math.Abs(k.Trim.Cost.Finished-168000) > 1 {
		t.Fatalf("keep %+v\ntrim %+v", k.Keep.Cost, k.Trim.Cost)
	}
	if k.Trim.Unwanted > 1e-6 || k.Trim.Cost.Unwanted {
		t.Errorf("the trimmed plan shows %.3f of sapwood", k.Trim.Unwanted)
	}
	if k.Keep.Cost.Used > k.Trim.Cost.Used+1 {
		t.Errorf("keeping uses %.0f, trimming %.0f", k.Keep.Cost.Used, k.Trim.Cost.Used)
	}
	for _, p := range []*KeptPlan{&k.Keep, &k.Trim} {
		c := p.Cost
		if math.Abs(p.Planed-840000) > 1 || math.Abs(c.UsedVolume-25*c.Used) > 1 || math.Abs(c.LostVolume-25*c.Lost) > 1 || c.Priced {
			t.Errorf("planed %.0f, plan %+v", p.Planed, c)
		}
	}
	if k.Trim.Edit == nil || s.Commit(k.Trim.Edit) != nil {
		t.Fatal("it cannot be used")
	}
	for _, f := range s.fit() {
		if f.Kind == face.PartsOverlap || f.Kind == face.OutsideBoard {
			t.Errorf("%s %v", f.Kind, f.Strips)
		}
	}
	s.Undo()
	if len(s.Project().Panel("shelf").Strips) != 0 {
		t.Error("one undo does not take it back")
	}
}

// The whole project names what is left out; a panel that is pinned is told.
func TestKeepTrimLeavesWhatIsPinned(t *testing.T) {
	p := edged()
	n := model.NewPanel("top", model.RoleTop, 700, 140, 20)
	n.Strips = []model.Strip{{ID: "top-1", Board: "C", X: 10, Y: 60, L: 720, W: 140, Up: 1, Pinned: true, Stage: model.Planned}}
	p.Panels = append(p.Panels, n)
	s := New(p, Options{})
	defer s.Close()
	if _, err := s.KeepTrim("top"); err == nil || !strings.Contains(err.Error(), "pinned") {
		t.Errorf("error %v", err)
	}
	k := keptTrimmed(t, s, "")
	if len(k.Left) != 1 || !strings.Contains(k.Left[0], "top") {
		t.Errorf("left out: %q", k.Left)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	job, err := s.KeepTrim("")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := job.Run(ctx, nil); err == nil {
		t.Error("a search that was ended tells no error")
	}
}

// Where the search says that a panel can be had without unwanted wood, none shows
// as it is laid either: the arrangement may not roll it up again.
func TestKeepTrimShowsNoneAsLaid(t *testing.T) {
	s := demo(t)
	k := keptTrimmed(t, s, "top")
	if k.Trim.Cost.Unwanted || k.Trim.Cost.Missing > 1 {
		t.Fatalf("the demo's boards give no clear top: %+v", k.Trim.Cost)
	}
	if k.Trim.Unwanted >= stillShows {
		t.Errorf("the trimmed plan shows %.3f of it", k.Trim.Unwanted)
	}
}

// What needs more wood than there is makes no whole plan, even where a panel
// lacks only the edges that are trimmed off it at last.
func TestKeepTrimShortIsNotWhole(t *testing.T) {
	s := demo(t)
	k, short := keptTrimmed(t, s, ""), 0
	for _, p := range []*KeptPlan{&k.Keep, &k.Trim} {
		if lacks := len(p.Short) > 0; lacks != (p.Cost.Missing > 1) || lacks && p.Cost.Whole() {
			t.Errorf("the plan to %s: %q, yet %.0f mm2 are missing", p.Cost.Way, p.Short, p.Cost.Missing)
		}
		short += len(p.Short)
	}
	if short == 0 {
		t.Error("the demo's boards give all of it: this checks nothing")
	}
}
