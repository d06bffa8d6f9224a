package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/layout/geom"
)

// behaveButton is a button of the page. Keys that mean nothing to a button are
// the page's: the arrows scroll from wherever the keys are.
type behaveButton struct {
	ringButton
	p      *behavePage
	beside func(by int) // what ← and → do, nil nothing
}

func newBehaveButton(p *behavePage, text string, do func()) *behaveButton {
	b := &behaveButton{p: p}
	b.Text, b.OnTapped = text, do
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained implements fyne.Focusable.
func (b *behaveButton) FocusGained() {
	b.ringButton.FocusGained()
	b.p.last = b
	b.p.w.reached(b)
}

// TypedKey implements fyne.Focusable.
func (b *behaveButton) TypedKey(ev *fyne.KeyEvent) {
	switch {
	case b.beside != nil && ev.Name == fyne.KeyLeft:
		b.beside(-1)
	case b.beside != nil && ev.Name == fyne.KeyRight:
		b.beside(1)
	case ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter:
		b.OnTapped()
	case b.p.w.pageKey(ev) || b.p.key(ev):
	default:
		b.Button.TypedKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (b *behaveButton) TypedRune(r rune) { b.p.sign(r) }

// behavePick is a drop-down of the page. ↑ and ↓ choose.
type behavePick struct {
	widget.Select
	p *behavePage
}

func newBehavePick(p *behavePage, options []string, now int, chosen func(i int)) *behavePick {
	s := &behavePick{p: p}
	s.Options = options
	if now >= 0 && now < len(options) {
		s.Selected = options[now]
	}
	s.OnChanged = func(string) { chosen(s.SelectedIndex()) }
	s.ExtendBaseWidget(s)
	return s
}

// MinSize implements fyne.CanvasObject: wide enough for every choice.
func (s *behavePick) MinSize() fyne.Size {
	m := s.Select.MinSize()
	for _, o := range s.Options {
		w := fyne.MeasureText(o, theme.TextSize(), fyne.TextStyle{}).Width + theme.IconInlineSize() + 4*theme.InnerPadding()
		m.Width = fyne.Max(m.Width, w)
	}
	return m
}

// FocusGained implements fyne.Focusable.
func (s *behavePick) FocusGained() {
	s.Select.FocusGained()
	s.p.last = s
	s.p.w.reached(s)
}

// TypedKey implements fyne.Focusable.
func (s *behavePick) TypedKey(ev *fyne.KeyEvent) {
	switch {
	case s.p.w.pageKey(ev):
	case ev.Name == fyne.KeyUp || ev.Name == fyne.KeyDown:
		s.Select.TypedKey(ev)
	case !s.p.key(ev):
		s.Select.TypedKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (s *behavePick) TypedRune(r rune) { s.p.sign(r) }

// behaveDrawing is a drawing of the page, as high as its width asks for.
type behaveDrawing struct {
	widget.BaseWidget
	w      *Window
	says   string // what it shows, in words
	high   func(width float64) float64
	draw   func(c render.Canvas, room geom.Rect)
	raster *canvas.Raster
	img    *image.RGBA
	width  float32 // of the last Resize
}

func newBehaveDrawing(w *Window, high func(width float64) float64, draw func(c render.Canvas, room geom.Rect)) *behaveDrawing {
	d := &behaveDrawing{w: w, high: high, draw: draw, width: 340}
	d.raster = canvas.NewRaster(d.paint)
	d.ExtendBaseWidget(d)
	return d
}

// CreateRenderer implements fyne.Widget.
func (d *behaveDrawing) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(d.raster)
}

// MinSize implements fyne.CanvasObject.
func (d *behaveDrawing) MinSize() fyne.Size {
	return fyne.NewSize(120, float32(d.high(float64(d.width))))
}

// Resize implements fyne.CanvasObject.
func (d *behaveDrawing) Resize(s fyne.Size) {
	d.width = s.Width
	d.BaseWidget.Resize(s)
}

// AccessibilityLabel says what is drawn.
func (d *behaveDrawing) AccessibilityLabel() string { return d.says }

// AccessibilityRole implements fyne.Accessible.
func (d *behaveDrawing) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (d *behaveDrawing) paint(w, h int) image.Image {
	if d.img == nil || d.img.Rect.Dx() != w || d.img.Rect.Dy() != h {
		d.img = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	clear(d.img.Pix)
	size := d.Size()
	k := float64(w) / float64(max(size.Width, 1))
	d.draw(render.NewRaster(d.img, k, d.w.faces), geom.R(0, 0, float64(size.Width), float64(size.Height)))
	return d.img
}

// behaveText is the size of the words in a drawing.
func (w *Window) behaveText() float64 { return 11.5 * float64(w.look.TextPercent()) / 100 }

// behaveStyle is that of words in a drawing.
func (w *Window) behaveStyle(quiet bool) render.Style {
	name := theme.ColorNameForeground
	if quiet {
		name = theme.ColorNamePlaceHolder
	}
	return render.Style{Size: w.behaveText(), Color: nrgba(theme.Color(name))}
}

// sapHatch marks sapwood in a drawing, so that colour is not all that tells it.
func sapHatch(text float64) render.Hatch {
	return render.Hatch{Angle: 45, Spacing: 0.6 * text, Pen: render.Pen{Width: 0.08 * text, Color: hexA(0x2B2118, 0x90)}}
}
