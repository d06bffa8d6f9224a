package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
	"heartside/layout/photo/outline"
)

// endCanvas shows the photograph of an end. In the first step its corners are
// dragged; then clicks are set on rings or on the border of the heartwood. A
// glass shows large what is in hand. By key: 1 to 4 takes a corner; arrows move
// what is in hand or the cursor, Space clicks there or takes a click in hand.
type endCanvas struct {
	widget.BaseWidget
	p       *endPage
	small   *image.RGBA // the picture made small, for when all of it shows
	out     *image.RGBA
	glass   *image.RGBA
	view    cornerView
	corner  int // corner in hand, -1 none
	click   click
	has     bool // a click is in hand
	held    bool // by the pointer
	grip    geom.Point
	start   endDraft // as a drag or a run of arrows began
	walking bool
	panned  bool
	last    geom.Point // of the pointer
	cursor  geom.Point // of the keys, pixels of the picture
	keyed   bool       // the cursor shows
	nearing bool       // the view is to go near once there is room
	focused bool
}

var (
	_ desktop.Mouseable  = (*endCanvas)(nil)
	_ desktop.Hoverable  = (*endCanvas)(nil)
	_ desktop.Keyable    = (*endCanvas)(nil)
	_ desktop.Cursorable = (*endCanvas)(nil)
	_ fyne.Draggable     = (*endCanvas)(nil)
	_ fyne.Scrollable    = (*endCanvas)(nil)
	_ fyne.Focusable     = (*endCanvas)(nil)
)

func newEndCanvas(p *endPage) *endCanvas {
	c := &endCanvas{p: p, corner: -1}
	c.view = cornerView{pic: geom.Pt(1, 1), zoom: 1}
	c.ExtendBaseWidget(c)
	return c
}

// put shows a picture.
func (c *endCanvas) put(img image.Image, small *image.RGBA) {
	c.small = small
	c.view.pic = geom.Pt(float64(img.Bounds().Dx()), float64(img.Bounds().Dy()))
	c.cursor = c.view.pic.Mul(0.5)
	c.all()
}

// all shows the whole picture.
func (c *endCanvas) all() {
	c.view.zoom, c.nearing = 1, false
	c.view.hold()
	c.Refresh()
}

// near shows the section as large as there is room.
func (c *endCanvas) near() {
	if len(c.p.now.lie.at) != 4 {
		return
	}
	if c.view.room.X <= 0 {
		c.nearing = true
		return
	}
	box := geom.Polygon(c.p.now.lie.at).Bounds()
	c.view.zoom = 1
	k := 0.84 * min(c.view.room.X/max(box.W(), 1), c.view.room.Y/max(box.H(), 1))
	c.view.zoom = min(max(k/c.view.scale(), 1), mostZoom)
	c.view.at = box.Centre()
	c.view.hold()
	c.cursor = box.Centre()
	c.Refresh()
}

// MouseDown implements desktop.Mouseable.
func (c *endCanvas) MouseDown(ev *desktop.MouseEvent) {
	c.p.w.win.Canvas().Focus(c)
	c.settle()
	c.last, c.keyed = point(ev.Position), false
	if ev.Button != desktop.MouseButtonPrimary || c.small == nil {
		c.panned = true
		return
	}
	c.start, c.held = c.p.now, false
	c.corner, c.has = -1, false
	if c.p.step == endCorners {
		c.pressCorner()
	} else {
		c.pressClick()
	}
	c.panned = !c.held
	c.Refresh()
	c.p.show()
}

func (c *endCanvas) pressCorner() {
	lie := c.p.now.lie
	c.corner, c.grip = -1, geom.Point{}
	for i, q := range lie.at {
		at := c.view.toRoom(q)
		if d := at.Dist(c.last); d < cornerReach && (c.corner < 0 || d < c.grip.Len()) {
			c.corner, c.grip = i, at.Sub(c.last)
		}
	}
	if n := len(lie.at); c.corner < 0 && n < 4 {
		c.corner = n
		c.p.now.lie = lie.with(n, c.snapped(c.view.inside(c.view.toPic(c.last))))
	}
	c.held = c.corner >= 0
}

func (c *endCanvas) pressClick() {
	at := c.view.toPic(c.last)
	if k, ok := c.nearest(at); ok {
		c.click, c.has, c.held = k, true, true
		c.grip = c.view.toRoom(c.p.now.clicks(c.p.step)[k.ring][k.i]).Sub(c.last)
		return
	}
	if c.view.inside(at) != at {
		return
	}
	c.p.now = c.p.now.clicked(c.p.step, at)
	list := c.p.now.clicks(c.p.step)
	c.click = click{len(list) - 1, len(list[len(list)-1]) - 1}
	c.has, c.held, c.grip = true, true, geom.Point{}
}

