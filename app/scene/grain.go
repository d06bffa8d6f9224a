package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
)

// grainDash tells lines along the grain from the borders of zones, which are
// whole, and of blanks, which have even dashes: long and short, with a tick
// across at either end.
func (s *Scene) grainDash() []float64 {
	return []float64{11 * s.text, 3 * s.text, 3 * s.text, 3 * s.text}
}

// drawGrainLines draws what the maker drew along the grain.
func (s *Scene) drawGrainLines(c render.Canvas) {
	g := &s.in.Grain
	for f := 1; f <= 2; f++ {
		to := s.faceUnits(f)
		for i, line := range g.Lines[f-1] {
			if held := g.On && g.Face == f && g.Line == i; held {
				continue // on top of all others
			}
			s.grainLine(c, to.ApplyTo(line), false)
		}
	}
	if f := g.Face; g.On && (f == 1 || f == 2) && g.Line >= 0 && g.Line < len(g.Lines[f-1]) {
		s.grainLine(c, s.faceUnits(f).ApplyTo(g.Lines[f-1][g.Line]), true)
	}
}

// grainLine draws one line, units.
func (s *Scene) grainLine(c render.Canvas, q []geom.Point, held bool) {
	if len(q) < 2 {
		return
	}
	t := &s.in.Look.Theme
	path := render.Path{{Points: q}}
	path = append(path, s.grainTick(q[0], q[1]), s.grainTick(q[len(q)-1], q[len(q)-2]))
	ticks := path[1:]
	switch {
	case held:
		c.Stroke(path[:1], render.Pen{Width: 4.6, Color: faint(t.Chip, 0.8)})
		c.Stroke(path[:1], render.Pen{Width: 3, Color: t.Chalk})
		c.Stroke(path[:1], render.Pen{Width: 2, Color: t.Accent, Dash: s.grainDash()})
		s.onWood(c, ticks, 1.4, nil)
		for _, p := range q {
			c.Fill(render.Round(p, 4.4*s.text), t.Chalk)
			c.Fill(render.Round(p, 3*s.text), t.Accent)
		}
	case s.in.Grain.On:
		s.onWood(c, path[:1], 1.3, s.grainDash())
		s.onWood(c, ticks, 1.3, nil)
	default: // beside other work they stand back
		c.Stroke(path[:1], render.Pen{Width: 2.6, Color: faint(t.Chip, 0.5), Dash: s.grainDash()})
		c.Stroke(path[:1], render.Pen{Width: 1, Color: faint(t.Chalk, 0.8), Dash: s.grainDash()})
		c.Stroke(ticks, render.Pen{Width: 2.6, Color: faint(t.Chip, 0.5)})
		c.Stroke(ticks, render.Pen{Width: 1, Color: faint(t.Chalk, 0.8)})
	}
}

// grainTick is a short stroke across the end of a line that comes from b.
func (s *Scene) grainTick(a, b geom.Point) render.Line {
	d := a.Sub(b)
	if l := d.Len(); l > 0 {
		d = geom.Pt(-d.Y, d.X).Mul(5 * s.text / l)
	}
	return render.Line{Points: []geom.Point{a.Sub(d), a.Add(d)}}
}

// grainRoom is how far apart the strokes stand that show how the grain is
// read, units; leastSure is how sure a direction has to be to be shown, and
// verySure from where on it is shown plainly.
const (
	grainRoom = 18.0
	leastSure = 0.15
	verySure  = 0.5
)

