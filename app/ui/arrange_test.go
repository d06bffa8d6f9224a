package ui

import (
	"bytes"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

func TestArrangeOpensByKeyAndSearchesAtOnce(t *testing.T) {
	s := demo(t, 100)
	if a := s.acts.find(ctrl(fyne.KeyG)); a == nil || a.ID != "arrange" || !a.can() {
		t.Fatal("Ctrl+G does not lead to the page")
	}
	if s.act("arrange"); s.page == nil {
		t.Fatal("no page")
	}
	p := s.page.(*arrangePage)
	if !p.running || s.win.Canvas().Focused() != fyne.Focusable(p.gallery) {
		t.Errorf("searching %v, the keys are at %T", p.running, s.win.Canvas().Focused())
	}
	// The demo's own panel and the search itself: all it offers can be laid.
	s.q.wait(t, "the search", func() bool { return !p.running })
	if p.trouble != "" || len(p.found.Answers) == 0 {
		t.Fatalf("%d answers, trouble %q", len(p.found.Answers), p.trouble)
	}
	for _, a := range p.found.Answers {
		if _, err := model.Apply(s.ses.Committed(), a.Edit); err != nil {
			t.Error(err)
		}
	}
	empty := open(t, modelWithPanel(), 100)
	if empty.act("arrange") || empty.page != nil {
		t.Error("a panel of empty places can be arranged")
	}
}

func TestLooksThatAreAskedFor(t *testing.T) {
	for _, k := range []struct {
		look   model.Look
		wanted face.Wanted
		want   model.Look
	}{
		{model.AsLaid, face.WantHeart, model.SapOut}, {model.AsLaid, face.WantSap, model.SapOut}, {model.AsLaid, face.WantBoth, model.SapToSap},
		{model.SapIn, face.WantHeart, model.SapIn}, {"", face.WantHeart, model.SapOut},
	} {
		if got := lookToAsk(k.look, k.wanted); got != k.want {
			t.Errorf("%q wanting %v: %q, want %q", k.look, k.wanted, got, k.want)
		}
	}
}

func TestWhatIsAskedBeginsAnotherSearch(t *testing.T) {
	s := arrangeAt(t, 100)
	if w := s.last().wish; w.Look != model.SapOut || w.NoRoll || w.NoTurn || w.Spares || w.Panel != "top" {
		t.Errorf("asked %+v", w)
	}
	if s.p.head.spares.Visible() {
		t.Error("spares are offered where there are none")
	}
	first := s.last()
	s.p.head.roll.SetChecked(false)
	s.p.head.turn.SetChecked(false)
	s.p.head.look.SetSelected(lookWords(model.SapIn, false))
	if w := s.last().wish; len(s.runs) != 4 || !w.NoRoll || !w.NoTurn || w.Look != model.SapIn {
		t.Fatalf("%d searches, the last asked %+v", len(s.runs), w)
	}
	// What the first one still tells is dropped.
	s.p.box.put(1, session.Found{Answers: []session.Arrangement{s.answer(1, 2, 1, 3, 4)}, Now: first.now})
	s.p.improved()
	s.p.done(1, session.Found{Answers: []session.Arrangement{s.answer(1, 2, 1, 3, 4)}, Now: first.now}, nil)
	if len(s.p.found.Answers) != 0 || !s.p.running {
		t.Error("an old search is heard")
	}
	s.p.head.rings.SetSelected(ringWords(model.RingsBarkUp))
	if s.ses.Committed().Panel("top").Rings != model.RingsBarkUp || len(s.runs) != 5 || s.steps() != 1 {
		t.Errorf("rings %q, %d searches, %d changes", s.ses.Committed().Panel("top").Rings, len(s.runs), s.steps())
	}
	s.act("undo")
	if len(s.runs) != 6 || s.p.head.rings.SelectedIndex() != 0 {
		t.Error("undo of the rings is not followed")
	}
	s.pressed(fyne.KeyEscape)
	s.q.wait(t, "the end", func() bool { return !s.p.running })
}

func TestImprovementsShowAndStopKeepsTheBest(t *testing.T) {
	s := arrangeAt(t, 100)
	if !strings.HasPrefix(s.p.head.note.Text, "Searching…") || !s.p.head.start.Disabled() || s.p.head.halt.Disabled() {
		t.Errorf("while searching it says %q", s.p.head.note.Text)
	}
	s.last().steps <- session.Found{Now: s.last().now, Answers: []session.Arrangement{s.answer(3.2, 2, 1, 3, 4)}, Tried: 1200, Least: endless()}
	s.q.wait(t, "an improvement", func() bool { return len(s.p.found.Answers) == 1 })
	if got := s.p.head.note.Text; !strings.Contains(got, "after 1\u00a0200 arrangements were read, has 3.2 against") {
		t.Errorf("says %q", got)
	}
	if len(s.p.gallery.shown) != 2 || s.p.gallery.tiles[0].against.Text != "9.5 against" || s.p.gallery.tiles[1].against.Text != "3.2 against" {
		t.Errorf("shows %q and %q", s.p.gallery.tiles[0].against.Text, s.p.gallery.tiles[1].against.Text)
	}
	// The search measures contrast only at its end.
	if got := s.p.gallery.tiles[1].text.Text; strings.Contains(got, "contrast") {
		t.Errorf("an answer on the way says %q", got)
	}
	s.pressed(fyne.KeyEscape)
	s.q.wait(t, "the end", func() bool { return !s.p.running })
	if s.page != page(s.p) || len(s.p.found.Answers) != 1 || !strings.HasPrefix(s.p.head.note.Text, "Stopped.") {
		t.Errorf("after Escape: %d answers, %q", len(s.p.found.Answers), s.p.head.note.Text)
	}
	s.pressed(fyne.KeyEscape)
	if s.page != nil || s.p.ctx.Err() == nil {
		t.Error("the second Escape does not leave")
	}
}

func TestUseIsOneStepAndAnswersStay(t *testing.T) {
	s := arrangeAt(t, 100)
	out := &bytes.Buffer{}
	s.trace.out = out
	s.ends(t, s.five(), nil)
	if len(s.p.gallery.shown) != 6 {
		t.Fatalf("%d tiles", len(s.p.gallery.shown))
	}
	runs := len(s.runs)
	s.typed("1")
	s.pressed(fyne.KeyReturn)
	s.lies(t, "t1", "t3", "t2", "t4")
	if s.steps() != 1 || s.page != page(s.p) || len(s.p.found.Answers) != 5 || len(s.runs) != runs {
		t.Errorf("%d changes, %d answers, %d more searches", s.steps(), len(s.p.found.Answers), len(s.runs)-runs)
	}
	if e := s.p.gallery.hand(); e.n != 1 || !e.same || !s.p.side.use.Disabled() {
		t.Error("the answer used is not in hand as how it lies")
	}
	now := s.p.gallery.shown[0]
	if now.lie != s.p.gallery.shown[1].lie || now.against() != "nothing against" {
		t.Errorf("now says %q", now.against())
	}
	s.pressed(fyne.KeyReturn) // again: nothing to do
	if s.steps() != 1 {
		t.Error("used twice")
	}
	// What is to be done is told from how it lies now. Answer 2 is B1, A1, D1,
	// A2; it lies A1, D1, B1, A2 with D1 rolled over and A2 turned.
	if got := s.p.gallery.shown[2].got.Change; got != "move B1, A1 and D1; roll over D1; turn end for end A2" {
		t.Errorf("to answer 2: %q", got)
	}
	s.act("undo")
	s.lies(t, "t1", "t2", "t3", "t4")
	if got := s.p.gallery.tiles[0].against.Text; got != "9.5 against" || s.p.gallery.shown[1].same {
		t.Errorf("after undo now says %q", got)
	}
	for _, want := range []string{"trace: answers 5\n", "trace: used\n"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in the trace", want)
		}
	}
}

