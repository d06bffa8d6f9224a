package sheet

import "heartside/app/render"

// paragraph is some lines of text that may be broken between pages.
type paragraph struct {
	text   string
	bold   bool
	bullet string  // written before the first line, "" none
	before float64 // free above, mm
}

// setLine is one line of a paragraph set for a width.
type setLine struct {
	text, bullet string
	st           render.Style
	indent       float64
	before       float64
	high         float64
	keep         bool // stays with the next line
	last         bool // ends a paragraph of several lines
}

// set breaks paragraphs in type of a size into lines of w mm.
func set(f *render.Faces, list []paragraph, w, size float64) []setLine {
	var out []setLine
	for _, p := range list {
		st := style(size)
		if p.bold {
			st = boldStyle(size)
		}
		indent := 0.0
		if p.bullet != "" {
			indent = f.Width(p.bullet+" ", st)
		}
		lines := f.Wrap(p.text, st, w-indent)
		for i, s := range lines {
			l := setLine{text: s, st: st, indent: indent, high: line * size, keep: p.bold}
			if i == 0 {
				l.bullet, l.before = p.bullet, p.before
			}
			if i == 0 && len(lines) > 1 {
				l.keep = true
			}
			l.last = i > 0 && i == len(lines)-1
			out = append(out, l)
		}
	}
	return out
}

func heightOf(lines []setLine) float64 {
	var h float64
	for _, l := range lines {
		h += l.before + l.high
	}
	return h
}

// paragraphs writes text in columns on the rest of the page and on further
// pages as needed. Text that goes on no page's rest but on a whole page begins
// a new one, in the largest type that goes on it. Columns on the last page are
// made equally long.
func (b *builder) paragraphs(list []paragraph) {
	if len(list) == 0 {
		return
	}
	if b.textHeight(list) > b.left()+2 {
		b.more()
		b.largest(func() float64 { return b.textHeight(list) - 2 }, b.left())
	}
	b.flow(list)
}

// flow writes text in columns from here on, in the type of the page.
func (b *builder) flow(list []paragraph) {
	n := b.columns()
	w := b.columnWidth(n)
	lines := set(b.f, list, w, b.em)
	for len(lines) > 0 {
		high := min(evenHeight(lines, n), b.left())
		end := b.area.Min.Y
		for c := 0; c < n && len(lines) > 0; c++ {
			count := take(lines, high)
			y := b.writeLines(lines[:count], b.area.Min.X+float64(c)*(w+columnGutter))
			end = max(end, y)
			lines = lines[count:]
		}
		b.area.Min.Y = end
		if len(lines) > 0 {
			b.more()
		}
	}
	b.area.Min.Y += 2
}

const columnGutter = 8

// columns is how many columns of text the page is wide enough for.
func (b *builder) columns() int {
	if b.area.W() > 220 {
		return 2
	}
	return 1
}

func (b *builder) columnWidth(n int) float64 {
	return (b.area.W() - columnGutter*float64(n-1)) / float64(n)
}

// take returns how many lines go into a column, leaving neither a heading or
// first line alone at its foot nor a last line alone at the head of the next.
func take(lines []setLine, high float64) int {
	var h float64
	n := 0
	for n < len(lines) {
		before := lines[n].before
		if n == 0 {
			before = 0
		}
		if h += before + lines[n].high; h > high+1e-9 {
			break
		}
		n++
	}
	if n < len(lines) && n > 1 && lines[n].last {
		n--
	}
	for n < len(lines) && n > 1 && lines[n-1].keep {
		n--
	}
	return max(n, 1)
}

// evenHeight returns the least height at which n columns take all lines.
func evenHeight(lines []setLine, n int) float64 {
	h := heightOf(lines) / float64(n)
	for {
		rest := lines
		for c := 0; c < n && len(rest) > 0; c++ {
			rest = rest[take(rest, h):]
		}
		if len(rest) == 0 {
			return h
		}
		h += lines[0].high / 2
	}
}

