package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/sheet"
	"heartside/model/say"
)

// sheetList shows all pages small, with their titles; a click takes one in
// hand.
type sheetList struct {
	p      *sheetPage
	all    fyne.CanvasObject
	box    *fyne.Container
	scroll *container.Scroll
	thumbs []*sheetThumb
	of     *sheet.Document
	at     int
}

func newSheetList(p *sheetPage) *sheetList {
	l := &sheetList{p: p, box: container.New(stackLayout{}), at: -1}
	l.scroll = container.NewVScroll(container.New(besideBar{}, l.box))
	l.all = container.New(roomLayout{fyne.NewSize(l.width(), 120)}, l.scroll)
	return l
}

// picture is the width of a small page, units.
func (l *sheetList) picture() float32 { return l.width() - 12*pad() }

// width is that of the list; it grows less than the text does.
func (l *sheetList) width() float32 { return 120 + 0.4*float32(l.p.w.look.TextPercent()) }

// show brings the small pages up to date.
func (l *sheetList) show() {
	m := &l.p.m
	n := 0
	if m.doc != nil {
		n = len(m.doc.Pages)
	}
	if m.doc != l.of {
		l.of = m.doc
		for len(l.thumbs) < n {
			t := newSheetThumb(l, len(l.thumbs))
			l.thumbs = append(l.thumbs, t)
			l.box.Objects = append(l.box.Objects, t)
		}
		for i, t := range l.thumbs {
			setShown(t, i < n)
			if i < n {
				t.page = m.doc.Pages[i]
				put(t.name, itoa(i+1)+"  "+pageTitle(m.doc, i))
				t.box.Refresh()
			}
		}
		settled(l.scroll)
	}
	for i := range n {
		t := l.thumbs[i]
		t.put(m.small[i])
		t.mark(i == l.p.at)
	}
	if n > 0 && l.at != l.p.at {
		l.at = l.p.at
		into(l.scroll, l.thumbs[l.at])
	}
}

// drew shows the picture of a page that has just been drawn.
func (l *sheetList) drew(i int) {
	if i < len(l.thumbs) {
		l.thumbs[i].put(l.p.m.small[i])
	}
}

// pageTitle names a page; the further ones of a subject are counted.
func pageTitle(d *sheet.Document, i int) string {
	k := 1
	for j := i; j > 0 && d.Pages[j].Again; j-- {
		k++
	}
	if k > 1 {
		return say.F("%s, page %s", d.Pages[i].Title, itoa(k))
	}
	return d.Pages[i].Title
}

// sheetThumb is a page small.
type sheetThumb struct {
	widget.BaseWidget
	l     *sheetList
	i     int
	page  *sheet.Page
	ring  *canvas.Rectangle
	paper *canvas.Rectangle
	img   *canvas.Image
	name  *widget.Label
	box   *fyne.Container
	hover bool
}

var (
	_ fyne.Tappable     = (*sheetThumb)(nil)
	_ desktop.Hoverable = (*sheetThumb)(nil)
)

func newSheetThumb(l *sheetList, i int) *sheetThumb {
	t := &sheetThumb{l: l, i: i, ring: canvas.NewRectangle(color.Transparent), paper: canvas.NewRectangle(color.White), img: canvas.NewImageFromImage(nil)}
	t.ring.CornerRadius = 4
	t.paper.StrokeWidth = 1
	t.img.FillMode = canvas.ImageFillStretch
	t.name = wrapped("", widget.MediumImportance)
	t.name.SizeName, t.name.Alignment = theme.SizeNameCaptionText, fyne.TextAlignCenter
	t.box = container.New(sheetThumbLayout{t}, t.ring, t.paper, t.img, t.name)
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer implements fyne.Widget.
func (t *sheetThumb) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.box) }

// put shows a picture of the page, nil none yet.
func (t *sheetThumb) put(img *image.RGBA) {
	if img != nil && img.Rect.Dx() < 2 {
		img = nil
	}
	if img == nil && t.img.Image == nil || t.img.Image == image.Image(img) {
		return
	}
	t.img.Image = nil
	if img != nil {
		t.img.Image = img
	}
	t.img.Refresh()
}

// mark shows whether the page is in hand.
func (t *sheetThumb) mark(on bool) {
	stroke, width, fill := color.Color(color.Transparent), float32(0), color.Color(color.Transparent)
	switch {
	case on:
		stroke, width, fill = theme.Color(theme.ColorNamePrimary), 3, theme.Color(theme.ColorNameHover)
	case t.hover:
		fill = theme.Color(theme.ColorNameHover)
	}
	if edge := theme.Color(theme.ColorNameInputBorder); t.paper.StrokeColor != edge {
		t.paper.StrokeColor = edge
		t.paper.Refresh()
	}
	if t.ring.StrokeColor == stroke && t.ring.StrokeWidth == width && t.ring.FillColor == fill {
		return
	}
	t.ring.StrokeColor, t.ring.StrokeWidth, t.ring.FillColor = stroke, width, fill
	t.ring.Refresh()
}

// Tapped takes the page in hand.
func (t *sheetThumb) Tapped(*fyne.PointEvent) {
	t.l.p.w.takeKeys()
	t.l.p.take(t.i)
}

// MouseIn implements desktop.Hoverable.
func (t *sheetThumb) MouseIn(*desktop.MouseEvent) { t.hover = true; t.mark(t.i == t.l.p.at) }

// MouseMoved implements desktop.Hoverable.
func (t *sheetThumb) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (t *sheetThumb) MouseOut() { t.hover = false; t.mark(t.i == t.l.p.at) }

// sheetThumbLayout sets the title under the page, which keeps its shape.
type sheetThumbLayout struct{ t *sheetThumb }

// sides is the size of the small page; a lying one is as wide as a standing
// one.
func (l sheetThumbLayout) sides() (w, h float32) {
	w = l.t.l.picture()
	if q := l.t.page; q != nil {
		h = w * float32(q.H/q.W)
	}
	return w, h
}

// MinSize implements fyne.Layout.
func (l sheetThumbLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	w, h := l.sides()
	return fyne.NewSize(w+4*pad(), h+2*pad()+l.t.name.MinSize().Height)
}

// Layout implements fyne.Layout.
func (l sheetThumbLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	t := l.t
	w, h := l.sides()
	t.ring.Resize(size)
	at := fyne.NewPos((size.Width-w)/2, 2*pad())
	for _, o := range []fyne.CanvasObject{t.paper, t.img} {
		o.Move(at)
		if s := fyne.NewSize(w, h); o.Size() != s {
			o.Resize(s)
		}
	}
	t.name.Move(fyne.NewPos(0, h+2*pad()))
	t.name.Resize(fyne.NewSize(size.Width, t.name.MinSize().Height))
	t.name.Resize(fyne.NewSize(size.Width, t.name.MinSize().Height))
}
