package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
)

// rackRow is a board of the list.
type rackRow struct {
	l      *rackList
	at     int // which board of the project
	box    *fyne.Container
	letter *widget.Label
	about  *widget.Label
	cells  [4]*rackCell
	shown  string
	board  *model.Board
	scale  float64 // units of the screen a mm
}

func newRackRow(l *rackList) *rackRow {
	r := &rackRow{l: l}
	r.letter = widget.NewLabelWithStyle("", fyne.TextAlignCenter, fyne.TextStyle{Bold: true})
	r.letter.Truncation = fyne.TextTruncateEllipsis
	r.about = wrapped("", widget.MediumImportance)
	r.about.SizeName = theme.SizeNameCaptionText
	for k := range r.cells {
		r.cells[k] = newRackCell(r, intake.Part(k+1))
	}
	r.box = container.New(rackRowLayout{r}, r.letter, r.about, r.cells[0], r.cells[1], r.cells[2], r.cells[3])
	return r
}

// turn makes the row that of another board.
func (r *rackRow) turn(at int) {
	r.at, r.shown = at, ""
	for _, c := range r.cells {
		c.blank()
	}
}

// fit lays the row out in a width and returns its height.
func (r *rackRow) fit(width float32) (high float32) {
	for range 2 { // texts break in the width they were given, and their height counts then
		high = rackRowLayout{r}.place(r.box.Objects, width)
	}
	r.box.Resize(fyne.NewSize(width, high))
	return high
}

// show brings the row up to date and reports whether its height may differ.
func (r *rackRow) show(b *model.Board, longest float64) bool {
	ses := r.l.w.ses
	if r.board != nil && r.board.ID != b.ID {
		r.turn(r.at)
	}
	r.board = b
	about := speciesName(b.Species) + "\n" + sizeWords(ses, b)
	var states [4]cellState
	key := b.ID + about + fmt.Sprint(longest, r.l.faceWide(), r.l.roll.letters)
	for k := range states {
		if k < 2 {
			states[k] = faceState(ses, b, k+1)
		} else {
			states[k] = endState(b, k-2)
		}
		r.cells[k].show(states[k])
		key += "\x00" + states[k].text()
	}
	r.scale = r.l.faceWide() / max(longest, 1)
	r.pictures()
	if key == r.shown {
		return false
	}
	r.shown = key
	r.letter.SizeName = idSize(b.ID)
	r.letter.SetText(b.ID)
	r.about.SetText(about)
	return true
}

// mostLetters is how many letters of a board's name the rack has room for.
const mostLetters = 8

// idSize is how large a board's letter stands: what is longer has to fit the
// same column.
func idSize(id string) fyne.ThemeSizeName {
	switch n := len([]rune(id)); {
	case n <= 2:
		return theme.SizeNameHeadingText
	case n == 3:
		return theme.SizeNameSubHeadingText
	}
	return theme.SizeNameText
}

// pictures shows the faces as far as they are drawn.
func (r *rackRow) pictures() {
	if r.board == nil {
		return
	}
	for k := range 2 {
		r.cells[k].picture(r.l.thumbs.of(r.l.w, r.board, k+1, r.scale), r.scale, r.board)
	}
}

// faceWide is how wide the longest board of the rack is drawn; all others are
// drawn to the same scale. A wide window gives it more, up to half as much again.
func (l *rackList) faceWide() float64 {
	t := float64(theme.TextSize())
	return min(max(0.17*float64(l.scroll.Size().Width), 16*t), 24*t)
}

// rackRowLayout lays a row out in one line, or with the faces in a second one.
type rackRowLayout struct{ r *rackRow }

func (l rackRowLayout) widths(width float32) (letter, about, face, end float32, two bool) {
	t := theme.TextSize()
	// Room for two large letters, or for so many of running text.
	letter = t * fyne.Max(3.6, 1.6+letterWidth*1.15*float32(min(l.r.l.roll.letters, mostLetters)))
	about, end = 12.5*t, 6.6*t
	face = (width - letter - about - 2*end - 5*pad()) / 2
	if least := float32(l.r.l.faceWide()) + 4*pad(); face < least {
		return letter, width - letter - 2*end - 3*pad(), (width - pad()) / 2, end, true
	}
	return letter, about, face, end, false
}

// place lays the row out and returns its height; move nil only measures.
func (l rackRowLayout) place(o []fyne.CanvasObject, width float32) float32 {
	letter, about, face, end, two := l.widths(width)
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	wide := []float32{letter, about, face, face, end, end}
	lines := [][]int{{0, 1, 2, 3, 4, 5}}
	if two {
		lines = [][]int{{0, 1, 4, 5}, {2, 3}}
	}
	y := float32(0)
	for _, line := range lines {
		high := float32(0)
		for _, i := range line {
			o[i].Resize(fyne.NewSize(wide[i], o[i].MinSize().Height))
			high = fyne.Max(high, o[i].MinSize().Height)
		}
		x := float32(0)
		for _, i := range line {
			h := high
			if i < 2 {
				h = o[i].MinSize().Height
			}
			put(o[i], x, y+(high-h)/2, wide[i], h)
			x += wide[i] + pad()
		}
		y += high + pad()
	}
	return y - pad()
}

// MinSize implements fyne.Layout.
func (l rackRowLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	width := l.r.box.Size().Width
	if width < 100 {
		width = 900
	}
	return fyne.NewSize(200, l.place(o, width))
}

// Layout implements fyne.Layout.
func (l rackRowLayout) Layout(o []fyne.CanvasObject, size fyne.Size) { l.place(o, size.Width) }

// sizeWords is the size of a board with its unit said once.
func sizeWords(ses *session.Session, b *model.Board) string {
	l, w, t := ses.Len(b.Length), ses.Len(b.Width), ses.Len(b.Thickness)
	if strings.HasSuffix(t, " mm") {
		l, w = strings.TrimSuffix(l, " mm"), strings.TrimSuffix(w, " mm")
	}
	return l + " × " + w + " × " + t
}
