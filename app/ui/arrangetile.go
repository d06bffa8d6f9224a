package ui

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// arrangeTile is an arrangement of the gallery: picture, number, and what
// speaks against it.
type arrangeTile struct {
	widget.BaseWidget
	g       *arrangeGallery
	i       int // which of shown
	e       *layEntry
	ring    *canvas.Rectangle
	img     *canvas.Image
	over    *fyne.Container // marks over the picture
	name    *widget.Label
	against *widget.Label
	tick    *tickSign
	text    *widget.Label
	box     *fyne.Container
	drawn   string // how the arrangement of the picture lies
	waits   bool   // a picture is being made
	hover   bool
	last    time.Time // of the last tap
}

var (
	_ desktop.Hoverable      = (*arrangeTile)(nil)
	_ fyne.Tappable          = (*arrangeTile)(nil)
	_ fyne.SecondaryTappable = (*arrangeTile)(nil)
)

func newArrangeTile(g *arrangeGallery, i int) *arrangeTile {
	t := &arrangeTile{g: g, i: i}
	t.ring = canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	t.ring.CornerRadius = 4
	t.img = canvas.NewImageFromImage(nil)
	t.img.FillMode, t.img.ScaleMode = canvas.ImageFillStretch, canvas.ImageScaleFastest
	t.over = container.NewWithoutLayout()
	t.name, t.against = widget.NewLabel(""), widget.NewLabel("")
	t.name.TextStyle.Bold = true
	t.name.Truncation = fyne.TextTruncateEllipsis
	t.text = wrapped("", widget.MediumImportance)
	t.tick = newTickSign(func() {
		g.p.w.takeKeys()
		g.take(t.i)
		g.p.turnTick()
	})
	t.box = container.New(tileLayout{t}, t.ring, t.img, t.over, t.name, t.against, t.tick, t.text)
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer implements fyne.Widget.
func (t *arrangeTile) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.box) }

// show brings the words up to date.
func (t *arrangeTile) show(e *layEntry) {
	t.e = e
	set := func(l *widget.Label, text string) {
		if l.Text != text {
			l.SetText(text)
		}
	}
	set(t.name, e.title())
	set(t.against, e.against())
	set(t.text, e.text())
	icon := theme.CheckButtonIcon()
	if t.g.p.isTicked(e.id) {
		icon = theme.CheckButtonCheckedIcon()
	}
	t.tick.set(icon)
}

// texts is all that the height of the tile depends on.
func (t *arrangeTile) texts() string {
	return t.name.Text + "\x01" + t.against.Text + "\x01" + t.text.Text
}

// picture shows the picture as far as it is made, and what is pointed out.
func (t *arrangeTile) picture() {
	if t.e == nil || t.img.Size().Width < 2 && t.box.Size().Width < 40 {
		return
	}
	var marks = t.g.marks
	if t.i != t.g.at {
		marks = nil
	}
	room := t.room(t.box.Size().Width)
	s, look := t.g.sitter(t.e, room, marks)
	img := t.g.pics.of(t.i, s, look)
	t.waits = img == nil
	if img != nil {
		if t.img.Image != img {
			t.img.Image, t.drawn = img, t.e.lie
			t.put(room)
			t.img.Refresh()
		}
	} else if t.img.Image != nil && t.drawn != t.e.lie { // of another arrangement
		t.img.Image = nil
		t.img.Refresh()
	}
	t.point(s.marks == nil)
}

// room is the room for the picture in a tile of a width.
func (t *arrangeTile) room(width float32) fyne.Size {
	head, low := t.fitted(width)
	if t.beside(width) {
		return t.g.room(t.e, width-6*pad()-besideText(), head+2*pad())
	}
	return t.g.room(t.e, width-4*pad(), head+low+pad())
}

// put sets the picture into the middle of its room.
func (t *arrangeTile) put(room fyne.Size) {
	if t.e == nil {
		return
	}
	head, _ := t.fitted(t.box.Size().Width)
	size := room
	if m, ok := t.imgSize(); ok {
		size = m
	}
	k := fyne.Min(fyne.Min(room.Width/size.Width, room.Height/size.Height), 1)
	size = fyne.NewSize(size.Width*k, size.Height*k)
	at := fyne.NewPos(2*pad()+(room.Width-size.Width)/2, head+(room.Height-size.Height)/2)
	if t.beside(t.box.Size().Width) {
		at.X = 2 * pad()
	}
	if t.img.Position() != at {
		t.img.Move(at)
	}
	if t.img.Size() != size {
		t.img.Resize(size)
	}
	t.over.Move(at)
	t.over.Resize(size)
}

