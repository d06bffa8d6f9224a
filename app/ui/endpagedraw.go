package ui

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/draw"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// CreateRenderer implements fyne.Widget.
func (c *endCanvas) CreateRenderer() fyne.WidgetRenderer {
	r := &endRenderer{c: c, raster: canvas.NewRaster(c.paint), glass: canvas.NewRaster(c.paintGlass), ring: canvas.NewRectangle(nil), rim: canvas.NewRectangle(color.Transparent), pith: newCornerMark()}
	r.objs = []fyne.CanvasObject{r.raster}
	for i := range r.marks {
		r.marks[i] = newCornerMark()
		r.objs = append(r.objs, r.marks[i].objects()...)
	}
	r.objs = append(append(r.objs, r.pith.objects()...), r.glass, r.rim, r.ring)
	return r
}

// paint draws the photograph and what is marked on it.
func (c *endCanvas) paint(w, h int) image.Image {
	if c.out == nil || c.out.Rect.Dx() != w || c.out.Rect.Dy() != h {
		c.out = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	draw.Draw(c.out, c.out.Rect, image.NewUniform(charcoalOrPaper(c.p.w.dark()).ground), image.Point{}, draw.Src)
	if c.view.room.X <= 0 || c.small == nil {
		return c.out
	}
	px := float64(c.out.Rect.Dx()) / c.view.room.X
	drawPhoto(c.out, c.p.img, c.small, c.view.scale()*px, c.view.toRoom(geom.Point{}).Mul(px))
	r := render.NewRaster(c.out, px, c.p.w.faces)
	c.marked(r, c.view.toRoom, 1)
	return c.out
}

// glassSide is the side of the glass, units at the ordinary text size.
func (c *endCanvas) glassSide() float64 {
	k := float64(c.p.w.look.TextPercent()) / 100
	return min(190*(0.5+0.5*k), c.view.room.X*0.3, c.view.room.Y*0.5)
}

// paintGlass draws what lies about what is in hand, with a cross that leaves
// the very place free.
func (c *endCanvas) paintGlass(w, h int) image.Image {
	if c.glass == nil || c.glass.Rect.Dx() != w || c.glass.Rect.Dy() != h {
		c.glass = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	draw.Draw(c.glass, c.glass.Rect, image.Black, image.Point{}, draw.Src)
	side := c.glassSide()
	at, ok := c.focus()
	if !ok || side <= 0 {
		return c.glass
	}
	px := float64(c.glass.Rect.Dx()) / side
	k, mid := min(max(5*c.view.scale(), 2), 28), geom.Pt(side/2, side/2)
	to := func(q geom.Point) geom.Point { return q.Sub(at).Mul(k).Add(mid) }
	drawPhoto(c.glass, c.p.img, c.small, k*px, to(geom.Point{}).Mul(px))
	r := render.NewRaster(c.glass, px, c.p.w.faces)
	if c.p.step == endCorners {
		c.marked(r, to, 1.5)
	}
	gap := side * 0.06
	for _, v := range []geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		two(r, render.Segment(mid.Add(v.Mul(gap)), mid.Add(v.Mul(side))), 1, pithInk())
	}
	return c.glass
}

type endRenderer struct {
	c      *endCanvas
	raster *canvas.Raster
	glass  *canvas.Raster
	rim    *canvas.Rectangle // of the glass
	ring   *canvas.Rectangle // shows that the keys work here
	marks  [4]*cornerMark
	pith   *cornerMark
	objs   []fyne.CanvasObject
}

// Layout implements fyne.WidgetRenderer.
func (r *endRenderer) Layout(size fyne.Size) {
	c := r.c
	c.view.room = geom.Pt(float64(size.Width), float64(size.Height))
	if c.nearing && c.small != nil {
		c.nearing = false
		c.near()
	}
	c.view.hold()
	r.raster.Resize(size)
	r.ring.Resize(size)
	r.place()
}

func (r *endRenderer) place() {
	c := r.c
	names := endCornerNames()
	for i, m := range r.marks {
		if i >= len(c.p.now.lie.at) || c.small == nil || c.p.step != endCorners {
			m.show(false)
			continue
		}
		at := c.view.toRoom(c.p.now.lie.at[i])
		text := itoa(i+1) + "  " + names[i] + "  " + c.p.now.lie.trust[i].words()
		if c.p.now.lie.trust[i] == (cornerTrust{}) || c.p.w.large() {
			text = itoa(i+1) + "  " + names[i]
		}
		m.place(at, c.view.room, text, i == c.corner)
		if m.text.Visible() {
			m.outside(at, c.view.toRoom(middleOf(c.p.now.lie.at)), c.view.room)
		}
	}
	r.placePith()
	at, on := c.focus()
	setShown(r.glass, on)
	setShown(r.rim, on)
	if !on {
		return
	}
	side := c.glassSide()
	corner := c.glassPlace(side, c.view.toRoom(at))
	for _, o := range []fyne.CanvasObject{r.glass, r.rim} {
		o.Move(position(corner))
		o.Resize(fyne.NewSquareSize(float32(side)))
	}
}

// placePith sets the words at the pith, or at the arrow to it.
func (r *endRenderer) placePith() {
	c, g := r.c, r.c.p.got.pith
	m, err := c.p.section()
	if c.p.step == endCorners || g == nil || !g.Found || err != nil || c.small == nil {
		r.pith.show(false)
		return
	}
	at, text := c.view.toRoom(m.pic(g.At)), say.T("pith")
	if d := c.p.outside(g.At); d > 0 {
		text = say.F("pith, %s outside the section", c.p.w.ses.Len(math.Round(d)))
	}
	if _, tip, far := c.beyond(); far {
		at = tip
	}
	r.pith.place(at, c.view.room, text, false)
	if len(c.p.now.lie.at) == 4 && r.pith.text.Visible() {
		r.pith.outside(at, c.view.toRoom(middleOf(c.p.now.lie.at)), c.view.room)
	}
	r.pith.dark.Hide()
	r.pith.light.Hide()
}

// outside is how far a place lies outside the section, mm; 0 in it.
func (p *endPage) outside(q geom.Point) float64 {
	return math.Hypot(max(-q.X, q.X-p.width, 0), max(-q.Y, q.Y-p.thickness, 0))
}

// glassPlace is the corner of the room where the glass is farthest from what
// is in hand.
func (c *endCanvas) glassPlace(side float64, hand geom.Point) geom.Point {
	const air = 12
	room := c.view.room
	best, most := geom.Pt(air, air), -1.0
	for _, at := range []geom.Point{{X: room.X - side - air, Y: air}, {X: air, Y: air}, {X: room.X - side - air, Y: room.Y - side - air}, {X: air, Y: room.Y - side - air}} {
		if d := at.Add(geom.Pt(side/2, side/2)).Dist(hand); d > most {
			best, most = at, d
		}
	}
	return best
}

// MinSize implements fyne.WidgetRenderer.
func (r *endRenderer) MinSize() fyne.Size { return fyne.NewSize(160, 90) }

// Refresh implements fyne.WidgetRenderer.
func (r *endRenderer) Refresh() {
	r.ring.StrokeWidth, r.ring.FillColor = 0, color.Transparent
	if r.c.focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	r.rim.StrokeColor, r.rim.StrokeWidth = theme.Color(theme.ColorNamePrimary), 3
	r.place()
	for _, o := range r.objs {
		canvas.Refresh(o)
	}
}

// Objects implements fyne.WidgetRenderer.
func (r *endRenderer) Objects() []fyne.CanvasObject { return r.objs }

// Destroy implements fyne.WidgetRenderer.
func (r *endRenderer) Destroy() {}
