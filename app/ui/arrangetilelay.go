package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// tileLayout sets name, points and tick over the picture and the words under
// it.
type tileLayout struct{ t *arrangeTile }

// MinSize implements fyne.Layout.
func (l tileLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(60, l.t.fit(l.t.box.Size().Width))
}

// Layout implements fyne.Layout.
func (l tileLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	t := l.t
	t.ring.Resize(size)
	if t.e == nil {
		return
	}
	air, over := pad(), snugLayout{}.air()
	head, _, two := t.headed(size.Width)
	side := tickSide()
	x := size.Width - side - 2*air
	t.tick.Move(fyne.NewPos(x, 1.5*air))
	t.tick.Resize(fyne.NewSize(side, side))
	need := t.against.MinSize()
	line := need.Height - 2*over
	t.name.Move(fyne.NewPos(2*air-over, air-over))
	if two {
		t.name.Resize(fyne.NewSize(x-air+over, need.Height))
		t.against.Move(fyne.NewPos(2*air-over, air+line-over))
	} else {
		t.name.Resize(fyne.NewSize(x-need.Width-air+2*over, need.Height))
		t.against.Move(fyne.NewPos(x-need.Width+over-air, air-over))
	}
	t.against.Resize(need)
	room := t.room(size.Width)
	t.put(room)
	at, wide := fyne.NewPos(2*air-over, head+room.Height+air-over), t.wide(size.Width)
	if t.beside(size.Width) {
		at = fyne.NewPos(4*air+room.Width-over, head-over)
	}
	t.text.Move(at)
	for range 2 { // lines break in the width they were given
		t.text.Resize(fyne.NewSize(wide, t.text.MinSize().Height))
	}
	t.picture()
}

// tickSide is the side of the sign that tells whether a tile is ticked.
func tickSide() float32 { return theme.Size(theme.SizeNameInlineIcon) }

// headed is the height of what stands over the picture, that of a line, and
// whether the points stand under the name.
func (t *arrangeTile) headed(width float32) (head, line float32, two bool) {
	over := snugLayout{}.air()
	name := fyne.MeasureText(t.name.Text, theme.TextSize(), t.name.TextStyle).Width + 2*theme.InnerPadding()
	line = t.against.MinSize().Height - 2*over
	two = t.against.Text != "" && name+t.against.MinSize().Width+tickSide()+2*pad() > width
	head = fyne.Max(line, tickSide()) + 2*pad()
	if two {
		head += line
	}
	return head, line, two
}

// beside reports whether the words stand beside the picture: where
// arrangements are compared, which leaves it more of the height.
func (t *arrangeTile) beside(width float32) bool {
	return t.g.comparing && width > 2.2*besideText()
}

// besideText is the width of words beside a picture.
func besideText() float32 { return tileLetters * letterWidth * theme.TextSize() }

// wide is the width of the words with the air round them, in a tile of a width.
func (t *arrangeTile) wide(width float32) float32 {
	over := snugLayout{}.air()
	if t.beside(width) {
		return besideText() + 2*over
	}
	return width - 4*pad() + 2*over
}

// fitted is the height of what stands over the picture, and of the words, in a
// width.
func (t *arrangeTile) fitted(width float32) (head, low float32) {
	head, _, _ = t.headed(width)
	if wide := t.wide(width); t.text.Size().Width != wide {
		t.text.Resize(fyne.NewSize(wide, t.text.MinSize().Height))
	}
	return head, t.text.MinSize().Height - 2*snugLayout{}.air() + 2*pad()
}

// fit returns the height of the tile in a width.
func (t *arrangeTile) fit(width float32) float32 {
	if t.e == nil {
		return 0
	}
	head, low := t.fitted(width)
	if t.beside(width) {
		return head + fyne.Max(t.room(width).Height, low) + 2*pad()
	}
	return head + t.room(width).Height + low
}
