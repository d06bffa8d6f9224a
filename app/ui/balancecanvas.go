package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// cardCanvas shows a photograph on which a rectangle is set by two clicks.
type cardCanvas struct {
	widget.BaseWidget
	p       *balancePage
	small   *image.RGBA
	out     *image.RGBA
	view    cornerView
	corners []geom.Point // pixels of the picture, at most two
	held    int          // corner being dragged, -1 none
	panned  bool
	last    geom.Point
	cursor  geom.Point // of the keys, pixels
	keyed   bool
	focused bool
}

var (
	_ desktop.Mouseable  = (*cardCanvas)(nil)
	_ desktop.Hoverable  = (*cardCanvas)(nil)
	_ desktop.Cursorable = (*cardCanvas)(nil)
	_ fyne.Draggable     = (*cardCanvas)(nil)
	_ fyne.Scrollable    = (*cardCanvas)(nil)
	_ fyne.Focusable     = (*cardCanvas)(nil)
)

func newCardCanvas(p *balancePage) *cardCanvas {
	c := &cardCanvas{p: p, held: -1}
	c.view = cornerView{pic: geom.Pt(1, 1), zoom: 1}
	c.ExtendBaseWidget(c)
	return c
}

// put shows a picture, nil none.
func (c *cardCanvas) put(img image.Image, small *image.RGBA) {
	c.small, c.corners, c.held, c.keyed = small, nil, -1, false
	if img != nil {
		c.view.pic = geom.Pt(float64(img.Bounds().Dx()), float64(img.Bounds().Dy()))
		c.cursor = c.view.pic.Mul(0.5)
	}
	c.view.zoom = 1
	c.view.hold()
	c.Refresh()
}

// again drops the patch.
func (c *cardCanvas) again() {
	c.corners, c.held = nil, -1
	c.told()
}

func (c *cardCanvas) told() {
	c.Refresh()
	c.p.show()
	c.p.w.say("")
}

// MouseDown implements desktop.Mouseable.
func (c *cardCanvas) MouseDown(ev *desktop.MouseEvent) {
	c.p.w.win.Canvas().Focus(c)
	c.last, c.keyed, c.held = point(ev.Position), false, -1
	if ev.Button != desktop.MouseButtonPrimary || c.small == nil {
		c.panned = true
		return
	}
	for i, q := range c.corners {
		if c.view.toRoom(q).Dist(c.last) < cornerReach {
			c.held = i
		}
	}
	if c.held < 0 && len(c.corners) < 2 {
		c.corners = append(c.corners, c.view.inside(c.view.toPic(c.last)))
		c.held = len(c.corners) - 1
	}
	c.panned = c.held < 0
	c.told()
}

// MouseUp implements desktop.Mouseable. A rectangle drawn in one drag is
// whole.
func (c *cardCanvas) MouseUp(*desktop.MouseEvent) {
	if c.held >= 0 {
		c.held = -1
		c.told()
	}
	c.panned = false
}

// Dragged implements fyne.Draggable.
func (c *cardCanvas) Dragged(ev *fyne.DragEvent) { c.move(point(ev.Position)) }

// DragEnd implements fyne.Draggable; the release came before it.
func (c *cardCanvas) DragEnd() {}

// MouseIn implements desktop.Hoverable.
func (c *cardCanvas) MouseIn(*desktop.MouseEvent) {}

// MouseMoved shows the rectangle under way, and pans with the right button.
func (c *cardCanvas) MouseMoved(ev *desktop.MouseEvent) {
	if c.panned {
		c.move(point(ev.Position))
		return
	}
	c.last = point(ev.Position)
	if len(c.corners) == 1 {
		c.Refresh()
	}
}

// MouseOut implements desktop.Hoverable.
func (c *cardCanvas) MouseOut() {}

func (c *cardCanvas) move(to geom.Point) {
	at := c.view.inside(c.view.toPic(to))
	switch {
	case c.held == 0 && len(c.corners) == 1 && c.view.toRoom(c.corners[0]).Dist(to) >= cornerReach:
		c.corners, c.held = append(c.corners, at), 1 // drawn in one drag
		c.Refresh()
	case c.held >= 0 && len(c.corners) == 2:
		c.corners[c.held] = at
		c.Refresh()
	case c.panned:
		c.view.moved(to.Sub(c.last))
		c.Refresh()
	}
	c.last = to
}

