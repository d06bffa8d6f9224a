package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// How much of the colours below lies over the picture of the sawn face, whose
// figure still shows through: of what no zone covers, and of zones, under which
// that lies.
const (
	veilBase = 0.7
	veilZone = 0.85
)

// drawVeil lays the wood of a face as planed over the picture of the face as
// sawn: no photograph shows what lies below.
func (s *Scene) drawVeil(c render.Canvas, b *face.Board, f int, to geom.Affine, clip render.Path) {
	bf := &b.Faces[f-1]
	outline := bf.Outline
	if outline == nil {
		outline = geom.R(0, 0, b.Length, b.Width).Polygon()
	}
	c.Push(clip)
	c.Push(render.Ring(to.ApplyTo(outline)))
	c.Fill(render.Ring(to.ApplyTo(outline)), faint(flatColour(b, bf, bf.Base), veilBase))
	for i := range bf.Zones {
		// Flaws are the photograph's own; a zone over another covers it.
		k := bf.Zones[i].Kind
		if k == face.Flaw {
			continue
		}
		c.Fill(render.Ring(to.ApplyTo(bf.Zones[i].Polygon)), faint(flatColour(b, bf, k), veilZone))
	}
	c.Pop()
	c.Pop()
}

// drawPanelDepth says over the panel that it is not the finished faces.
func (s *Scene) drawPanelDepth(c render.Canvas) {
	if d := &s.in.Depth; d.On && d.Panel != "" {
		a := s.areas.panel
		s.badge(c, geom.Pt(a.Max.X-8*s.text, a.Min.Y+17*s.text), a.W()/2, d.Panel)
	}
}

// drawBoardDepth says over the board in hand which faces are seen.
func (s *Scene) drawBoardDepth(c render.Canvas) {
	if d := &s.in.Depth; d.On && d.Board != "" {
		a := s.areas.board
		s.badge(c, geom.Pt(a.Max.X-8*s.text, a.Min.Y+19*s.text), a.W()*0.6, d.Board)
	}
}

// badgeRoom is what the badge over the board in hand takes of its width.
func (s *Scene) badgeRoom() float64 {
	d := &s.in.Depth
	if !d.On || d.Board == "" {
		return 0
	}
	st := render.Style{Size: s.size(11.5), Bold: true}
	return math.Min(s.width(d.Board, st), s.areas.board.W()*0.6) + 20*s.text
}

// badge writes words on a ground of the accent, right aligned at a baseline.
func (s *Scene) badge(c render.Canvas, at geom.Point, room float64, words string) {
	t := &s.in.Look.Theme
	st := render.Style{Size: s.size(11.5), Bold: true, Align: render.Right, Color: t.Ground}
	words = s.fit(words, st, room)
	w := s.width(words, st)
	pad := 6 * s.text
	at.X -= pad
	c.Fill(render.Box(geom.R(at.X-w-pad, at.Y-st.Size*1.05, at.X+pad, at.Y+st.Size*0.4)), t.Accent)
	c.Text(at, words, st)
}
