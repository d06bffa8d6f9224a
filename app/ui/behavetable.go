package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// newBehaveTable is a table of the figures of a section.
func newBehaveTable(rows []session.Row) *fyne.Container {
	cols := 0
	for _, r := range rows {
		cols = max(cols, len(r.Values))
	}
	t := &fyne.Container{Layout: &tableLayout{cols: cols + 1}}
	parts := 0
	for _, r := range rows {
		if r.Head {
			parts++
		}
	}
	for _, r := range rows {
		for k := range cols + 1 {
			l := wrapped("", widget.MediumImportance)
			switch {
			case k == 0:
				l.SetText(r.Name)
			case k <= len(r.Values):
				l.SetText(shortRange(r.Values[k-1]))
			}
			if k > 0 {
				l.Alignment = fyne.TextAlignTrailing
			}
			if r.Head || r.Quiet {
				l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
			}
			l.TextStyle.Bold = r.Head && k == 0 && parts > 1
			t.Add(snug(l))
		}
	}
	return t
}

// shortRange writes the unit of a range once: "-1.9 to -1.4 mm".
func shortRange(s string) string {
	lo, hi, ok := strings.Cut(s, say.F("%s to %s", "", ""))
	if !ok {
		return s
	}
	k := strings.LastIndex(hi, " ")
	if k < 0 {
		return s
	}
	return say.F("%s to %s", strings.TrimSuffix(lo, hi[k:]), hi)
}

// tableLayout sets rows of a name and values. A column of values is as wide as
// its longest needs, as far as that leaves room for the names; else its texts
// break. Where not even single words have room, a name stands on a line of its
// own.
type tableLayout struct {
	cols  int
	width float32 // of the last Layout
}

const tableGap = 10

// needs returns how wide the text of a cell is, and its longest word.
func needs(o fyne.CanvasObject) (all, word float32) {
	l := cellLabel(o)
	if l == nil {
		return 0, 0
	}
	size := theme.Size(l.SizeName)
	if l.SizeName == "" {
		size = theme.TextSize()
	}
	const slack = 0.5
	of := func(s string) float32 {
		if s == "" {
			return 0
		}
		return fyne.MeasureText(s, size, l.TextStyle).Width + slack + 0.8*theme.InnerPadding()
	}
	for _, w := range strings.Fields(l.Text) {
		word = fyne.Max(word, of(w))
	}
	return of(l.Text), word
}

// columns returns the widths of the names and the values.
func (l *tableLayout) columns(objs []fyne.CanvasObject, width float32) (name float32, values []float32, under bool) {
	values = make([]float32, l.cols-1)
	words := make([]float32, l.cols-1)
	var nameAll, nameWord float32
	for i, o := range objs {
		all, word := needs(o)
		if k := i % l.cols; k > 0 {
			values[k-1], words[k-1] = fyne.Max(values[k-1], all), fyne.Max(words[k-1], word)
			continue
		}
		nameAll, nameWord = fyne.Max(nameAll, all), fyne.Max(nameWord, word)
	}
	room := width - tableGap*float32(l.cols-1)
	// The names keep a third, or what they need.
	left := fyne.Min(nameAll, fyne.Max(nameWord, 0.34*room))
	if fits(values) > room-left {
		values = shrunk(values, words, room-left)
	}
	if fits(values) > room-left {
		return width, values, true
	}
	// In a wide window the values stay near their names.
	return fyne.Min(room-fits(values), fyne.Max(left, nameAll)+4*tableGap), values, false
}

func fits(list []float32) (sum float32) {
	for _, v := range list {
		sum += v
	}
	return sum
}

// shrunk takes from the widest columns until all have room, each as wide as its
// longest word at least.
func shrunk(list, least []float32, room float32) []float32 {
	lo, hi := float32(0), room
	out := make([]float32, len(list))
	for range 24 {
		most := (lo + hi) / 2
		for i := range list {
			out[i] = fyne.Max(least[i], fyne.Min(list[i], most))
		}
		if fits(out) > room {
			hi = most
		} else {
			lo = most
		}
	}
	for i := range list {
		out[i] = fyne.Max(least[i], fyne.Min(list[i], lo))
	}
	return out
}

