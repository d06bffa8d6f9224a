package scene

import (
	"image/color"
	"math"
	"testing"

	"heartside/app/render"
	"heartside/layout/geom"
)

// strokes keeps what is stroked in one colour.
type strokes struct {
	probe
	hue  color.NRGBA
	got  []render.Path
	pens []render.Pen
}

func (s *strokes) Stroke(p render.Path, k render.Pen) {
	if k.Color == s.hue {
		s.got, s.pens = append(s.got, p), append(s.pens, k)
	}
}

// A direction of 30 degrees is that of the face's own coordinates, y up: on
// screen, y down, the strokes rise to the right by tan 30. Where it is less
// sure they are fainter, and where it is not sure there are none.
func TestGrainAsRead(t *testing.T) {
	in := one(t, 1, false)
	for f := 1; f <= 2; f++ {
		in.Grain.Read = [2]Along{}
		in.Grain.Read[f-1] = func(p geom.Point) (float64, float64) {
			if p.X < in.Boards.All[0].Length/2 {
				return 30, 0.9
			}
			return 30, 0.1
		}
		s := Build(in)
		k := &strokes{hue: grainHue}
		s.drawGrainRead(k)
		if len(k.got) != 1 || len(k.got[0]) < 20 {
			t.Fatalf("face %d: %d groups of strokes", f, len(k.got))
		}
		for _, l := range k.got[0] {
			a, b := l.Points[0], l.Points[1]
			if got := (a.Y - b.Y) / (b.X - a.X); math.Abs(got-math.Tan(math.Pi/6)) > 1e-9 {
				t.Fatalf("face %d: a stroke rises by %g", f, got)
			}
			p, _ := s.FaceAt(in.Boards.InHand, f, a.Lerp(b, 0.5))
			if board := in.Boards.All[0]; p.X < 0 || p.X > board.Length/2 || p.Y < 0 || p.Y > board.Width {
				t.Fatalf("face %d: a stroke at %v", f, p)
			}
		}
	}
	in.Grain.Read[1] = func(geom.Point) (float64, float64) { return 0, 0.3 }
	k := &strokes{hue: faint(grainHue, 0.45)}
	Build(in).drawGrainRead(k)
	if len(k.got) != 1 {
		t.Error("a direction that is hardly sure is not drawn faintly")
	}
}

// A line has a tick across either end; the one in hand is of the colour of what
// is in hand, and no line is while none is drawn.
func TestGrainLines(t *testing.T) {
	in := one(t, 1, false)
	in.Grain = Grain{On: true, Face: 1, Line: 1}
	in.Grain.Lines[0] = [][]geom.Point{{geom.Pt(100, 50), geom.Pt(600, 50)}, {geom.Pt(100, 90), geom.Pt(600, 100)}}
	in.Grain.Lines[1] = [][]geom.Point{{geom.Pt(100, 50), geom.Pt(600, 60)}}
	draw := func(hue color.NRGBA) *strokes {
		k := &strokes{hue: hue}
		Build(in).drawGrainLines(k)
		return k
	}
	k := draw(in.Look.Theme.Accent)
	s := Build(in)
	want, _ := s.FacePoint(in.Boards.InHand, 1, geom.Pt(600, 100))
	if len(k.got) != 1 || k.got[0][0].Points[1].Dist(want) > 1e-9 {
		t.Fatalf("in hand: %v", k.got)
	}
	k = draw(in.Look.Theme.Chalk)
	ticks := 0
	for _, p := range k.got {
		for _, l := range p {
			if d := l.Points[0].Dist(l.Points[1]); math.Abs(d-10*s.text) < 1e-6 {
				ticks++
			}
		}
	}
	if ticks != 6 {
		t.Errorf("%d ticks, want two at each of three lines", ticks)
	}
	in.Grain.On = false
	if k := draw(in.Look.Theme.Accent); len(k.got) != 0 {
		t.Error("a line is in hand while none is drawn")
	}
}

// The cursor of the keys is brought into view, and what is in view stays.
func TestTheCursorOfTheKeysStaysInView(t *testing.T) {
	in := one(t, 1, false)
	if v := Build(in).Kept(1, geom.Pt(1200, 100)); v != in.Views {
		t.Error("what is in view moves the view")
	}
	in.Views.Board = View{Zoom: 3, Centre: geom.Pt(300, 80)}
	s := Build(in)
	in.Views = s.Kept(2, geom.Pt(2000, 100))
	s = Build(in)
	if at, _ := s.FacePoint(in.Boards.InHand, 2, geom.Pt(2000, 100)); !s.areas.body.Contains(at) {
		t.Errorf("the cursor is at %v, the area %v", at, s.areas.body)
	}
	if in.Views.Board.Zoom != 3 {
		t.Error("the view was scaled")
	}
}