func TestKeepAndForget(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	s.typed("0k")
	if s.asks == nil {
		t.Fatal("no name is asked for")
	}
	s.asks.q.focus.(*field).SetText("  ")
	s.pressed(fyne.KeyReturn)
	if s.asks == nil || len(s.ses.Committed().Kept) != 0 {
		t.Fatal("kept without a name")
	}
	s.asks.q.focus.(*field).SetText(" the  quiet one ")
	s.pressed(fyne.KeyReturn)
	if k := s.ses.Committed().Kept; len(k) != 1 || k[0].Name != "the quiet one" || k[0].Panel != "top" || s.steps() != 1 {
		t.Fatalf("kept %v", k)
	}
	// An answer is kept too.
	s.typed("2k")
	s.asks.q.focus.(*field).SetText("The quiet one")
	s.pressed(fyne.KeyReturn)
	if s.asks == nil {
		t.Error("one name for two")
	}
	s.asks.q.focus.(*field).SetText("second")
	s.pressed(fyne.KeyReturn)
	k := s.ses.Committed().Kept
	if len(k) != 2 || k[1].Strips[0].ID != "t2" {
		t.Fatalf("kept %v", k)
	}
	if n := len(s.p.gallery.shown); n != 8 || s.p.gallery.shown[7].title() != "Kept “second”" {
		t.Fatalf("%d tiles, the last %q", n, s.p.gallery.shown[7].title())
	}
	// Delete on a tile that is not kept does nothing.
	s.typed("1")
	s.pressed(fyne.KeyDelete)
	if len(s.ses.Committed().Kept) != 2 {
		t.Error("an answer is forgotten")
	}
	s.pressed(fyne.KeyEnd)
	s.pressed(fyne.KeyDelete)
	if k := s.ses.Committed().Kept; len(k) != 1 || len(s.p.gallery.shown) != 7 {
		t.Errorf("kept %v, %d tiles", k, len(s.p.gallery.shown))
	}
	s.act("undo")
	if len(s.ses.Committed().Kept) != 2 || len(s.p.gallery.shown) != 8 {
		t.Error("undo does not bring it back")
	}
	// The first one is the demo as it was.
	s.p.gallery.take(6)
	s.pressed(fyne.KeyReturn)
	s.lies(t, "t1", "t2", "t3", "t4")
}

