package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model/say"
)

// agesPicture is the panel as it will look at one of three ages.
type agesPicture struct {
	p       *behavePage
	tones   string // what the colours rest on
	panel   *face.Panel
	img     *canvas.Image
	room    *fyne.Container
	buttons [3]*behaveButton
	says    *widget.Label
	drawn   int // age of the picture shown, -1 none
}

func newAgesPicture(p *behavePage, s session.Section) *agesPicture {
	a := &agesPicture{p: p, tones: fmt.Sprint(s.Tones), drawn: -1}
	a.panel = p.w.ses.Panel(p.w.ses.Selected().Panel)
	a.img = canvas.NewImageFromImage(nil)
	a.img.FillMode, a.img.ScaleMode = canvas.ImageFillStretch, canvas.ImageScaleFastest
	a.room = container.New(&shapeLayout{shape: float32(a.panel.Width / a.panel.Length), done: a.draw}, a.img)
	for i, name := range ageNames() {
		b := newBehaveButton(p, name, func() { p.showAge(i) })
		b.beside = func(by int) { p.showAge(min(max(p.age+by, 0), 2)) }
		a.buttons[i] = b
	}
	a.says = wrapped("", widget.LowImportance)
	a.says.SizeName = theme.SizeNameCaptionText
	a.mark()
	return a
}

func (a *agesPicture) objects() []fyne.CanvasObject {
	row := []fyne.CanvasObject{a.buttons[0], a.buttons[1], a.buttons[2]}
	return []fyne.CanvasObject{a.room, flow(row), snug(a.says)}
}

// mark shows which age is chosen.
func (a *agesPicture) mark() {
	for i, b := range a.buttons {
		want := widget.MediumImportance
		if i == a.p.age {
			want = widget.HighImportance
		}
		if b.Importance != want {
			b.Importance = want
			b.Refresh()
		}
	}
	text := say.T("The panel today.")
	if a.p.age > 0 {
		text = say.T("An illustration: each wood moved in the direction it is known to take, the size is not measured.")
	}
	if a.says.Text != text {
		a.says.SetText(text)
	}
}

// years is the age chosen.
func (p *behavePage) years() float64 { return [3]float64{0, 1, 10}[p.age] }

// showAge shows the panel at one of the three ages.
func (p *behavePage) showAge(i int) {
	if p.ages == nil {
		return
	}
	p.age = i
	p.ages.mark()
	p.ages.draw()
	p.refolded()
	if f, ok := p.w.win.Canvas().Focused().(*behaveButton); ok && f.beside != nil && f != p.ages.buttons[i] {
		p.w.win.Canvas().Focus(p.ages.buttons[i])
	}
	p.w.say(say.F("The panel %s.", [3]string{say.T("as it is now"), say.T("as it may look in one year"), say.T("as it may look in ten years")}[i]))
}

// draw shows the picture as far as it is made.
func (a *agesPicture) draw() {
	size := a.img.Size()
	if size.Width < 2 || size.Height < 2 {
		return
	}
	p := a.p
	px := float32(max(p.w.surf.pixels, 1))
	s := sitter{panel: a.panel, w: int(size.Width * px), h: int(size.Height * px),
		sit: scene.Sitting{Faces: p.w.faces, Theme: p.w.sceneTheme(), Joints: true}}
	if p.age > 0 {
		s.sit.Aged = p.w.ses.AgeShift(a.panel.ID, p.years())
	}
	img := p.pics.of(0, s, fmt.Sprint(p.age, p.w.dark(), a.tones))
	if img == nil || a.img.Image == img {
		return
	}
	a.img.Image, a.drawn = img, p.age
	a.img.Refresh()
}

// shapeLayout gives its one object the whole width and the height that belongs
// to it, no higher than most.
type shapeLayout struct {
	shape float32 // height for width
	width float32 // of the last Layout
	done  func()
}

// mostShape is the greatest height of a picture for its width.
const mostShape = 0.7

func (l *shapeLayout) fit(width float32) fyne.Size {
	h := fyne.Min(width*l.shape, width*mostShape)
	return fyne.NewSize(h/l.shape, h)
}

// MinSize implements fyne.Layout.
func (l *shapeLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	w := l.width
	if w == 0 {
		w = 300
	}
	return fyne.NewSize(80, l.fit(w).Height)
}

// Layout implements fyne.Layout.
func (l *shapeLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	was := l.width
	l.width = size.Width
	fit := l.fit(size.Width)
	if objs[0].Size() != fit {
		objs[0].Resize(fit)
	}
	objs[0].Move(fyne.NewPos((size.Width-fit.Width)/2, 0))
	if was != l.width {
		l.done()
	}
}
