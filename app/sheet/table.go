package sheet

import (
	"math"
	"slices"
	"strings"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// table is rows of cells under a head. Columns are as wide as their widest
// cell; a table wider than its place gives up room where there is most, and
// its cells are broken into lines.
type table struct {
	name  string
	head  []string
	rows  [][]string
	left  []bool    // columns set to the left; others are centred
	room  []float64 // least width of a column, for boxes to write in; nil none
	box   []bool    // columns whose empty cells are boxes to write in; nil none
	heads []bool    // rows that head those below them; nil none

	narrow bool    // set in the narrow cut
	size   float64 // of the type, mm; 0 is the least
	tall   float64 // least height of a row to write in, mm; 0 the usual
}

// drop takes a column away.
func (t *table) drop(c int) {
	cut := func(list []string) []string { return append(append([]string(nil), list[:c]...), list[c+1:]...) }
	t.head = cut(t.head)
	for i := range t.rows {
		t.rows[i] = cut(t.rows[i])
	}
	t.left = append(append([]bool(nil), t.left[:c]...), t.left[c+1:]...)
	if t.box != nil {
		t.box = append(append([]bool(nil), t.box[:c]...), t.box[c+1:]...)
	}
	if t.room != nil {
		t.room = append(append([]float64(nil), t.room[:c]...), t.room[c+1:]...)
	}
}

const cellGap = 1.3 // free at each side of a cell

// natural returns the widths the columns ask for.
func (t *table) natural(f *render.Faces) []float64 {
	w := make([]float64, len(t.head))
	for c := range t.head {
		for _, l := range headLines(t.head[c]) {
			w[c] = math.Max(w[c], f.Width(l, t.headStyle()))
		}
		for i, r := range t.rows {
			w[c] = math.Max(w[c], f.Width(r[c], t.rowStyle(i)))
		}
		w[c] += 2 * cellGap
		if t.room != nil {
			w[c] = math.Max(w[c], t.room[c])
		}
	}
	return w
}

func (t *table) cellStyle() render.Style {
	st := style(t.em())
	st.Narrow = t.narrow
	return st
}

// rowStyle is the type of row i.
func (t *table) rowStyle(i int) render.Style {
	if t.isHead(i) {
		return t.headStyle()
	}
	return t.cellStyle()
}

func (t *table) isHead(i int) bool { return i < len(t.heads) && t.heads[i] }

func (t *table) headStyle() render.Style {
	return render.Style{Size: t.em(), Bold: true, Narrow: true, Color: black}
}

// em is the size of type, mm.
func (t *table) em() float64 { return math.Max(t.size, least) }

// line is from one line of a cell to the next, mm.
func (t *table) line() float64 { return line * t.em() }

// headLines breaks a head at its bars.
func headLines(s string) []string {
	var out []string
	for start, i := 0, 0; i <= len(s); i++ {
		if i == len(s) || s[i] == '|' {
			out = append(out, s[start:i])
			start = i + 1
		}
	}
	return out
}

func total(w []float64) float64 {
	var s float64
	for _, v := range w {
		s += v
	}
	return s
}

// words returns the widths in which no word of a column is broken; whole, three
// widths are not parted either, and there is room to write.
func (t *table) words(f *render.Faces, whole bool) []float64 {
	w := make([]float64, len(t.head))
	longest := func(c int, text string, st render.Style) {
		if whole {
			text = strings.ReplaceAll(text, " / ", "_/_")
		}
		for _, word := range strings.Fields(text) {
			w[c] = math.Max(w[c], f.Width(word, st)+2*cellGap)
		}
	}
	for c := range t.head {
		for _, l := range headLines(t.head[c]) {
			longest(c, l, t.headStyle())
		}
		for i, r := range t.rows {
			longest(c, r[c], t.rowStyle(i))
		}
		if whole && t.room != nil {
			w[c] = math.Max(w[c], t.room[c])
		}
	}
	return w
}

// widths are those of the columns in a table so wide at most.
func (t *table) widths(f *render.Faces, w float64) []float64 {
	cols := t.natural(f)
	for _, whole := range []bool{true, false} {
		least := t.words(f, whole)
		if total(least) <= w {
			return squeeze(cols, least, w)
		}
		cols = least
	}
	return squeeze(cols, make([]float64, len(cols)), w)
}

// squeeze narrows the widest columns until all fit into w, none to less than its
// least; these fit.
func squeeze(cols, least []float64, w float64) []float64 {
	if total(cols) <= w {
		return cols
	}
	out := least
	low, high := 0.0, slices.Max(cols)
	for range 60 {
		level := (low + high) / 2
		next := make([]float64, len(cols))
		for i, v := range cols {
			next[i] = math.Max(math.Min(v, level), math.Min(v, least[i]))
		}
		if total(next) > w {
			high = level
			continue
		}
		low, out = level, next
	}
	return out
}

// laid is a table with its lines broken for a width.
type laid struct {
	t      *table
	cols   []float64
	head   [][]string // lines of each head cell
	cells  [][][]string
	headH  float64
	height []float64 // of each row
}

func (t *table) lay(f *render.Faces, w float64) *laid {
	if total(t.natural(f)) > w {
		t.narrow = true
	}
	l := &laid{t: t, cols: t.widths(f, w)}
	most := 1
	for c, h := range t.head {
		var lines []string
		for _, part := range headLines(h) {
			lines = append(lines, f.Wrap(part, t.headStyle(), l.cols[c]-2*cellGap)...)
		}
		l.head = append(l.head, lines)
		most = max(most, len(lines))
	}
	l.headH = float64(most)*t.line() + 1
	for i, r := range t.rows {
		cells, most := make([][]string, len(r)), 1
		for c, s := range r {
			cells[c] = f.Wrap(s, t.rowStyle(i), l.cols[c]-2*cellGap)
			most = max(most, len(cells[c]))
		}
		h := float64(most)*t.line() + 0.6
		if t.box != nil {
			h = math.Max(h, math.Max(t.tall, 5.3))
		}
		l.cells, l.height = append(l.cells, cells), append(l.height, h)
	}
	return l
}

// nameH is the height of a table's name.
func (l *laid) nameH() float64 {
	if l.t.name == "" {
		return 0
	}
	return line*heading + 0.6
}

// full is the height of the whole table.
func (l *laid) full() float64 { return l.nameH() + l.headH + total(l.height) }

// draw draws rows from the first on, as many as end above bottom, at least
// one where force is set, and returns the row to go on with and where it
// ended.
func (l *laid) draw(k *ink, x, y, bottom float64, first int, force bool) (next int, end float64) {
	need := l.nameH() + l.headH
	if len(l.height) > first {
		need += l.height[first]
	}
	if y+need > bottom && !force {
		return first, y
	}
	if l.t.name != "" {
		name := l.t.name
		if first > 0 {
			name += say.T(", continued")
		}
		s, st := fit(k.faces, name, boldStyle(heading), total(l.cols))
		k.text(x, y+k.faces.Ascent(st)*0.9, s, st)
		y += l.nameH()
	}
	top := y
	w := total(l.cols)
	k.fill(render.Box(geom.R(x, y, x+w, y+l.headH)), pale)
	l.line(k, x, y, l.headH, l.head, l.t.headStyle())
	y += l.headH
	for next = first; next < len(l.height); next++ {
		h := l.height[next]
		if y+h > bottom && (next > first || !force) {
			break
		}
		if l.t.isHead(next) && next > first && next+1 < len(l.height) && y+h+l.height[next+1] > bottom {
			break // a head stays with the row below it
		}
		if l.t.isHead(next) {
			k.fill(render.Box(geom.R(x, y, x+w, y+h)), pale)
		}
		l.line(k, x, y, h, l.cells[next], l.t.rowStyle(next))
		l.boxes(k, x, y, next)
		y += h
		k.line(x, y, x+w, y, 0.15, mid)
	}
	k.line(x, top, x+w, top, 0.25, black)
	return next, y
}

func (l *laid) line(k *ink, x, y, h float64, cells [][]string, st render.Style) {
	for c, lines := range cells {
		at := st
		cx := x + cellGap
		if l.t.left == nil || !l.t.left[c] {
			at, cx = aligned(st, render.Middle), x+l.cols[c]/2
		}
		first := y + (h-float64(len(lines))*l.t.line())/2 + (l.t.line()+k.faces.CapHeight(st))/2
		for i, s := range lines {
			k.text(cx, first+float64(i)*l.t.line(), s, at)
		}
		x += l.cols[c]
	}
}

// boxes draws the empty cells to write in.
func (l *laid) boxes(k *ink, x, y float64, row int) {
	if l.t.box == nil {
		return
	}
	for c, w := range l.cols {
		if l.t.box[c] && l.t.rows[row][c] == "" {
			k.stroke(render.Box(geom.R(x+0.6, y+0.6, x+w-0.6, y+l.height[row]-0.6)), 0.25, black)
		}
		x += w
	}
}
