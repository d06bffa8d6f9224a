package scene

import (
	"image"
	"image/color"
	"math"
	"testing"

	"heartside/app/render"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// The sapwood of board A is under 52 mm at the marked end of face 1, narrowing
// by 45 at the middle to 38; on face 2 over 150, 155, 168. By hand, for a
// strip of 930 x 95 at (40, 8), which wood shows at (u, v):
func TestTheRightWoodShowsInEveryState(t *testing.T) {
	for _, c := range []struct {
		up     int
		turned bool
		sap    [][2]float64
		heart  [][2]float64
	}{
		// face 1: t = v, s = u; sap at t < 44 - 0.0058 s
		{1, false, [][2]float64{{80, 10}, {850, 10}, {450, 38}}, [][2]float64{{450, 55}, {850, 85}}},
		// turned: s = 930 - u, t = 95 - v
		{1, true, [][2]float64{{80, 85}, {850, 85}, {850, 58}}, [][2]float64{{80, 10}, {850, 40}}},
		// face 2 shows: t = 95 - v, the board's y 8 + t, face 2's y 210 - (8 + t),
		// sap where that is over 150 to 155, so t under 47 to 52
		{2, false, [][2]float64{{80, 85}, {850, 85}, {450, 52}}, [][2]float64{{80, 10}, {850, 35}}},
		// both: t = v, s = 930 - u
		{2, true, [][2]float64{{80, 10}, {850, 10}, {850, 43}}, [][2]float64{{450, 60}, {850, 85}}},
	} {
		in := one(t, c.up, c.turned)
		in.Look.Hatch = false
		in.Pick, in.Boards.InHand = Pick{Zone: -1}, ""
		s := Build(in)
		img := paint(s, in.Look.Faces)
		b := in.Boards.All[0]
		for kind, pts := range map[face.Kind][][2]float64{face.Sap: c.sap, face.Heart: c.heart} {
			want := flatColour(b, &b.Faces[0], kind)
			for _, p := range pts {
				at := s.PanelPoint(geom.Pt(-15+p[0], p[1]))
				if got := img.RGBAAt(int(at.X), int(at.Y)); got != color.RGBA(want) {
					t.Errorf("up %d turned %v at %v: %v, want %v (%v)", c.up, c.turned, p, got, want, kind)
				}
			}
		}
	}
}

// With textures the light and the dark wood lie in the same places.
func TestTexturesLieWhereTheZonesAre(t *testing.T) {
	in := one(t, 2, true)
	in.Look.Hatch = false
	in.Pick = Pick{Zone: -1}
	in.Look.Textures = NewTextures(nil, nil)
	s := Build(in)
	img := paint(s, in.Look.Faces)
	mean := func(u0, v0, u1, v1 float64) float64 {
		a, b := s.PanelPoint(geom.Pt(-15+u0, v1)), s.PanelPoint(geom.Pt(-15+u1, v0))
		var sum, n float64
		for y := int(a.Y); y < int(b.Y); y++ {
			for x := int(a.X); x < int(b.X); x++ {
				sum, n = sum+float64(img.RGBAAt(x, y).G), n+1
			}
		}
		return sum / n
	}
	if sap, heart := mean(400, 5, 900, 35), mean(400, 60, 900, 90); sap < heart+40 {
		t.Errorf("sapwood is %.0f bright, heartwood %.0f", sap, heart)
	}
}

// Lines spaced d apart cover area / d of length: checked for sapwood with
// heartwood laid on top of it.
func TestHatchKeepsToItsKind(t *testing.T) {
	z := zoned{base: face.Heart, to: geom.Identity, zones: []face.Zone{
		{Kind: face.Sap, Polygon: geom.R(100, 100, 500, 300).Polygon()},
		{Kind: face.Heart, Polygon: geom.R(200, 150, 300, 250).Polygon()},
	}}
	mask := geom.R(0, 0, 450, 400).Polygon()
	rings := []geom.Polygon{mask, z.zones[0].Polygon, z.zones[1].Polygon}
	for _, angle := range []float64{0, 45, -30} {
		var sum float64
		for _, l := range zoneLines(&z, rings, 1, face.Sap, angle, 2, geom.Pt(0.3, 0.7)) {
			a, b := l.Points[0], l.Points[1]
			sum += a.Dist(b)
			for _, k := range []float64{0.02, 0.5, 0.98} {
				p := a.Lerp(b, k)
				if !geom.R(100, 100, 450, 300).Contains(p) || geom.R(200.01, 150.01, 299.99, 249.99).Contains(p) {
					t.Fatalf("at %v degrees a line runs through %v", angle, p)
				}
			}
		}
		// 350 x 200 seen, less 100 x 100 covered.
		if got := sum * 2; math.Abs(got-60000) > 900 {
			t.Errorf("at %v degrees lines stand for %.0f mm2, want 60000", angle, got)
		}
	}
}

// Each kind is marked differently with all colour taken away.
func TestHatchesDifferWithoutColour(t *testing.T) {
	seen := map[string]face.Kind{}
	for _, p := range patterns(1) {
		key := ""
		for _, a := range p.angles {
			key += string(rune('a' + int(a/15) + 12))
		}
		if len(p.pen.Dash) > 0 {
			key += " broken"
		}
		if other, ok := seen[key]; ok {
			t.Errorf("%v and %v are marked alike", other, p.kind)
		}
		seen[key] = p.kind
	}
	if len(seen) != 3 {
		t.Errorf("%d patterns", len(seen))
	}
}

// Closed forms: a trapezoid of sapwood 52 to 38 mm wide over 2400 x 210 mm,
// bent at 45 in the middle, is (52+45)/2 x 1200 + (45+38)/2 x 1200.
func TestSapWidthsAndLightShare(t *testing.T) {
	b := table(t).Boards.All[0]
	want := (48.5*1200 + 41.5*1200) / (2400.0 * 210)
	got, unseen, ok := lightShare(b, 1)
	if !ok || math.Abs(got-want) > 1e-6 || unseen != 0 {
		t.Errorf("light share %v (%v unseen), want %v", got, unseen, want)
	}
	for x, w := range map[float64]float64{0.5: 52, 600: 48.5, 1200: 45, 1800: 41.5, 2399.5: 38} {
		low, high := sapAtEdges(b, 1, x)
		if math.Abs(low.y1-low.y0-w) > 0.01 || high.y1 != high.y0 {
			t.Errorf("at %v: %v and %v, want %v at the marked edge alone", x, low, high, w)
		}
	}
	low, high := sapAtEdges(b, 2, 1200)
	if low.y1 != 0 || math.Abs(high.y1-high.y0-55) > 0.01 {
		t.Errorf("face 2: %v and %v, want 55 at its top", low, high)
	}
	c := board("X", 100, 100)
	c.Faces[0].Outline = geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 0, Y: 100}}
	c.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 100, 50).Polygon()}}
	// Of a triangle of 5000 the upper half's small triangle is 1250.
	if got, _, _ := lightShare(c, 1); math.Abs(got-0.75) > 1e-4 {
		t.Errorf("light share %v under a waney outline, want 0.75", got)
	}
}