func (b *builder) writeLines(lines []setLine, x float64) float64 {
	y := b.area.Min.Y
	for i, l := range lines {
		if i > 0 {
			y += l.before
		}
		base := y + (l.high+b.f.CapHeight(l.st))/2
		if l.bullet != "" {
			b.k().text(x, base, l.bullet, l.st)
		}
		b.k().text(x+l.indent, base, l.text, l.st)
		y += l.high
	}
	return y
}

// across writes one paragraph over the page's whole width.
func (b *builder) across(text string) {
	lines := set(b.f, []paragraph{{text: text}}, b.area.W(), b.em)
	if b.left() < heightOf(lines) {
		b.more()
	}
	b.area.Min.Y = b.writeLines(lines, b.area.Min.X) + 2
}

func (b *builder) acrossHeight(text string) float64 {
	return heightOf(set(b.f, []paragraph{{text: text}}, b.area.W(), b.em)) + 2
}

// textBeside is the least room beside a table that text is set in, mm.
const textBeside = 75

func (b *builder) tableWithTextHeight(t *table, text []paragraph) float64 {
	b.sized(t)
	l := t.lay(b.f, b.area.W())
	if w := b.area.W() - total(l.cols) - columnGutter; w >= textBeside {
		return max(l.full(), heightOf(set(b.f, text, w, b.em))) + 3
	}
	return l.full() + 3 + b.textHeight(text)
}

// tableWithText draws a table with text beside it where both go on the page,
// else one after the other.
func (b *builder) tableWithText(t *table, text []paragraph) {
	b.sized(t)
	l := t.lay(b.f, b.area.W())
	w := b.area.W() - total(l.cols) - columnGutter
	if w >= textBeside {
		lines := set(b.f, text, w, b.em)
		if high := max(l.full(), heightOf(lines)); high <= b.left() {
			l.draw(b.k(), b.area.Min.X, b.area.Min.Y, b.area.Max.Y, 0, true)
			b.writeLines(lines, b.area.Max.X-w)
			b.area.Min.Y += high + 3
			return
		}
	}
	b.tables(t)
	b.paragraphs(text)
}

// tableGutter is the room between tables beside each other.
const tableGutter = 6

// sized sets tables in the type of the page.
func (b *builder) sized(list ...*table) {
	for _, t := range list {
		t.size, t.narrow = b.em*least/body, false
	}
}

// abreast reports whether tables go beside each other into the page's width,
// in the narrow cut if need be.
func (b *builder) abreast(list []*table) bool {
	b.sized(list...)
	if len(list) < 2 {
		return false
	}
	for _, narrow := range [...]bool{false, true} {
		w := -float64(tableGutter)
		for _, t := range list {
			t.narrow = narrow
			w += total(t.natural(b.f)) + tableGutter
		}
		if w <= b.area.W() {
			return true
		}
	}
	for _, t := range list {
		t.narrow = false
	}
	return false
}

// tables draws tables beside each other where they all go into the page's
// width, else one after the other, and goes on to further pages as needed.
func (b *builder) tables(list ...*table) {
	if b.abreast(list) {
		b.beside(list)
		return
	}
	for _, t := range list {
		b.beside([]*table{t})
	}
}

func (b *builder) beside(list []*table) {
	laids, at := make([]*laid, len(list)), make([]int, len(list))
	for i, t := range list {
		laids[i] = t.lay(b.f, b.area.W())
	}
	fresh := false
	for {
		x, end, open := b.area.Min.X, b.area.Min.Y, false
		for i, l := range laids {
			if at[i] < len(l.height) {
				next, y := l.draw(b.k(), x, b.area.Min.Y, b.area.Max.Y, at[i], fresh)
				at[i], end = next, max(end, y)
				open = open || next < len(l.height)
			}
			x += total(l.cols) + tableGutter
		}
		b.area.Min.Y = end
		if !open {
			break
		}
		b.more()
		fresh = true
	}
	b.area.Min.Y += 3
}

// heightsOf tells how high tables come out on the page, without drawing them.
func (b *builder) heightsOf(list ...*table) float64 {
	abreast := b.abreast(list)
	var side, stack float64
	for _, t := range list {
		h := t.lay(b.f, b.area.W()).full()
		side, stack = max(side, h), stack+h+3
	}
	if abreast {
		return side + 3
	}
	return stack
}
