package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// CreateRenderer implements fyne.Widget.
func (p *facePicker) CreateRenderer() fyne.WidgetRenderer {
	r := &facePickRenderer{p: p, raster: canvas.NewRaster(p.paint), glass: canvas.NewRaster(p.paintGlass), ring: canvas.NewRectangle(nil), rim: canvas.NewRectangle(color.Transparent)}
	r.objs = []fyne.CanvasObject{r.raster}
	for i := range r.marks {
		r.marks[i] = newCornerMark()
		r.objs = append(r.objs, r.marks[i].objects()...)
	}
	r.tape = newTapeMarks()
	for _, m := range r.tape.list() {
		r.objs = append(r.objs, m.objects()...)
	}
	r.objs = append(r.objs, r.glass, r.rim, r.ring)
	return r
}

// drawPhoto paints a picture with k pixels of dst to one of the picture, whose
// pixel (0, 0) lies at o. A small copy of it serves where it is shrunk.
func drawPhoto(dst *image.RGBA, img image.Image, small *image.RGBA, k float64, o geom.Point) {
	if small == nil {
		return
	}
	b := img.Bounds()
	if s := float64(small.Rect.Dx()) / float64(b.Dx()); k <= 1.2*s {
		kx, ky := k*float64(b.Dx())/float64(small.Rect.Dx()), k*float64(b.Dy())/float64(small.Rect.Dy())
		draw.ApproxBiLinear.Transform(dst, f64.Aff3{kx, 0, o.X, 0, ky, o.Y}, small, small.Rect, draw.Src, nil)
		return
	}
	draw.ApproxBiLinear.Transform(dst, f64.Aff3{k, 0, o.X - k*float64(b.Min.X), 0, k, o.Y - k*float64(b.Min.Y)}, img, b, draw.Src, nil)
}

// paint draws the photograph and the edges of the board on it, as the lens
// bows them. The photograph is drawn anew only where the view moved.
func (p *facePicker) paint(w, h int) image.Image {
	if p.out == nil || p.out.Rect.Dx() != w || p.out.Rect.Dy() != h {
		p.out = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
		p.ground, p.drawn = image.NewRGBA(p.out.Rect), pickDrawn{}
	}
	px := float64(p.out.Rect.Dx()) / max(p.view.room.X, 1)
	if now := (pickDrawn{p.view, p.small, charcoalOrPaper(p.c.p.w.dark()).ground}); now != p.drawn {
		p.drawn = now
		draw.Draw(p.ground, p.ground.Rect, image.NewUniform(now.ink), image.Point{}, draw.Src)
		if p.view.room.X > 0 && p.small != nil {
			drawPhoto(p.ground, p.c.p.img, p.small, p.view.scale()*px, p.view.toRoom(geom.Point{}).Mul(px))
		}
	}
	copy(p.out.Pix, p.ground.Pix)
	if p.small != nil {
		r := render.NewRaster(p.out, px, p.c.p.w.faces)
		p.edges(r, p.view.toRoom, 1.5)
		p.outline(r, p.view.toRoom, 1.5)
		p.stretches(r, p.view.toRoom, 1.5)
	}
	return p.out
}

// pickDrawn is all that the photograph on the screen depends on.
type pickDrawn struct {
	view cornerView
	pic  *image.RGBA
	ink  color.NRGBA // of the ground beside it
}

// edges strokes the sides of the board through to, which takes pixels of the
// picture to units of r.
func (p *facePicker) edges(r *render.Raster, to func(geom.Point) geom.Point, width float64) {
	at := p.c.lie.at
	l := photo.LensOf(int(p.view.pic.X), int(p.view.pic.Y), p.c.lie.bow)
	for i := range at {
		j := (i + 1) % 4
		if j >= len(at) {
			continue
		}
		line := bowedEdge(l, at[i], at[j])
		for k := range line {
			line[k] = to(line[k])
		}
		two(r, render.Polyline(line...), width, hex(0xFFFFFF))
	}
}

// glassSide is the side of the glass, units at the ordinary text size.
func (p *facePicker) glassSide() float64 {
	k := float64(p.c.p.w.look.TextPercent()) / 100
	return min(190*(0.5+0.5*k), p.view.room.X*0.3, p.view.room.Y*0.5)
}

// glassScale is how many units a pixel of the picture has under the glass:
// seven times what it has beside it, within what a pixel is good for.
func (p *facePicker) glassScale() float64 { return min(max(7*p.view.scale(), 2), 28) }

// paintGlass draws what lies about the corner in hand, with a cross at it that
// leaves the very place free.
func (p *facePicker) paintGlass(w, h int) image.Image {
	if p.glass == nil || p.glass.Rect.Dx() != w || p.glass.Rect.Dy() != h {
		p.glass = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	draw.Draw(p.glass, p.glass.Rect, image.Black, image.Point{}, draw.Src)
	side := p.glassSide()
	at, ok := p.inHand()
	if !ok || side <= 0 {
		return p.glass
	}
	px := float64(p.glass.Rect.Dx()) / side
	k := p.glassScale()
	mid := geom.Pt(side/2, side/2)
	to := func(q geom.Point) geom.Point { return q.Sub(at).Mul(k).Add(mid) }
	drawPhoto(p.glass, p.c.p.img, p.small, k*px, to(geom.Point{}).Mul(px))
	r := render.NewRaster(p.glass, px, p.c.p.w.faces)
	p.edges(r, to, 1)
	p.outline(r, to, 1)
	p.stretches(r, to, 1)
	gap := side * 0.06
	for _, v := range []geom.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		two(r, render.Segment(mid.Add(v.Mul(gap)), mid.Add(v.Mul(side))), 1, hex(0xFFC83C))
	}
	return p.glass
}