// What is painted bit by bit is what is painted at once.
func TestPainterRepaintsWhatChanged(t *testing.T) {
	in := table(t)
	in.Look.Textures = NewTextures(nil, nil)
	p := NewPainter(in.Look.Faces)
	p.Paint(Build(in), 940, 700)
	if _, r := p.Paint(Build(in), 940, 700); !r.Empty() {
		t.Errorf("nothing changed and %v was painted", r)
	}
	steps := []func(){
		func() { moveStrip(&in, 0, func(s *face.Strip) { s.X += 37; s.Angle = 1.5 }) },
		func() { moveStrip(&in, 1, func(s *face.Strip) { s.Up = 2 }) },
		func() { in.Hover = Hit{Part: Lane, Board: "C"} },
		func() { in.Lit = nil },
		func() { in.Pick.Strip = "C1" },
		func() { in.Panel.Panel.Strips = in.Panel.Panel.Strips[:3]; in.Boards.Laid = in.Boards.Laid[:3] },
		func() { in.Boards.InHand = "D" },
	}
	for i, step := range steps {
		step()
		s := Build(in)
		got, dirty := p.Paint(s, 940, 700)
		if dirty.Empty() {
			t.Errorf("step %d: nothing was painted", i)
		}
		if off := unlike(got, paint(s, in.Look.Faces)); off > 0 {
			t.Errorf("step %d: %d pixels differ", i, off)
		}
	}
	moveStrip(&in, 2, func(s *face.Strip) { s.X++ })
	if p.Paint(Build(in), 940, 700); p.count > 940*700/5 {
		t.Errorf("one strip moved and %d pixels were painted", p.count)
	}
	if img, r := p.Paint(Build(in), 500, 400); r != img.Rect || r.Dx() != 500 {
		t.Errorf("at another size %v was painted", r)
	}
}

func moveStrip(in *Input, i int, f func(*face.Strip)) {
	p := *in.Panel.Panel
	p.Strips = append([]face.Strip{}, p.Strips...)
	f(&p.Strips[i])
	in.Panel.Panel = &p
	laid := append([]Laid{}, in.Boards.Laid...)
	for k := range laid {
		laid[k].Strip = &p.Strips[k]
	}
	in.Boards.Laid = laid
}

