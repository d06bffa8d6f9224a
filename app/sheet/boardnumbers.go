package sheet

import (
	"math"
	"sort"

	"heartside/app/render"
	"heartside/layout/geom"
)

// underPlan is how numbers stand in rows under a face.
type underPlan struct {
	st    render.Style
	wide  float64 // the widest, mm
	pitch float64 // from one to the next of whichever row
	row   float64 // from one row to the next
	rows  int
	high  float64
}

// underGap is free over the first row of numbers, mm.
const underGap = 3.0

// planUnder sets numbers 8 mm high in one row or, where that is too long, in
// two by turns, so that leaders to the lower row pass between those of the
// upper; smaller only where not even that goes.
func (b *builder) planUnder(numbers []string) underPlan {
	n, room := float64(len(numbers)), b.area.W()
	st, _ := b.gutterStyle(numbers, math.Min(84, 0.5*room))
	st.Align = render.Middle
	var u underPlan
	for {
		w := widest(b.f, numbers, st) + 1.5
		u = underPlan{st: st, wide: w, pitch: w, row: tallest(b.f, numbers, st) + 1.4, rows: 1}
		if n*w <= room {
			break
		}
		u.rows, u.pitch = 2, w/2+0.9
		if (n-1)*u.pitch+w <= room {
			break
		}
		if st.Size*0.88 < least {
			u.rows, u.pitch = int(math.Ceil(n*w/room)), w
			break
		}
		st.Size *= 0.88
	}
	u.high = underGap + float64(u.rows)*u.row
	return u
}

// numbersUnder writes the numbers of parts that cannot hold them under the
// face, each with a leader where it has a row or two, and returns where they
// end.
func (d *boardDrawing) numbersUnder(parts []place, foot float64) float64 {
	which := append([]place(nil), parts...)
	m := d.onFace()
	var from []geom.Point
	var numbers []string
	for _, p := range which {
		from = append(from, centreOf(p, m))
		numbers = append(numbers, p.number)
	}
	sortByX(which, from)
	u := d.b.planUnder(numbers)
	lo, hi := d.b.area.Min.X, d.b.area.Max.X
	if u.rows <= 2 {
		at := make([]float64, len(which))
		for i := range at {
			at[i] = from[i].X
		}
		side := (u.wide - u.pitch) / 2
		if spots, ok := spread(at, u.pitch, lo+side, hi-side); ok {
			for i := range which {
				d.numberUnder(which[i].number, from[i], spots[i], foot+underGap+float64(i%u.rows)*u.row, u.st)
			}
			return foot + u.high
		}
	}
	for row := range u.rows {
		var mine []int
		var at []float64
		for i := row; i < len(which); i += u.rows {
			mine, at = append(mine, i), append(at, from[i].X)
		}
		spots, ok := spread(at, u.wide, lo, hi)
		if !ok {
			continue // the table has them
		}
		for k, i := range mine {
			d.writeBy(spots[k], foot+underGap+float64(row)*u.row+d.b.f.CapHeight(u.st), which[i].number, u.st)
		}
	}
	return foot + u.high
}

// numbersBeside writes the numbers at the right of the face, each with a leader,
// between top and foot, and reports whether they go there.
func (d *boardDrawing) numbersBeside(parts []place, top, foot float64) bool {
	m, st := d.onFace(), boldStyle(bigNumber)
	which := append([]place(nil), parts...)
	sort.SliceStable(which, func(i, k int) bool { return centreOf(which[i], m).Y < centreOf(which[k], m).Y })
	var at, high []float64
	var numbers []string
	for _, p := range which {
		at = append(at, centreOf(p, m).Y)
		high = append(high, textBox(d.b.f, 0, 0, p.number, st).H()+numberGap)
		numbers = append(numbers, p.number)
	}
	x := d.frame.Max.X + lineOver + leaderRoom
	if x+widest(d.b.f, numbers, st) > d.b.area.Max.X {
		return false
	}
	spots, ok := stack(at, high, top, foot)
	if !ok {
		return false
	}
	for i, p := range which {
		if touches(textBox(d.b.f, x, spots[i]-textBox(d.b.f, 0, 0, p.number, st).Centre().Y, p.number, st), d.taken) {
			return false
		}
	}
	for i, p := range which {
		d.leader(centreOf(p, m), geom.Pt(x-3, spots[i]), geom.Pt(x-0.6, spots[i]))
		d.writeBy(x, spots[i]-textBox(d.b.f, 0, 0, p.number, st).Centre().Y, p.number, st)
	}
	return true
}

// writeBy writes a number beside the face and keeps those of cuts clear of it.
func (d *boardDrawing) writeBy(x, y float64, s string, st render.Style) {
	d.taken = append(d.taken, textBox(d.b.f, x, y, s, st).Inset(-0.6))
	d.k.text(x, y, s, st)
}

// centreOf is the middle of a part on the page.
func centreOf(p place, m geom.Affine) geom.Point {
	return m.Apply(p.strip.ToBoard().Apply(geom.Pt(p.strip.L/2, p.strip.W/2)))
}

// leader is a line from a dot on a part to its number.
func (d *boardDrawing) leader(from geom.Point, to ...geom.Point) {
	line := render.Polyline(append([]geom.Point{from}, to...)...)
	d.k.stroke(line, 0.6, white)
	d.k.stroke(line, 0.2, black)
	d.k.fill(render.Round(from, 0.6), black)
}

// numberUnder writes one number with its top at y and a leader from its part.
func (d *boardDrawing) numberUnder(s string, from geom.Point, x, y float64, st render.Style) {
	d.leader(from, geom.Pt(x, y-0.5))
	d.writeBy(x, y+d.b.f.CapHeight(st), d.b.f.Fit(s, st, 0.5*d.b.area.W()+1), st)
}
