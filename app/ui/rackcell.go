package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/model"
	"heartside/model/say"
)

// rackCell is a face or an end of a board.
type rackCell struct {
	widget.BaseWidget
	l     *rackList
	row   *rackRow
	part  intake.Part
	ring  *canvas.Rectangle
	img   *canvas.Image
	name  *widget.Label
	text  *widget.Label
	bar   *widget.ProgressBar
	state cellState
	last  time.Time
	box   *fyne.Container
}

func newRackCell(row *rackRow, part intake.Part) *rackCell {
	c := &rackCell{l: row.l, row: row, part: part}
	c.ring = canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	c.ring.CornerRadius = 4
	c.img = canvas.NewImageFromImage(nil)
	c.img.FillMode, c.img.ScaleMode = canvas.ImageFillStretch, canvas.ImageScaleFastest
	c.img.Hidden = part.Face() == 0
	c.name = caption(partHead(part))
	c.text = wrapped("", widget.MediumImportance)
	c.bar = widget.NewProgressBar()
	c.bar.TextFormatter = func() string { return "" }
	c.bar.Hide()
	c.box = container.New(cellLayout{c}, c.ring, c.img, c.name, c.text, c.bar)
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer implements fyne.Widget.
func (c *rackCell) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.box) }

// show brings the words up to date.
func (c *rackCell) show(s cellState) {
	if text := s.text(); c.text.Text != text {
		c.text.Importance = stateImportance(s)
		c.text.SetText(text)
	}
	setShown(c.bar, s.kind == cellReading)
	if s.kind == cellReading && c.bar.Value != s.done {
		c.bar.SetValue(s.done)
	}
	c.state = s
}

// stateImportance colours what the sign says already.
func stateImportance(s cellState) widget.Importance {
	switch {
	case s.kind == cellFailed:
		return widget.DangerImportance
	case s.doubt:
		return widget.WarningImportance
	case s.kind == cellChecked:
		return widget.SuccessImportance
	case s.kind == cellEmpty || s.kind == cellWaiting:
		return widget.LowImportance
	}
	return widget.MediumImportance
}

// picture shows the face at the scale of the rack.
func (c *rackCell) picture(t *faceThumb, scale float64, b *model.Board) {
	size := fyne.NewSize(float32(b.Length*scale), float32(b.Width*scale))
	if t != nil && t.img != nil && c.img.Image != t.img {
		c.img.Image = t.img
		c.img.Refresh()
	}
	if c.img.MinSize() != size {
		c.img.SetMinSize(size)
		c.box.Refresh()
	}
}

// blank drops the picture of the board that the row showed before.
func (c *rackCell) blank() {
	c.last = time.Time{}
	if c.img.Image != nil {
		c.img.Image = nil
		c.img.Refresh()
	}
}

// mark shows whether the cell is in hand, and whether the keys are there.
func (c *rackCell) mark(on, keys bool) {
	stroke, width, fill := theme.Color(theme.ColorNameSeparator), float32(1), theme.Color(theme.ColorNameInputBackground)
	if on {
		stroke, width = theme.Color(theme.ColorNameInputBorder), 2
		if keys {
			stroke, width, fill = theme.Color(theme.ColorNamePrimary), 3, theme.Color(theme.ColorNameOverlayBackground)
		}
	}
	if c.ring.StrokeColor == stroke && c.ring.StrokeWidth == width && c.ring.FillColor == fill {
		return
	}
	c.ring.StrokeColor, c.ring.StrokeWidth, c.ring.FillColor = stroke, width, fill
	c.ring.Refresh()
}

// Tapped takes the cell in hand; a second tap soon after opens it.
func (c *rackCell) Tapped(*fyne.PointEvent) {
	twice := time.Since(c.last) < doubleClick
	c.last = time.Now()
	c.l.w.win.Canvas().Focus(c.l)
	c.l.take(c.row.at, c.part)
	if twice {
		c.last = time.Time{}
		c.l.w.lookAt(c.l)
	}
}

// TappedSecondary opens the menu of the cell.
func (c *rackCell) TappedSecondary(ev *fyne.PointEvent) {
	c.l.w.win.Canvas().Focus(c.l)
	c.l.take(c.row.at, c.part)
	widget.ShowPopUpMenuAtPosition(c.l.w.cellMenu(c.l), c.l.w.win.Canvas(), ev.AbsolutePosition)
}

// cellLayout sets the words of a cell beside its picture, or under it where
// there is little width, and the bar under them.
type cellLayout struct{ c *rackCell }

// MinSize implements fyne.Layout.
func (l cellLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(40, l.place(l.c.box.Size().Width))
}

// Layout implements fyne.Layout.
func (l cellLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.c.ring.Resize(size)
	l.place(size.Width)
}

// place lays the cell out in a width and returns its height.
func (l cellLayout) place(width float32) float32 {
	c, air := l.c, pad()
	overlap := snugLayout{}.air() // the air that labels keep round their text
	var x, y, low float32
	if c.img.Visible() {
		m := c.img.MinSize()
		c.img.Move(fyne.NewPos(2*air, 1.5*air))
		c.img.Resize(m)
		low = m.Height + 3*air
		if wide := float32(c.l.faceWide()) + 2*air; width-wide >= besideLetters*letterWidth*theme.TextSize() {
			x = wide
		} else {
			y = m.Height + air
		}
	}
	name := c.name.MinSize()
	c.name.Move(fyne.NewPos(x, y))
	c.name.Resize(name)
	if x > 0 || !c.img.Visible() {
		y += name.Height - 2*overlap
	} else {
		x = name.Width - overlap
	}
	c.text.Move(fyne.NewPos(x, y))
	c.text.Resize(fyne.NewSize(width-x, c.text.MinSize().Height))
	high := c.text.MinSize().Height
	c.text.Resize(fyne.NewSize(width-x, high))
	y += high
	if c.bar.Visible() {
		c.bar.Move(fyne.NewPos(x+2*air, y-air))
		c.bar.Resize(fyne.NewSize(fyne.Max(width-x-4*air, 0), 2*air))
		y += 2 * air
	}
	return fyne.Max(y, low)
}

// besideLetters is the least room for words beside a picture, in letters.
const besideLetters = 19

// partHead is a part at the head of its cell, which is narrow for an end.
func partHead(p intake.Part) string {
	switch p {
	case intake.EndA:
		return say.In("column", "marked end")
	case intake.EndB:
		return say.In("column", "other end")
	}
	return p.String()
}
