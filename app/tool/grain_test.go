package tool

import (
	"reflect"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// newGrain is the tool with keys that step 10 mm, and 100 with Shift.
func newGrain() Grain { return NewGrain("A", [2]float64{10, 100}) }

func (b *bench) grain(face int) [][]geom.Point {
	return b.hist.Current().Board("A").Faces[face-1].Grain
}

func keys(list ...Key) []Event {
	var out []Event
	for _, k := range list {
		out = append(out, typed(k))
	}
	return out
}

func times(n int, e ...Event) []Event {
	var out []Event
	for range n {
		out = append(out, e...)
	}
	return out
}

func far(k Key) Event { return Event{Kind: Typed, Key: k, Mods: Mods{Shift: true}} }

// On face 1 (300, 350) and (700, 340) are (400, 100) and (1200, 120), on face 2
// (300, 440) is (400, 156). The cursor of the keys begins in the middle of the
// board, at (1200, 105): its first key only shows it.
func TestDrawAGrainLine(t *testing.T) {
	enter := keys(Enter)
	for _, c := range []struct {
		name   string
		events []Event
		face   int
		want   geom.Polygon
	}{
		{"ended with Enter", events(click(300, 350), click(700, 340), enter), 1, ring(400, 100, 1200, 120)},
		{"ended with a double click", events(click(300, 350), click(700, 340), []Event{double(700, 340), release(700, 340)}), 1, ring(400, 100, 1200, 120)},
		{"hovering between", events(click(300, 350), []Event{hover(310, 300)}, click(700, 340), enter), 1, ring(400, 100, 1200, 120)},
		{"a point taken back", events(click(300, 350), click(500, 300), keys(Backspace), click(700, 340), enter), 1, ring(400, 100, 1200, 120)},
		{"Enter too early, then on", events(click(300, 350), enter, click(700, 340), enter), 1, ring(400, 100, 1200, 120)},
		{"over a strip", events(click(200, 380), click(400, 380), enter), 1, ring(200, 40, 600, 40)},
		{"on face 2", events(click(300, 440), click(700, 440), enter), 2, ring(400, 156, 1200, 156)},
		{"held to the board", events(click(300, 350), click(20, 350), enter), 1, ring(400, 100, 0, 100)},
		{"by keys", events(keys(Right, Space), []Event{far(Right), far(Right)}, keys(Up, Space, Right, Space, Enter)), 1, ring(1200, 105, 1400, 115, 1410, 115)},
		{"from end to end by keys", events(keys(Home, Home, Space, End, Space, Enter)), 1, ring(0, 105, 2400, 105)},
		{"by keys on face 2", events(keys(Down), []Event{far(Down), far(Down)}, keys(Space), []Event{far(Left)}, keys(Space, Enter)), 2, ring(1200, 210, 1100, 210)},
		{"begun by pointer, ended by keys", events(click(300, 350), []Event{far(Right)}, keys(Space, Enter)), 1, ring(400, 100, 500, 100)},
		{"the same point twice counts once", events(keys(Right, Space, Space), []Event{far(Right)}, times(3, typed(Space)), enter), 1, ring(1200, 105, 1300, 105)},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			s := b.play(newGrain(), c.events...)
			b.wantOne(s, start)
			if got := b.grain(c.face); len(got) != 1 || !reflect.DeepEqual(geom.Polygon(got[0]), c.want) {
				t.Fatalf("lines %v, want %v", got, c.want)
			}
			if b.hist.UndoLabel() != "Draw a grain line on board A" {
				t.Errorf("label %q", b.hist.UndoLabel())
			}
			if g := s.(Grain); g.Board != "A" || g.Face != c.face || g.Line != 0 {
				t.Errorf("in hand %+v", g)
			}
			if b.sketch.Line != nil {
				t.Error("the line under way stays on screen")
			}
			// Delete takes it away again, in one step of its own.
			s = b.play(s, typed(Delete))
			if len(b.grain(c.face)) != 0 || b.hist.UndoLabel() != "Delete a grain line on board A" || s.(Grain).Line != -1 {
				t.Errorf("deleted: %v, %q", b.grain(c.face), b.hist.UndoLabel())
			}
		})
	}
}

