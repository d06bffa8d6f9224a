package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
	"heartside/model"
)

// keepTrimAt opens the page on a shelf and two boards with a sapwood edge, and
// waits for the search.
func keepTrimAt(t *testing.T) (stage, *keepTrimPage) {
	t.Helper()
	p := model.NewProject()
	for _, id := range []string{"A", "B"} {
		b := model.NewBoard(id, "walnut-black", 2000, 200, 25)
		for f := range b.Faces {
			b.Faces[f] = model.Face{Known: true, Base: model.Heart, Zones: []model.Zone{{Kind: model.Sap, Polygon: geom.R(0, 0, 2000, 60).Polygon()}}}
		}
		p.Boards = append(p.Boards, b)
	}
	p.Panels = append(p.Panels, model.NewPanel("shelf", model.RoleShelf, 700, 240, 20))
	s := open(t, p, 100)
	if a := s.acts.find(ctrl(fyne.KeyU)); a == nil || a.ID != "keep-trim" {
		t.Fatal("Ctrl+U does not lead to the page")
	}
	s.act("keep-trim")
	k, ok := s.page.(*keepTrimPage)
	if !ok {
		t.Fatalf("the page is %T", s.page)
	}
	waitKeepTrim(t, s, k)
	return s, k
}

func waitKeepTrim(t *testing.T, s stage, k *keepTrimPage) {
	t.Helper()
	s.q.wait(t, "both plans", func() bool { return !k.running() })
}

func keepTrimSays(k *keepTrimPage) string {
	return strings.Join(append(said(k.body), k.offer.note.Text), "\n")
}

// It says that prices are missing, never a cost of nothing; a price and a loss
// that make no sense are told, and sound ones bring the third column.
func TestKeepTrimFields(t *testing.T) {
	_, k := keepTrimAt(t)
	if len(k.cards) != 1 || k.cards[0].got == nil {
		t.Fatalf("cards: %+v", k.cards)
	}
	if all := keepTrimSays(k); !strings.Contains(all, "no price for") || strings.Contains(all, "\n0.00") || !strings.Contains(all, "no price yet") || !strings.Contains(all, "Lost is the face") {
		t.Errorf("it says\n%s", all)
	}
	k.offer.loss.SetText("100")
	if got := k.offer.note.Text; !strings.Contains(got, "0 to under 100 %") || k.offer.note.Importance != widget.WarningImportance {
		t.Errorf("a loss of 100 %%: %q", got)
	}
	k.offer.loss.SetText("25")
	k.offer.price.SetText("dear")
	if got := k.offer.note.Text; !strings.Contains(got, "no number") {
		t.Errorf("a price in words: %q", got)
	}
	// 0.168 m2 finished of stock 25 mm thick, a quarter lost: 0.168/0.75*0.025 =
	// 0.0056 m3, at 1000 a cubic metre 5.60.
	k.offer.price.SetText("1000")
	if all := keepTrimSays(k); strings.Contains(all, "no number") || !strings.Contains(all, "5.60") {
		t.Errorf("it says\n%s", all)
	}
}

// The trimmed plan is laid as one step.
func TestKeepTrimUsed(t *testing.T) {
	s, k := keepTrimAt(t)
	k.use(k.cards[0])
	if len(s.ses.Project().Panel("shelf").Strips) == 0 {
		t.Fatal("nothing is laid")
	}
	if !k.current(k.cards[0]) || !k.cards[0].laid[s.ses.Committed()] {
		t.Error("it is not told that it lies so")
	}
	s.act("undo")
	if len(s.ses.Project().Panel("shelf").Strips) != 0 {
		t.Error("one undo does not take it back")
	}
	e := *s.ses.Project().Panel("shelf")
	e.Width = 150
	if err := s.ses.Commit(model.SetPanel{Panel: &e}); err != nil {
		t.Fatal(err)
	}
	k.use(k.cards[0])
	if len(s.ses.Project().Panel("shelf").Strips) != 0 {
		t.Error("a plan of what the project was before is laid")
	}
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if s.page != nil {
		t.Error("Esc does not go back")
	}
}

// The page scrolls from where the keys are at first: a button.
func TestKeepTrimScrolls(t *testing.T) {
	s, k := keepTrimAt(t)
	s.win.Resize(fyne.NewSize(700, 420))
	if k.scroll.Content.Size().Height <= k.scroll.Size().Height {
		t.Fatal("all of it is seen: this checks nothing")
	}
	s.takeKeys()
	press := func(key fyne.KeyName) { s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key}) }
	press(fyne.KeyPageDown)
	down := k.scroll.Offset.Y
	press(fyne.KeyPageUp)
	if down <= 0 || k.scroll.Offset.Y != 0 {
		t.Errorf("down to %g, then up to %g", down, k.scroll.Offset.Y)
	}
}
