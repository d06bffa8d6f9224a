package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/layout/photo/rings"
	"heartside/model"
)

// Standing before the marked end with face 1 up, the marked edge is at the
// right: the chalk mark is at that corner, and face 1 lies with the marked end
// left and the marked edge down (doc of model.Face). Turning round the board,
// it is at the left before the other end.
func TestFoundCornersTakeTheirNames(t *testing.T) {
	v := seenCorners()
	ll, lr, ur, ul := v[0], v[1], v[2], v[3]
	f := &outline.Found{View: photo.View{Corners: v, Bow: 0.01}, Confidence: [4]float64{0.1, 0.2, 0.3, 0.4}}
	for _, c := range []struct {
		name           string
		end            int
		down, mirrored bool
		want           [4]geom.Point
		sure           [4]float64
	}{
		{"marked end", 0, false, false, [4]geom.Point{ul, ur, lr, ll}, [4]float64{0.4, 0.3, 0.2, 0.1}},
		{"other end", 1, false, false, [4]geom.Point{ur, ul, ll, lr}, [4]float64{0.3, 0.4, 0.1, 0.2}},
		{"marked end, face 1 down", 0, true, false, [4]geom.Point{lr, ll, ul, ur}, [4]float64{0.2, 0.1, 0.4, 0.3}},
		{"other end, face 1 down", 1, true, false, [4]geom.Point{ll, lr, ur, ul}, [4]float64{0.1, 0.2, 0.3, 0.4}},
		{"marked end, mirror image", 0, false, true, [4]geom.Point{ur, ul, ll, lr}, [4]float64{0.3, 0.4, 0.1, 0.2}},
	} {
		l := foundEnd(f, c.end, c.down, c.mirrored)
		for i := range c.want {
			if l.at[i] != c.want[i] || l.trust[i].sure != c.sure[i] {
				t.Errorf("%s: corner %d, %s, is at %v (%g sure), want %v (%g)", c.name, i+1, endCornerNames()[i], l.at[i], l.trust[i].sure, c.want[i], c.sure[i])
			}
		}
		d := endDraft{lie: l}
		if d.faceDown() != c.down || d.mirrored(c.end) != c.mirrored || d.bad() != "" {
			t.Errorf("%s: face 1 down %v, mirrored %v, %q", c.name, d.faceDown(), d.mirrored(c.end), d.bad())
		}
	}
}

// One pixel a mm: 10 mm from the marked edge and 5 below face 1 is 10 pixels
// from that side and 5 from the top.
func TestPlacesOfTheSectionInThePicture(t *testing.T) {
	for end, want := range map[int]geom.Point{0: {X: 290, Y: 125}, 1: {X: 110, Y: 125}} {
		s := endAt(t, endProject(), end)
		m, err := s.p.section()
		if err != nil {
			t.Fatal(err)
		}
		if got := m.pic(geom.Pt(10, 5)); got.Dist(want) > 1e-6 {
			t.Errorf("end %d: lies at %v, want %v", end, got, want)
		}
		if got := m.at(want); got.Dist(geom.Pt(10, 5)) > 1e-6 {
			t.Errorf("end %d: read as %v", end, got)
		}
		s.types("d") // half a turn: from the lower left corner
		m, _ = s.p.section()
		turned := geom.Pt(400-want.X, 280-want.Y)
		if got := m.pic(geom.Pt(10, 5)); got.Dist(turned) > 1e-6 {
			t.Errorf("end %d with face 1 down: lies at %v, want %v", end, got, turned)
		}
	}
}

