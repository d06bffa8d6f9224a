package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"heartside/model"
)

// rackRoll knows how high each row of the rack is, so that only those in sight
// have to be there. A row that was never in sight is taken to be as high as
// the others are.
type rackRoll struct {
	boards  []*model.Board
	longest float64   // of the boards, mm
	letters int       // of the longest name
	high    []float32 // of each row, 0 not known yet
	width   float32   // that they were measured at
	free    []*rackRow
	filling bool
}

// rowsBeyond is how far beyond the view rows are made ready, units. An
// engineering choice: a turn of the wheel finds them there.
const rowsBeyond = 120

func (r *rackRoll) begin(boards []*model.Board) {
	r.boards, r.longest, r.letters = boards, 0, 0
	for _, b := range boards {
		r.longest, r.letters = max(r.longest, b.Length), max(r.letters, len([]rune(b.ID)))
	}
	if len(r.high) != len(boards) {
		r.high = make([]float32, len(boards))
	}
}

// usual is the height of a row that was not measured yet.
func (r *rackRoll) usual() float32 {
	sum, n := float32(0), float32(0)
	for _, h := range r.high {
		if h > 0 {
			sum, n = sum+h, n+1
		}
	}
	if n == 0 {
		return 5 * theme.TextSize()
	}
	return sum / n
}

// tops returns where each row begins, and where the last one ends.
func (r *rackRoll) tops() []float32 {
	out, usual := make([]float32, len(r.high)+1), r.usual()
	for i, h := range r.high {
		if h == 0 {
			h = usual
		}
		out[i+1] = out[i] + h + stackGap
	}
	return out
}

// fill sees to it that all rows in sight are there and up to date, and no
// others.
func (l *rackList) fill() {
	r := &l.roll
	if r.filling || len(r.high) != len(r.boards) {
		return
	}
	r.filling = true
	defer func() { r.filling = false }()
	if w := l.box.Size().Width; w != r.width && w > 0 {
		r.width = w
		clear(r.high)
	}
	// The row at the upper edge stays where it is while heights become known.
	was, off := r.tops(), l.scroll.Offset.Y-l.room.Position().Y-l.box.Position().Y
	edge := 0
	for edge+1 < len(r.high) && was[edge+1] <= off {
		edge++
	}
	for range 4 { // heights that become known bring other rows into sight
		if !l.bind(off) {
			break
		}
		off += r.tops()[edge] - was[edge]
		was = r.tops()
	}
	l.mark()
	l.box.Layout.Layout(l.box.Objects, l.box.Size())
	if to := off + l.room.Position().Y + l.box.Position().Y; to > 0 && to != l.scroll.Offset.Y {
		l.scroll.Offset.Y = to
		settled(l.scroll)
	} else if l.box.Size().Height != was[len(r.high)] {
		settled(l.scroll)
	}
}

// bind shows the boards that are in sight at an offset and reports whether the
// heights of rows are others now.
func (l *rackList) bind(off float32) (changed bool) {
	r, tops := &l.roll, l.roll.tops()
	in := func(i int) bool {
		return i < len(r.boards) && tops[i+1] > off-rowsBeyond && tops[i] < off+l.scroll.Size().Height+rowsBeyond
	}
	have := map[int]*rackRow{}
	for _, row := range l.rows {
		if in(row.at) {
			have[row.at] = row
		} else {
			row.box.Hide()
			r.free = append(r.free, row)
		}
	}
	l.rows = l.rows[:0]
	for i, b := range r.boards {
		if !in(i) {
			continue
		}
		row := have[i]
		if row == nil {
			row = l.freeRow()
			row.turn(i)
		}
		l.rows = append(l.rows, row)
		if row.show(b, r.longest) || r.high[i] == 0 {
			h := row.fit(r.width)
			changed = changed || h != r.high[i]
			r.high[i] = h
		}
	}
	return changed
}

// freeRow returns a row that shows nothing yet.
func (l *rackList) freeRow() *rackRow {
	r := &l.roll
	if n := len(r.free); n > 0 {
		row := r.free[n-1]
		r.free = slices.Delete(r.free, n-1, n)
		row.box.Show()
		return row
	}
	row := newRackRow(l)
	l.box.Objects = append(l.box.Objects, row.box)
	return row
}

// reveal scrolls so that a row is in sight.
func (l *rackList) reveal(i int) {
	for range 3 { // heights become known on the way
		tops := l.roll.tops()
		if i+1 >= len(tops) {
			return
		}
		y := l.room.Position().Y + l.box.Position().Y
		to := fyne.Max(l.scroll.Offset.Y, y+tops[i+1]-stackGap+2*pad()-l.scroll.Size().Height)
		to = fyne.Max(fyne.Min(to, y+tops[i]-2*pad()), 0)
		if to == l.scroll.Offset.Y {
			return
		}
		l.scroll.ScrollToOffset(fyne.NewPos(0, to))
	}
}

// rackRows is the layout of the rows: as high as all of them, those in sight
// at their places.
type rackRows struct{ l *rackList }

// MinSize implements fyne.Layout.
func (k rackRows) MinSize([]fyne.CanvasObject) fyne.Size {
	tops := k.l.roll.tops()
	return fyne.NewSize(200, tops[len(tops)-1])
}

// Layout implements fyne.Layout.
func (k rackRows) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	r := &k.l.roll
	if size.Width != r.width && !r.filling {
		r.width = size.Width
		clear(r.high)
		for _, row := range k.l.rows {
			r.high[row.at] = row.fit(size.Width)
		}
	}
	tops := r.tops()
	for _, row := range k.l.rows {
		if row.at >= len(r.high) {
			continue
		}
		at, to := fyne.NewPos(0, tops[row.at]), fyne.NewSize(size.Width, r.high[row.at])
		if row.box.Position() != at {
			row.box.Move(at)
		}
		if row.box.Size() != to {
			row.box.Resize(to)
		}
	}
}
