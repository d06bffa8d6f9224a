package session

import (
	"context"
	"errors"
	"strings"
	"testing"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// desk is a session whose background work waits for the test.
type desk struct {
	*Session
	posted chan func()
	ask    chan intake.Job
	answer chan *intake.Reading
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{posted: make(chan func(), 100), ask: make(chan intake.Job), answer: make(chan *intake.Reading)}
	p := Blank()
	for _, id := range []string{"A", "B"} {
		q, err := model.Apply(p, model.AddBoard{Board: model.NewBoard(id, "walnut-black", 900, 150, 25)})
		if err != nil {
			t.Fatal(err)
		}
		p = q
	}
	d.Session = New(p, Options{Post: func(f func()) { d.posted <- f }, Read: func(ctx context.Context, j intake.Job, tell func(intake.Step)) (*intake.Reading, error) {
		tell(intake.Splitting)
		select {
		case d.ask <- j:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
		if r := <-d.answer; r != nil {
			return r, nil
		}
		return nil, errors.New("too dark to read")
	}})
	t.Cleanup(d.Close)
	return d
}

// until runs what is posted until ok.
func (d *desk) until(t *testing.T, ok func() bool) {
	t.Helper()
	for !ok() {
		select {
		case f := <-d.posted:
			f()
		case <-t.Context().Done():
			t.Fatal("nothing comes")
		}
	}
}

func found() *intake.Reading {
	return &intake.Reading{
		View:  photo.View{Corners: [4]geom.Point{{X: 10, Y: 90}, {X: 190, Y: 92}, {X: 191, Y: 12}, {X: 11, Y: 10}}, Bow: -0.02},
		Base:  model.Heart,
		Zones: []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 900, Y: 0}, {X: 900, Y: 20}, {X: 0, Y: 30}}}},
		Split: model.Split{By: model.SplitFound, Sure: 0.9},
	}
}

func spot(s string, p intake.Part) intake.Place { return intake.Place{Board: s, Part: p} }

func TestTakeInReadsInTheBackground(t *testing.T) {
	d := newDesk(t)
	err := d.TakeIn([]Taking{{spot("A", intake.Face1), "a1.jpg"}, {spot("A", intake.EndA), "a-a.jpg"}, {spot("B", intake.Face2), "b2.jpg"}})
	if err != nil {
		t.Fatal(err)
	}
	if d.UndoLabel() != "Take in 3 photographs" || len(d.Waiting()) != 2 || d.Committed().Board("A").Ends[0].Photo != "a-a.jpg" {
		t.Fatalf("after taking in: undo %q, waiting %v", d.UndoLabel(), d.Waiting())
	}
	for range 2 {
		j := <-d.ask
		if j.Place.Board == "A" {
			d.answer <- found()
		} else {
			d.answer <- nil
		}
	}
	d.until(t, func() bool { _, left := d.ReadingShare(); return left == 0 })
	a := d.Committed().Board("A").Faces[0]
	if a.Open() || a.Corners == nil || a.Bow != -0.02 || len(a.Zones) != 1 || a.Photo != "a1.jpg" {
		t.Errorf("face 1 of A reads %+v", a)
	}
	if n, ok := d.News(spot("B", intake.Face2)); !ok || n.Step != intake.Failed || !strings.Contains(n.Err.Error(), "too dark") {
		t.Errorf("face 2 of B: %+v, %v", n, ok)
	}
	if w := d.Waiting(); len(w) != 1 || w[0] != spot("B", intake.Face2) {
		t.Errorf("waiting: %v", w)
	}
	if !d.Undo() || d.Committed().Board("A").Faces[0].Photo != "" || d.CanUndo() {
		t.Error("one undo does not take all of it back")
	}
	if !d.Redo() || d.Committed().Board("A").Faces[0].Open() {
		t.Error("redo brings the picture without what was read")
	}
}

func TestTakeInAgainAndStop(t *testing.T) {
	d := newDesk(t)
	p := spot("A", intake.Face1)
	for range 2 { // the second time before the first was read
		if err := d.TakeIn([]Taking{{p, "a1.jpg"}}); err != nil {
			t.Fatal(err)
		}
	}
	d.StopReading()
	d.until(t, func() bool { n, _ := d.News(p); return n.Step == intake.Stopped })
	if len(d.Waiting()) != 1 {
		t.Errorf("waiting: %v", d.Waiting())
	}
	d.ReadFaces(d.Waiting())
	<-d.ask
	d.answer <- found()
	d.until(t, func() bool { _, left := d.ReadingShare(); return left == 0 })
	if len(d.Waiting()) != 0 {
		t.Errorf("still waiting: %v", d.Waiting())
	}
	if share, left := d.ReadingShare(); share != 1 || left != 0 {
		t.Errorf("nothing under way, and %g with %d left", share, left)
	}
}

func TestTakeInRefuses(t *testing.T) {
	d := newDesk(t)
	for _, list := range [][]Taking{{{spot("Z", intake.Face1), "z.jpg"}}, {{spot("A", intake.NoPart), "z.jpg"}}} {
		if err := d.TakeIn(list); err == nil || d.CanUndo() {
			t.Errorf("%v taken in: %v", list, err)
		}
	}
}

func TestWaitingIsToldOnce(t *testing.T) {
	d := newDesk(t)
	if err := d.TakeIn([]Taking{{spot("A", intake.Face1), "a1.jpg"}, {spot("A", intake.Face2), "a2.jpg"}}); err != nil {
		t.Fatal(err)
	}
	if got := d.PhotoTrouble(); len(got) != 0 {
		t.Errorf("told while they are read: %q", got)
	}
	d.StopReading()
	d.until(t, func() bool { _, left := d.ReadingShare(); return left == 0 })
	if got := d.PhotoTrouble(); len(got) != 1 || !strings.Contains(got[0], "2 photographs wait") {
		t.Errorf("told of what waits: %q", got)
	}
}