func TestAGrainLineIsNotDrawn(t *testing.T) {
	for _, c := range []struct {
		name   string
		events []Event
		busy   bool
	}{
		{"escape", events(click(300, 350), click(700, 340), keys(Escape)), false},
		{"dropped with Delete", events(click(300, 350), click(700, 340), keys(Delete)), false},
		{"all points taken back", events(click(300, 350), keys(Backspace)), false},
		{"one point", events(click(300, 350), keys(Enter)), true},
		{"Space without a cursor", keys(Space), false},
		{"a press that drags the view", []Event{press(300, 350), drag(360, 350), release(360, 350)}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			s := b.play(newGrain(), c.events...)
			if b.still(start); s.Busy() != c.busy {
				t.Errorf("%T", s)
			}
			if !c.busy && b.sketch.Line != nil {
				t.Error("the line under way stays on screen")
			}
			if c.busy && b.sketch.Say == "" {
				t.Error("nothing is said")
			}
		})
	}
}

// lined is board A with two lines on face 1, at y 100 and 150 from x 400 to
// 1200 (py 350 and 325, px 300 to 700), the first with a point at 800 (px 500),
// and one on face 2.
func lined(t *testing.T) *bench {
	return newBench(t, model.SetGrain{Board: "A", Face: 1, Grain: [][]geom.Point{ring(400, 100, 800, 100, 1200, 100), ring(400, 150, 1200, 150)}},
		model.SetGrain{Board: "A", Face: 2, Grain: [][]geom.Point{ring(0, 50, 500, 50)}})
}

func TestGrainLinesInHand(t *testing.T) {
	b := lined(t)
	s := b.play(newGrain(), click(400, 352)...)
	if g := s.(Grain); g.Face != 1 || g.Line != 0 {
		t.Fatalf("a click beside the first line takes %+v", g)
	}
	if s = b.play(s, click(400, 323)...); s.(Grain).Line != 1 {
		t.Errorf("a click beside the second takes %+v", s)
	}
	// Control begins another on top.
	if s := b.play(s, press(400, 350), control(release(400, 350))); !s.Busy() {
		t.Errorf("Control: %T", s)
	}
	// Enter takes the next: after the second of face 1 that of face 2, then the
	// first again.
	for _, want := range [][2]int{{2, 0}, {1, 0}, {1, 1}} {
		s = b.play(s, typed(Enter))
		if g := s.(Grain); g.Face != want[0] || g.Line != want[1] {
			t.Errorf("Enter takes %+v, want %v", g, want)
		}
	}
	// What was taken back elsewhere is not deleted twice.
	if err := b.hist.Commit(model.SetGrain{Board: "A", Face: 1}); err != nil {
		t.Fatal(err)
	}
	start := b.Project()
	if s = b.play(s, typed(Delete)); b.sketch.Say == "" || s.(Grain).Line != -1 {
		t.Errorf("%+v, says %q", s, b.sketch.Say)
	}
	if b.Project() != start {
		t.Error("the project was changed")
	}
}

func TestPointsOfAGrainLine(t *testing.T) {
	b := lined(t)
	s := b.play(newGrain(), click(400, 350)...)
	start := b.Project()
	// Its middle point to (840, 120).
	s = b.play(s, press(500, 350), drag(510, 345), drag(520, 340), release(520, 340))
	b.wantOne(s, start)
	if got := b.grain(1)[0]; !reflect.DeepEqual(geom.Polygon(got), ring(400, 100, 840, 120, 1200, 100)) {
		t.Errorf("bent: %v", got)
	}
	if b.hist.UndoLabel() != "Move a point of a grain line on board A" {
		t.Errorf("label %q", b.hist.UndoLabel())
	}
	// The point is in hand: Delete takes it, then the line.
	s = b.play(s, typed(Delete))
	if got := b.grain(1)[0]; !reflect.DeepEqual(geom.Polygon(got), ring(400, 100, 1200, 100)) {
		t.Errorf("without the point: %v", got)
	}
	s = b.play(s, typed(Backspace))
	if got := b.grain(1); len(got) != 1 || got[0][0].Y != 150 {
		t.Errorf("without the line: %v", got)
	}
	// Escape puts a drag back.
	s = b.play(s, click(400, 325)...)
	start = b.Project()
	s = b.play(s, press(300, 325), drag(330, 340), typed(Escape), release(330, 340))
	if s.Busy() || b.Project() != start || b.preview != nil {
		t.Errorf("%T, or the drag stands", s)
	}
}