// drawGrainRead covers the faces with short strokes along the grain as it is
// read, fainter where that is less sure, none where nothing is known.
func (s *Scene) drawGrainRead(c render.Canvas) {
	t := &s.in.Look.Theme
	b, area := s.hand, s.areas.body
	for f := 1; f <= 2; f++ {
		along := s.in.Grain.Read[f-1]
		if along == nil {
			continue
		}
		to := s.faceUnits(f)
		ring := s.handRing(f)
		var plain, less render.Path
		room := grainRoom * s.text / s.board.zoom // mm
		nx, ny := max(1, int(b.Length/room)), max(1, int(b.Width/(0.6*room)))
		for j := range ny {
			for i := range nx {
				x := (float64(i) + 0.5 + 0.5*float64(j%2) - 0.25) * b.Length / float64(nx) // every other row stands between
				p := geom.Pt(x, (float64(j)+0.5)*b.Width/float64(ny))
				at := to.Apply(p)
				if !area.Contains(at) || !ring.Contains(at) {
					continue
				}
				angle, sure := along(p)
				if sure < leastSure {
					continue
				}
				sin, cos := math.Sincos(angle * math.Pi / 180)
				d := geom.Pt(cos, -sin).Mul(0.25 * grainRoom * s.text)
				line := render.Line{Points: []geom.Point{at.Sub(d), at.Add(d)}}
				if sure < verySure {
					less = append(less, line)
				} else {
					plain = append(plain, line)
				}
			}
		}
		for k, path := range [2]render.Path{less, plain} {
			if len(path) == 0 {
				continue
			}
			share := [2]float64{0.45, 1}[k]
			c.Stroke(path, render.Pen{Width: 2.6, Color: faint(t.Chip, 0.55*share)})
			c.Stroke(path, render.Pen{Width: 1.1, Color: faint(grainHue, share)})
		}
	}
}

// grainHue is seen on light and dark wood over a dark edge, and no wood has it.
var grainHue = rgb(0x8FE0F0)

// drawGrainSketch draws the line under way and the cursor of the keys.
func (s *Scene) drawGrainSketch(c render.Canvas, to geom.Affine) {
	k, t := &s.in.Sketch, &s.in.Look.Theme
	if q := to.ApplyTo(k.Line); len(q) > 0 {
		if len(q) > 1 {
			c.Stroke(render.Path{{Points: q}}, render.Pen{Width: 4, Color: faint(t.Chip, 0.85)})
			c.Stroke(render.Path{{Points: q}}, render.Pen{Width: 1.8, Color: t.Chalk, Dash: s.grainDash()})
		}
		for _, p := range q {
			c.Fill(render.Round(p, 3.8*s.text), t.Chip)
			c.Fill(render.Round(p, 2.6*s.text), t.Chalk)
		}
	}
	if k.Cursor == nil {
		return
	}
	p, r := to.Apply(*k.Cursor), 9*s.text
	cross := render.Path{
		{Points: []geom.Point{p.Add(geom.Pt(-r, 0)), p.Add(geom.Pt(-r/3, 0))}}, {Points: []geom.Point{p.Add(geom.Pt(r/3, 0)), p.Add(geom.Pt(r, 0))}},
		{Points: []geom.Point{p.Add(geom.Pt(0, -r)), p.Add(geom.Pt(0, -r/3))}}, {Points: []geom.Point{p.Add(geom.Pt(0, r/3)), p.Add(geom.Pt(0, r))}},
	}
	s.ringed(c, cross, 2, t.Accent, nil)
}

// Kept returns the views moved so that a place on a face of the board in hand
// is well within its area.
func (s *Scene) Kept(f int, p geom.Point) Views {
	v := s.in.Views
	if s.hand == nil || f < 1 || f > 2 {
		return v
	}
	at := s.faceUnits(f).Apply(p)
	area := s.areas.body.Inset(math.Min(40*s.text, 0.2*math.Min(s.areas.body.W(), s.areas.body.H())))
	by := geom.Pt(math.Min(0, area.Max.X-at.X)+math.Max(0, area.Min.X-at.X), math.Min(0, area.Max.Y-at.Y)+math.Max(0, area.Min.Y-at.Y))
	if by != (geom.Point{}) {
		v.Board = s.board.panned(by)
	}
	return v
}
