package stock

import (
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// mostMoves bounds the bundles tried at one step of the search.
const mostMoves = 60

// corner is a place for bundles of one length: they stand on the lower side of
// the box or hang from its upper side.
type corner struct {
	box geom.Rect // as long as the strips
	top bool
}

// moves returns the bundles that may be laid next for a job, the most promising
// first, and whether some were left out.
func (st *state) moves(k int) (list []*bundle, all bool) {
	p, j := st.p, &st.p.jobs[k]
	seen := map[uint64]bool{}
	for _, b := range j.boards {
		if st.twin(b) {
			continue
		}
		l, s := &p.lots[b], &st.shelves[b]
		for n := range l.sites {
			rooms := s.rooms
			if s.site < 0 {
				rooms = l.sites[n].rooms
			} else if s.site != n {
				continue
			}
			one := l.plain && s.site < 0
			for _, r := range rooms {
				for _, c := range p.corners(j, &l.sites[n], r, one) {
					for _, rects := range st.lanes(k, c) {
						tag := tagOf(k, b, n, rects)
						if seen[tag] {
							continue
						}
						seen[tag] = true
						m := p.bundleOf(k, b, n, rects)
						m.tag = tag
						st.settle(m)
						list = append(list, m)
					}
				}
			}
		}
	}
	keys := make(map[*bundle]key, len(list))
	for _, m := range list {
		keys[m] = m.delta.key(p.obj).per(m.width)
	}
	slices.SortStableFunc(list, func(a, b *bundle) int {
		switch {
		case keys[a].less(keys[b]):
			return -1
		case keys[b].less(keys[a]):
			return 1
		}
		return 0
	})
	if len(list) > mostMoves {
		return list[:mostMoves], false
	}
	return list, true
}

// per returns a key for each mm of width.
func (k key) per(width float64) key {
	for i := range k {
		k[i] /= width
	}
	return k
}

// twin reports whether an earlier lot is just like lot b, both still whole.
func (st *state) twin(b int) bool {
	c := st.p.lots[b].class
	if c < 0 || st.shelves[b].site >= 0 {
		return false
	}
	for i := c; i < b; i++ {
		if st.p.lots[i].class == c && st.shelves[i].site < 0 {
			return true
		}
	}
	return false
}

// corners returns where in a room bundles of a job may begin. In a room that is
// the same all over, one corner stands for all.
func (p *problem) corners(j *job, s *site, room geom.Rect, one bool) []corner {
	l := math.Min(j.long, room.W())
	if l < j.short-tiny || room.H() < j.least-tiny {
		return nil
	}
	xs := []float64{room.Min.X}
	if !one && room.W() > l+tiny {
		xs = append(xs, room.Max.X-l)
		if p.obj == BestLook {
			if x, ok := p.calmest(j, s, room, l); ok {
				xs = append(xs, x)
			}
		}
	}
	var out []corner
	for _, x := range xs {
		box := geom.R(x, room.Min.Y, x+l, room.Max.Y)
		out = append(out, corner{box, false})
		if one {
			continue
		}
		out = append(out, corner{box, true})
		if j.lo > 0 || j.hi >= 1 || p.obj != BestLook && j.limit[0] >= 1 && j.limit[1] >= 1 {
			continue
		}
		for _, c := range p.clean(j, s, box) {
			out = append(out, corner{c, false}, corner{c, true})
		}
	}
	return out
}

// lanes returns ways to fill a corner with strips of a job side by side.
func (st *state) lanes(k int, c corner) [][]geom.Rect {
	p, j, q := st.p, &st.p.jobs[k], &st.parts[k]
	h := c.box.H()
	if j.solid {
		most := int(math.Min(q.left, math.Floor((h+p.over)/(j.width+p.over)+tiny)))
		if most < 1 || j.width > j.most+tiny {
			return nil
		}
		out := [][]geom.Rect{p.side(c, slices.Repeat([]float64{j.width}, most))}
		if most > 1 {
			out = append(out, p.side(c, []float64{j.width}))
		}
		return out
	}
	least, most := j.least, j.most
	if j.thirds && q.wide > 0 {
		least, most = math.Max(least, up(q.wide/oneThird, p.opt.Grid)), math.Min(most, down(q.narrow*oneThird, p.opt.Grid))
	}
	give := func(n int) float64 { // the width that n strips come to at most
		return down(math.Min(h-float64(n-1)*p.over, float64(n)*most), p.opt.Grid)
	}
	best := 0
	for n := 1; give(n) >= float64(n)*least-tiny; n++ {
		if best == 0 || give(n) > give(best)+tiny {
			best = n
		}
		if give(n) >= q.left-tiny {
			best = n
			break
		}
	}
	if best == 0 {
		return nil
	}
	var out [][]geom.Rect
	try := func(w float64) {
		w = math.Min(down(w, p.opt.Grid), q.left)
		for n := 1; n <= best; n++ { // the fewest strips that come to so much
			if w <= give(n)+tiny {
				if w >= float64(n)*least-tiny {
					out = append(out, p.side(c, evenly(n, w, p.opt.Grid)))
				}
				return
			}
		}
	}
	full := math.Min(give(best), q.left)
	try(full)
	if best > 1 {
		try(give(best - 1))
	}
	if rest := q.left - full; rest > tiny && rest < least-tiny {
		try(q.left - up(least, p.opt.Grid)) // leaves enough for one more strip
	}
	if p.obj == LeastWood || p.obj == LeastCost {
		// Less, so that what is left beside it is still of use. Of several bundles
		// all but one may come to one of these without loss, and that one last.
		for n := 1; n <= best; n++ {
			if u := h - float64(n)*p.over - p.offcut[1] + 2*p.edge; u <= give(n)+tiny {
				try(u)
				break
			}
		}
		try(least)
	}
	return out
}

// side returns rectangles of the given widths side by side from a corner, the
// first nearest to it.
func (p *problem) side(c corner, widths []float64) []geom.Rect {
	out := make([]geom.Rect, 0, len(widths))
	y := c.box.Min.Y
	if c.top {
		y = c.box.Max.Y
	}
	for _, w := range widths {
		if c.top {
			out = append(out, geom.R(c.box.Min.X, y-w, c.box.Max.X, y))
			y -= w + p.over
		} else {
			out = append(out, geom.R(c.box.Min.X, y, c.box.Max.X, y+w))
			y += w + p.over
		}
	}
	return out
}

// evenly shares a width out among n strips, by whole steps of the grid.
func evenly(n int, w, grid float64) []float64 {
	low := down(w/float64(n), grid)
	wide := int(math.Round((w - low*float64(n)) / grid))
	out := make([]float64, n)
	for i := range out {
		out[i] = low
		if i < wide {
			out[i] += grid
		}
	}
	return out
}

// bundleOf makes a bundle of rectangles, each with its better face up.
func (p *problem) bundleOf(k, lot, site int, rects []geom.Rect) *bundle {
	j, t := &p.jobs[k], p.lots[lot].sites[site].Table
	b := &bundle{job: k, lot: lot, site: site, rects: rects, ups: make([]int, len(rects))}
	for i, r := range rects {
		var first, second faceUp
		first, second = j.lie(t, r, 1), j.lie(t, r, 2)
		b.ups[i] = 1
		if second.fault < first.fault-tiny {
			b.ups[i], first = 2, second
		}
		b.look += first.look
		b.unwanted[0] += first.unwanted[0]
		b.unwanted[1] += first.unwanted[1]
		b.width += r.H()
		b.blanks += area(grow(r, p.ends, p.edge))
	}
	if j.solid {
		b.width = float64(len(rects))
	}
	return b
}

// faceUp is what a strip shows with one face up.
type faceUp struct {
	unwanted    [2]float64
	look, fault float64
}

// lie judges a strip with face up showing. The wood that its look does not
// welcome counts, of the back only where it is seen; between faces that show
// alike a hundredth of it decides, then the plain amount of unwanted wood.
func (j *job) lie(t *Table, r geom.Rect, up int) faceUp {
	kind, ok := j.wanted.Unwanted()
	if !ok {
		return faceUp{}
	}
	var out faceUp
	for k, f := range [...]int{up, 3 - up} {
		w := t.On(f, r)
		u := w.Of(kind) + w.Of(face.Unseen)/2
		out.unwanted[k] = u
		a := area(r)
		miss := math.Max(0, math.Max(u-j.hi*a, j.lo*a-u))
		weight := 1.0
		if k == 1 {
			weight = 0.01
		}
		if k == 0 || j.both {
			out.look += miss
			weight = 1
		}
		out.fault += weight * (miss + u/1e4)
	}
	return out
}
