package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/model"
)

// planks is a panel of two strips 16 mm thick from a board of 20 mm, with
// sapwood along the marked edge: 65 mm wide on face 1, none on face 2.
func planks() *model.Project {
	p := model.NewProject()
	p.Allowances.AfterGlue = 1
	b := model.NewBoard("A", "walnut-black", 2000, 220, 20)
	for i := range b.Faces {
		b.Faces[i] = model.Face{Known: true, Base: model.Heart}
	}
	b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.R(0, 0, 2000, 65).Polygon()}}
	p.Boards = []*model.Board{b}
	n := model.NewPanel("top", model.RoleTop, 800, 390, 16)
	n.Strips = []model.Strip{
		{ID: "A1", Board: "A", X: 30, Y: 5, L: 830, W: 200, Up: 1, Stage: model.Planned},
		{ID: "A2", Board: "A", X: 1000, Y: 5, L: 830, W: 200, Up: 2, Stage: model.Planned},
	}
	p.Panels = []*model.Panel{n}
	return p
}

// slide types a key on the slider.
func slide(s stage, k fyne.KeyName) { s.depth.slider.TypedKey(&fyne.KeyEvent{Name: k}) }

func TestDepthSliderByKeys(t *testing.T) {
	s := open(t, planks(), 100)
	s.ses.Select(session.Selection{Panel: "top", Board: "A", Zone: -1})
	if !s.depth.box.Hidden {
		t.Error("the slider is up unasked")
	}
	light := s.ses.Reading("top").Show.Light.Value
	s.key(fyne.KeyD)
	if s.depth.box.Hidden || s.win.Canvas().Focused() != fyne.Focusable(s.depth.slider) {
		t.Fatal("D does not bring the slider up and give it the keys")
	}
	in := s.surf.input()
	if s.depth.says.Text != "Finished: 16 mm" || !in.Depth.On || in.Depth.Panel != "" {
		t.Errorf("says %q, badge %q", s.depth.says.Text, in.Depth.Panel)
	}
	// 4 mm in steps of 0.2: five steps back is 1 mm less, 3 of 4 mm off.
	for range 5 {
		slide(s, fyne.KeyLeft)
	}
	if want := "1.5 mm off face 1, 1.5 mm off face 2: 17 mm left"; s.depth.says.Text != want {
		t.Errorf("says %q, want %q", s.depth.says.Text, want)
	}
	in = s.surf.input()
	if in.Depth.Panel != "Not the finished faces: 75 % of the stock is off" || in.Depth.Hand == nil || in.Depth.Hand.Thickness != 17 {
		t.Errorf("badge %q, board %+v", in.Depth.Panel, in.Depth.Hand)
	}
	slide(s, fyne.KeyHome)
	if in = s.surf.input(); s.depth.says.Text != "Sawn: 20 mm" || in.Depth.Panel == "" {
		t.Errorf("says %q, badge %q", s.depth.says.Text, in.Depth.Panel)
	}
	if got := s.ses.Reading("top").Show.Light.Value; got != light || s.steps() != 0 {
		t.Errorf("the slider is an edit: light share %g, was %g; %d steps", got, light, s.steps())
	}
	slide(s, fyne.KeyEnd)
	if s.surf.show.done != 1 || !s.depth.finished.Disabled() {
		t.Error("End does not lead back to finished")
	}
	slide(s, fyne.KeyEscape)
	if !s.depth.box.Hidden || s.surf.input().Depth.On || s.win.Canvas().Focused() != fyne.Focusable(s.surf) {
		t.Error("Escape does not take it away")
	}
}

// Pressed twice the slider goes back to finished; so does its button.
func TestDepthSliderPressedTwice(t *testing.T) {
	s := open(t, planks(), 100)
	s.act("depth")
	at := &fyne.PointEvent{Position: fyne.NewPos(20, 10)}
	s.depth.slider.Tapped(at)
	if s.surf.show.done > 0.5 {
		t.Fatalf("a press leaves it at %g", s.surf.show.done)
	}
	s.depth.slider.Tapped(at)
	if s.surf.show.done != 1 {
		t.Errorf("pressed twice it is at %g", s.surf.show.done)
	}
	slide(s, fyne.KeyHome)
	test.Tap(s.depth.finished)
	if s.surf.show.done != 1 {
		t.Errorf("its button leaves it at %g", s.surf.show.done)
	}
}

