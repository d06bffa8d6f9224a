package face

import (
	"slices"

	"heartside/layout/geom"
)

// kindRun is a stretch of one kind along a line.
type kindRun struct {
	from, to float64
	kind     Kind
	owner    int32 // the fragment it belongs to, -1 where none
}

// column reads what lies along a line across a strip. Its buffers are used
// again.
type column struct {
	hits   []columnHit
	inside []bool
	stack  []kindRun
}

type columnHit struct {
	v     float64
	layer int
}

// at returns the kinds across a strip of width w at u, from front to back.
func (c *column) at(list []geom.Layer, u, w float64) []kindRun {
	c.hits, c.inside, c.stack = c.hits[:0], c.inside[:0], c.stack[:0]
	for k, l := range list {
		c.inside = append(c.inside, false)
		for i, a := range l.Polygon {
			b := l.Polygon[0]
			if i+1 < len(l.Polygon) {
				b = l.Polygon[i+1]
			}
			if a.X > b.X { // an edge gone both ways is met at the very same place
				a, b = b, a
			}
			if a.X <= u && b.X > u {
				c.hits = append(c.hits, columnHit{a.Y + (u-a.X)/(b.X-a.X)*(b.Y-a.Y), k})
			}
		}
	}
	slices.SortFunc(c.hits, func(a, b columnHit) int {
		switch {
		case a.v < b.v:
			return -1
		case a.v > b.v:
			return 1
		}
		return a.layer - b.layer
	})
	from := 0.0
	for _, h := range c.hits {
		if v := min(h.v, w); v > from {
			c.push(list, from, v)
			from = v
		}
		c.inside[h.layer] = !c.inside[h.layer]
	}
	if w > from {
		c.push(list, from, w)
	}
	return c.stack
}

func (c *column) push(list []geom.Layer, from, to float64) {
	kind := Blank
	for i := len(list) - 1; i >= 0; i-- {
		if c.inside[i] {
			kind = Kind(list[i].Label)
			break
		}
	}
	if n := len(c.stack); n > 0 && c.stack[n-1].kind == kind {
		c.stack[n-1].to = to
		return
	}
	c.stack = append(c.stack, kindRun{from, to, kind, -1})
}

// sapWidths returns the widths of sapwood at the front and at the back end of
// a stack. Wood begins where blank ends, and a flaw does not end the sapwood
// when more lies behind it.
func sapWidths(stack []kindRun) (front, back float64) {
	n := len(stack)
	i, k := 0, n-1
	for i < n && stack[i].kind == Blank {
		i++
	}
	for k >= 0 && stack[k].kind == Blank {
		k--
	}
	for a := i; a < n && (stack[a].kind == Sap || stack[a].kind == Flaw); a++ {
		if stack[a].kind == Sap {
			front = stack[a].to - stack[i].from
		}
	}
	for b := k; b >= 0 && (stack[b].kind == Sap || stack[b].kind == Flaw); b-- {
		if stack[b].kind == Sap {
			back = stack[k].to - stack[b].from
		}
	}
	return front, back
}

// lay puts the layers of one side of a strip in w, without the finish.
func (w *work) lay(s *Strip, side Side, up int) {
	w.layers.reset(s)
	if side == Show && s.Planed != nil {
		w.layers.planed(s)
		return
	}
	if side == Back {
		up = 3 - up
	}
	w.layers.board(s, up)
}

// threePlaces returns u at the left end, the middle and the right end of a
// stretch, a hair inside at the ends.
func threePlaces(iv interval) [3]float64 {
	const hair = 1e-3
	return [3]float64{iv.from + hair, (iv.from + iv.to) / 2, iv.to - hair}
}

// readWidths reads the sap widths at the finished ends and between them, from
// the strip's own edges as glued: what a rule shows before the panel is trimmed.
func (st *stripData) readWidths(w *work, s *Strip) {
	if st.ends.to <= st.ends.from {
		return
	}
	for side := Show; side <= Back; side++ {
		w.lay(s, side, st.key.up)
		for k, u := range threePlaces(st.ends) {
			st.widths[2*side][k], st.widths[2*side+1][k] = sapWidths(w.column.at(w.layers.list, u, s.W))
		}
	}
	for e := range st.joint {
		st.joint[e] = st.faces[Show].edgeWidths(w, e, s.W, st.joint[e])
	}
}

// edgeWidths appends the width of the sapwood that lies against the front
// (e = 0) or the back edge at the middle of every 10 mm column.
func (f *faceData) edgeWidths(w *work, e int, width float64, out []float32) []float32 {
	active, next := w.nodes[:0], 0
	for c := 0; c < f.cells.nu; c++ {
		u := (float64(c) + 0.5) * cellSize
		for next < len(f.pieces) && f.pieces[next].X0 <= u {
			active = append(active, int32(next))
			next++
		}
		w.column.stack = w.column.stack[:0]
		keep := active[:0]
		for _, i := range active {
			t := &f.pieces[i]
			if t.X1 <= u {
				continue
			}
			keep = append(keep, i)
			lo, hi := columnOf(t, u)
			if e == 1 {
				lo, hi = width-hi, width-lo
			}
			w.column.stack = insertRun(w.column.stack, kindRun{lo, hi, Kind(t.Label), -1})
		}
		active = keep
		var reach, sap float64
		for _, r := range w.column.stack {
			if r.from > reach+0.01 || (r.kind != Sap && r.kind != Flaw) {
				break
			}
			reach = r.to
			if r.kind == Sap {
				sap = r.to
			}
		}
		out = append(out, float32(sap))
	}
	w.nodes = active[:0]
	return out
}

func insertRun(list []kindRun, r kindRun) []kindRun {
	list = append(list, r)
	for i := len(list) - 1; i > 0 && list[i].from < list[i-1].from; i-- {
		list[i], list[i-1] = list[i-1], list[i]
	}
	return list
}

// edgeHair is how far inside a strip the kinds along its edges are read, mm.
const edgeHair = 0.05

// findRuns finds the kinds along the front and the back edge of the strip.
func (f *faceData) findRuns(width float64) {
	for e, v := range [2]float64{edgeHair, width - edgeHair} {
		for i := range f.pieces {
			if x0, x1, ok := rowOf(&f.pieces[i], v); ok && x1 > x0 {
				f.runs[e] = insertRun(f.runs[e], kindRun{x0, x1, Kind(f.pieces[i].Label), f.owner[i]})
			}
		}
	}
}