// Scrolled implements fyne.Scrollable.
func (c *cardCanvas) Scrolled(ev *fyne.ScrollEvent) {
	by := 1.25
	if ev.Scrolled.DY < 0 {
		by = 1 / by
	}
	c.zoom(point(ev.Position), by)
}

func (c *cardCanvas) zoom(at geom.Point, by float64) {
	c.view.zoomed(at, by)
	c.Refresh()
}

// walk moves the cursor of the keys.
func (c *cardCanvas) walk(by geom.Point) {
	if c.small == nil {
		return
	}
	if c.keyed {
		c.cursor = c.view.inside(c.cursor.Add(by.Mul(4 / c.view.scale())))
	}
	c.keyed = true
	q, room := c.view.toRoom(c.cursor), c.view.room
	in := geom.Pt(min(max(q.X, room.X*0.08), room.X*0.92), min(max(q.Y, room.Y*0.08), room.Y*0.92))
	c.view.moved(in.Sub(q))
	c.last = c.view.toRoom(c.cursor)
	c.Refresh()
}

// press sets a corner at the cursor.
func (c *cardCanvas) press() {
	switch {
	case c.small == nil:
	case !c.keyed:
		c.walk(geom.Point{})
	case len(c.corners) < 2:
		c.corners = append(c.corners, c.cursor)
		c.told()
	default:
		c.p.w.say(say.T("Both corners are set. Del begins anew, Enter uses the patch."))
	}
}

// Cursor implements desktop.Cursorable.
func (c *cardCanvas) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// FocusGained implements fyne.Focusable.
func (c *cardCanvas) FocusGained() { c.focused = true; c.Refresh() }

// FocusLost implements fyne.Focusable.
func (c *cardCanvas) FocusLost() { c.focused = false; c.Refresh() }

// TypedKey implements fyne.Focusable.
func (c *cardCanvas) TypedKey(ev *fyne.KeyEvent) { c.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (c *cardCanvas) TypedRune(r rune) { c.p.sign(r) }

// paint draws the photograph and the patch.
func (c *cardCanvas) paint(w, h int) image.Image {
	if c.out == nil || c.out.Rect.Dx() != w || c.out.Rect.Dy() != h {
		c.out = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	draw.Draw(c.out, c.out.Rect, image.NewUniform(charcoalOrPaper(c.p.w.dark()).ground), image.Point{}, draw.Src)
	if c.view.room.X <= 0 || c.small == nil || c.p.img == nil {
		return c.out
	}
	px := float64(c.out.Rect.Dx()) / c.view.room.X
	drawPhoto(c.out, c.p.img, c.small, c.view.scale()*px, c.view.toRoom(geom.Point{}).Mul(px))
	r := render.NewRaster(c.out, px, c.p.w.faces)
	if n := len(c.corners); n > 0 {
		a, b := c.view.toRoom(c.corners[0]), c.last
		if n == 2 {
			b = c.view.toRoom(c.corners[1])
		}
		two(r, render.Box(geom.R(a.X, a.Y, b.X, b.Y)), 2, pithInk())
		for _, q := range []geom.Point{a, b}[:n] {
			two(r, render.Round(q, 6), 2, pithInk())
		}
	}
	if c.keyed {
		q := c.view.toRoom(c.cursor)
		for _, d := range []geom.Point{{X: 12}, {Y: 12}} {
			two(r, render.Segment(q.Sub(d), q.Add(d)), 1.5, pithInk())
		}
	}
	return c.out
}

// CreateRenderer implements fyne.Widget.
func (c *cardCanvas) CreateRenderer() fyne.WidgetRenderer {
	return newRinged(c.paint, fyne.NewSize(160, 90), func() bool { return c.focused }, func(size fyne.Size) {
		c.view.room = geom.Pt(float64(size.Width), float64(size.Height))
		c.view.hold()
	})
}
