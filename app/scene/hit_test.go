package scene

import (
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// one is a panel of one strip of 930 x 95 mm cut at (40, 8) from a board 210
// mm wide, lying in one of its four states.
func one(t testing.TB, up int, turned bool) Input {
	in := table(t)
	b := in.Boards.All[0]
	p := &face.Panel{ID: "top", Length: 900, Width: 95, Thickness: 20,
		Strips: []face.Strip{{ID: "A1", Board: b, X: 40, Y: 8, L: 930, W: 95, Up: up, Turned: turned}}}
	in.Panel.Panel, in.Panel.Reading, in.Lit = p, nil, nil
	in.Boards.Laid = []Laid{{Panel: "top", Strip: &p.Strips[0]}}
	return in
}

func close(p, q geom.Point) bool { return p.Dist(q) < 1e-6 }

// Worked by hand: the mark at (s, t) = (100, 20) lies at face-1 (140, 28) and
// face-2 (140, 182); in the panel, whose strip begins at X = -15, it is seen
// at u, v of (100, 20), (830, 75), (100, 75), (830, 20).
func TestHitFindsTheMarkInEveryState(t *testing.T) {
	for _, c := range []struct {
		up     int
		turned bool
		u, v   float64
		at     geom.Point
	}{
		{1, false, 100, 20, geom.Pt(140, 28)},
		{1, true, 830, 75, geom.Pt(140, 28)},
		{2, false, 100, 75, geom.Pt(140, 182)},
		{2, true, 830, 20, geom.Pt(140, 182)},
	} {
		s := Build(one(t, c.up, c.turned))
		h := s.Hit(s.PanelPoint(geom.Pt(-15+c.u, c.v)))
		if h.Part != PanelStrip || h.Panel != "top" || h.Strip != "A1" || h.Board != "A" || h.Face != c.up {
			t.Errorf("up %d turned %v: hit %+v", c.up, c.turned, h)
		}
		if !close(h.Panels, geom.Pt(-15+c.u, c.v)) || !close(h.At, c.at) || !close(h.At1, geom.Pt(140, 28)) {
			t.Errorf("up %d turned %v: panel %v, face %v, face 1 %v", c.up, c.turned, h.Panels, h.At, h.At1)
		}
	}
}

// On the unwrapped board the same wood is hit on either face.
func TestHitOnBothFacesOfTheBoard(t *testing.T) {
	s := Build(one(t, 1, false))
	for f, at := range map[int]geom.Point{1: {X: 140, Y: 28}, 2: {X: 140, Y: 182}} {
		p, ok := s.FacePoint("A", f, at)
		if !ok {
			t.Fatal("the board is not on screen")
		}
		h := s.Hit(p)
		if h.Part != BoardStrip || h.Strip != "A1" || h.Panel != "top" || h.Face != f || !close(h.At, at) || !close(h.At1, geom.Pt(140, 28)) {
			t.Errorf("face %d: hit %+v", f, h)
		}
		if back, ok := s.FaceAt("A", f, p); !ok || !close(back, at) {
			t.Errorf("face %d: %v came back as %v", f, at, back)
		}
	}
	p, _ := s.FacePoint("A", 1, geom.Pt(2000, 20))
	if h := s.Hit(p); h.Part != BoardFace || h.Zone != 0 || h.Face != 1 {
		t.Errorf("clear face: %+v", h)
	}
	p, _ = s.FacePoint("A", 2, geom.Pt(2000, 20))
	if h := s.Hit(p); h.Part != BoardFace || h.Zone != -1 || h.Face != 2 || !close(h.At1, geom.Pt(2000, 190)) {
		t.Errorf("clear face 2: %+v", h)
	}
	p, _ = s.FacePoint("A", 1, geom.Pt(700, -13)) // half the thickness below
	if h := s.Hit(p); h.Part != BoardEdge || h.Board != "A" {
		t.Errorf("marked edge: %+v", h)
	}
	p, _ = s.FacePoint("A", 1, geom.Pt(700, 240))
	if h := s.Hit(p); h.Part != BoardGround || h.Board != "" {
		t.Errorf("above the board: %+v", h)
	}
}

// The faces meet at the marked edge: face 1's y = 0 and face 2's y = width lie
// a thickness apart, and the marked end is left on both.
func TestBoardIsUnwrappedAboutItsMarkedEdge(t *testing.T) {
	s := Build(table(t))
	k := s.Scale(BoardArea)
	at := func(f int, x, y float64) geom.Point { p, _ := s.FacePoint("A", f, geom.Pt(x, y)); return p }
	for _, c := range []struct {
		name   string
		a, b   geom.Point
		dx, dy float64 // mm right and down from a to b
	}{
		{"marked edge", at(1, 500, 0), at(2, 500, 210), 0, 26},
		{"other edge of face 1 is above", at(1, 500, 0), at(1, 500, 210), 0, -210},
		{"other edge of face 2 is below", at(2, 500, 210), at(2, 500, 0), 0, 210},
		{"marked end left on face 1", at(1, 0, 50), at(1, 2400, 50), 2400, 0},
		{"marked end left on face 2", at(2, 0, 50), at(2, 2400, 50), 2400, 0},
	} {
		if d := c.b.Sub(c.a).Mul(1 / k); !close(d, geom.Pt(c.dx, c.dy)) {
			t.Errorf("%s: %v, want %v, %v", c.name, d, c.dx, c.dy)
		}
	}
}

func TestHitTurnedStrip(t *testing.T) {
	in := one(t, 1, false)
	st := in.Panel.Panel.Strips[0]
	st.X, st.Y, st.Angle = 300, 20, 5
	in.Boards.Laid[0].Strip = &st
	s := Build(in)
	// (s, t) = (800, 50) at 5 degrees: x = 300 + 800 cos - 50 sin = 1092.598,
	// y = 20 + 800 sin + 50 cos = 139.534.
	p, _ := s.FacePoint("A", 1, geom.Pt(1092.598, 139.534))
	if h := s.Hit(p); h.Part != BoardStrip || h.Strip != "A1" {
		t.Errorf("inside: %+v", h)
	}
	// (800, 100) lies outside its width of 95.
	p, _ = s.FacePoint("A", 1, geom.Pt(1088.24, 189.344))
	if h := s.Hit(p); h.Part != BoardFace {
		t.Errorf("outside: %+v", h)
	}
}

func TestHitPlacesJointsAndGround(t *testing.T) {
	in := table(t)
	s := Build(in)
	// Strips of 92, 92, 80, 80, 80 mm in a panel of 400 begin at Y = -12.
	for _, c := range []struct {
		name  string
		at    geom.Point
		part  Part
		strip string
		index int
	}{
		{"first strip", geom.Pt(450, 30), PanelStrip, "A1", 0},
		{"empty place", geom.Pt(450, 370), PanelPlace, "P5", 4},
		{"joint from below", geom.Pt(450, 79.5), Joint, "A1", 0},
		{"joint from above", geom.Pt(450, 80.5), Joint, "A2", 0},
		{"overhang at the left", geom.Pt(-10, 30), PanelStrip, "A1", 0},
		{"beside", geom.Pt(-60, 30), PanelGround, "", -1},
		{"outer edge is no joint", geom.Pt(450, -11.8), PanelStrip, "A1", 0},
	} {
		if h := s.Hit(s.PanelPoint(c.at)); h.Part != c.part || h.Strip != c.strip || h.Index != c.index {
			t.Errorf("%s: %+v", c.name, h)
		}
	}
	if h := s.Hit(geom.Pt(-5, -5)); h.Part != Nothing {
		t.Errorf("off the surface: %+v", h)
	}
	in.Before = in.Panel.Panel
	if h := Build(in).Hit(geom.Pt(100, 150)); h.Part != BeforeSide {
		t.Errorf("before: %+v", h)
	}
}

func TestHitHandlesAndVertices(t *testing.T) {
	in := table(t)
	s := Build(in)
	// The handle stands 20 units off the end of A1 (x = 970), at half its width.
	end, _ := s.FacePoint("A", 1, geom.Pt(970, 54))
	if h := s.Hit(end.Add(geom.Pt(20, 0))); h.Part != RotateHandle || h.Strip != "A1" || h.Panel != "top" || h.Face != 1 {
		t.Errorf("handle: %+v", h)
	}
	in.Pick.Board, in.Pick.Face, in.Pick.Zone = "A", 1, 0
	s = Build(in)
	v, _ := s.FacePoint("A", 1, geom.Pt(2400, 38)) // third corner of the zone
	if h := s.Hit(v.Add(geom.Pt(3, -3))); h.Part != ZoneVertex || h.Index != 2 || h.Zone != 0 || h.Face != 1 {
		t.Errorf("vertex: %+v", h)
	}
	// Between that corner and the next, (1200, 45), lies (1800, 41.5).
	e, _ := s.FacePoint("A", 1, geom.Pt(1800, 41.5))
	if h := s.Hit(e.Add(geom.Pt(0, 2))); h.Part != ZoneEdge || h.Index != 2 || h.Zone != 0 {
		t.Errorf("edge: %+v", h)
	}
}

func TestHitLanes(t *testing.T) {
	s := Build(table(t))
	got := map[string]bool{}
	a := s.AreaRect(LaneArea)
	for x := a.Min.X + 1; x < a.Max.X; x += 4 {
		for y := a.Min.Y + 1; y < a.Max.Y; y += 4 {
			h := s.Hit(geom.Pt(x, y))
			if h.Part == Lane {
				got[h.Board] = true
				if p, ok := s.FaceAt(h.Board, 1, geom.Pt(x, y)); !ok || !close(p, h.At) {
					t.Fatalf("lane %s at %v: %v, FaceAt %v", h.Board, geom.Pt(x, y), h.At, p)
				}
			} else if h.Part != LaneGround {
				t.Fatalf("lanes hold %+v", h)
			}
		}
	}
	if len(got) != 4 || got["A"] {
		t.Errorf("lanes of %v, want B, C, D and E", got)
	}
}

func TestZoomKeepsWhatIsUnderThePointer(t *testing.T) {
	in := table(t)
	in.Size = geom.Pt(1100, 760)
	s := Build(in)
	for _, at := range []geom.Point{{X: 300, Y: 120}, {X: 900, Y: 300}, {X: 420, Y: 500}} {
		for _, by := range []float64{0.5, 1.3, 4} {
			in2 := in
			in2.Views = s.Zoomed(at, by)
			z := Build(in2)
			a := s.AreaAt(at)
			if k := z.Scale(a) / s.Scale(a); k < by*0.999 || k > by*1.001 {
				t.Errorf("zoomed by %v, want %v", k, by)
			}
			if a == PanelArea && !close(z.PanelAt(at), s.PanelAt(at)) {
				t.Errorf("panel at %v: %v became %v", at, s.PanelAt(at), z.PanelAt(at))
			}
			if a == BoardArea {
				p, _ := s.FaceAt("A", 1, at)
				if q, _ := z.FaceAt("A", 1, at); !close(p, q) {
					t.Errorf("board at %v: %v became %v", at, p, q)
				}
			}
			in2.Views = z.Panned(at, geom.Pt(30, -12))
			m := Build(in2)
			if a == PanelArea && !close(m.PanelAt(at.Add(geom.Pt(30, -12))), z.PanelAt(at)) {
				t.Errorf("panned panel at %v", at)
			}
		}
	}
	in.Views = s.TrueSize(PanelArea, 3.7)
	if k := Build(in).Scale(PanelArea); k != 3.7 {
		t.Errorf("true size is %v units a mm, want 3.7", k)
	}
	in.Views = Build(in).Fitted(PanelArea)
	if Build(in).Scale(PanelArea) != s.Scale(PanelArea) {
		t.Error("a fitted view is not the first one")
	}
}

func TestEmptySceneIsCalm(t *testing.T) {
	for _, in := range []Input{{}, {Size: geom.Pt(3, 2)}, {Size: geom.Pt(400, 300), Boards: Stack{All: []*face.Board{board("A", 900, 120)}}}} {
		s := Build(in)
		for x := -1.0; x < 401; x += 50 {
			for y := -1.0; y < 301; y += 50 {
				s.Hit(geom.Pt(x, y))
			}
		}
		s.Draw(&probe{})
		s.Zoomed(geom.Pt(1, 1), 2)
		s.Panned(geom.Pt(1, 280), geom.Pt(0, 5))
		s.TrueSize(BoardArea, 3)
		if _, ok := s.FaceAt("none", 1, geom.Point{}); ok {
			t.Error("a board that is not there has a place")
		}
	}
}