// Marks of a joint lie at the joint, those of strips over the strips: the
// demo's top has strips of 70, 92, 112 and 98 mm, 372 on 360, so that it
// begins 6 mm before the front edge.
func TestReasonsPointAtTheirPlace(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	s.typed("0w")
	g := s.p.gallery
	if len(g.marks) != 1 || g.marks[0] != geom.R(0, 64, 1150, 156) {
		t.Errorf("strip B1 is pointed out at %v", g.marks)
	}
	s.pictures(t)
	if len(g.tiles[0].over.Objects) != 2 {
		t.Error("nothing is drawn over the picture")
	}
	s.pressed(fyne.KeyDown)
	if len(g.marks) != 1 || g.marks[0] != geom.R(0, 156, 1150, 156) {
		t.Errorf("the joint is pointed out at %v", g.marks)
	}
	s.pressed(fyne.KeyReturn) // back to the pictures
	if g.marks != nil || len(g.tiles[0].over.Objects) != 0 {
		t.Error("it is pointed out on")
	}
	row := s.p.side.reasons[0]
	row.MouseIn(nil)
	if len(g.marks) != 1 {
		t.Error("the pointer points nothing out")
	}
	row.MouseOut()
	if g.marks != nil {
		t.Error("it stays pointed out")
	}
	s.typed("1") // nothing against it
	if text := s.p.side.why.Objects[0].(*fyne.Container).Objects[0]; !strings.Contains(labelText(text), "Nothing speaks against it.") {
		t.Errorf("says %q", labelText(text))
	}
}