type facePickRenderer struct {
	p      *facePicker
	raster *canvas.Raster
	glass  *canvas.Raster
	rim    *canvas.Rectangle // of the glass
	ring   *canvas.Rectangle // shows that the keys work here
	marks  [4]*cornerMark
	tape   *tapeMarks
	objs   []fyne.CanvasObject
}

// Layout implements fyne.WidgetRenderer.
func (r *facePickRenderer) Layout(size fyne.Size) {
	r.p.view.room = geom.Pt(float64(size.Width), float64(size.Height))
	r.p.view.hold()
	r.raster.Resize(size)
	r.ring.Resize(size)
	r.place()
}

func (r *facePickRenderer) place() {
	p, names := r.p, cornerNames(r.p.c.p.face)
	for i, m := range r.marks {
		if i >= len(p.c.lie.at) || p.small == nil {
			m.show(false)
			continue
		}
		at := p.view.toRoom(p.c.lie.at[i])
		text := itoa(i+1) + "  " + names[i] + "  " + p.c.lie.trust[i].words()
		if p.c.p.w.large() { // the names stand in the column
			text = itoa(i+1) + "  " + p.c.lie.trust[i].words()
		}
		m.place(at, p.view.room, text, i == p.hand)
		if p.c.tape.on { // they are not what is clicked now
			m.text.Hide()
			m.plate.Hide()
		}
		if m.text.Visible() {
			m.outside(at, p.view.toRoom(middleOf(p.c.lie.at)), p.view.room)
		}
	}
	r.tape.place(p)
	_, on := p.inHand()
	setShown(r.glass, on)
	setShown(r.rim, on)
	if !on {
		return
	}
	side, room := p.glassSide(), p.view.room
	corner := p.glassPlace(side, room)
	for _, o := range []fyne.CanvasObject{r.glass, r.rim} {
		o.Move(position(corner))
		o.Resize(fyne.NewSquareSize(float32(side)))
	}
}

// middleOf is the middle of some points.
func middleOf(list []geom.Point) geom.Point {
	var sum geom.Point
	for _, p := range list {
		sum = sum.Add(p.Mul(1 / float64(len(list))))
	}
	return sum
}

// outside moves the plate of a corner to the side away from the board, so that
// the wood stays free; at the border of the room it comes back in.
func (m *cornerMark) outside(at, middle, room geom.Point) {
	const away = 14
	size := m.text.Size()
	x, y := float32(at.X)-size.Width-away, float32(at.Y)+away
	if at.X > middle.X {
		x = float32(at.X) + away
	}
	if at.Y < middle.Y {
		y = float32(at.Y) - away - size.Height
	}
	x = fyne.Max(fyne.Min(x, float32(room.X)-size.Width-6), 6)
	y = fyne.Max(fyne.Min(y, float32(room.Y)-size.Height-4), 4)
	m.text.Move(fyne.NewPos(x, y))
	m.plate.Move(fyne.NewPos(x-5, y-2))
}

// glassPlace is the corner of the room where the glass is farthest from all
// corners of the board, the one in hand above all.
func (p *facePicker) glassPlace(side float64, room geom.Point) geom.Point {
	const air = 12
	best, most := geom.Pt(air, air), -1.0
	for _, at := range []geom.Point{{X: room.X - side - air, Y: air}, {X: air, Y: air}, {X: room.X - side - air, Y: room.Y - side - air}, {X: air, Y: room.Y - side - air}} {
		mid := at.Add(geom.Pt(side/2, side/2))
		free := 1e9
		for _, q := range append(append([]geom.Point(nil), p.c.lie.at...), p.c.tape.marks...) {
			d := p.view.toRoom(q).Dist(mid)
			if hand, ok := p.inHand(); ok && q == hand && d < 0.75*side {
				d = 0 // never under the pointer
			}
			free = min(free, d)
		}
		if free > most {
			best, most = at, free
		}
	}
	return best
}

// MinSize implements fyne.WidgetRenderer.
func (r *facePickRenderer) MinSize() fyne.Size { return fyne.NewSize(160, 90) }

// Refresh implements fyne.WidgetRenderer.
func (r *facePickRenderer) Refresh() {
	r.ring.StrokeWidth, r.ring.FillColor = 0, color.Transparent
	if r.p.focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	r.rim.StrokeColor, r.rim.StrokeWidth = theme.Color(theme.ColorNamePrimary), 3
	r.place()
	for _, o := range r.objs {
		canvas.Refresh(o)
	}
}

// Objects implements fyne.WidgetRenderer.
func (r *facePickRenderer) Objects() []fyne.CanvasObject { return r.objs }

// Destroy implements fyne.WidgetRenderer.
func (r *facePickRenderer) Destroy() {}
