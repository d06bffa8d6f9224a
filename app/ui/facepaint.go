package ui

import (
	"image"
	"image/color"

	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// paint is called by the toolkit, in device pixels, when a frame is due.
func (c *faceCanvas) paint(w, h int) image.Image {
	w, h = max(w, 1), max(h, 1)
	if c.out == nil || c.out.Rect.Dx() != w || c.out.Rect.Dy() != h {
		c.ground, c.out = image.NewRGBA(image.Rect(0, 0, w, h)), image.NewRGBA(image.Rect(0, 0, w, h))
		c.stale = true
	}
	if size := c.Size(); size.Width > 0 && float64(w)/float64(size.Width) != c.px {
		c.px, c.stale = float64(w)/float64(size.Width), true
	}
	if c.stale {
		c.stale = false
		c.paintGround()
	}
	copy(c.out.Pix, c.ground.Pix)
	c.paintMarks()
	return c.out
}

// paintGround draws the photograph with its zones, and the small board.
func (c *faceCanvas) paintGround() {
	p := charcoalOrPaper(c.z.p.w.dark())
	draw.Draw(c.ground, c.ground.Rect, image.NewUniform(p.ground), image.Point{}, draw.Src)
	pic := c.z.shown()
	if pic == nil || c.view.scale <= 0 {
		return
	}
	o := c.z.overlay()
	o.px = c.px
	drawFace(c.ground, c.view.pixels(c.px), pic, o)
	frame := render.NewRaster(c.ground, c.px, c.z.p.w.faces)
	a, b := c.view.toRoom(geom.Pt(0, c.view.size.Y)), c.view.toRoom(geom.Pt(c.view.size.X, 0))
	frame.Push(render.Box(c.view.room))
	frame.Stroke(render.Box(geom.R(a.X, a.Y, b.X, b.Y)), render.Pen{Width: 1.5, Color: p.border})
	c.paintVague(frame)
	frame.Pop()
	if room := c.mapRoom(); !room.Empty() {
		o.small = true
		drawFace(c.ground, facePlace{at: room.Min.Mul(c.px), k: c.mapScale() * c.px, clip: pixelRect(room, c.px)}, pic, o)
		c.paintMap(frame, room, p)
	}
}

// paintVague frames the stretches that had better be called not sure.
func (c *faceCanvas) paintVague(r *render.Raster) {
	if !c.z.doubted() || c.z.show.peek {
		return
	}
	for _, s := range c.z.work.now.result.Suggest {
		a, b := c.view.toRoom(geom.Pt(s.Min.X, s.Max.Y)), c.view.toRoom(geom.Pt(s.Max.X, s.Min.Y))
		box := render.Box(geom.R(a.X, a.Y, b.X, b.Y).Inset(3))
		r.Stroke(box, render.Pen{Width: 4, Color: color.NRGBA{A: 170}})
		r.Stroke(box, render.Pen{Width: 2, Color: kindInk(photo.Unseen), Dash: []float64{9, 6}})
	}
}

// paintMap marks on the small board what the view shows.
func (c *faceCanvas) paintMap(r *render.Raster, room geom.Rect, p palette) {
	k, s := c.mapScale(), c.view.seen()
	at := func(q geom.Point) geom.Point {
		return geom.Pt(room.Min.X+q.X*k, room.Min.Y+(c.view.size.Y-q.Y)*k)
	}
	a, b := at(geom.Pt(s.Min.X, s.Max.Y)), at(geom.Pt(s.Max.X, s.Min.Y))
	r.Stroke(render.Box(room), render.Pen{Width: 1, Color: p.border})
	two(r, render.Box(geom.R(a.X, a.Y, b.X, b.Y)), 2, p.accent)
}

// two strokes a path so that it shows on any wood.
func two(r *render.Raster, p render.Path, width float64, on color.NRGBA) {
	r.Stroke(p, render.Pen{Width: width + 3, Color: color.NRGBA{A: 190}, Round: true})
	r.Stroke(p, render.Pen{Width: width, Color: on, Round: true})
}

// kindInk is the colour of a stroke of a kind; what it is stands beside it in
// words.
func kindInk(l photo.Label) color.NRGBA {
	switch l {
	case photo.Sap:
		return hex(0xFFE08A)
	case photo.Heart:
		return hex(0xE59A6C)
	case photo.Flaw:
		return hex(0xFF8A80)
	case photo.Outside:
		return hex(0x9E9E9E)
	}
	return hex(0xC9D6E8)
}

// paintMarks draws strokes under way and waiting, the cursor and the brush.
func (c *faceCanvas) paintMarks() {
	r := render.NewRaster(c.out, c.px, c.z.p.w.faces)
	r.Push(render.Box(c.view.room))
	for _, m := range c.z.waits {
		c.paintMark(r, m)
	}
	m := c.z.hand.faceMark
	if len(m.points) > 0 {
		c.paintMark(r, m)
	}
	tip, shows := c.tip()
	if m.mode == modeTeach || m.mode == modePaint {
		if radius := max(m.width/2*c.view.scale, 1.5); shows {
			two(r, render.Round(tip, radius), 1.5, kindInk(m.kind))
			if !c.keyed {
				c.paintName(r, tip, radius)
			}
		}
	} else if n := len(m.points); n > 0 && shows { // to where the next click would go
		two(r, render.Segment(c.view.toRoom(m.points[n-1]), tip), 1, hex(0xFFFFFF))
	}
	if c.keyed {
		const d, gap = 14, 4
		for _, v := range []geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
			two(r, render.Segment(tip.Add(v.Mul(gap)), tip.Add(v.Mul(d))), 1.5, hex(0xFFFFFF))
		}
		c.paintName(r, tip, d)
	}
	r.Pop()
}