func (t *arrangeTile) imgSize() (fyne.Size, bool) {
	if t.img.Image == nil {
		return fyne.Size{}, false
	}
	b := t.img.Image.Bounds()
	px := float32(max(t.g.p.w.surf.pixels, 1))
	return fyne.NewSize(float32(b.Dx())/px, float32(b.Dy())/px), b.Dx() > 1
}

// point draws what is pointed out over the picture: a light line in a dark
// one, so that it is seen on any wood. In a picture from the chair it is part
// of the picture.
func (t *arrangeTile) point(over bool) {
	var list []fyne.CanvasObject
	if over && t.i == t.g.at && t.e.panel != nil && t.img.Image != nil {
		size := t.img.Size()
		for _, m := range t.g.marks {
			y0 := float32(1-m.Max.Y/t.e.panel.Width) * size.Height
			y1 := float32(1-m.Min.Y/t.e.panel.Width) * size.Height
			if y1-y0 < 16 { // a joint
				y0, y1 = (y0+y1)/2-8, (y0+y1)/2+8
			}
			x0 := float32(m.Min.X/t.e.panel.Length) * size.Width
			x1 := float32(m.Max.X/t.e.panel.Length) * size.Width
			list = append(list, outlined(x0, y0, x1, y1, 4, color.Black), outlined(x0+1.2, y0+1.2, x1-1.2, y1-1.2, 1.6, color.White))
		}
	}
	if len(list) == 0 && len(t.over.Objects) == 0 {
		return
	}
	t.over.Objects = list
	t.over.Refresh()
}

func outlined(x0, y0, x1, y1, stroke float32, c color.Color) *canvas.Rectangle {
	r := canvas.NewRectangle(color.Transparent)
	r.StrokeColor, r.StrokeWidth = c, stroke
	r.Move(fyne.NewPos(x0, y0))
	r.Resize(fyne.NewSize(x1-x0, y1-y0))
	return r
}

// mark shows whether the tile is in hand, and whether the keys are there.
func (t *arrangeTile) mark(on, keys bool) {
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

// Tapped takes the arrangement in hand; a second tap soon after uses it.
func (t *arrangeTile) Tapped(*fyne.PointEvent) {
	twice := time.Since(t.last) < doubleClick
	t.last = time.Now()
	t.g.p.w.takeKeys()
	t.g.take(t.i)
	if twice {
		t.last = time.Time{}
		t.g.p.use()
	}
}

// TappedSecondary opens the menu of the arrangement.
func (t *arrangeTile) TappedSecondary(ev *fyne.PointEvent) {
	t.g.p.w.takeKeys()
	t.g.take(t.i)
	widget.ShowPopUpMenuAtPosition(t.g.p.menu(), t.g.p.w.win.Canvas(), ev.AbsolutePosition)
}

// MouseIn implements desktop.Hoverable.
func (t *arrangeTile) MouseIn(*desktop.MouseEvent) {
	t.hover = true
	t.mark(t.i == t.g.at, t.g.has)
	t.g.p.w.say(say.F("%s. Click takes it in hand, a double click uses it, a right click: more.", t.e.title()))
}

// MouseMoved implements desktop.Hoverable.
func (t *arrangeTile) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (t *arrangeTile) MouseOut() {
	t.hover = false
	t.mark(t.i == t.g.at, t.g.has)
	t.g.p.w.say("")
}

// tickSign is a small sign that can be tapped and takes no keys.
type tickSign struct {
	widget.Icon
	do func()
}

func newTickSign(do func()) *tickSign {
	i := &tickSign{do: do}
	i.Resource = theme.CheckButtonIcon()
	i.ExtendBaseWidget(i)
	return i
}

func (i *tickSign) set(r fyne.Resource) {
	if i.Resource != r {
		i.SetResource(r)
	}
}

// Tapped implements fyne.Tappable.
func (i *tickSign) Tapped(*fyne.PointEvent) { i.do() }
