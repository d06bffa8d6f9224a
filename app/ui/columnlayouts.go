package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// columnLayout sets objects under one another with air at the sides and
// between them. It never asks for more width than it is given, so that texts
// break instead of running out of the column.
type columnLayout struct{}

const columnAir, columnSide = 8, 10

// MinSize implements fyne.Layout.
func (columnLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	h := float32(columnAir)
	for _, o := range objs {
		if m := o.MinSize(); o.Visible() && m.Height > 0 {
			h += m.Height + columnAir
		}
	}
	return fyne.NewSize(120, h)
}

// Layout implements fyne.Layout.
func (columnLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	y := float32(columnAir)
	w := size.Width - 2*columnSide
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		o.Move(fyne.NewPos(columnSide, y))
		o.Resize(fyne.NewSize(w, o.MinSize().Height))
		h := o.MinSize().Height // texts break anew in their width
		o.Resize(fyne.NewSize(w, h))
		if h > 0 {
			y += h + columnAir
		}
	}
}

// snugLayout lets its one object run over its borders by half of the air that
// the toolkit's labels keep round their text, for columns of short texts.
type snugLayout struct{}

func snug(o fyne.CanvasObject) *fyne.Container { return container.New(snugLayout{}, o) }

// air is what is taken off at each side.
func (snugLayout) air() float32 { return theme.InnerPadding() * 0.6 }

// MinSize implements fyne.Layout. A hidden object takes no room.
func (l snugLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	if !o[0].Visible() {
		return fyne.Size{}
	}
	return o[0].MinSize().SubtractWidthHeight(2*l.air(), 2*l.air())
}

// Layout implements fyne.Layout.
func (l snugLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(-l.air(), -l.air()))
	o[0].Resize(size.AddWidthHeight(2*l.air(), 2*l.air()))
}

// stackLayout sets objects under one another with a small gap, each as wide as
// there is room.
type stackLayout struct{}

const stackGap = 4

// MinSize implements fyne.Layout.
func (stackLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var out fyne.Size
	for _, o := range objs {
		if m := o.MinSize(); o.Visible() && m.Height > 0 {
			out = fyne.NewSize(fyne.Max(out.Width, m.Width), out.Height+m.Height+stackGap)
		}
	}
	return out
}

// Layout implements fyne.Layout.
func (stackLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	var y float32
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(size.Width, h))
		if h > 0 {
			y += h + stackGap
		}
	}
}
