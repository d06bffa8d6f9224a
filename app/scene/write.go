package scene

import (
	"image/color"

	"heartside/app/render"
	"heartside/layout/geom"
)

// size returns a text size, given at the ordinary scale.
func (s *Scene) size(v float64) float64 { return v * s.text }

// width measures text, 0 without typefaces.
func (s *Scene) width(t string, st render.Style) float64 {
	if s.in.Look.Faces == nil {
		return 0
	}
	return s.in.Look.Faces.Width(t, st)
}

// fit shortens text to a width.
func (s *Scene) fit(t string, st render.Style, w float64) string {
	if s.in.Look.Faces == nil {
		return t
	}
	return s.in.Look.Faces.Fit(t, st, w)
}

// sentence writes what is to be done where nothing is drawn yet, in as many lines
// as it needs.
func (s *Scene) sentence(c render.Canvas, room geom.Rect, words string) {
	st := render.Style{Size: s.size(14), Color: s.in.Look.Theme.Quiet, Align: render.Middle}
	w := room.W() - 20
	lines := []string{words}
	if f := s.in.Look.Faces; f != nil {
		lines = f.Wrap(words, st, w)
	}
	at := room.Centre()
	at.Y -= 0.7 * st.Size * float64(len(lines)-1)
	for _, l := range lines {
		c.Text(at, s.fit(l, st, w), st)
		at.Y += 1.4 * st.Size
	}
}

// chip writes text on a dark ground, its left middle at a place, and returns
// what it covers.
func (s *Scene) chip(c render.Canvas, at geom.Point, t string, st render.Style) geom.Rect {
	r := s.chipRect(at, t, st)
	th := &s.in.Look.Theme
	c.Fill(render.RoundBox(r, st.Size*0.32), th.Chip)
	if st.Color == (color.NRGBA{}) {
		st.Color = th.ChipInk
	}
	st.Align = render.Left
	c.Text(geom.Pt(r.Min.X+st.Size*0.4, at.Y+st.Size*0.365), t, st)
	return r
}

func (s *Scene) chipRect(at geom.Point, t string, st render.Style) geom.Rect {
	w := s.width(t, st) + st.Size*0.8
	return geom.R(at.X, at.Y-st.Size*0.68, at.X+w, at.Y+st.Size*0.68)
}

// plaque writes text on a dark ground about its middle, upright where turned
// by 90 degrees.
func (s *Scene) plaque(c render.Canvas, mid geom.Point, t string, st render.Style) {
	w, h := s.width(t, st)+st.Size*0.8, st.Size*1.36
	at := mid.Add(geom.Pt(0, st.Size*0.365))
	if st.Turn == 90 {
		w, h, at = h, w, mid.Add(geom.Pt(st.Size*0.365, 0))
	}
	c.Fill(render.RoundBox(geom.R(mid.X-w/2, mid.Y-h/2, mid.X+w/2, mid.Y+h/2), st.Size*0.32), s.in.Look.Theme.Chip)
	st.Align, st.Color = render.Middle, s.in.Look.Theme.ChipInk
	c.Text(at, t, st)
}

// chalk writes text as chalk on wood: white with a dark rim, legible on light
// and dark wood alike.
func (s *Scene) chalk(c render.Canvas, at geom.Point, t string, st render.Style) {
	rim := st
	rim.Color = faint(s.in.Look.Theme.Chip, 0.55)
	d := st.Size * 0.07
	for _, o := range [4]geom.Point{{X: -d}, {X: d}, {Y: -d}, {Y: d}} {
		c.Text(at.Add(o), t, rim)
	}
	st.Color = s.in.Look.Theme.Chalk
	c.Text(at, t, st)
}

// onWood strokes a path so that it is seen on light and dark wood: a light
// line over a wider dark one.
func (s *Scene) onWood(c render.Canvas, p render.Path, w float64, dash []float64) {
	t := &s.in.Look.Theme
	c.Stroke(p, render.Pen{Width: w + 2.4, Color: t.Chip, Dash: dash})
	c.Stroke(p, render.Pen{Width: w, Color: t.Chalk, Dash: dash})
}

// ringed strokes a path in a colour that is seen on any wood: over a light
// line over a dark one.
func (s *Scene) ringed(c render.Canvas, p render.Path, w float64, colour color.NRGBA, dash []float64) {
	t := &s.in.Look.Theme
	c.Stroke(p, render.Pen{Width: w + 3.6, Color: faint(t.Chip, 0.8)})
	c.Stroke(p, render.Pen{Width: w + 1.8, Color: t.Chalk})
	c.Stroke(p, render.Pen{Width: w, Color: colour, Dash: dash})
}
