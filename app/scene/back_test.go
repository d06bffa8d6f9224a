package scene

import (
	"image/color"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Seen from the back, the strip of 930 x 95 mm cut at (40, 8) shows its other
// face, front and back edge changed over and its ends where they were. By hand:
// with face 1 up the back shows face 2, whose board y is 210 - (8 + t) with
// t = 95 - v, so sap (over 150 to 155 there) lies where v is over 43 to 48.
func TestTheBackShowsTheOtherFace(t *testing.T) {
	for _, c := range []struct {
		up         int
		turned     bool
		sap, heart [][2]float64 // u, v as seen on the back
	}{
		{1, false, [][2]float64{{80, 85}, {850, 85}, {450, 52}}, [][2]float64{{80, 10}, {850, 35}}},
		{2, false, [][2]float64{{80, 10}, {850, 10}, {450, 38}}, [][2]float64{{450, 55}, {850, 85}}},
		{2, true, [][2]float64{{80, 85}, {850, 85}, {850, 58}}, [][2]float64{{80, 10}, {850, 40}}},
	} {
		in := one(t, c.up, c.turned)
		in.Look.Hatch, in.Back = false, true
		in.Pick, in.Boards.InHand = Pick{Zone: -1}, ""
		s := Build(in)
		img := paint(s, in.Look.Faces)
		b := in.Boards.All[0]
		for kind, pts := range map[face.Kind][][2]float64{face.Sap: c.sap, face.Heart: c.heart} {
			want := color.RGBA(flatColour(b, &b.Faces[0], kind))
			for _, p := range pts {
				// A place of the panel lies at its width less v.
				at := s.PanelPoint(geom.Pt(-15+p[0], 95-p[1]))
				if got := img.RGBAAt(int(at.X), int(at.Y)); got != want {
					t.Errorf("up %d turned %v at %v: %v, want %v (%v)", c.up, c.turned, p, got, want, kind)
				}
			}
		}
	}
}

// What is hit on the back is told in the panel's own coordinates and indices,
// with the face that is seen there. The mark of board A at face 1 (140, 28)
// lies 100 mm along and 20 mm across strip A1.
func TestHitOnTheBack(t *testing.T) {
	in := one(t, 1, false)
	in.Back = true
	s := Build(in)
	h := s.Hit(s.PanelPoint(geom.Pt(85, 20)))
	if h.Part != PanelStrip || h.Strip != "A1" || h.Face != 2 || !close(h.Panels, geom.Pt(85, 20)) || !close(h.At, geom.Pt(140, 182)) || !close(h.At1, geom.Pt(140, 28)) {
		t.Errorf("hit %+v", h)
	}
	if a, b := s.PanelPoint(geom.Pt(85, 0)), s.PanelPoint(geom.Pt(85, 95)); a.Y >= b.Y || a.X != b.X {
		t.Errorf("the front edge lies at %v, the back edge at %v: it should lie above", a, b)
	}
	in = table(t)
	in.Back = true
	s = Build(in)
	for _, c := range []struct {
		at    geom.Point
		part  Part
		strip string
		index int
	}{
		{geom.Pt(450, 30), PanelStrip, "A1", 0},
		{geom.Pt(450, 370), PanelPlace, "P5", 4},
		{geom.Pt(450, 79.5), Joint, "A1", 0}, // the glue line of A1 and A2 lies at 80
		{geom.Pt(450, 80.5), Joint, "A2", 0},
		{geom.Pt(-60, 30), PanelGround, "", -1},
	} {
		if h := s.Hit(s.PanelPoint(c.at)); h.Part != c.part || h.Strip != c.strip || h.Index != c.index || !close(h.Panels, c.at) {
			t.Errorf("at %v: %+v", c.at, h)
		}
	}
}

// A place lit on the back is drawn where it is seen there; from the other side
// it lies mirrored about the middle of the width.
func TestLightsOnTheBack(t *testing.T) {
	for _, c := range []struct {
		side face.Side
		back bool
		y    float64 // middle of the place in the panel, from the front
	}{{face.Show, false, 40}, {face.Back, false, 360}, {face.Back, true, 360}, {face.Show, true, 40}} {
		in := table(t)
		in.Back = c.back
		in.Lit = []Light{{Side: c.side, Place: geom.R(300, 30, 600, 50), Bright: true}}
		s := Build(in)
		var p probe
		s.drawLights(&p)
		if got := s.PanelAt(p.bounds.Centre()); got.Dist(geom.Pt(450, c.y)) > 1 {
			t.Errorf("%v, back seen %v: lit about %v, want 450, %v", c.side, c.back, got, c.y)
		}
	}
}

// The corner mark, the planing arrow and the marks of joints are told apart
// from the wood round them.
func TestMarksAreHit(t *testing.T) {
	in := table(t)
	s := Build(in)
	// A1 lies as it grew: its marked end is left, its marked edge in front, at
	// X = -15, Y = -12.
	at := s.PanelPoint(geom.Pt(-15, -12)).Add(geom.Pt(3, -2))
	if h := s.Hit(at); h.Part != MarkWedge || h.Strip != "A1" {
		t.Errorf("corner mark: %+v", h)
	}
	// A2 is turned end for end: its corner is right and at the back, at 172.
	at = s.PanelPoint(geom.Pt(915, 172)).Add(geom.Pt(-3, 2))
	if h := s.Hit(at); h.Part != MarkWedge || h.Strip != "A2" {
		t.Errorf("corner mark of a turned strip: %+v", h)
	}
	arrows := map[string]bool{}
	for x := 0.0; x < 400; x++ {
		if h := s.Hit(geom.Pt(x, s.PanelPoint(geom.Pt(0, 34)).Y)); h.Part == PlaneArrow {
			arrows[h.Strip] = true
		}
	}
	if len(arrows) != 1 || !arrows["A1"] {
		t.Errorf("arrows of %v on the line of A1", arrows)
	}
	found := map[int]bool{}
	for _, y := range []float64{80, 172, 252} { // glue lines
		p := s.PanelPoint(geom.Pt(915, y))
		for dx := 0.0; dx < 40; dx++ {
			if h := s.Hit(p.Add(geom.Pt(dx, 0))); h.Part == JointMark {
				found[h.Index] = true
			}
		}
	}
	if len(found) != 3 || !found[0] || !found[1] || !found[2] {
		t.Errorf("marks of joints %v, want 0, 1 and 2", found)
	}
}

// Where a strip lies is written beside it, only for one on the board in hand.
func TestHowAStripLiesIsWrittenBesideIt(t *testing.T) {
	for carried, want := range map[string]bool{"A1": true, "B1": false, "P5": false} {
		in := table(t)
		in.Sketch = Sketch{Board: "A", Carried: carried, Told: "40 mm from marked end"}
		w := &words{probe: probe{faces: in.Look.Faces}}
		Build(in).Draw(w)
		got := false
		for _, x := range w.text {
			got = got || x.s == "40 mm from marked end"
		}
		if got != want {
			t.Errorf("%s: written %v", carried, got)
		}
	}
}
