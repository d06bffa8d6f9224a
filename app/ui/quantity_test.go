package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"heartside/app/session"
	"heartside/model"
)

// What clear stock costs is the project's: one undo for each field that is left,
// and the plans that were found stay.
func TestClearStockIsSavedWithTheProject(t *testing.T) {
	s, k := keepTrimAt(t)
	before := s.steps()
	k.offer.price.SetText("1000")
	k.offer.price.left()
	k.offer.thick.SetText("27")
	k.offer.thick.left()
	k.offer.thick.left() // nothing new
	c := s.ses.Project().Clear
	if s.steps() != before+2 || c == nil || c.Price == nil || *c.Price != (model.Price{Amount: 1000, Per: "cubic-metre"}) || c.Thickness != 27 || c.Loss != 0.25 {
		t.Fatalf("%d steps, %+v", s.steps()-before, c)
	}
	if !k.current(k.cards[0]) || strings.Contains(keepTrimSays(k), "has changed since") {
		t.Error("the plans are said to be out of date")
	}
	s.act("undo")
	if k.offer.thick.Text != "" || k.offer.price.Text != "1000" {
		t.Errorf("after undo the fields say %q, %q", k.offer.price.Text, k.offer.thick.Text)
	}
	k.offer.loss.SetText("nought")
	k.offer.loss.left()
	if s.ses.Project().Clear.Loss != 0.25 || k.offer.loss.Text != "nought" {
		t.Error("what cannot be read is kept, or gone from the field")
	}
}

func TestClearStockLeftAloneIsNoChange(t *testing.T) {
	s, k := keepTrimAt(t)
	before := s.steps()
	k.offer.price.left()
	k.offer.loss.left()
	if s.steps() != before || s.ses.Project().Clear != nil {
		t.Errorf("%d steps, %+v", s.steps()-before, s.ses.Project().Clear)
	}
}

// A shelf of 700 x 240 is 0.168 m2; with the usual 30 % lost 0.240 m2 are bought.
// After a job that took 0.4 m2 for 0.168, 58 % is what is reckoned with: 0.400.
func TestHowMuchToBuyByOwnJobs(t *testing.T) {
	s, k := keepTrimAt(t)
	if all := keepTrimSays(k); !strings.Contains(all, "Buy 0.240 m²") || !strings.Contains(all, "common practice, no source") {
		t.Errorf("it says\n%s", all)
	}
	k.use(k.cards[0]) // something is cut now
	f := s.jobsAsk(k.buying.fill)
	if s.asks == nil || s.asks.q.title != "Past jobs" {
		t.Fatal("no dialog is up")
	}
	for _, x := range f.ticks {
		x.SetChecked(false)
	}
	if !f.keep.Disabled() || !strings.Contains(f.said.Text, "Tick the boards") {
		t.Errorf("with no board: %q", f.said.Text)
	}
	f.ticks["A"].SetChecked(true)
	if f.keep.Disabled() || !strings.Contains(f.said.Text, "0.168 m² finished of 0.400 m² bought, 58 % lost") {
		t.Fatalf("of board A: %q", f.said.Text)
	}
	f.add()
	if all := keepTrimSays(k); !strings.Contains(all, "Buy 0.400 m²") || !strings.Contains(all, "your own: 1 job in Walnut, black") {
		t.Errorf("with the job it says\n%s", all)
	}
	k.buying.waste.SetText("20 %")
	if all := keepTrimSays(k); !strings.Contains(all, "Buy 0.210 m²") || !strings.Contains(all, "as typed") {
		t.Errorf("with 20 %% typed it says\n%s", all)
	}
	k.buying.waste.SetText("100 %")
	if all := keepTrimSays(k); !strings.Contains(all, "⚠ Lost of what is bought") {
		t.Errorf("with 100 %% typed it says\n%s", all)
	}
}

func TestPastJobsOutliveTheProgram(t *testing.T) {
	s := settings{test.NewTempApp(t).Preferences()}
	if len(s.jobs()) != 0 {
		t.Fatal("there are jobs before the first")
	}
	s.keepJobs([]session.PastJob{{Name: "Shelf", Species: "teak", Finished: 2, Bought: 3}})
	if got := s.jobs(); len(got) != 1 || got[0].Name != "Shelf" || got[0].Bought != 3 {
		t.Errorf("%+v", got)
	}
	s.p.SetString(keyJobs, `[{"Name":"odd","Finished":2,"Bought":0},{"Name":"good","Finished":1,"Bought":2}]`)
	if got := s.jobs(); len(got) != 1 || got[0].Name != "good" {
		t.Errorf("a job without wood is let in: %+v", got)
	}
	s.p.SetString(keyJobs, "no list")
	if got := s.jobs(); got != nil || !s.jobsAside() {
		t.Errorf("%+v, set aside %v", got, s.jobsAside())
	}
	s.keepJobs([]session.PastJob{{Name: "next", Finished: 1, Bought: 2}})
	if got := s.jobs(); len(got) != 1 || s.p.String(keyJobsAside) != "no list" {
		t.Errorf("the next job is %+v, what was there %q", got, s.p.String(keyJobsAside))
	}
}
