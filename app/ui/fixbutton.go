package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// fixButton is a button that breaks its lines: what to do, what it costs, and
// the readings it would give.
type fixButton struct {
	widget.BaseWidget
	fix            session.Fix
	do             func()
	hover, focused bool
}

var (
	_ fyne.Tappable      = (*fixButton)(nil)
	_ fyne.Focusable     = (*fixButton)(nil)
	_ desktop.Hoverable  = (*fixButton)(nil)
	_ desktop.Cursorable = (*fixButton)(nil)
)

func newFixButton(f session.Fix, do func()) *fixButton {
	b := &fixButton{fix: f, do: do}
	b.ExtendBaseWidget(b)
	return b
}

// AccessibilityLabel says what the button does.
func (b *fixButton) AccessibilityLabel() string {
	return say.F("Fix: %s %s. %s", b.fix.Text, b.fix.Cost, b.fix.After)
}

// AccessibilityRole implements fyne.Accessible.
func (b *fixButton) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// Tapped implements fyne.Tappable.
func (b *fixButton) Tapped(*fyne.PointEvent) { b.do() }

// Cursor implements desktop.Cursorable.
func (b *fixButton) Cursor() desktop.Cursor { return desktop.PointerCursor }

// MouseIn implements desktop.Hoverable.
func (b *fixButton) MouseIn(*desktop.MouseEvent) { b.hover = true; b.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (b *fixButton) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *fixButton) MouseOut() { b.hover = false; b.Refresh() }

// FocusGained implements fyne.Focusable.
func (b *fixButton) FocusGained() { b.focused = true; b.Refresh() }

// FocusLost implements fyne.Focusable.
func (b *fixButton) FocusLost() { b.focused = false; b.Refresh() }

// TypedRune implements fyne.Focusable.
func (b *fixButton) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (b *fixButton) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.do()
	}
}

// CreateRenderer implements fyne.Widget.
func (b *fixButton) CreateRenderer() fyne.WidgetRenderer {
	ground := canvas.NewRectangle(theme.Color(theme.ColorNameButton))
	ground.CornerRadius = 4
	do := wrapped(sentence(b.fix.Text), widget.MediumImportance)
	after := wrapped(sentence(b.fix.After), widget.LowImportance)
	after.SizeName = theme.SizeNameCaptionText
	cost := widget.NewLabel(b.fix.Cost)
	cost.SizeName = theme.SizeNameCaptionText
	cost.Importance = widget.HighImportance
	cost.TextStyle.Bold = true
	body := container.New(stackLayout{}, container.NewBorder(nil, nil, nil, container.NewVBox(snug(cost)), snug(do)))
	if b.fix.After != "" {
		body.Add(snug(after))
	}
	return &fixRenderer{b: b, ground: ground, all: container.NewStack(ground, container.NewPadded(body))}
}

type fixRenderer struct {
	b      *fixButton
	ground *canvas.Rectangle
	all    *fyne.Container
}

func (r *fixRenderer) Layout(size fyne.Size) { r.all.Resize(size) }
func (r *fixRenderer) MinSize() fyne.Size    { return r.all.MinSize() }

func (r *fixRenderer) Refresh() {
	r.ground.FillColor = theme.Color(theme.ColorNameButton)
	r.ground.StrokeColor, r.ground.StrokeWidth = theme.Color(theme.ColorNameInputBorder), 1
	if r.b.hover || r.b.focused {
		r.ground.StrokeColor, r.ground.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	r.ground.Refresh()
	r.all.Refresh()
}

func (r *fixRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.all} }
func (r *fixRenderer) Destroy()                     {}
