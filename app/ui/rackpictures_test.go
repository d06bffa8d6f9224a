package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/model"
)

func TestDroppedPicturesGoWhereTheirNamesSay(t *testing.T) {
	s := openReading(t, stack("A", "B"), 100, atOnce)
	s.drop(append(pictureFiles(t, "B1.png", "A1.png", "A2.png", "B-a.png"), "notes.txt")...)
	if s.page != page(s.rack) || s.rack.step != stepFaces {
		t.Fatal("pictures that need no question do not lead to the faces")
	}
	if s.steps() != 1 || s.ses.UndoLabel() != "Take in 4 photographs" {
		t.Errorf("they are %d steps: %q", s.steps(), s.ses.UndoLabel())
	}
	s.q.wait(t, "the reading", func() bool { _, left := s.ses.ReadingShare(); return left == 0 && len(s.ses.Waiting()) == 0 })
	if got, want := s.rack.sum.Text, "2 boards · 0 faces checked · 3 to look at · 1 without a photograph"; got != want {
		t.Errorf("the line over the rack: %q, want %q", got, want)
	}
	b := s.ses.Project().Board("B")
	if filepath.Base(b.Faces[0].Photo) != "B1.png" || filepath.Base(b.Ends[0].Photo) != "B-a.png" || b.Faces[1].Photo != "" {
		t.Errorf("board B has %q, %q and at its end %q", b.Faces[0].Photo, b.Faces[1].Photo, b.Ends[0].Photo)
	}
}

func TestPicturesWaitForBoards(t *testing.T) {
	s := openReading(t, model.NewProject(), 100, atOnce)
	s.drop(pictureFiles(t, "A1.png", "A2.png")...)
	if s.page != page(s.rack) || s.rack.step != stepBoards || !strings.Contains(s.rack.note.Text, "2 photographs wait") {
		t.Fatalf("without boards the page is at step %d and says %q", s.rack.step, s.rack.note.Text)
	}
	r := s.rack.boards.rows[0]
	for i, v := range []string{"900", "150", "25"} {
		r.size[i].SetText(v)
	}
	r.chalked.SetChecked(true)
	s.rack.boards.keep()
	if a := s.ses.Project().Board("A"); a == nil || a.Faces[0].Photo == "" || a.Faces[1].Photo == "" || s.rack.step != stepFaces {
		t.Errorf("the board came and its pictures did not: %+v", a)
	}
}

func TestPairingTableRefusesAPlaceTwice(t *testing.T) {
	s := openReading(t, stack("A", "B"), 100, atOnce)
	s.drop(pictureFiles(t, "IMG_1.png", "IMG_2.png", "IMG_3.png")...)
	p := s.rack.pics
	if s.rack.step != stepPhotos || len(p.rows) != 3 || s.steps() != 0 {
		t.Fatalf("pictures in order only: step %d, %d rows, %d changes", s.rack.step, len(p.rows), s.steps())
	}
	for i, want := range []intake.Place{{Board: "A", Part: intake.Face1}, {Board: "A", Part: intake.Face2}, {Board: "B", Part: intake.Face1}} {
		if p.rows[i].place() != want || !strings.HasPrefix(p.rows[i].state.Text, "?") {
			t.Errorf("row %d proposes %v and says %q", i, p.rows[i].place(), p.rows[i].state.Text)
		}
	}
	p.rows[2].board.SetSelected("board A")
	if got := p.rows[2].state.Text; !strings.HasPrefix(got, "✕") || !strings.Contains(got, "IMG_1.png") {
		t.Errorf("a place given twice says %q", got)
	}
	p.confirm()
	if s.steps() != 0 || s.win.Canvas().Focused() != fyne.Focusable(p.rows[2].board) {
		t.Fatal("a place given twice is taken in, or the keys are not at it")
	}
	p.rows[2].board.SetSelected("not used")
	p.confirm()
	a, b := s.ses.Project().Board("A"), s.ses.Project().Board("B")
	if s.steps() != 1 || a.Faces[0].Photo == "" || a.Faces[1].Photo == "" || b.Faces[0].Photo != "" || len(p.rows) != 0 {
		t.Errorf("two pictures of three: %d steps, A %q and %q, B %q", s.steps(), a.Faces[0].Photo, a.Faces[1].Photo, b.Faces[0].Photo)
	}
}