// rows calls do with where each object of each row goes.
func (l *tableLayout) rows(objs []fyne.CanvasObject, width float32, do func(o fyne.CanvasObject, pos fyne.Position, size fyne.Size)) float32 {
	name, values, under := l.columns(objs, width)
	var y float32
	for i := 0; i+l.cols <= len(objs); i += l.cols {
		high := func(o fyne.CanvasObject, w float32) float32 {
			o.Resize(fyne.NewSize(w, o.MinSize().Height))
			return o.MinSize().Height
		}
		h := high(objs[i], name)
		if under && isBlank(objs[i]) {
			h = 0
		}
		do(objs[i], fyne.NewPos(0, y), fyne.NewSize(name, h))
		if under {
			y += h
			h = 0
		}
		x := width
		if !under {
			x = name + fits(values) + tableGap*float32(len(values))
		}
		for k := l.cols - 2; k >= 0; k-- {
			o := objs[i+1+k]
			x -= values[k]
			v := high(o, values[k])
			do(o, fyne.NewPos(x, y), fyne.NewSize(values[k], v))
			if !isBlank(o) {
				h = fyne.Max(h, v)
			}
			x -= tableGap
		}
		y += h + 2
	}
	return y
}

// cellLabel is the text of a cell.
func cellLabel(o fyne.CanvasObject) *widget.Label {
	c, ok := o.(*fyne.Container)
	if !ok || len(c.Objects) != 1 {
		return nil
	}
	l, _ := c.Objects[0].(*widget.Label)
	return l
}

// isBlank reports whether a cell holds no text.
func isBlank(o fyne.CanvasObject) bool {
	l := cellLabel(o)
	return l != nil && l.Text == ""
}

// MinSize implements fyne.Layout.
func (l *tableLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	width := l.width
	if width == 0 {
		width = 300
	}
	h := l.rows(objs, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
	return fyne.NewSize(120, h)
}

// Layout implements fyne.Layout.
func (l *tableLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.rows(objs, size.Width, func(o fyne.CanvasObject, pos fyne.Position, s fyne.Size) {
		o.Move(pos)
		o.Resize(s)
	})
}

// cardAir is the air between cards.
const cardAir = 10

// cardsLayout sets cards in as many columns as there is room for, each under
// the shortest so far. While held every card keeps its column, so that one that
// is unfolded sends no other away.
type cardsLayout struct {
	least func() float32 // narrowest card
	width float32        // of the last Layout
	held  bool
	at    []int // column of each card
	cols  int
}

func (l *cardsLayout) place(objs []fyne.CanvasObject, width float32, do func(o fyne.CanvasObject, pos fyne.Position, size fyne.Size)) float32 {
	const air = cardAir
	cols := max(1, int((width+air)/(l.least()+air)))
	cols = min(cols, 3, max(len(objs), 1))
	keep := l.held && l.cols == cols && len(l.at) == len(objs)
	if !keep {
		l.at, l.cols = make([]int, len(objs)), cols
	}
	card := (width - air*float32(cols-1)) / float32(cols)
	high := make([]float32, cols)
	for i, o := range objs {
		if !keep {
			for k := range high {
				if high[k] < high[l.at[i]]-1 {
					l.at[i] = k
				}
			}
		}
		at := l.at[i]
		o.Resize(fyne.NewSize(card, o.MinSize().Height))
		h := o.MinSize().Height
		do(o, fyne.NewPos(float32(at)*(card+air), high[at]), fyne.NewSize(card, h))
		high[at] += h + air
	}
	var most float32
	for _, h := range high {
		most = fyne.Max(most, h)
	}
	return most
}

// MinSize implements fyne.Layout.
func (l *cardsLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	width := l.width
	if width == 0 {
		width = l.least()
	}
	return fyne.NewSize(200, l.place(objs, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {}))
}

// Layout implements fyne.Layout.
func (l *cardsLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(objs, size.Width, func(o fyne.CanvasObject, pos fyne.Position, s fyne.Size) {
		o.Move(pos)
		o.Resize(s)
	})
}
