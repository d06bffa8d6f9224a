package ui

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
)

// faceCanvas shows the squared face with its zones, and over it the whole
// board small where it does not fit. Strokes go to the tool in hand; the
// wheel zooms at the pointer, the middle and right button move the view.
type faceCanvas struct {
	widget.BaseWidget
	z       *faceZones
	view    faceView
	raster  *canvas.Raster
	ground  *image.RGBA // photograph and zones
	out     *image.RGBA // with marks and cursor
	stale   bool        // ground is to be drawn anew
	px      float64     // device pixels a unit
	hover   geom.Point  // of the pointer, units
	over    bool
	cursor  geom.Point // of the keys, mm
	keyed   bool       // the cursor shows
	drag    faceDrag
	fitted  faceFit
	panned  bool // the view was moved by hand
	focused bool
	last    time.Time // of the last press
}

// faceDrag is what a held button does.
type faceDrag int

const (
	dragNone faceDrag = iota
	dragStroke
	dragView
	dragMap
)

var (
	_ desktop.Mouseable  = (*faceCanvas)(nil)
	_ desktop.Hoverable  = (*faceCanvas)(nil)
	_ desktop.Keyable    = (*faceCanvas)(nil)
	_ desktop.Cursorable = (*faceCanvas)(nil)
	_ fyne.Draggable     = (*faceCanvas)(nil)
	_ fyne.Scrollable    = (*faceCanvas)(nil)
	_ fyne.Focusable     = (*faceCanvas)(nil)
)

func newFaceCanvas(z *faceZones, size geom.Point) *faceCanvas {
	c := &faceCanvas{z: z, view: faceView{size: size}, stale: true, px: 1, cursor: size.Mul(0.5)}
	c.raster = canvas.NewRaster(c.paint)
	c.ExtendBaseWidget(c)
	return c
}

// stir has marks and cursor drawn again, renew everything.
func (c *faceCanvas) stir()  { c.raster.Refresh() }
func (c *faceCanvas) renew() { c.stale = true; c.raster.Refresh() }

// MouseDown implements desktop.Mouseable.
func (c *faceCanvas) MouseDown(ev *desktop.MouseEvent) {
	c.z.p.w.win.Canvas().Focus(c)
	at := point(ev.Position)
	if c.drag != dragNone {
		return
	}
	twice := time.Since(c.last) < doubleClick && at.Dist(c.hover) < 4
	c.hover, c.keyed, c.last = at, false, time.Now()
	switch {
	case c.mapRoom().Contains(at):
		c.drag = dragMap
		c.goThere(at)
	case ev.Button != desktop.MouseButtonPrimary || c.z.hand.mode == modeNone:
		c.drag = dragView
	case twice && c.z.hand.mode == modePolygon && len(c.z.hand.points) >= 3:
		c.z.closeRing()
	case !c.view.on(at) && c.z.hand.mode != modePolygon:
		c.drag = dragView
	default:
		c.drag = dragStroke
		c.z.begin(c.view.toFace(at), false)
	}
}

// MouseUp implements desktop.Mouseable.
func (c *faceCanvas) MouseUp(ev *desktop.MouseEvent) {
	if c.drag == dragStroke && c.z.hand.drawing && !c.z.hand.byKey {
		c.z.draw(c.view.toFace(point(ev.Position)))
		c.z.end()
	}
	c.drag = dragNone
}

// Dragged implements fyne.Draggable.
func (c *faceCanvas) Dragged(ev *fyne.DragEvent) { c.move(point(ev.Position)) }

// DragEnd implements fyne.Draggable; the release came before it.
func (c *faceCanvas) DragEnd() {}

// MouseIn implements desktop.Hoverable.
func (c *faceCanvas) MouseIn(ev *desktop.MouseEvent) { c.over = true; c.move(point(ev.Position)) }

// MouseMoved comes also during a drag with the right button.
func (c *faceCanvas) MouseMoved(ev *desktop.MouseEvent) { c.move(point(ev.Position)) }

// MouseOut implements desktop.Hoverable.
func (c *faceCanvas) MouseOut() { c.over = false; c.stir() }

func (c *faceCanvas) move(at geom.Point) {
	by := at.Sub(c.hover)
	c.hover = at
	switch c.drag {
	case dragStroke:
		c.z.draw(c.view.toFace(at))
	case dragView:
		c.panned = true
		c.view.moved(by)
		c.renew()
	case dragMap:
		c.goThere(at)
	}
	c.stir()
}

// goThere moves the view to a place of the small board.
func (c *faceCanvas) goThere(at geom.Point) {
	k := c.mapScale()
	c.panned = true
	c.view.at = geom.Pt((at.X-mapGap)/k, c.view.size.Y-(at.Y-mapGap)/k)
	c.view.hold()
	c.renew()
}

// Scrolled implements fyne.Scrollable: the wheel zooms, with Shift or from
// side to side it moves along the board.
func (c *faceCanvas) Scrolled(ev *fyne.ScrollEvent) {
	dx, dy := float64(ev.Scrolled.DX), float64(ev.Scrolled.DY)
	if dx != 0 && max(dx, -dx) > max(dy, -dy) {
		c.panned = true
		c.view.moved(geom.Pt(2*dx, 0))
		c.renew()
		return
	}
	by := 1.2
	if dy < 0 {
		by = 1 / by
	}
	c.zoom(point(ev.Position), by)
}

func (c *faceCanvas) zoom(at geom.Point, by float64) {
	p := c.view.toFace(at)
	c.rooms(false)
	whole := c.view.whole()
	c.view.scale = min(max(c.view.scale*by, whole), max(mostUnits, whole))
	c.fitted = fitFree
	if c.view.scale <= whole*1.001 {
		c.fitted = fitWhole
	}
	c.rooms(c.view.scale > whole*1.02)
	c.panned = true
	c.view.keep(p, at)
	c.renew()
}

// zoomAt is where the keys zoom.
func (c *faceCanvas) zoomAt() geom.Point {
	if c.keyed {
		return c.view.toRoom(c.cursor)
	}
	return c.view.room.Centre()
}

// walk moves the cursor of the keys.
func (c *faceCanvas) walk(by geom.Point) {
	if !c.keyed {
		c.keyed, c.panned = true, true
		c.cursor = c.view.inside(c.view.at)
	}
	c.cursor = c.view.inside(c.cursor.Add(by))
	was := c.view.at
	c.view.show(c.cursor)
	if c.z.hand.byKey {
		c.z.draw(c.cursor)
	}
	if was != c.view.at {
		c.renew()
	}
	c.stir()
}

// Cursor implements desktop.Cursorable.
func (c *faceCanvas) Cursor() desktop.Cursor {
	if c.z.hand.mode == modeNone {
		return desktop.DefaultCursor
	}
	return desktop.CrosshairCursor
}

// FocusGained implements fyne.Focusable.
func (c *faceCanvas) FocusGained() { c.focused = true; c.Refresh() }

// FocusLost implements fyne.Focusable.
func (c *faceCanvas) FocusLost() {
	c.focused = false
	c.z.peek(false)
	c.Refresh()
}

// KeyDown implements desktop.Keyable.
func (c *faceCanvas) KeyDown(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyV {
		c.z.peek(true)
	}
}

// KeyUp implements desktop.Keyable.
func (c *faceCanvas) KeyUp(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyV {
		c.z.peek(false)
	}
}

// TypedKey implements fyne.Focusable.
func (c *faceCanvas) TypedKey(ev *fyne.KeyEvent) { c.z.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (c *faceCanvas) TypedRune(r rune) { c.z.p.sign(r) }