func TestPicturesAreCopiedWhereWanted(t *testing.T) {
	s := openReading(t, stack("A"), 100, atOnce)
	s.act("rack")
	s.rack.turn(stepPhotos)
	if !s.rack.pics.copies.Disabled() || !strings.Contains(s.rack.pics.why.Text, "no file") {
		t.Errorf("without a file: copying can be chosen, and the page says %q", s.rack.pics.why.Text)
	}
	dir := t.TempDir()
	if err := s.ses.SaveAs(filepath.Join(dir, "p.yaml")); err != nil {
		t.Fatal(err)
	}
	if s.rack.pics.copies.Disabled() {
		t.Fatal("with a file copying cannot be chosen")
	}
	s.rack.pics.copies.SetChecked(true)
	s.drop(pictureFiles(t, "A1.png")...)
	s.q.wait(t, "the copy", func() bool { return s.ses.Project().Boards[0].Faces[0].Photo != "" })
	if got := s.ses.Project().Boards[0].Faces[0].Photo; got != "photos/A1.png" {
		t.Errorf("the picture is called %q", got)
	}
	if _, err := os.Stat(filepath.Join(dir, "photos", "A1.png")); err != nil {
		t.Error(err)
	}
	if !s.set.copies() {
		t.Error("the choice is not remembered")
	}
}

func TestSeveralPicturesAreChosen(t *testing.T) {
	s := openReading(t, stack("A", "B"), 100, atOnce)
	paths := pictureFiles(t, "A1.png", "A2.png", "B1.png")
	s.set.keepFolder(filepath.Dir(paths[0]))
	s.act("rack")
	s.act("rack-photos")
	list, ok := s.win.Canvas().Focused().(*fileList)
	if !ok {
		t.Fatalf("the keys are at a %T", s.win.Canvas().Focused())
	}
	s.asks.confirm()
	if s.asks == nil || !strings.Contains(s.asks.trouble.Text, "no picture is ticked") && !strings.Contains(s.asks.trouble.Text, "No picture is ticked") {
		t.Fatal("nothing ticked is taken for something")
	}
	list.TypedShortcut(&fyne.ShortcutSelectAll{})
	s.pressed(fyne.KeyDown) // past the way up
	s.pressed(fyne.KeySpace)
	s.pressed(fyne.KeyReturn)
	s.q.drain()
	a, b := s.ses.Project().Board("A"), s.ses.Project().Board("B")
	if a.Faces[0].Photo != "" || a.Faces[1].Photo == "" || b.Faces[0].Photo == "" {
		t.Errorf("all but the first ticked: A has %q and %q, B %q", a.Faces[0].Photo, a.Faces[1].Photo, b.Faces[0].Photo)
	}
}

func TestAPathTypedOnTheListGoesToItsField(t *testing.T) {
	s := openReading(t, stack("A"), 100, atOnce)
	s.act("rack")
	s.act("rack-photos")
	list := s.win.Canvas().Focused().(*fileList)
	list.TypedRune('x')
	if s.win.Canvas().Focused() != fyne.Focusable(list) {
		t.Fatal("any letter leads away from the list")
	}
	list.TypedRune('/')
	at, ok := s.win.Canvas().Focused().(*field)
	if !ok || at.Text != "/" || at.CursorColumn != 1 {
		t.Fatalf("the keys are at a %T with %q", s.win.Canvas().Focused(), at.Text)
	}
	at.TypedRune('a')
	if at.Text != "/a" {
		t.Errorf("the path goes on as %q", at.Text)
	}
}
