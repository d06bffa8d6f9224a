package ui

import (
	"fmt"
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/layout/face"
	"heartside/model/say"
)

// matchTile is a pair of the gallery: the two strips about their joint, what
// meets and how well.
type matchTile struct {
	widget.BaseWidget
	g     *matchGallery
	i     int
	e     *matchEntry
	ring  *canvas.Rectangle
	img   *canvas.Image
	name  *widget.Label
	text  *widget.Label
	box   *fyne.Container
	drawn string // the pair of the picture
	waits bool   // a picture is being made
	hover bool
	last  time.Time // of the last tap
}

var (
	_ desktop.Hoverable = (*matchTile)(nil)
	_ fyne.Tappable     = (*matchTile)(nil)
)

func newMatchTile(g *matchGallery, i int) *matchTile {
	t := &matchTile{g: g, i: i}
	t.ring = canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	t.ring.CornerRadius = 4
	t.img = canvas.NewImageFromImage(nil)
	t.img.FillMode, t.img.ScaleMode = canvas.ImageFillStretch, canvas.ImageScaleFastest
	t.name, t.text = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	t.name.TextStyle.Bold = true
	t.box = container.New(pairLayout{t}, t.ring, t.img, t.name, t.text)
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer implements fyne.Widget.
func (t *matchTile) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.box) }

// change says what is done to lay the panel so.
func (e *matchEntry) change() string {
	l := e.lay()
	if l.Change == "" {
		return say.T("✓ They lie so now.")
	}
	if l.For == "" || l.Anew {
		return ended(sentence(l.Change))
	}
	return sentence(l.For) + ": " + ended(l.Change)
}

// show brings the words up to date.
func (t *matchTile) show(e *matchEntry) {
	t.e = e
	put(t.name, e.m.Title)
	text := e.m.Text + "\n" + e.change()
	if e.m.Opened != "" {
		text = e.m.Opened + " " + text
	}
	put(t.text, text)
}

// texts is all that the height of the tile depends on.
func (t *matchTile) texts() string { return t.name.Text + "\x01" + t.text.Text }

// picture shows the picture as far as it is made.
func (t *matchTile) picture() {
	if t.e == nil || t.box.Size().Width < 40 {
		return
	}
	px := float32(max(t.g.p.w.surf.pixels, 1))
	room := t.room(t.box.Size().Width)
	img := t.g.p.picture(t.i, t.e.m.Pair, int(room.Width*px), int(room.Height*px))
	t.waits = img == nil
	switch {
	case img != nil && t.img.Image != img:
		t.img.Image, t.drawn = img, t.e.id
		t.put(room)
		t.img.Refresh()
	case img == nil && t.img.Image != nil && t.drawn != t.e.id: // of another pair
		t.img.Image = nil
		t.img.Refresh()
	}
}

// room is the room for the picture in a tile of a width.
func (t *matchTile) room(width float32) fyne.Size {
	wide := width - 4*pad()
	p := t.e.m.Pair
	high := wide * float32(p.Width/p.Length)
	return fyne.NewSize(wide, fyne.Max(fyne.Min(high, 0.4*t.g.scroll.Size().Height), 3*theme.TextSize()))
}

// put sets the picture into the middle of its room.
func (t *matchTile) put(room fyne.Size) {
	size := room
	if t.img.Image != nil {
		b := t.img.Image.Bounds()
		k := fyne.Min(room.Width/float32(b.Dx()), room.Height/float32(b.Dy()))
		size = fyne.NewSize(float32(b.Dx())*k, float32(b.Dy())*k)
	}
	at := fyne.NewPos(2*pad()+(room.Width-size.Width)/2, t.above()+(room.Height-size.Height)/2)
	if t.img.Position() != at {
		t.img.Move(at)
	}
	if t.img.Size() != size {
		t.img.Resize(size)
	}
}

// above is the height of what stands over the picture.
func (t *matchTile) above() float32 {
	return t.name.MinSize().Height - 2*snugLayout{}.air() + 2*pad()
}

// fit returns the height of the tile in a width.
func (t *matchTile) fit(width float32) float32 {
	if t.e == nil {
		return 0
	}
	over := snugLayout{}.air()
	for _, l := range [2]*widget.Label{t.name, t.text} {
		if wide := width - 4*pad() + 2*over; l.Size().Width != wide {
			l.Resize(fyne.NewSize(wide, l.MinSize().Height))
		}
	}
	return t.above() + t.room(width).Height + t.text.MinSize().Height - 2*over + 3*pad()
}

// pairLayout sets the name over the picture and the words under it.
type pairLayout struct{ t *matchTile }

// MinSize implements fyne.Layout.
func (l pairLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(60, l.t.fit(l.t.box.Size().Width))
}

// Layout implements fyne.Layout.
func (l pairLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	t := l.t
	t.ring.Resize(size)
	if t.e == nil {
		return
	}
	over := snugLayout{}.air()
	t.fit(size.Width)
	wide := size.Width - 4*pad() + 2*over
	t.name.Move(fyne.NewPos(2*pad()-over, pad()-over))
	t.name.Resize(fyne.NewSize(wide, t.name.MinSize().Height))
	room := t.room(size.Width)
	t.put(room)
	t.text.Move(fyne.NewPos(2*pad()-over, t.above()+room.Height+pad()-over))
	t.text.Resize(fyne.NewSize(wide, t.text.MinSize().Height))
	t.picture()
}

// mark shows whether the tile is in hand, and whether the keys are there.
func (t *matchTile) mark(on, keys bool) {
	stroke, width, fill := theme.Color(theme.ColorNameSeparator), float32(1), theme.Color(theme.ColorNameInputBackground)
	switch {
	case on && keys:
		stroke, width, fill = theme.Color(theme.ColorNamePrimary), 3, theme.Color(theme.ColorNameOverlayBackground)
	case on:
		stroke, width = theme.Color(theme.ColorNameInputBorder), 3
	case t.hover:
		stroke = theme.Color(theme.ColorNameInputBorder)
	}
	if t.ring.StrokeColor == stroke && t.ring.StrokeWidth == width && t.ring.FillColor == fill {
		return
	}
	t.ring.StrokeColor, t.ring.StrokeWidth, t.ring.FillColor = stroke, width, fill
	t.ring.Refresh()
}

// Tapped takes the pair in hand; a second tap soon after lays the panel so.
func (t *matchTile) Tapped(*fyne.PointEvent) {
	twice := time.Since(t.last) < doubleClick
	t.last = time.Now()
	t.g.p.w.takeKeys()
	t.g.take(t.i)
	if twice {
		t.last = time.Time{}
		t.g.p.use()
	}
}

// MouseIn implements desktop.Hoverable.
func (t *matchTile) MouseIn(*desktop.MouseEvent) {
	t.hover = true
	t.mark(t.i == t.g.at, t.g.has)
	t.g.p.w.say(say.T("Click takes the pair in hand, a double click lays the panel so."))
}

// MouseMoved implements desktop.Hoverable.
func (t *matchTile) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (t *matchTile) MouseOut() {
	t.hover = false
	t.mark(t.i == t.g.at, t.g.has)
	t.g.p.w.say("")
}

// picture returns the picture of two strips laid together that a tile wants,
// nil while it is made.
func (p *matchPage) picture(tile int, pair *face.Panel, w, h int) *image.RGBA {
	s := sitter{panel: pair, w: w, h: h,
		sit: scene.Sitting{Faces: p.w.faces, Theme: p.w.sceneTheme(), Hatch: p.hatch, Joints: true}}
	return p.pics.of(tile, s, fmt.Sprint(p.w.dark()))
}
