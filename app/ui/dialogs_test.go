package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model"
)

// typing puts a text into a field of the dialog that is up.
func (s stage) typing(f *field, text string) {
	s.win.Canvas().Focus(f)
	if f.Text != "" {
		f.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	for _, r := range text {
		f.TypedRune(r)
	}
}

func TestBoardByTape(t *testing.T) {
	s := open(t, model.NewProject(), 100)
	b := &model.Board{ID: "A", Species: "walnut-black"}
	f := newBoardForm(s.Window, b, nil)
	s.ask(question{title: "x", yes: "y", body: f.body()})
	if _, err := f.board(); err == nil || !strings.Contains(err.Error(), "length") {
		t.Errorf("a board without a length gives %v", err)
	}
	for i, v := range []string{"2400", "200 mm", "5/4"} {
		s.typing(f.size[i], v)
	}
	for i, v := range []string{"30", "35", "48"} {
		s.typing(f.tape[0][0][i], v)
	}
	f.seen2.SetChecked(true)
	s.typing(f.tape[1][0][0], "12")
	out, err := f.board()
	if err != nil {
		t.Fatal(err)
	}
	if out.Length != 2400 || out.Width != 200 || out.Thickness != 31.75 { // 5/4 is 1 1/4 inch
		t.Errorf("the board is %g x %g x %g", out.Length, out.Width, out.Thickness)
	}
	// By hand: from the marked edge, y = 0, straight between the stations.
	want := geom.Polygon{{X: 0, Y: 0}, {X: 2400, Y: 0}, {X: 2400, Y: 48}, {X: 1200, Y: 35}, {X: 0, Y: 30}}
	if z := out.Faces[0].Zones; len(z) != 1 || z[0].Kind != model.Sap || !slices.Equal(z[0].Polygon, want) {
		t.Errorf("face 1 became %v, want %v", z, want)
	}
	// On face 2 the marked edge is y = 200: sapwood 12 wide there at the marked
	// end, coming down to nothing in the middle: the triangle (0,200), (0,188),
	// (1200,200).
	z := out.Faces[1].Zones
	if len(z) != 1 || z[0].Polygon.Area() != 7200 || z[0].Polygon.Bounds() != geom.R(0, 188, 1200, 200) {
		t.Errorf("face 2 became %v", z)
	}
	if !out.Faces[0].Known || !out.Faces[1].Known {
		t.Error("faces looked at are not known")
	}
	s.typing(f.tape[0][0][0], "250")
	if _, err := f.board(); err == nil || !strings.Contains(err.Error(), "face 1, marked edge") {
		t.Errorf("sapwood wider than the board gives %v", err)
	}
}

// Opening a board's dialog and keeping it must not touch zones drawn by hand.
func TestBoardDialogKeepsDrawnZones(t *testing.T) {
	s := demo(t, 100)
	for _, b := range s.ses.Project().Boards {
		out, err := newBoardForm(s.Window, b, b).board()
		if err != nil {
			t.Fatalf("board %s: %v", b.ID, err)
		}
		for i := range b.Faces {
			if len(out.Faces[i].Zones) != len(b.Faces[i].Zones) {
				t.Fatalf("board %s, face %d: %d zones became %d", b.ID, i+1, len(b.Faces[i].Zones), len(out.Faces[i].Zones))
			}
			for k, z := range b.Faces[i].Zones {
				if !slices.Equal(z.Polygon, out.Faces[i].Zones[k].Polygon) || z.Kind != out.Faces[i].Zones[k].Kind {
					t.Errorf("board %s, face %d: zone %d changed", b.ID, i+1, k)
				}
			}
		}
		if out.Length != b.Length || out.Width != b.Width || out.Thickness != b.Thickness {
			t.Errorf("board %s: its size changed", b.ID)
		}
	}
}

func TestNewPanelIsProposedStrips(t *testing.T) {
	s := demo(t, 100)
	s.act("new-panel")
	top := s.asks
	f := s.win.Canvas().Focused().(*field)
	s.typing(f, "Shelf one")
	top.confirm()
	if s.asks != top || !top.trouble.Visible() {
		t.Fatal("a panel without a size is taken")
	}
	top.cancel()
	n := model.NewPanel("shelf-one", model.RoleShelf, 700, 300, 20)
	s.proposal(n, true)
	s.q.wait(t, "the proposal", func() bool { return s.asks != nil })
	start := s.steps()
	s.asks.confirm()
	p := s.ses.Project().Panel("shelf-one")
	if p == nil || s.steps() != start+1 || !p.FrontNamed {
		t.Fatalf("the panel is not added as one change with its front named: %+v", p)
	}
	// The panel and 5 mm over at each edge.
	if got := p.StripsWidth(); got < 309.99 || got > 310.01 {
		t.Errorf("the strips make %g mm, want 310", got)
	}
	if s.ses.Selected().Panel != "shelf-one" {
		t.Error("the new panel is not on screen")
	}
	seen := map[string]bool{}
	for _, n := range s.ses.Project().Panels {
		for _, st := range n.Strips {
			if seen[st.ID] {
				t.Errorf("two strips are called %s", st.ID)
			}
			seen[st.ID] = true
		}
	}
}

func TestEvenPlacesShareTheWidth(t *testing.T) {
	for k := 1; k < 20; k++ {
		sum := 0.0
		for _, p := range evenPlaces(k, 930, 460, 0.5) {
			sum += p.W
		}
		if sum < 459.999 || sum > 460.001 {
			t.Errorf("%d places make %g mm", k, sum)
		}
	}
}

// The four ways a strip can lie, by the mapping of the axes: turned runs s the
// other way; turned or face 2 up, not both, runs t the other way.
func TestTapeAsTheStripLies(t *testing.T) {
	front, back := model.Tape{1, 2, 3}, model.Tape{4, 5, 6}
	for _, c := range []struct {
		up        int
		turned    bool
		near, far model.Tape
	}{
		{1, false, model.Tape{1, 2, 3}, model.Tape{4, 5, 6}},
		{1, true, model.Tape{6, 5, 4}, model.Tape{3, 2, 1}},
		{2, false, model.Tape{4, 5, 6}, model.Tape{1, 2, 3}},
		{2, true, model.Tape{3, 2, 1}, model.Tape{6, 5, 4}},
	} {
		s := model.Strip{Up: c.up, Turned: c.turned}
		near, far := ownTape(s, [2]model.Tape{front, back})
		if near != c.near || far != c.far {
			t.Errorf("face %d up, turned %v: near %v, far %v; want %v, %v", c.up, c.turned, near, far, c.near, c.far)
		}
		if got := lyingTape(s, near, far); got != [2]model.Tape{front, back} {
			t.Errorf("face %d up, turned %v: back again it is %v", c.up, c.turned, got)
		}
	}
}

func TestWidthsAfterPlaning(t *testing.T) {
	s := demo(t, 100)
	s.take("t2")
	before := s.ses.Reading("top")
	others := []float64{before.Strips[0].Light.Value, before.Strips[2].Light.Value, before.Strips[3].Light.Value}
	s.key(fyne.KeyW)
	// The first field is the back side, left.
	f := s.win.Canvas().Focused().(*field)
	s.typing(f, "20")
	s.asks.confirm()
	if s.asks != nil {
		t.Fatalf("the dialog stays: %s", s.asks.trouble.Text)
	}
	st := s.lie(t, "t2")
	if st.Planed == nil {
		t.Fatal("nothing was measured")
	}
	if got := lyingTape(st, st.Planed.Near, st.Planed.Far)[1][0]; got != 20 {
		t.Errorf("back side, left: %g, want 20", got)
	}
	now := s.ses.Reading("top")
	for k, i := range []int{0, 2, 3} {
		if now.Strips[i].Light.Value != others[k] {
			t.Errorf("strip %d was judged anew", i)
		}
	}
}

func TestLengthsInDialogs(t *testing.T) {
	s := demo(t, 100)
	for text, want := range map[string]float64{"24": 24, "2.4 cm": 24, `7 3/8"`: 187.325, `1'-2 1/2"`: 368.3} {
		if got, err := s.newField(text, "").size("length"); err != nil || got < want-1e-9 || got > want+1e-9 {
			t.Errorf("%q is %g mm, %v; want %g", text, got, err, want)
		}
	}
	for _, text := range []string{"", "x", "-3", "0"} {
		if _, err := s.newField(text, "").size("length"); err == nil || !strings.HasPrefix(err.Error(), "length") {
			t.Errorf("%q: %v does not say which field", text, err)
		}
	}
	for text, want := range map[string]float64{"30 %": 0.3, "30": 0.3, "any": 1, "": 1, "12,5": 0.125} {
		if got, err := s.newField(text, "").share("limit"); err != nil || got != want {
			t.Errorf("%q is a share of %g, %v; want %g", text, got, err, want)
		}
	}
	if _, err := s.newField("130 %", "").share("limit"); err == nil {
		t.Error("130 % is taken as a share")
	}
	// A value finer than its print is kept where the text was not changed.
	if got, err := s.lengthField(92.4321, true).kept("width", 92.4321); err != nil || got != 92.4321 {
		t.Errorf("an untouched length became %g, %v", got, err)
	}
}

func TestTypingReplacesWhatAFieldHeld(t *testing.T) {
	s := demo(t, 100)
	f := s.newField("old", "")
	s.ask(question{title: "x", body: f, yes: "y", focus: f})
	for _, r := range "new" {
		f.TypedRune(r)
	}
	if f.Text != "new" {
		t.Errorf("typing over %q gives %q", "old", f.Text)
	}
	g := s.newField("", "")
	s.asks.cancel()
	s.ask(question{title: "x", body: g, yes: "y", focus: g})
	for _, r := range "30" {
		g.TypedRune(r)
	}
	if g.Text != "30" {
		t.Errorf("typing into an empty field gives %q", g.Text)
	}
}

func TestCorners(t *testing.T) {
	got, err := parseCorners("130,450, 3880,460, 3900,95, 120,80", cornerNames(1))
	if err != nil || *got != [4]geom.Point{{X: 130, Y: 450}, {X: 3880, Y: 460}, {X: 3900, Y: 95}, {X: 120, Y: 80}} {
		t.Errorf("%v, %v", got, err)
	}
	// The same corners clockwise, and crossing over.
	for _, bad := range []string{"", "1,2,3", "1,2,3,4,5,6,7,x", "1,2,3,4,5,6,7,NaN", "120,80, 3900,95, 3880,460, 130,450", "130,450, 3900,95, 3880,460, 120,80"} {
		if _, err := parseCorners(bad, cornerNames(1)); err == nil || strings.Contains(err.Error(), "(0") {
			t.Errorf("%q is taken as four corners, or not told in words: %v", bad, err)
		}
	}
	if _, err := parseCorners("130,450, 3880,460", cornerNames(1)); err == nil || !strings.Contains(err.Error(), "corner 3 next: other end, other edge") {
		t.Errorf("two corners give %v", err)
	}
}

func TestZonesByHand(t *testing.T) {
	s := demo(t, 100)
	b := s.board()
	n := len(b.Faces[0].Zones)
	s.key(fyne.KeyZ)
	s.shift(fyne.KeyF)
	// A triangle of bare heartwood on face 1 between its two bands of sapwood.
	for _, p := range []geom.Point{{X: 400, Y: 90}, {X: 500, Y: 90}, {X: 450, Y: 130}} {
		at, ok := s.surf.scene().FacePoint(b.ID, 1, p)
		if !ok {
			t.Fatal("the board in hand is not on screen")
		}
		s.press(at)
		s.release(at)
	}
	s.key(fyne.KeyReturn)
	z := s.board().Faces[0].Zones
	if len(z) != n+1 || z[n].Kind != model.Flaw {
		t.Fatalf("%d zones became %d", n, len(z))
	}
	// Half of 100 x 40; the surface counts in steps of single precision.
	if a := z[n].Polygon.Area(); a < 1990 || a > 2010 {
		t.Errorf("the zone covers %g mm2, want 2000", a)
	}
	s.key(fyne.KeyDelete)
	if got := len(s.board().Faces[0].Zones); got != n {
		t.Errorf("Delete leaves %d zones, want %d", got, n)
	}
	if s.steps() != 2 {
		t.Errorf("drawing and deleting made %d steps", s.steps())
	}
}