func TestAnEndIsReadAndKeptAsOneChange(t *testing.T) {
	s := endAt(t, endProject(), 0)
	if s.steps() != 0 {
		t.Fatal("finding corners changed the project")
	}
	s.pressed(fyne.KeyReturn)
	s.rest(t)
	if s.p.step != endPith || len(s.asks) != 1 || len(s.asks[0].rings) != 0 {
		t.Fatalf("step %d, asked %d times", s.p.step, len(s.asks))
	}
	// Three clicks on a ring: 100, 90 and 80 mm from the marked edge.
	for _, px := range []geom.Point{{X: 200, Y: 130}, {X: 210, Y: 140}, {X: 220, Y: 150}} {
		s.clickAt(px)
		s.rest(t)
	}
	last := s.asks[len(s.asks)-1]
	if len(last.rings) != 1 || len(last.rings[0]) != 3 || last.rings[0][1].Dist(geom.Pt(90, 20)) > 0.5 {
		t.Fatalf("asked with %v", last.rings)
	}
	for _, a := range s.asks[1 : len(s.asks)-1] {
		if len(a.rings) != 0 {
			t.Error("a ring of fewer than three clicks was read")
		}
	}
	s.pressed(fyne.KeyReturn)
	s.rest(t)
	if s.p.step != endHeart {
		t.Fatalf("step %d", s.p.step)
	}
	s.pressed(fyne.KeyReturn)
	s.q.drain()
	b := s.ses.Committed().Board("A")
	if s.steps() != 1 || s.page == page(s.p) {
		t.Fatalf("%d changes, page still up: %v; asks %v", s.steps(), s.page == page(s.p), s.Window.asks != nil)
	}
	if b.Ends[0].Corners == nil || b.Ends[0].Corners[1] != (geom.Point{X: 300, Y: 120}) || b.Ends[0].Photo != "a.png" {
		t.Errorf("kept %+v", b.Ends[0])
	}
	if len(b.Pith) != 1 || b.Pith[0] != (model.Pith{HasX: true, Across: 50, Depth: 60}) || b.Heart != 90 {
		t.Errorf("pith %+v, heart %g", b.Pith, b.Heart)
	}
	// The pith lies below the middle, nearer face 2: the bark is on face 1.
	if b.Bark != model.BarkFace1 {
		t.Errorf("bark side %q", b.Bark)
	}
	s.ses.Undo()
	if b := s.ses.Committed().Board("A"); b.Ends[0].Corners != nil || len(b.Pith) != 0 {
		t.Error("one undo does not take all of it back")
	}
}

func TestBothEndsStandTogether(t *testing.T) {
	s := endAt(t, endProject(), 0)
	s.types("p")
	s.rest(t)
	s.types("k")
	s.said.pith = &rings.Pith{At: geom.Pt(61.4, 50), Error: 2, Found: true}
	s.said.heart = &rings.Heart{Seen: true, Radius: 100}
	keep := func(end int) *model.Board {
		s.show(t, end)
		s.types("p")
		s.rest(t)
		s.types("k")
		s.q.drain()
		return s.ses.Committed().Board("A")
	}
	b := keep(1)
	want := []model.Pith{{HasX: true, Across: 50, Depth: 60}, {X: 800, HasX: true, Across: 61, Depth: 50}}
	if len(b.Pith) != 2 || b.Pith[0] != want[0] || b.Pith[1] != want[1] {
		t.Fatalf("pith %+v, want %+v", b.Pith, want)
	}
	if b.Heart != 95 { // the mean of 90 and 100
		t.Errorf("heart %g", b.Heart)
	}
	s.said.heart = &rings.Heart{Seen: true, Radius: 80}
	if b = keep(1); b.Heart != 85 || len(b.Pith) != 2 { // 90 and 80: the end read again is not counted twice
		t.Errorf("read again: heart %g, pith %+v", b.Heart, b.Pith)
	}
}

// What was told for the whole board, and the mean where the other end's own
// radius is not known.
func TestPithOfTheWholeBoardGivesWay(t *testing.T) {
	p := endProject()
	p.Boards[0].Pith = []model.Pith{{Across: 10, Depth: -5}}
	p.Boards[0].Heart = 70
	s := endAt(t, p, 1)
	s.types("p")
	s.rest(t)
	s.types("k")
	b := s.ses.Committed().Board("A")
	if len(b.Pith) != 1 || b.Pith[0].X != 800 || b.Heart != 90 {
		t.Errorf("pith %+v, heart %g", b.Pith, b.Heart)
	}
	h, c := endHearts{}, *b
	c.Pith, c.Heart = []model.Pith{{HasX: true}}, 110
	if mean, other := h.mean(&c, 1, 90); mean != 100 || other != 110 {
		t.Errorf("mean %g of 90 and %g", mean, other)
	}
}

