package ui

import (
	"image/color"
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Colours of what is drawn on the wood; what each is stands in words beside
// it, and its line differs: clicks are numbered, the border of the heartwood is
// thick, the error dashed.
func ringInk() color.NRGBA   { return hex(0xFFE08A) }
func borderInk() color.NRGBA { return hex(0x9BE7DA) }
func pithInk() color.NRGBA   { return hex(0xFFC83C) }

// marked draws edges, rings, pith and border through to, which takes pixels of
// the picture to units of r.
func (c *endCanvas) marked(r *render.Raster, to func(geom.Point) geom.Point, glass float64) {
	p := c.p
	at := p.now.lie.at
	l := photo.LensOf(int(c.view.pic.X), int(c.view.pic.Y), p.now.lie.bow)
	var outline geom.Polygon
	for i := range at {
		j := (i + 1) % 4
		if j >= len(at) {
			continue
		}
		line := bowedEdge(l, at[i], at[j])
		for k := range line {
			line[k] = to(line[k])
		}
		outline = append(outline, line...)
		two(r, render.Polyline(line...), 1.5/glass, hex(0xFFFFFF))
	}
	if p.step == endCorners || len(at) != 4 {
		return
	}
	m, err := p.section()
	if err != nil {
		return
	}
	on := func(q geom.Point) geom.Point { return to(m.pic(q)) }
	if g := p.got.pith; g != nil && g.Found {
		r.Push(render.Ring(outline))
		c.arcs(r, m, on)
		r.Pop()
		c.border(r, on)
		c.pithCross(r, on)
	}
	c.paintClicks(r, to)
	if c.keyed && !c.has && glass == 1 {
		q := to(c.cursor)
		for _, d := range []geom.Point{{X: 12}, {Y: 12}} {
			two(r, render.Segment(q.Sub(d), q.Sub(d.Mul(0.3))), 1.5, pithInk())
			two(r, render.Segment(q.Add(d), q.Add(d.Mul(0.3))), 1.5, pithInk())
		}
	}
}

// arcs draws each ring that was clicked as it runs about the pith, so that it
// can be judged against the wood.
func (c *endCanvas) arcs(r *render.Raster, m *sectionMap, on func(geom.Point) geom.Point) {
	if c.p.step != endPith {
		return
	}
	pith := c.p.got.pith.At
	for _, ring := range c.p.now.rings {
		if len(ring) < leastClicks {
			continue
		}
		mean := 0.0
		for _, q := range ring {
			mean += m.at(q).Dist(pith) / float64(len(ring))
		}
		c.round(r, on, pith, mean, render.Pen{Width: 1.2, Color: ringInk(), Dash: []float64{7, 5}}, 0)
	}
}

// round strokes a circle of the section where it lies near it: what is far off
// has no place in the picture; air is how far it may lie outside, mm.
func (c *endCanvas) round(r *render.Raster, on func(geom.Point) geom.Point, mid geom.Point, radius float64, pen render.Pen, air float64) {
	room := geom.R(0, 0, c.p.width, c.p.thickness).Inset(-air)
	n := min(max(int(radius), 48), 720)
	var line []geom.Point
	under := pen
	under.Width, under.Color = pen.Width+2.5, color.NRGBA{A: 190}
	flush := func() {
		if len(line) > 1 {
			r.Stroke(render.Polyline(line...), under)
			r.Stroke(render.Polyline(line...), pen)
		}
		line = nil
	}
	for i := 0; i <= n; i++ {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		q := mid.Add(geom.Pt(cos, sin).Mul(radius))
		if !room.Contains(q) {
			flush()
			continue
		}
		line = append(line, on(q))
	}
	flush()
}

// border draws the edge of the heartwood as it was found, and as the circle
// that stands for it.
func (c *endCanvas) border(r *render.Raster, on func(geom.Point) geom.Point) {
	h := c.p.got.heart
	if h == nil || !h.Seen || c.p.step != endHeart {
		return
	}
	c.round(r, on, c.p.got.pith.At, h.Radius, render.Pen{Width: 1.2, Color: borderInk(), Dash: []float64{2, 5}}, 10)
	if len(c.p.now.border) >= leastClicks {
		return // the clicks stand for it
	}
	var line []geom.Point
	for i, q := range h.Edge {
		if i > 0 && q.Dist(h.Edge[i-1]) > 20 { // it does not show in between, mm
			two(r, render.Polyline(line...), 2.5, borderInk())
			line = nil
		}
		line = append(line, on(q))
	}
	two(r, render.Polyline(line...), 2.5, borderInk())
}

// pithCross draws the pith with the circle of its error, where it lies in
// sight.
func (c *endCanvas) pithCross(r *render.Raster, on func(geom.Point) geom.Point) {
	g := c.p.got.pith
	c.round(r, on, g.At, g.Error, render.Pen{Width: 1.6, Color: pithInk(), Dash: []float64{5, 4}}, c.p.width/2)
	q := on(g.At)
	if from, to, far := c.beyond(); far {
		two(r, render.Segment(from, to), 2, pithInk())
		d := to.Sub(from).Mul(1 / max(to.Dist(from), 1))
		side := geom.Pt(-d.Y, d.X)
		for _, s := range []float64{-1, 1} {
			two(r, render.Segment(to, to.Sub(d.Mul(12)).Add(side.Mul(6*s))), 2, pithInk())
		}
		return
	}
	for _, d := range []geom.Point{{X: 9}, {Y: 9}} {
		two(r, render.Segment(q.Sub(d), q.Add(d)), 2, pithInk())
	}
}

// beyond is the arrow to a pith that lies out of sight: from the section to
// the border of the room.
func (c *endCanvas) beyond() (from, to geom.Point, far bool) {
	m, err := c.p.section()
	g := c.p.got.pith
	if err != nil || g == nil || !g.Found {
		return from, to, false
	}
	const air = 26
	q := c.view.toRoom(m.pic(g.At))
	in := geom.R(air, air, c.view.room.X-air, c.view.room.Y-air)
	if in.Empty() || in.Contains(q) {
		return from, to, false
	}
	near := geom.Pt(min(max(g.At.X, 0.1*c.p.width), 0.9*c.p.width), min(max(g.At.Y, 0), c.p.thickness))
	from = c.view.toRoom(m.pic(near))
	if !in.Contains(from) {
		from = in.Centre()
	}
	_, to, _ = clipLine(from.Sub(in.Min), q.Sub(in.Min), geom.Pt(in.W(), in.H()))
	to = to.Add(in.Min)
	if d := to.Dist(from); d > longArrow {
		from = to.Lerp(from, longArrow/d)
	}
	return from, to, true
}

// longArrow is the most an arrow to the pith covers of the wood, units.
const longArrow = 90

// paintClicks draws the clicks of the step, each with the number of its ring.
func (c *endCanvas) paintClicks(r *render.Raster, to func(geom.Point) geom.Point) {
	ink := ringInk()
	if c.p.step == endHeart {
		ink = borderInk()
	}
	list := c.p.now.clicks(c.p.step)
	for k, ring := range list {
		for i, q := range ring {
			at := to(q)
			size := 5.0
			if c.has && c.click == (click{k, i}) {
				size = 8
			}
			two(r, render.Round(at, size), 2, ink)
			if len(list) > 1 {
				c.number(r, at.Add(geom.Pt(9, -7)), itoa(k+1))
			}
		}
	}
}

// number writes a figure that shows on any wood.
func (c *endCanvas) number(r *render.Raster, at geom.Point, text string) {
	size := 13 * float64(c.p.w.look.TextPercent()) / 100
	r.Fill(render.RoundBox(geom.R(at.X-2, at.Y-size*0.9, at.X+size*0.75, at.Y+size*0.25), 3), color.NRGBA{A: 200})
	r.Text(at, text, render.Style{Size: size, Color: ringInk(), Bold: true})
}
