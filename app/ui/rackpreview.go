package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// mostPreview is the longest side of a preview, pixels.
const mostPreview = 720

// previews opens pictures small, one at a time in the background.
type previews struct {
	w     *Window
	ready func(path string)
	got   map[string]image.Image
	errs  map[string]error
	asked map[string]bool
	gate  chan struct{}
}

func newPreviews(w *Window) *previews {
	return &previews{w: w, got: map[string]image.Image{}, errs: map[string]error{}, asked: map[string]bool{}, gate: make(chan struct{}, 1)}
}

// want opens a picture unless that was asked for before.
func (p *previews) want(path string) {
	if p.asked[path] {
		if p.got[path] != nil {
			p.ready(path)
		}
		return
	}
	p.asked[path] = true
	w := p.w
	go func() {
		select {
		case p.gate <- struct{}{}:
		case <-w.work.Done():
			return
		}
		img, _, err := openReduced(w.work, path, mostPreview)
		<-p.gate
		w.post(func() {
			if err != nil {
				p.errs[path] = err
			} else {
				p.got[path] = img
			}
			p.ready(path)
		})
	}()
}

// trouble says why a picture cannot be shown, "" nothing.
func (p *previews) trouble(path string) string {
	if err := p.errs[path]; err != nil {
		return ": " + say.Err(err)
	}
	return ""
}

// preview shows the picture in hand large, with its name.
type preview struct {
	box  *fyne.Container
	img  *canvas.Image
	name *widget.Label
	path string
}

func newPreview() *preview {
	p := &preview{img: canvas.NewImageFromImage(nil), name: wrapped("", widget.LowImportance)}
	p.img.FillMode = canvas.ImageFillContain
	p.name.Wrapping = fyne.TextWrapBreak
	p.box = container.NewBorder(nil, p.name, nil, nil, p.img)
	return p
}

func (p *preview) show(img image.Image, name string) {
	if p.img.Image != img {
		p.img.Image = img
		p.img.Refresh()
	}
	if p.name.Text != name {
		p.name.SetText(name)
	}
}

// previewLayout sets the picture in hand beside the table, or over it where
// there is little width.
type previewLayout struct{}

// MinSize implements fyne.Layout.
func (previewLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 120) }

// Layout implements fyne.Layout.
func (previewLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	t := theme.TextSize()
	high := fyne.Min(size.Height*0.4, 16*t)
	beside := size.Width > 78*t
	setShown(o[1], beside || high >= 9*t) // else the small pictures in the rows must do
	if beside {
		side := fyne.Min(size.Width*0.36, 46*t)
		o[0].Resize(fyne.NewSize(size.Width-side-2*pad(), size.Height))
		o[0].Move(fyne.NewPos(0, 0))
		o[1].Resize(fyne.NewSize(side, fyne.Min(size.Height, side*0.75+3*t)))
		o[1].Move(fyne.NewPos(size.Width-side, 0))
		return
	}
	if !o[1].Visible() {
		o[0].Resize(size)
		o[0].Move(fyne.NewPos(0, 0))
		return
	}
	o[1].Resize(fyne.NewSize(size.Width, high))
	o[1].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width, size.Height-high-pad()))
	o[0].Move(fyne.NewPos(0, high+pad()))
}

// dropPlace says that pictures can be dropped; they can be anywhere on the
// window.
func dropPlace() *fyne.Container {
	frame := canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	frame.StrokeColor, frame.StrokeWidth, frame.CornerRadius = theme.Color(theme.ColorNameSeparator), 2, 6
	text := wrapped(say.T("Drop the photographs here"), widget.LowImportance)
	text.Alignment = fyne.TextAlignCenter
	return container.NewPadded(container.NewStack(frame, container.NewVBox(layout.NewSpacer(), text, layout.NewSpacer())))
}

// thumbLayout gives a picture of a row its size.
type thumbLayout struct{}

// MinSize implements fyne.Layout.
func (thumbLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(4.6*theme.TextSize(), 3.4*theme.TextSize())
}

// Layout implements fyne.Layout.
func (thumbLayout) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// tapBox answers a click on what is in it.
type tapBox struct {
	widget.BaseWidget
	in fyne.CanvasObject
	do func()
}

func newTapBox(in fyne.CanvasObject, do func()) *tapBox {
	t := &tapBox{in: in, do: do}
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer implements fyne.Widget.
func (t *tapBox) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.in) }

// Tapped implements fyne.Tappable.
func (t *tapBox) Tapped(*fyne.PointEvent) { t.do() }