func TestNoBorderIsAnAnswer(t *testing.T) {
	p := endProject()
	p.Boards[0].Heart = 70
	s := endAt(t, p, 0)
	s.types("h")
	s.rest(t)
	s.types("x")
	s.rest(t)
	if !s.asks[len(s.asks)-1].none || !strings.Contains(s.p.side.heart.Text, "no border seen") {
		t.Errorf("the column says %q", s.p.side.heart.Text)
	}
	s.pressed(fyne.KeyReturn)
	if b := s.ses.Committed().Board("A"); b.Heart != 70 || len(b.Pith) != 1 {
		t.Errorf("heart %g, pith %+v", b.Heart, b.Pith)
	}
}

func TestBarkSideAndPithAreAskedAbout(t *testing.T) {
	p := endProject()
	p.Boards[0].Bark = model.BarkFace2
	s := endAt(t, p, 0)
	s.types("p")
	s.rest(t)
	if !strings.Contains(s.p.side.doubts.Text, "bark side") {
		t.Errorf("the clash is not told: %q", s.p.side.doubts.Text)
	}
	s.types("k")
	if s.steps() != 0 || s.Window.asks == nil {
		t.Fatal("kept without asking")
	}
	s.Window.asks.confirm()
	s.q.drain()
	if b := s.ses.Committed().Board("A"); b.Bark != model.BarkFace1 || len(b.Pith) != 1 || s.steps() != 1 {
		t.Errorf("bark %q, %d changes", b.Bark, s.steps())
	}
}

// A pith that crosses the middle of the thickness leaves no bark side; nor is
// one put on a board that has none (a board through the pith).
func TestBarkSideOfSeveralPlaces(t *testing.T) {
	b := model.NewBoard("A", "walnut-black", 800, 200, 40)
	for _, c := range []struct {
		has   model.Bark
		depth []float64
		want  model.Bark
	}{
		{"", []float64{60}, model.BarkFace1}, {"", []float64{-3}, model.BarkFace2}, {"1", []float64{20}, ""},
		{"1", []float64{60, 70}, model.BarkFace1}, {"2", []float64{60, 10}, ""}, {model.BarkNone, []float64{60}, model.BarkNone},
	} {
		b.Bark, b.Pith = c.has, nil
		for i, d := range c.depth {
			b.Pith = append(b.Pith, model.Pith{HasX: true, X: float64(i), Depth: d})
		}
		if got := barkOf(b, b.Pith); got != c.want {
			t.Errorf("depths %v with %q: %q, want %q", c.depth, c.has, got, c.want)
		}
		b.Bark = barkOf(b, b.Pith)
		p := model.NewProject()
		p.Boards = []*model.Board{b}
		if err := model.Validate(p); err != nil {
			t.Errorf("depths %v: %v", c.depth, err)
		}
	}
}

func TestClicksByKeyMoveAndGo(t *testing.T) {
	s := endAt(t, endProject(), 0)
	s.types("p")
	s.rest(t)
	s.pressed(fyne.KeySpace) // shows the cursor, in the middle of the section
	s.pressed(fyne.KeySpace)
	s.rest(t)
	if n := s.p.now.rings; len(n) != 1 || len(n[0]) != 1 || n[0][0].Dist(geom.Pt(200, 140)) > 0.01 {
		t.Fatalf("clicks %v", n)
	}
	s.pressed(fyne.KeySpace) // takes it in hand
	at := s.p.now.rings[0][0]
	s.pressed(fyne.KeyRight)
	s.pressed(fyne.KeyRight)
	s.pressed(fyne.KeySpace)
	s.rest(t)
	got := s.p.now.rings[0][0]
	if got.X <= at.X || got.Y != at.Y {
		t.Errorf("moved from %v to %v", at, got)
	}
	s.act("undo") // the run of arrows is one act
	if s.p.now.rings[0][0] != at {
		t.Errorf("undo leads to %v, want %v", s.p.now.rings[0][0], at)
	}
	s.rest(t)
	s.act("redo")
	s.rest(t)
	s.pressed(fyne.KeyDelete)
	if len(s.p.now.rings) != 0 {
		t.Errorf("left %v", s.p.now.rings)
	}
	s.types("n")
	if len(s.p.now.rings) != 0 {
		t.Error("a ring was begun before the first has three clicks")
	}
}

