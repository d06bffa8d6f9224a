package sheet

import (
	"fmt"
	"math"
	"sort"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// cutLabel is the number of a cut, alone and with its place.
type cutLabel struct {
	n, full string
	x       float64
}

// cutNumbers writes the numbers of cross-cuts and end cuts above the face,
// those of long cuts on them where there is room, each with its place where
// that fits: from the marked end, or off the line.
func (d *boardDrawing) cutNumbers(cuts []cut, l snapped, top float64) {
	var list []cutLabel
	for i := range cuts {
		c := &cuts[i]
		if c.rip || c.n == 0 {
			continue
		}
		p, q := d.m.Apply(c.p), d.m.Apply(c.q)
		if c.across() {
			d.k.line(p.X, d.frame.Min.Y-1, p.X, d.frame.Max.Y+1, 0.3, black)
		}
		n := fmt.Sprint(c.n)
		if c.what == cutSquare {
			list = append(list, cutLabel{n, n, p.X})
			continue
		}
		list = append(list, cutLabel{n, n + ": " + d.b.say.span(math.Max(c.p.X-l.zero, 0), math.Max(c.q.X-l.zero, 0)), (p.X + q.X) / 2})
	}
	sort.SliceStable(list, func(i, k int) bool { return list[i].x < list[k].x })
	d.endLabels(list, top)
	d.ripNumbers(cuts, l)
}

// span writes a length, or the two of a slanted cut.
func (w words) span(a, b float64) string {
	if s, t := w.bare(a), w.bare(b); s != t {
		return s + "–" + t
	}
	return w.bare(a)
}

// endLabels spreads labels in the row above the face: in full where they go,
// else the numbers alone.
func (d *boardDrawing) endLabels(list []cutLabel, top float64) {
	st := aligned(style(least), render.Middle)
	for _, full := range [...]bool{true, false} {
		at, says, w := make([]float64, len(list)), make([]string, len(list)), 0.0
		for i, c := range list {
			at[i], says[i] = c.x, c.n
			if full {
				says[i] = c.full
			}
			w = math.Max(w, d.b.f.Width(says[i], st)+1.5)
		}
		spots, ok := spread(at, w, d.b.area.Min.X, d.b.area.Max.X)
		if !ok {
			continue // the table has them
		}
		for i, c := range list {
			d.k.stroke(render.Polyline(geom.Pt(spots[i], top-1.2), geom.Pt(c.x, d.frame.Min.Y)), 0.15, black)
			d.k.text(spots[i], top-1.6, says[i], st)
			d.taken = append(d.taken, textBox(d.b.f, spots[i], top-1.6, says[i], st))
		}
		return
	}
}

// ripNumbers writes the numbers of long cuts a little way along each, where
// no other number of the kind is near.
func (d *boardDrawing) ripNumbers(cuts []cut, l snapped) {
	for i := range cuts {
		c := &cuts[i]
		if !c.rip || c.n == 0 {
			continue
		}
		n := fmt.Sprint(c.n)
		off := l.offset(d.b.say, c.p)
		if o := l.offset(d.b.say, c.q); o != off {
			off += say.F(" to %s", o)
		}
		if !d.ripNumber(c, n+": "+off) {
			d.ripNumber(c, n)
		}
	}
}

func (d *boardDrawing) ripNumber(c *cut, s string) bool {
	st := aligned(style(least), render.Middle)
	for _, t := range [...]float64{0.16, 0.22, 0.28, 0.1, 0.72, 0.78, 0.84, 0.9} {
		at := d.m.Apply(c.p.Lerp(c.q, t))
		y := at.Y + d.b.f.CapHeight(st)/2
		r := textBox(d.b.f, at.X, y, s, st).Inset(-0.6)
		if touches(r, d.taken) || !d.rows().Contains(r.Min) || !d.rows().Contains(r.Max) {
			continue
		}
		d.taken = append(d.taken, r)
		d.k.plate(at.X, y, s, st)
		return true
	}
	return false
}