// tip is where the hand is, units.
func (c *faceCanvas) tip() (geom.Point, bool) {
	if c.keyed {
		return c.view.toRoom(c.cursor), true
	}
	return c.hover, c.over && (c.drag == dragStroke || c.view.on(c.hover))
}

// paintName writes beside the hand what a stroke would say.
func (c *faceCanvas) paintName(r *render.Raster, tip geom.Point, away float64) {
	if c.z.hand.mode == modeNone || c.z.hand.mode == modeLine {
		return
	}
	st := render.Style{Size: 12 * float64(c.z.p.w.look.TextPercent()) / 100, Color: hex(0xFFFFFF)}
	text := labelWords(c.z.hand.kind)
	wide := c.z.p.w.faces.Width(text, st)
	x, y := tip.X+away+8, tip.Y-away-6
	if x+wide+10 > c.view.room.Max.X {
		x = tip.X - away - 8 - wide
	}
	if y-st.Size-4 < c.view.room.Min.Y {
		y = tip.Y + away + 6 + st.Size
	}
	r.Fill(render.RoundBox(geom.R(x-5, y-st.Size-1, x+wide+5, y+st.Size*0.35), 3), color.NRGBA{A: 200})
	r.Text(geom.Pt(x, y), text, st)
}

func (c *faceCanvas) paintMark(r *render.Raster, m faceMark) {
	if len(m.points) == 0 {
		return
	}
	at := make([]geom.Point, len(m.points))
	for i, p := range m.points {
		at[i] = c.view.toRoom(p)
	}
	ink := kindInk(m.kind)
	switch m.mode {
	case modeTeach, modePaint:
		width := max(m.width*c.view.scale, 2)
		at = thinned(at)
		if len(at) == 1 {
			r.Fill(render.Round(at[0], width/2), ink)
			return
		}
		body := ink
		body.A = 150
		r.Stroke(render.Polyline(at...), render.Pen{Width: width, Color: body, Round: true})
		r.Stroke(render.Polyline(at...), render.Pen{Width: 1.5, Color: color.NRGBA{A: 200}})
	case modeLine:
		if len(at) == 2 {
			two(r, render.Segment(at[0], at[1]), 1.5, hex(0xFFFFFF))
		}
		two(r, render.Round(at[0], 4), 1.5, hex(0xFFFFFF))
	case modePolygon:
		two(r, render.Polyline(at...), 1.5, ink)
		for _, p := range at {
			two(r, render.Round(p, 3), 1.5, ink)
		}
		if len(at) >= 3 {
			r.Stroke(render.Segment(at[len(at)-1], at[0]), render.Pen{Width: 1.5, Color: ink, Dash: []float64{4, 4}})
		}
	}
}

// thinned leaves out points of a line that the eye would not miss.
func thinned(at []geom.Point) []geom.Point {
	if len(at) < 3 {
		return at
	}
	out := at[:1:1]
	for i := 1; i+1 < len(at); i++ {
		last := out[len(out)-1]
		on, _ := geom.NearestOnSegment(at[i], last, at[i+1])
		if on.Dist(at[i]) > 0.7 || last.Dist(at[i]) > 40 {
			out = append(out, at[i])
		}
	}
	return append(out, at[len(at)-1])
}

// drawFace draws a photograph of a face with what lies on it.
func drawFace(dst *image.RGBA, at facePlace, pic *photo.Squared, o faceOverlay) {
	clip := at.clip.Intersect(dst.Rect)
	if clip.Empty() || at.k <= 0 {
		return
	}
	src := pic.Level(at.k)
	kx := pic.Length * at.k / float64(src.Rect.Dx())
	ky := pic.Width * at.k / float64(src.Rect.Dy())
	part := dst.SubImage(clip).(*image.RGBA)
	draw.ApproxBiLinear.Transform(part, f64.Aff3{kx, 0, at.at.X, 0, ky, at.at.Y}, src, src.Rect, draw.Src, nil)
	o.draw(dst, clip, at)
}
