package cost

import (
	"testing"

	"heartside/layout/layouttest"
)

// By hand: 0.72 m2 of panel from 26 mm stock. Kept, two boards of 2400 x 200 are
// used up, 0.96 m2; trimmed of a fifth, 1.20 m2 and three boards; clear stock at
// 1.30 of the price loses a quarter: 0.96 m2 too.
var (
	kept    = Plan{Way: Keep, Finished: 0.72e6, Used: 0.96e6, Lost: 0.24e6, UsedVolume: 0.96e6 * 26, LostVolume: 0.24e6 * 26, Boards: 2, Joints: 4, Cost: 96, Priced: true, Points: 5, Judged: true}
	trimmed = Plan{Way: Trim, Finished: 0.72e6, Used: 1.20e6, Lost: 0.48e6, UsedVolume: 1.20e6 * 26, LostVolume: 0.48e6 * 26, Boards: 3, Joints: 6, Cost: 120, Priced: true, Judged: true}
	// 100 a m2 of 26 mm is 100 / 0.026 a m3; clear at 1.30 of it.
	offer = ClearStock{Rate: Rate{130 / 0.026, PerCubicMetre}, Thickness: 26, Loss: 0.25, Board: Size{2400, 200, 26}, Joints: 3}
)

func TestKeepTrimOrBuyClear(t *testing.T) {
	clear, err := offer.Plan(0.72e6)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "clear stock used", clear.Used, 0.96e6, 1e-3)
	layouttest.Near(t, "clear stock costs", clear.Cost, 124.8, 1e-9)
	layouttest.Near(t, "loss", clear.Loss(), 0.25, 1e-12)
	if clear.Boards != 2 || clear.Joints != 3 || !clear.Priced || !clear.Whole() {
		t.Errorf("%+v", clear)
	}
	rows, err := Compare([]Plan{kept, trimmed, clear})
	if err != nil {
		t.Fatal(err)
	}
	r := rows[1]
	layouttest.Near(t, "trimming takes more wood", r.MoreUsed, 0.24e6, 1e-6)
	layouttest.Near(t, "in board feet", BoardFeet(r.MoreUsedVolume), 0.24*0.026*423.776, 1e-3)
	layouttest.Near(t, "more lost", r.MoreLost, 0.24e6, 1e-6)
	layouttest.Near(t, "dearer", r.MoreCost, 24, 1e-9)
	layouttest.Near(t, "fewer points against it", r.MorePoints, -5, 1e-12)
	if r.MoreBoards != 1 || r.MoreJoints != 2 {
		t.Errorf("%+v", r)
	}
	// Kept out of the bin, against trimming: 0.24 m2, 0.00624 m3.
	layouttest.Near(t, "spared by keeping", rows[0].Spared, 0.24e6, 1e-6)
	layouttest.Near(t, "in m3", CubicMetres(rows[0].SparedVolume), 0.00624, 1e-9)
	layouttest.Near(t, "spared by trimming", rows[1].Spared, 0, 1e-9)
	layouttest.Near(t, "spared by clear stock", rows[2].Spared, 0.24e6, 1e-3)
	for i, r := range rows {
		if r.Beaten != -1 {
			t.Errorf("plan %d is beaten by %d", i, r.Beaten)
		}
	}
	// What a clear unit may cost to be even with trimming: 120 for 0.96 m2.
	even, err := offer.EvenRate(trimmed)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "even price", even.Amount, 125/0.026, 1e-6)
	// The break-even of the raw prices says the same: at 42.3 % loss trimmed
	// stock at 100 a m2 costs what clear stock does.
	sappy := trimmed
	sappy.Used = 0.72e6 / (0.75 / 1.30)
	sappy.Lost, sappy.Cost = sappy.Used-0.72e6, sappy.Used/1e4
	sappy.UsedVolume, sappy.LostVolume = sappy.Used*26, sappy.Lost*26
	layouttest.Near(t, "its loss", sappy.Loss(), 0.423, 5e-4)
	layouttest.Near(t, "its cost", sappy.Cost, clear.Cost, 1e-9)
}

func TestBeaten(t *testing.T) {
	worse := trimmed
	worse.Points = 6
	rows, err := Compare([]Plan{kept, worse})
	if err != nil {
		t.Fatal(err)
	}
	if rows[0].Beaten != -1 || rows[1].Beaten != 0 {
		t.Errorf("%+v", rows)
	}
	// One that shows too much unwanted wood, or lacks a part, beats none and is
	// beaten by one that is no worse otherwise.
	bad := kept
	bad.Unwanted = true
	if rows, err = Compare([]Plan{bad, worse}); err != nil || rows[1].Beaten != -1 {
		t.Errorf("%+v, %v", rows, err)
	}
	if rows, err = Compare([]Plan{bad, kept}); err != nil || rows[0].Beaten != 1 || rows[1].Beaten != -1 {
		t.Errorf("%+v, %v", rows, err)
	}
	short := kept
	short.Finished, short.Missing, short.Lost = 0.70e6, 0.02e6, 0.26e6
	if rows, err = Compare([]Plan{short, kept}); err != nil || rows[0].Beaten != 1 {
		t.Errorf("%+v, %v", rows, err)
	}
	// Without a price nothing is said of money, and neither beats the other.
	free := worse
	free.Priced, free.Cost = false, 0
	if rows, err = Compare([]Plan{kept, free}); err != nil || rows[1].MoreCost != 0 || rows[1].Beaten != -1 {
		t.Errorf("%+v, %v", rows, err)
	}
	// Alike in everything, neither beats the other.
	if rows, err = Compare([]Plan{kept, kept}); err != nil || rows[0].Beaten != -1 || rows[1].Beaten != -1 {
		t.Errorf("%+v, %v", rows, err)
	}
}

func TestComparisonErrors(t *testing.T) {
	other := kept
	other.Finished = 0.9e6
	more := kept
	more.Lost = 2e6
	under := kept
	under.Cost = -1
	for _, list := range [][]Plan{{kept, other}, {more}, {under}} {
		if _, err := Compare(list); err == nil {
			t.Errorf("%+v: no error", list)
		}
	}
	if rows, err := Compare(nil); err != nil || len(rows) > 0 {
		t.Error(rows, err)
	}
	for _, c := range []ClearStock{{Rate: offer.Rate, Loss: 0.2}, {Rate: Rate{5, PerBoard}, Thickness: 26}, {Rate: offer.Rate, Thickness: 26, Loss: 1}, {Rate: Rate{5, "kilo"}, Thickness: 26}} {
		if _, err := c.Plan(1e6); err == nil {
			t.Errorf("%+v: no error", c)
		}
		if _, err := c.EvenRate(kept); err == nil {
			t.Errorf("%+v: no error", c)
		}
	}
	if _, err := offer.EvenRate(Plan{}); err == nil {
		t.Error("nothing finished: no error")
	}
}
