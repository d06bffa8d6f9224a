package tool

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// lies is where a strip is to lie.
type lies struct {
	board       string
	x, y, angle float64
}

func (b *bench) wantLies(id string, w lies) {
	b.t.Helper()
	s := b.strip(id)
	if s.Board != w.board || !near(s.X, w.x) || !near(s.Y, w.y) || !near(s.Angle, w.angle) {
		b.t.Errorf("%s lies on %q at %v, %v, %v degrees; want %q %v, %v, %v", id, s.Board, s.X, s.Y, s.Angle, w.board, w.x, w.y, w.angle)
	}
}

// wantOne checks that a gesture ended in one entry and left nothing standing.
func (b *bench) wantOne(s State, start *model.Project) {
	b.t.Helper()
	if s.Busy() || b.preview != nil || b.sketch.Carried != "" {
		b.t.Errorf("still at it: %T, sketch %+v", s, b.sketch)
	}
	if b.commits != 1 || b.refused != 0 || b.hist.Before() != start {
		b.t.Errorf("%d commits, %d refused", b.commits, b.refused)
	}
}

// An empty place is laid with its middle under the pointer: (600, 340) is
// face-1 (1000, 120), so its corner comes to (1000 - 465, 120 - 45).
func TestTakeAnEmptyPlaceToABoard(t *testing.T) {
	for _, c := range []struct {
		name string
		to   geom.Point
		held func(Event) Event
		want lies
	}{
		{"face 1", geom.Pt(600, 340), nil, lies{"A", 535, 75, 0}},
		{"face 2: y2 = 136 is face-1 74", geom.Pt(600, 450), nil, lies{"A", 535, 29, 0}},
		{"held inside at the other end: 2400 - 930", geom.Pt(1290, 340), nil, lies{"A", 1470, 75, 0}},
		{"held inside at the marked edge: y 4 - 45", geom.Pt(600, 398), nil, lies{"A", 535, 0, 0}},
		{"not held with Control: 2380 - 465", geom.Pt(1290, 340), control, lies{"A", 1915, 75, 0}},
		{"folded board: along only, (160 - 90) / 2", geom.Pt(500, 603), nil, lies{"B", 335, 35, 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			s := b.play(Arrange{}, gesture(geom.Pt(300, 82.5), c.to, c.held)...)
			b.wantOne(s, start)
			b.wantLies("4", c.want)
			if h := b.last(); h.Strip != "4" || h.Board != c.want.board {
				t.Errorf("in hand is %+v, not what was laid", h)
			}
		})
	}
}

// The first empty place from the front is laid along the sweep, its long
// middle line on it: the corner is 45 mm to the right of where it began.
func TestSweepAStripAlongABoard(t *testing.T) {
	// A slant of 400 along and 40 across.
	slope := math.Atan2(40, 400) * 180 / math.Pi
	sin, cos := 40/math.Sqrt(161600), 400/math.Sqrt(161600)
	for _, c := range []struct {
		name     string
		from, to geom.Point
		want     lies
	}{
		{"(400, 160) to (1200, 164): 0.29 degrees is straight", geom.Pt(300, 320), geom.Pt(700, 318), lies{"A", 400, 115, 0}},
		{"to the marked end it ends at 2000", geom.Pt(1100, 320), geom.Pt(700, 320), lies{"A", 1070, 115, 0}},
		{"slanting: 400 + 45 sin, 160 - 45 cos", geom.Pt(300, 320), geom.Pt(500, 300), lies{"A", 400 + 45*sin, 160 - 45*cos, slope}},
		{"slanting to the marked end: from (2000, 160) back 930 along", geom.Pt(1100, 320), geom.Pt(900, 340), lies{"A", 2000 - 930*cos + 45*sin, 160 - 930*sin - 45*cos, slope}},
		{"on face 2 from y2 = 16, face-1 194", geom.Pt(300, 510), geom.Pt(700, 510), lies{"A", 400, 149, 0}},
		{"just long enough: 40 mm", geom.Pt(300, 320), geom.Pt(320, 320), lies{"A", 400, 115, 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			s := b.play(Arrange{}, gesture(c.from, c.to, nil)...)
			b.wantOne(s, start)
			b.wantLies("4", c.want)
			if !b.strip("5").Empty() {
				t.Error("the second empty place was laid too")
			}
		})
	}
	for name, events := range map[string][]Event{
		"38 mm is a slip of the hand": gesture(geom.Pt(300, 320), geom.Pt(319, 320), nil),
		"out and back":                {press(300, 320), drag(700, 320), drag(305, 320), release(305, 320)},
	} {
		b := newBench(t)
		start := b.Project()
		if s := b.play(Arrange{}, events...); s.Busy() {
			t.Errorf("%s: still %T", name, s)
		}
		b.still(start)
	}
	b := newBench(t, model.PlaceStrip{Panel: "top", Strip: "4", Board: "B"}, model.PlaceStrip{Panel: "top", Strip: "5", Board: "B"})
	start := b.Project()
	b.play(Arrange{}, gesture(geom.Pt(300, 320), geom.Pt(700, 310), nil)...)
	b.still(start)
	if b.panned != geom.Pt(400, -10) {
		t.Errorf("with no empty place the view is dragged, not by %v", b.panned)
	}
}

