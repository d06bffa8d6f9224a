package ui

import (
	"image"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model"
)

// pairOfDoors are doors of two strips of 100 mm, two of them with sapwood along
// the front edge, seen together.
func pairOfDoors(way model.SetWay) *model.Project {
	p := model.NewProject()
	for d, id := range []string{"left", "right"} {
		n := model.NewPanel(id, model.RoleDoor, 900, 190, 20)
		n.Look = model.SapOut
		for i := range 2 {
			b := model.NewBoard(string(rune('A'+2*d+i)), "walnut-black", 1000, 106, 25)
			b.Faces[0] = model.Face{Known: true, Base: model.Heart}
			b.Faces[1] = model.Face{Known: true, Base: model.Heart}
			if i == 1 {
				b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 28}, {X: 0, Y: 28}}}}
			}
			p.Boards = append(p.Boards, b)
			n.Strips = append(n.Strips, model.Strip{ID: b.ID + "1", Board: b.ID, X: 30, Y: 3, L: 940, W: 100, Up: 1})
		}
		p.Panels = append(p.Panels, n)
	}
	set := model.NewSet("Pair", "left", "right")
	set.Way = way
	p.Sets = []model.Set{set}
	return p
}

// The whole set is arranged: pictures of both doors, one step to use an answer,
// and kept and used again likewise.
func TestWholeSetOnThePage(t *testing.T) {
	for _, way := range []model.SetWay{model.Beside, model.Along} {
		s := open(t, pairOfDoors(way), 100)
		s.act("arrange")
		p := s.page.(*arrangePage)
		s.q.wait(t, "the search of the panel", func() bool { return !p.running })
		if !p.head.room.Visible() || p.head.change.Visible() || p.head.name.Text != "Arrange panel Left" {
			t.Errorf("the set is offered: %v; %q", p.head.room.Visible(), p.head.name.Text)
		}
		p.sign('t')
		s.q.wait(t, "the search of the set", func() bool { return !p.running })
		if p.trouble != "" || p.head.name.Text != "Arrange set Pair" || !p.head.change.Visible() || !p.head.change.Checked || len(p.side.pins) != 4 {
			t.Fatalf("%q, trouble %q, %d pins", p.head.name.Text, p.trouble, len(p.side.pins))
		}
		if !strings.Contains(p.head.note.Text, "No arrangement of these strips does better") {
			t.Errorf("it says %q", p.head.note.Text)
		}
		e := p.gallery.shown[1]
		length, width := 900.0, 383.0
		if way == model.Along {
			length, width = 1803, 190
		}
		if e.panel.Length != length || e.panel.Width != width || len(e.parts) != 2 || e.got.Points >= p.gallery.shown[0].got.Points {
			t.Fatalf("%g x %g, %d panels", e.panel.Length, e.panel.Width, len(e.parts))
		}
		p.gallery.take(1)
		steps := s.steps()
		s.pressed(fyne.KeyReturn)
		if s.steps() != steps+1 || s.ses.UndoLabel() != "Arrange Pair" {
			t.Errorf("%d steps, the last is called %q", s.steps()-steps, s.ses.UndoLabel())
		}
		if !p.gallery.shown[1].same {
			t.Error("the answer is not known as how they lie now")
		}
		s.act("undo")
		s.commit(p.keeping("good", e.edit))
		last := p.gallery.shown[len(p.gallery.shown)-1]
		if last.kind != layKept || last.name != "good" || last.lie != e.lie || last.fault != "" || last.edit == nil {
			t.Fatalf("kept: %+v", last)
		}
		s.q.wait(t, "what speaks against it", func() bool {
			last = p.gallery.shown[len(p.gallery.shown)-1]
			return last.known
		})
		if d := last.got.Points - e.got.Points; d > 1e-9 || d < -1e-9 {
			t.Errorf("kept it has %g against it, found %g", last.got.Points, e.got.Points)
		}
		p.gallery.take(len(p.gallery.shown) - 1)
		p.drop()
		if len(s.ses.Committed().Kept) != 0 {
			t.Errorf("%d are kept still", len(s.ses.Committed().Kept))
		}
		p.sign('t')
		if p.whole || p.head.name.Text != "Arrange panel Left" {
			t.Error("it does not go back to the panel")
		}
		s.q.wait(t, "the end", func() bool { return !p.running })
	}
}

// In the picture of two doors each stands at its place, a clear gap between.
// Of 900 x 383 mm in 450 x 192 pixels the gap is at 95 to 97 of 192 from above.
func TestPictureOfASet(t *testing.T) {
	s := open(t, pairOfDoors(model.Beside), 100)
	s.act("arrange")
	p := s.page.(*arrangePage)
	p.sign('t')
	s.q.wait(t, "the search", func() bool { return !p.running })
	e := p.gallery.shown[0]
	sit, _ := p.gallery.sitter(e, fyne.NewSize(450, 192), nil)
	img := sit.portrait(450, 192)
	if img.Rect != image.Rect(0, 0, 450, 192) {
		t.Fatalf("%v", img.Rect)
	}
	clear := 0
	for y := range 192 {
		if _, _, _, a := img.At(225, y).RGBA(); a == 0 {
			if clear++; y < 93 || y > 98 {
				t.Errorf("clear at %d", y)
			}
		}
	}
	if clear < 1 || clear > 4 {
		t.Errorf("%d pixels of gap", clear)
	}
}

// A panel in no set is arranged alone, and said to be in none.
func TestNoSetOnThePage(t *testing.T) {
	pr := pairOfDoors(model.Beside)
	pr.Sets = nil
	s := open(t, pr, 100)
	s.act("arrange")
	p := s.page.(*arrangePage)
	if p.head.room.Visible() {
		t.Error("a set is offered where there is none")
	}
	p.sign('t')
	if p.whole || !strings.Contains(s.said, "in no set") {
		t.Errorf("whole %v, said %q", p.whole, s.said)
	}
	s.q.wait(t, "the end", func() bool { return !p.running })
}