// Where there is nothing to see it is grey and says why; zones are drawn on the
// sawn board.
func TestDepthSliderSaysWhyNot(t *testing.T) {
	p := planks()
	p.Panels[0].Thickness = 20
	s := open(t, p, 100)
	s.act("depth")
	if !s.depth.slider.Disabled() || !strings.Contains(s.depth.says.Text, "no thicker than the panel") || s.surf.input().Depth.On {
		t.Errorf("says %q", s.depth.says.Text)
	}
	s = open(t, planks(), 100)
	s.ses.Select(session.Selection{Panel: "top", Board: "A", Zone: -1})
	s.act("depth")
	s.surf.show.zoning = true
	s.changed()
	if in := s.surf.input(); in.Depth.Hand != nil || in.Depth.Board != "" || !in.Depth.On {
		t.Error("zones would be drawn on a planed board")
	}
}

// The bar keeps in its room at every size of text.
func TestDepthBarFits(t *testing.T) {
	for _, text := range []int{100, 150, 200} {
		s := open(t, planks(), text)
		s.act("depth")
		slide(s, fyne.KeyLeft)
		b := s.depth
		for _, o := range []fyne.CanvasObject{b.slider, b.says, b.choose} {
			end := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).AddXY(o.Size().Width, o.Size().Height)
			box := fyne.CurrentApp().Driver().AbsolutePositionForObject(b.box).AddXY(b.box.Size().Width, b.box.Size().Height)
			if end.X > box.X+1 || end.Y > box.Y+1 || o.Size().Width < 60 {
				t.Errorf("at %d %%: %T ends at %v of %v", text, o, end, box)
			}
		}
	}
}

// The dialog of the faces: a choice is one step that undo takes back.
func TestChooseTheFaceInTheWindow(t *testing.T) {
	s := open(t, planks(), 100)
	s.shift(fyne.KeyD)
	s.q.wait(t, "the choices", func() bool { return s.asks != nil })
	cells := map[string]*dialogButton{}
	for _, o := range inside(s.asks.q.body) {
		if b, ok := o.(*dialogButton); ok {
			cells[b.Text] = b
		}
	}
	// 1.5 mm before glue-up off each face is the default, all is 3 mm; at z = 3.5
	// the line of A1 has moved by 40 x 3.5/16.5 = 8.485 mm from 60 mm within the
	// strip; 5 of those lie before the panel: 46.515 of 195 mm show, 24 %.
	best := cells["24 % · best"]
	if best == nil {
		t.Fatalf("no choice shows 24 %% and is the best: %v", cells)
	}
	test.Tap(best)
	if off := s.lie(t, "A1").Off; off == nil || *off != [2]float64{3, 0} || s.steps() != 1 {
		t.Errorf("off %v in %d steps", off, s.steps())
	}
	s.asks.cancel()
	s.act("undo")
	if s.lie(t, "A1").Off != nil {
		t.Error("undo does not take it back")
	}
}

// The card of planing stands on the page of behaviour and leads to both.
func TestCardOfPlaning(t *testing.T) {
	s := open(t, planks(), 100)
	p := behaveAt(t, s)
	card := p.byID["planing"]
	if card == nil {
		t.Fatal("there is no card")
	}
	text := strings.Join(said(card), "\n")
	for _, want := range []string{"Planing", "after glue", "line moves", "How is this worked out?"} {
		if !strings.Contains(text, want) {
			t.Errorf("it says\n%s\nwithout %q", text, want)
		}
	}
	test.Tap(pageButtonOf(t, card, "Which face"))
	s.q.wait(t, "the choices", func() bool { return s.asks != nil })
	s.asks.cancel()
	test.Tap(pageButtonOf(t, card, "See it"))
	if s.page != nil || s.depth.box.Hidden {
		t.Error("it does not lead to the slider")
	}
}
