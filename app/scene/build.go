package scene

import (
	"fmt"
	"math"
	"strings"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/say"
)

// Scene is the workspace laid out. It is a value; nothing changes it.
type Scene struct {
	in      Input
	text    float64 // size of text against the ordinary one
	hand    *face.Board
	areas   struct{ panel, board, body, lanes geom.Rect } // units; body is board below its rule
	panel   frame
	was     frame // of the panel as it was, where Before is set
	board   frame // over the unwrapped board
	lanes   []lane
	laneRow float64 // height of a lane, units
	items   []item
}

// item is one thing drawn, by itself, so that it can be drawn again alone.
type item struct {
	name string
	draw func(render.Canvas)
}

// Build lays a scene out.
func Build(in Input) *Scene {
	s := &Scene{in: in, text: math.Min(math.Max(in.Look.Text, 1), 2)}
	if in.Look.Pixels <= 0 {
		s.in.Look.Pixels = 1
	}
	if in.Look.Theme == (Theme{}) {
		s.in.Look.Theme = Paper()
	}
	s.fillWords()
	for _, b := range in.Boards.All {
		if b.ID == in.Boards.InHand {
			s.hand = b
		}
	}
	if d := in.Depth.Hand; d != nil && s.hand != nil && in.Depth.On {
		planed := *d
		planed.Thickness = s.hand.Thickness // the drawing keeps its place while stock comes off
		s.hand = &planed
	}
	if p := s.in.Panel.Panel; p != nil {
		if r := s.in.Roll; r != nil {
			was := *r
			was.Was.Board = was.Was.Wood(p)
			s.in.Roll = &was
		}
		s.in.Panel.Panel = p.Finished()
	}
	if s.in.Before != nil {
		s.in.Before = s.in.Before.Finished()
	}
	s.turnToBack()
	s.divide()
	s.add("ground", s.drawGround)
	s.buildPanel()
	s.buildBoard()
	s.buildLanes()
	s.add("frame", s.drawFrame)
	return s
}

func (s *Scene) add(name string, draw func(render.Canvas)) {
	s.items = append(s.items, item{name, draw})
}

// fillWords puts plain millimetres where the caller gave no words.
func (s *Scene) fillWords() {
	w := &s.in.Words
	if w.Len == nil {
		w.Len = func(mm float64) string { return fmt.Sprintf("%.0f mm", mm) }
	}
	if w.Short == nil {
		w.Short = func(mm float64) string { return fmt.Sprintf("%.0f", mm) }
	}
	if w.Share == nil {
		w.Share = func(v float64) string { return fmt.Sprintf("%.0f %%", 100*v) }
	}
	if w.Side == nil {
		w.Side = func(b *face.Board, f int) string { return say.Of(b.SideName(f)) }
	}
	if w.Wood == nil {
		w.Wood = func(species string) string { return strings.ReplaceAll(species, "-", " ") }
	}
	if w.Number == nil {
		w.Number = func(_, strip string) string { return strip }
	}
	if w.Was == nil {
		w.Was = w.Number
	}
	if len(w.Steps) == 0 {
		w.Steps = []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000}
	}
}

// headHeight is what the board's name and rule take, units at ordinary text.
const headHeight = 48.0