// nearest is the click within reach of a pixel.
func (c *endCanvas) nearest(at geom.Point) (best click, ok bool) {
	most := cornerReach / c.view.scale()
	for r, ring := range c.p.now.clicks(c.p.step) {
		for i, q := range ring {
			if d := q.Dist(at); d < most {
				best, most, ok = click{r, i}, d, true
			}
		}
	}
	return best, ok
}

// MouseUp implements desktop.Mouseable.
func (c *endCanvas) MouseUp(*desktop.MouseEvent) {
	c.panned = false
	if c.held {
		c.held = false
		if c.p.step != endCorners {
			c.has = false
		}
		c.p.keepFrom(c.start, c.p.now)
	}
}

// Dragged implements fyne.Draggable.
func (c *endCanvas) Dragged(ev *fyne.DragEvent) { c.move(point(ev.Position)) }

// DragEnd implements fyne.Draggable; the release came before it.
func (c *endCanvas) DragEnd() {}

// MouseIn implements desktop.Hoverable.
func (c *endCanvas) MouseIn(*desktop.MouseEvent) {}

// MouseMoved pans with the right button, which drags nothing in the toolkit.
func (c *endCanvas) MouseMoved(ev *desktop.MouseEvent) {
	if c.panned {
		c.move(point(ev.Position))
	}
}

// MouseOut implements desktop.Hoverable.
func (c *endCanvas) MouseOut() {}

func (c *endCanvas) move(to geom.Point) {
	at := c.view.inside(c.view.toPic(to.Add(c.grip)))
	switch {
	case c.held && c.corner >= 0:
		c.p.now.lie = c.p.now.lie.with(c.corner, c.snapped(at))
		c.Refresh()
		c.p.show()
	case c.held && c.has:
		c.p.now = c.p.now.moved(c.p.step, c.click, at)
		c.Refresh()
	case c.panned:
		c.view.moved(to.Sub(c.last))
		c.Refresh()
	}
	c.last = to
}

// snapped brings a corner to where edges meet near it, unless Ctrl is held.
func (c *endCanvas) snapped(at geom.Point) geom.Point {
	if c.p.img == nil || c.p.w.surf.mods().Control {
		return at
	}
	radius := min(max(snapUnits/c.view.scale(), 6), 40)
	if q, ok := outline.SnapCorner(c.p.img, at, radius); ok {
		return c.view.inside(q)
	}
	return at
}

// Scrolled implements fyne.Scrollable.
func (c *endCanvas) Scrolled(ev *fyne.ScrollEvent) {
	by := 1.25
	if ev.Scrolled.DY < 0 {
		by = 1 / by
	}
	c.zoom(point(ev.Position), by)
}

func (c *endCanvas) zoom(at geom.Point, by float64) {
	c.view.zoomed(at, by)
	c.Refresh()
}

// middle is where the keys zoom: at what is in hand, else in the middle.
func (c *endCanvas) middle() geom.Point {
	if at, ok := c.focus(); ok {
		return c.view.toRoom(at)
	}
	return c.view.room.Mul(0.5)
}

// focus is the pixel of what is in hand: a corner, a click, the cursor.
func (c *endCanvas) focus() (geom.Point, bool) {
	switch {
	case c.small == nil:
	case c.corner >= 0 && c.corner < len(c.p.now.lie.at):
		return c.p.now.lie.at[c.corner], true
	case c.has:
		if list := c.p.now.clicks(c.p.step); c.click.ring < len(list) && c.click.i < len(list[c.click.ring]) {
			return list[c.click.ring][c.click.i], true
		}
	case c.keyed:
		return c.cursor, true
	}
	return geom.Point{}, false
}

// Cursor implements desktop.Cursorable.
func (c *endCanvas) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// FocusGained implements fyne.Focusable.
func (c *endCanvas) FocusGained() { c.focused = true; c.Refresh() }

// FocusLost implements fyne.Focusable.
func (c *endCanvas) FocusLost() { c.focused = false; c.settle(); c.Refresh() }

// KeyDown implements desktop.Keyable.
func (c *endCanvas) KeyDown(*fyne.KeyEvent) {}

// KeyUp ends a run of arrows.
func (c *endCanvas) KeyUp(ev *fyne.KeyEvent) {
	if _, arrow := arrows(ev.Name); arrow {
		c.settle()
	}
}

// TypedKey implements fyne.Focusable.
func (c *endCanvas) TypedKey(ev *fyne.KeyEvent) { c.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (c *endCanvas) TypedRune(r rune) { c.p.sign(r) }