// (300, 370) is face-1 (400, 60) and face 2's (400, 150) is (300, 443), both
// on A1, which lies at (40, 10).
func TestDragAStripOnItsBoard(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to geom.Point
		held     func(Event) Event
		want     lies
	}{
		{"along", geom.Pt(300, 370), geom.Pt(350, 370), nil, lies{"A", 140, 10, 0}},
		{"across", geom.Pt(300, 370), geom.Pt(300, 360), nil, lies{"A", 40, 30, 0}},
		{"on face 2 down is away from the marked edge", geom.Pt(300, 443), geom.Pt(350, 453), nil, lies{"A", 140, 30, 0}},
		{"Shift keeps along", geom.Pt(300, 370), geom.Pt(350, 360), shift, lies{"A", 140, 10, 0}},
		{"Shift keeps across", geom.Pt(300, 370), geom.Pt(310, 340), shift, lies{"A", 40, 70, 0}},
		{"over the end", geom.Pt(300, 370), geom.Pt(200, 370), nil, lies{"A", -160, 10, 0}},
		{"to a folded board", geom.Pt(300, 370), geom.Pt(500, 603), nil, lies{"B", 335, 35, 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			s := b.play(Arrange{}, gesture(c.from, c.to, c.held)...)
			b.wantOne(s, start)
			b.wantLies("A1", c.want)
		})
	}
}

// However the hand wanders, only where it lets go counts: to the last bit.
func TestDragDoesNotDrift(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	b := newBench(t)
	start := b.Project()
	s := b.play(Arrange{}, press(300, 370))
	for range 2000 {
		s = b.play(s, drag(rnd.Float64()*1400, 280+rnd.Float64()*350))
	}
	s = b.play(s, drag(350, 360), release(350, 360))
	b.wantOne(s, start)
	if m := b.strip("A1"); m.X != 140 || m.Y != 30 {
		t.Errorf("at %v, %v", m.X, m.Y)
	}
}

// What is on screen at the end of a drag is what is kept.
func TestPreviewIsWhatIsCommitted(t *testing.T) {
	b := newBench(t)
	s := b.play(Arrange{}, press(300, 370), drag(350, 360))
	shown, _ := b.shown().Panel("top").Strip("A1")
	if shown.X != 140 || shown.Y != 30 || b.Project().Panel("top").Strips[0].X != 40 {
		t.Errorf("while it is dragged it shows at %v, %v", shown.X, shown.Y)
	}
	if b.sketch.Carried != "A1" || b.sketch.Board != "A" || b.sketch.Face != 1 {
		t.Errorf("sketch %+v", b.sketch)
	}
	b.play(s, release(350, 360))
	if b.strip("A1") != shown {
		t.Errorf("kept %+v", b.strip("A1"))
	}
}

// edgeSnap brings a corner within 14 mm of (25, 3) there, each way by itself.
func edgeSnap(s model.Strip) (model.Strip, []Guide) {
	var g []Guide
	if math.Abs(s.X-25) <= 14 {
		s.X, g = 25, append(g, Guide{Why: "marked end"})
	}
	if math.Abs(s.Y-3) <= 14 {
		s.Y, g = 3, append(g, Guide{Why: "marked edge"})
	}
	return s, g
}

func TestSnapping(t *testing.T) {
	for _, c := range []struct {
		name     string
		id       string
		from, to geom.Point
		held     func(Event) Event
		want     lies
		guides   bool
	}{
		{"moved to (32, 16)", "A1", geom.Pt(300, 370), geom.Pt(296, 367), nil, lies{"A", 25, 3, 0}, true},
		{"Control: stays at (32, 16)", "A1", geom.Pt(300, 370), geom.Pt(296, 367), control, lies{"A", 32, 16, 0}, false},
		{"too far: (140, 30)", "A1", geom.Pt(300, 370), geom.Pt(350, 360), nil, lies{"A", 140, 30, 0}, false},
		{"dropped at (535, 5)", "4", geom.Pt(300, 82.5), geom.Pt(600, 375), nil, lies{"A", 535, 3, 0}, true},
		{"dropped with Control", "4", geom.Pt(300, 82.5), geom.Pt(600, 375), control, lies{"A", 535, 5, 0}, false},
		{"swept from (1100, 150), 45 below", "4", geom.Pt(650, 325), geom.Pt(900, 325), nil, lies{"A", 1100, 105, 0}, false},
		{"slid with Control", "A1", geom.Pt(300, 217.5), geom.Pt(310, 217.5), control, lies{"A", 20, 10, 0}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			b.snap = edgeSnap
			start := b.Project()
			ev := gesture(c.from, c.to, c.held)
			s := b.play(Arrange{}, ev[0], ev[2])
			if got := len(b.sketch.Guides) > 0; got != c.guides {
				t.Errorf("guides %v", b.sketch.Guides)
			}
			s = b.play(s, ev[3])
			b.wantOne(s, start)
			b.wantLies(c.id, c.want)
			if len(b.sketch.Guides) > 0 {
				t.Error("guides stay on screen")
			}
		})
	}
}