// divide shares the surface out between the areas and looks at each.
func (s *Scene) divide() {
	w, h, k := math.Max(s.in.Size.X, 1), math.Max(s.in.Size.Y, 1), s.text
	split := s.in.Views.Split
	if split <= 0 {
		split = 0.5
	}
	split = math.Round(h * math.Min(math.Max(split, 0.15), 0.85))
	s.areas.panel = geom.R(0, 0, w, split)
	row, lanes := s.laneSpace(w, h-split)
	s.laneRow = row
	s.areas.board = geom.R(0, split, w, h-lanes)
	s.areas.lanes = geom.R(0, h-lanes, w, h)

	top := 30 * k
	if s.in.Before != nil || s.in.Back || s.in.Depth.On {
		top = 44 * k // a title stands over it
	}
	in := inset(s.areas.panel, 44*k, top, 44*k, 30*k)
	content := s.panelContent()
	if s.in.Before != nil {
		left, right := in, in
		left.Max.X = in.Centre().X - 36*k
		right.Min.X = in.Centre().X + 36*k
		s.was = newFrame(left, content, s.in.Views.Panel)
		in = right
	}
	s.panel = newFrame(in, content, s.in.Views.Panel)
	s.areas.body = inset(s.areas.board, 0, headHeight*k, 0, 0)
	if s.hand != nil {
		b := inset(s.areas.body, 46*k, 6*k, 80*k, 12*k)
		y := s.hand.Thickness/2 + s.hand.Width
		s.board = newFrame(b, geom.R(0, -y, s.hand.Length, y), s.in.Views.Board)
	}
}

// inset moves the sides of r in: left, top, right, bottom.
func inset(r geom.Rect, l, t, rt, b float64) geom.Rect {
	r.Min.X, r.Max.X = r.Min.X+l, r.Max.X-rt
	r.Min.Y, r.Max.Y = r.Min.Y+t, r.Max.Y-b
	if r.Max.X < r.Min.X+1 {
		r.Max.X = r.Min.X + 1
	}
	if r.Max.Y < r.Min.Y+1 {
		r.Max.Y = r.Min.Y + 1
	}
	return r
}

// panelContent is what a fitting view of the panel holds, mm.
func (s *Scene) panelContent() geom.Rect {
	p := s.in.Panel.Panel
	if p == nil {
		return geom.R(0, 0, 1, 1)
	}
	r := geom.R(0, 0, p.Length, p.Width)
	for _, q := range []*face.Panel{p, s.in.Before} {
		if q == nil {
			continue
		}
		for i := range q.Strips {
			r = r.Union(stripRect(q, i))
		}
	}
	return r
}

// stripRect is the place of a strip in its panel, mm.
func stripRect(p *face.Panel, i int) geom.Rect {
	x, y := p.Left(i), p.StripY(i)
	return geom.R(x, y, x+p.Strips[i].L, y+p.Strips[i].W)
}

// Size returns the size of the surface, units.
func (s *Scene) Size() geom.Point { return s.in.Size }

// Pixels returns how many device pixels a unit has.
func (s *Scene) Pixels() float64 { return s.in.Look.Pixels }

// Draw paints everything.
func (s *Scene) Draw(c render.Canvas) {
	for _, it := range s.items {
		it.draw(c)
	}
}

func (s *Scene) drawGround(c render.Canvas) {
	t := &s.in.Look.Theme
	c.Fill(render.Box(s.areas.panel), t.Ground)
	lower := s.areas.board.Union(s.areas.lanes)
	c.Fill(render.Box(lower), t.Bench)
}

// drawFrame draws the lines between the areas and the ring of the keyboard's
// focus.
func (s *Scene) drawFrame(c render.Canvas) {
	t := &s.in.Look.Theme
	a := s.areas.board
	c.Stroke(render.Segment(a.Min, geom.Pt(a.Max.X, a.Min.Y)), render.Pen{Width: 1, Color: t.Line})
	if l := s.areas.lanes; !l.Empty() {
		c.Stroke(render.Segment(l.Min, geom.Pt(l.Max.X, l.Min.Y)), render.Pen{Width: 1, Color: t.Line})
	}
	if s.in.Look.Focus {
		r := geom.R(0, 0, s.in.Size.X, s.in.Size.Y).Inset(1)
		c.Stroke(render.Box(r), render.Pen{Width: 2, Color: t.Accent})
	}
}

func (s *Scene) picture(board string, f int, pxPerMM float64) *photo.Squared {
	if s.in.Look.Picture == nil {
		return nil
	}
	return s.in.Look.Picture(board, f, pxPerMM)
}