// unlike counts pixels further apart than rounding.
func unlike(a, b *image.RGBA) int {
	n := 0
	for i := 0; i < len(a.Pix); i += 4 {
		for k := 0; k < 3; k++ {
			if d := int(a.Pix[i+k]) - int(b.Pix[i+k]); d > 3 || d < -3 {
				n++
				break
			}
		}
	}
	return n
}

func over(top, under color.NRGBA) color.NRGBA {
	k := float64(top.A) / 255
	f := func(a, b uint8) uint8 { return uint8(k*float64(a) + (1-k)*float64(b)) }
	return color.NRGBA{R: f(top.R, under.R), G: f(top.G, under.G), B: f(top.B, under.B), A: 255}
}

func TestWordsAreLegible(t *testing.T) {
	white, black := rgb(0xFFFFFF), rgb(0)
	for name, th := range map[string]Theme{"paper": Paper(), "charcoal": Charcoal()} {
		for what, c := range map[string][2]color.NRGBA{
			"ink on ground":          {th.Ink, th.Ground},
			"ink on bench":           {th.Ink, th.Bench},
			"quiet on ground":        {th.Quiet, th.Ground},
			"quiet on bench":         {th.Quiet, th.Bench},
			"chip on white wood":     {th.ChipInk, over(th.Chip, white)},
			"chip on black wood":     {th.ChipInk, over(th.Chip, black)},
			"ink on an empty place":  {th.Ink, over(faint(th.Line, 0.28), th.Ground)},
			"quiet on a lane chosen": {th.Quiet, over(faint(th.Accent, 0.16), th.Bench)},
		} {
			if k := colour.ContrastRatio(c[0], c[1]); k < 4.5 {
				t.Errorf("%s, %s: %.2f, want 4.5", name, what, k)
			}
		}
		for what, c := range map[string][2]color.NRGBA{
			"accent": {th.Accent, th.Ground}, "fault": {th.Fault, th.Ground}, "caution": {th.Caution, th.Ground},
			"accent on bench": {th.Accent, th.Bench}, "hover": {th.Hover, th.Ground},
		} {
			if k := colour.ContrastRatio(c[0], c[1]); k < 3 {
				t.Errorf("%s, mark %s: %.2f, want 3", name, what, k)
			}
		}
	}
}

// words collects where text is written, and nothing else.
type words struct {
	probe
	text []written
}

type written struct {
	s string
	r geom.Rect
}

func (w *words) Text(at geom.Point, s string, st render.Style) {
	x, width := 0.0, w.faces.Width(s, st)
	switch st.Align {
	case render.Middle:
		x = -width / 2
	case render.Right:
		x = -width
	}
	m := geom.Rotate(-st.Turn).Then(geom.Translate(at.X, at.Y))
	r := m.ApplyTo(geom.R(x, -w.faces.CapHeight(st), x+width, 0).Polygon()).Bounds()
	if n := len(w.clips); n > 0 && !w.clips[n-1].Contains(r.Centre()) {
		return // out of sight
	}
	for i := range w.text {
		if w.text[i].s == s && w.text[i].r.Centre().Dist(r.Centre()) < 0.25*r.H() { // the rim of chalk
			return
		}
	}
	w.text = append(w.text, written{s, r})
}

// No words run into one another or off the surface, at any size of text.
func TestWordsKeepApart(t *testing.T) {
	for _, size := range []geom.Point{{X: 940, Y: 700}, {X: 1280, Y: 720}, {X: 1500, Y: 950}} {
		for _, text := range []float64{1, 1.25, 1.5, 2} {
			for _, hand := range []string{"A", "B", "D"} {
				for i := range 4 {
					before, back := i%2 == 1, i > 1
					in := table(t)
					in.Size, in.Look.Text, in.Boards.InHand, in.Back = size, text, hand, back
					in.Words.Before, in.Words.Now = "15 % light wood, 1 lone streak", "9.4 % light wood"
					if before {
						in.Before = in.Panel.Panel
					}
					w := &words{probe: probe{faces: in.Look.Faces}}
					Build(in).Draw(w)
					if len(w.text) < 12 {
						t.Fatalf("only %d words", len(w.text))
					}
					for i, a := range w.text {
						if a.r.Min.X < 0 || a.r.Min.Y < 0 || a.r.Max.X > size.X || a.r.Min.Y > size.Y {
							t.Errorf("%v at %v %%, board %s, before %v: %q runs off: %v", size, 100*text, hand, before, a.s, a.r)
						}
						for _, b := range w.text[:i] {
							if c := a.r.Inset(0.8).Intersect(b.r.Inset(0.8)); !c.Empty() {
								t.Errorf("%v at %v %%, board %s, before %v: %q %v runs into %q %v", size, 100*text, hand, before, a.s, a.r, b.s, b.r)
							}
						}
					}
				}
			}
		}
	}
}
