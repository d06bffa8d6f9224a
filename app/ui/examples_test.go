package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
)

// What the examples say of themselves, counted by hand in their files.
func TestExamplesAreWhole(t *testing.T) {
	want := map[string]struct {
		boards, panels, strips int
		wanted                 model.Wanted
		look                   model.Look
		warnings               map[face.WarningKind]bool // that are there on purpose
		least, most            float64                   // of unwanted wood on the show face of each panel
	}{
		// A's light edges are 33 to 38 mm and 34 to 43 mm wide on face 1, of which
		// the strips leave out 6 and 6 and trimming takes 6 and 6: 21 to 26 and 22
		// to 31 mm stay on the sawn face of 700 mm, 6.1 to 8.1 %. The show face
		// lies 4 mm of 28 mm deeper, where the line has gone up to 4/28 of the way
		// to the other face: at most 43*4/28 = 6.1 mm less on each side.
		"tabletop.yaml": {3, 1, 6, model.WantHeart, model.SapOut, nil, (21 + 22 - 12.2) / 700, (26 + 31) / 700.},
		"pair-of-doors.yaml": {3, 2, 6, model.WantHeart, model.SapOut,
			map[face.WarningKind]bool{face.OneSidedJoint: true}, 0.05, 0.25},
		"drawer-row.yaml":  {1, 4, 8, model.WantHeart, model.SapOut, nil, 0.05, 0.30},
		"maple-shelf.yaml": {2, 1, 4, model.WantSap, model.SapOut, nil, 0.03, 0.10},
		"waney-slab.yaml":  {2, 1, 4, model.WantHeart, model.SapOut, nil, 0.05, 0.25},
	}
	if len(want) != len(examples()) {
		t.Fatalf("%d examples are offered, %d are known", len(examples()), len(want))
	}
	s := open(t, session.Blank(), 100)
	for _, x := range examples() {
		e := want[x.file]
		if err := s.openExample(x.file); err != nil {
			t.Errorf("%s: %v", x.file, err)
			continue
		}
		p := s.ses.Project()
		strips := 0
		told := map[face.WarningKind]bool{}
		for _, n := range p.Panels {
			strips += len(n.Strips)
			if n.Look != e.look || n.Wanted != e.wanted {
				t.Errorf("%s, %s: look %s, wanted %s", x.file, n.ID, n.Look, n.Wanted)
			}
			r := s.ses.Reading(n.ID)
			if r.Placed != len(n.Strips) {
				t.Errorf("%s, %s: %d of %d strips lie on boards", x.file, n.ID, r.Placed, len(n.Strips))
			}
			if v := r.Show.Unwanted.Value; v < e.least || v > e.most {
				t.Errorf("%s, %s: %.4f unwanted on the show face, want %.4f to %.4f", x.file, n.ID, v, e.least, e.most)
			}
			for _, note := range s.ses.Notes(n.ID) {
				told[note.Kind] = true
				if !e.warnings[note.Kind] {
					t.Errorf("%s, %s: warns %q: %s", x.file, n.ID, note.Kind, note.Text)
				}
			}
		}
		for k := range e.warnings {
			if !told[k] {
				t.Errorf("%s: %q is not warned of", x.file, k)
			}
		}
		if len(p.Boards) != e.boards || len(p.Panels) != e.panels || strips != e.strips {
			t.Errorf("%s: %d boards, %d panels, %d strips", x.file, len(p.Boards), len(p.Panels), strips)
		}
		if s.ses.Path() != "" || s.ses.Dirty() || len(s.ses.Notices()) != 0 {
			t.Errorf("%s: path %q, dirty %v, remarks %q", x.file, s.ses.Path(), s.ses.Dirty(), s.ses.Notices())
		}
	}
}

// The wrong strip of the right door is mended by the first fix offered.
func TestExampleDoorIsMended(t *testing.T) {
	s := open(t, session.Blank(), 100)
	if err := s.openExample("pair-of-doors.yaml"); err != nil {
		t.Fatal(err)
	}
	s.showPanel("right")
	notes := s.ses.Notes("right")
	if len(notes) == 0 {
		t.Fatal("nothing is wrong")
	}
	s.q.wait(t, "a fix", func() bool { n := s.ses.Notes("right"); return len(n) > 0 && len(n[0].Fixes) > 0 })
	s.act("apply-fix")
	for _, n := range s.ses.Notes("right") {
		if n.Kind == face.OneSidedJoint {
			t.Errorf("still warned of: %s", n.Title)
		}
	}
}

// The dialog is answered by keys alone, and asks about changes first.
func TestExamplesByKeys(t *testing.T) {
	s := demo(t, 100)
	s.act("examples")
	if s.asks == nil {
		t.Fatal("nothing is offered")
	}
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.q.drain()
	if got := s.ses.Project().Name; s.asks != nil || got != "Table top with light edges" {
		t.Errorf("on screen is %q, a dialog is up: %v", got, s.asks != nil)
	}
}