func TestCornersAreDraggedAndAskedAbout(t *testing.T) {
	s := endAt(t, endProject(), 0)
	if !strings.Contains(s.p.side.doubts.Text, "corner 1") { // 0.3 sure: the upper left one
		t.Errorf("an unsure corner is not told: %q", s.p.side.doubts.Text)
	}
	c := s.p.pic
	s.surf.KeyDown(&fyne.KeyEvent{Name: desktop.KeyControlLeft}) // no snapping
	from, to := c.view.toRoom(geom.Pt(100, 120)), c.view.toRoom(geom.Pt(104, 118))
	c.MouseDown(s.mouse(from, desktop.MouseButtonPrimary))
	c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: position(to)}})
	c.MouseUp(s.mouse(to, desktop.MouseButtonPrimary))
	c.DragEnd()
	s.surf.KeyUp(&fyne.KeyEvent{Name: desktop.KeyControlLeft})
	if got := s.p.now.lie.at[0]; got.Dist(geom.Pt(104, 118)) > 0.1 {
		t.Errorf("corner 1 lies at %v", got)
	}
	s.pressed(fyne.KeyEscape) // lets the corner go
	s.pressed(fyne.KeyEscape)
	if s.Window.asks == nil || s.page != page(s.p) {
		t.Fatal("left without asking")
	}
	s.Window.asks.cancel()
	s.act("undo")
	s.act("undo")
	if len(s.p.now.lie.at) != 0 || s.steps() != 0 {
		t.Errorf("undo leaves %v", s.p.now.lie.at)
	}
}

func TestCornersThatCrossAreRefused(t *testing.T) {
	s := endAt(t, endProject(), 0)
	d := s.p.now
	d.lie.at = []geom.Point{{X: 100, Y: 120}, {X: 300, Y: 160}, {X: 300, Y: 120}, {X: 100, Y: 160}}
	s.p.do(d)
	s.types("p")
	if s.p.step != endCorners || !strings.Contains(s.line(), "go round") {
		t.Errorf("step %d, said %q", s.p.step, s.line())
	}
}

func TestPithOutsideIsToldWithItsDistance(t *testing.T) {
	s := endAt(t, endProject(), 0)
	s.said.pith = &rings.Pith{At: geom.Pt(230, 80), Error: 20, Found: true}
	s.types("p")
	s.rest(t)
	// 30 mm beyond the other edge and 40 below face 2: 50 mm.
	if d := s.p.outside(s.p.got.pith.At); math.Abs(d-50) > 1e-9 {
		t.Errorf("outside by %g", d)
	}
	text := s.p.side.pith.Text
	for _, want := range []string{"230 mm (30 mm beyond the other edge)", "80 mm (40 mm beyond face 2)", "20 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
	if !strings.Contains(s.p.side.doubts.Text, "20 mm") {
		t.Errorf("a wide error is not told: %q", s.p.side.doubts.Text)
	}
	s.p.pic.zoom(geom.Pt(790, 10), 6) // away from it
	if _, to, far := s.p.pic.beyond(); !far || to.X > s.p.pic.view.room.X || to.X < 0 || to.Y > s.p.pic.view.room.Y {
		t.Errorf("arrow to %v, far %v", to, far)
	}
	img := s.p.pic.paint(800, 600)
	if img.Bounds().Dx() != 800 {
		t.Error("nothing is drawn")
	}
}

func TestRackOpensAnEnd(t *testing.T) {
	s := open(t, endProject(), 100)
	s.rack.step = stepFaces
	s.showRack()
	s.rack.faces.take(0, intake.EndB)
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	p, ok := s.page.(*endPage)
	if !ok || p.end != 1 || p.from != page(s.rack) {
		t.Fatalf("page %T", s.page)
	}
	s.q.wait(t, "the trouble", func() bool { return p.trouble != "" }) // there is no such file
	s.leavePage()
	if s.page != page(s.rack) {
		t.Error("Escape does not lead back to the rack")
	}
}
