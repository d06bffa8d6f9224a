package session

import (
	"testing"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/model"
)

// A board whose width is left to the photographs: the job asks for it, and
// what is read becomes the board's, undone and saved with the photograph.
func TestTakeInMeasuresAWaneyBoard(t *testing.T) {
	d := newDesk(t)
	b := *d.Committed().Board("A")
	b.Edges = model.EdgesMeasured
	if err := d.Commit(model.SetBoard{Board: &b}); err != nil {
		t.Fatal(err)
	}
	if err := d.TakeIn([]Taking{{spot("A", intake.Face1), "a1.jpg"}}); err != nil {
		t.Fatal(err)
	}
	j := <-d.ask
	if !j.Waney || j.Width != 0 || j.Length != 900 {
		t.Errorf("the job asks for %+v", j)
	}
	r := found()
	r.Width, r.Outline = 212, geom.Polygon{{X: 0, Y: 8}, {X: 900, Y: 0}, {X: 900, Y: 212}, {X: 0, Y: 200}}
	d.answer <- r
	d.until(t, func() bool { n, _ := d.News(spot("A", intake.Face1)); return n.Step == intake.Done })
	got := d.Committed().Board("A")
	if got.Width != 212 || len(got.Faces[0].Outline) != 4 || got.Faces[0].Open() {
		t.Errorf("board %g wide, outline %v", got.Width, got.Faces[0].Outline)
	}
	// The readings of the board know the outline.
	if f := faceOf(&got.Faces[0]); len(f.Outline) != 4 {
		t.Errorf("outline %v", f.Outline)
	}
	if !d.Undo() || d.Committed().Board("A").Width != 150 {
		t.Errorf("taken back, the board is %g wide, want 150", d.Committed().Board("A").Width)
	}
}

func TestTakeInKeepsTheTapesWidth(t *testing.T) {
	d := newDesk(t)
	b := *d.Committed().Board("B")
	b.Edges = model.EdgesWaney
	if err := d.Commit(model.SetBoard{Board: &b}); err != nil {
		t.Fatal(err)
	}
	if err := d.TakeIn([]Taking{{spot("B", intake.Face2), "b2.jpg"}}); err != nil {
		t.Fatal(err)
	}
	if j := <-d.ask; !j.Waney || j.Width != 150 {
		t.Errorf("the job asks for %+v", j)
	}
	r := found()
	r.Width, r.Outline = 150, geom.Polygon{{X: 0, Y: 8}, {X: 900, Y: 0}, {X: 900, Y: 150}, {X: 0, Y: 140}}
	d.answer <- r
	d.until(t, func() bool { n, _ := d.News(spot("B", intake.Face2)); return n.Step == intake.Done })
	if got := d.Committed().Board("B"); got.Width != 150 || len(got.Faces[1].Outline) != 4 {
		t.Errorf("board %g wide, outline %v", got.Width, got.Faces[1].Outline)
	}
}
