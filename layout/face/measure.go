package face

import "math"

// sliverWidth and sliverLength bound a sliver: a line of unwanted wood
// narrower than the one on average, and at no place much wider, and longer than
// the other. Engineering choices with no published source.
const (
	sliverWidth  = 3.0
	sliverPeak   = 5.0 // mm, the greatest width a sliver may have anywhere
	sliverLength = 150.0
)

// fill measures a band.
func (r *Reader) fill(p *Panel, side Side, g *grouping, b *bandData) {
	nodes := g.sorted[b.nodes.from:b.nodes.to]
	b.Strips = r.store.stripsOf(nodes)
	b.Length = b.place.W()
	g.stretches = g.stretches[:0]
	var most, hard float64
	var inStrip float64
	last := int32(-1)
	for _, n := range nodes {
		fr := r.fragment(side, n)
		g.stretches = r.shifted(g.stretches, 0, side, n, fr.wooded)
		if n.strip != last {
			last, inStrip = n.strip, 0
		}
		if inStrip += fr.area; inStrip > most {
			most, b.worst = inStrip, int(n.strip)
		}
	}
	b.mostly = most / b.Area
	wooded := sumIntervals(g.stretches)
	if wooded > 0 {
		b.MeanWidth = b.Area / wooded
	}
	b.MaxWidth = max(b.MeanWidth, r.widest(side, g, nodes, b.place.Min.X))
	for e := range b.edges {
		g.stretches = g.stretches[:0]
		for _, n := range nodes {
			g.stretches = r.shifted(g.stretches, 0, side, n, r.fragment(side, n).edge[e])
		}
		b.edges[e] = sumIntervals(g.stretches)
	}
	b.Front, b.Rear = b.edges[0]/p.Length, b.edges[1]/p.Length
	for i := range r.reading.Joints {
		hard = max(hard, r.hardAlong(side, nodes, i))
	}
	b.Hard = wooded > 0 && hard >= wooded/2
	r.halve(p, side, g, b)
	r.standsOut(side, b, nodes)
}

// widest returns the greatest width of a band at any X, by columns of 1 mm
// where several of its fragments lie over one another.
func (r *Reader) widest(side Side, g *grouping, nodes []bandNode, left float64) float64 {
	if len(nodes) == 1 {
		return r.fragment(side, nodes[0]).maxWidth
	}
	first := int(math.Floor(left)) - 1
	g.columns = g.columns[:0]
	var most float64
	for _, n := range nodes {
		f := &r.strips[n.strip].faces[side]
		fr := &f.frags[n.frag]
		at := int(fr.first) + int(math.Round(r.lefts[n.strip])) - first
		for k, v := range f.columns[fr.columns.from:fr.columns.to] {
			c := max(0, at+k)
			for c >= len(g.columns) {
				g.columns = append(g.columns, 0)
			}
			g.columns[c] += v
		}
		most = max(most, fr.maxWidth)
	}
	for _, v := range g.columns {
		most = max(most, float64(v))
	}
	return most
}

// hardAlong returns the length along which a band meets wanted wood at joint i.
func (r *Reader) hardAlong(side Side, nodes []bandNode, i int) float64 {
	var sum [2]float64
	for _, n := range nodes {
		switch j := &r.joints[i].faces[side]; {
		case r.strips[i] == nil || r.strips[i+1] == nil:
			return 0
		case int(n.strip) == i:
			sum[0] += j.hard[0][n.frag]
		case int(n.strip) == i+1:
			sum[1] += j.hard[1][n.frag]
		}
	}
	return max(sum[0], sum[1])
}

// halve measures the two halves of a band at every joint it crosses.
func (r *Reader) halve(p *Panel, side Side, g *grouping, b *bandData) {
	b.halves = [2]int32{int32(len(g.halves)), int32(len(g.halves))}
	nodes := g.sorted[b.nodes.from:b.nodes.to]
	for i := 0; i+1 < len(b.Strips); i++ {
		if b.Strips[i+1] != b.Strips[i]+1 {
			continue
		}
		var h halving
		var along [2]run
		var area float64
		g.stretches = g.stretches[:0]
		for e := range along {
			strip := int32(b.Strips[i+e])
			start := len(g.stretches)
			var own float64
			for _, n := range nodes {
				if fr := r.fragment(side, n); n.strip == strip {
					if of := fr.joint[1-e]; of.to > of.from {
						g.stretches = r.shifted(g.stretches, start, side, n, of)
						own += fr.area
					}
				}
			}
			along[e] = run{int32(start), int32(len(g.stretches))}
			area += own
			h.mean[e] = own
		}
		a, c := g.stretches[along[0].from:along[0].to], g.stretches[along[1].from:along[1].to]
		both := overlap(a, c)
		if both <= 0 {
			continue
		}
		var longest float64
		for e := range h.mean {
			l := r.woodedIn(side, g, nodes, int32(b.Strips[i+e]), 1-e)
			h.mean[e] /= l
			longest = max(longest, l)
		}
		h.both, h.share = both/longest, area/b.Area
		g.halves = append(g.halves, h)
		b.halves[1]++
	}
}

// woodedIn returns the length along which the fragments of a strip that touch
// the joint at its edge e have wood.
func (r *Reader) woodedIn(side Side, g *grouping, nodes []bandNode, strip int32, e int) float64 {
	start := len(g.stretches)
	for _, n := range nodes {
		if fr := r.fragment(side, n); n.strip == strip && fr.joint[e].to > fr.joint[e].from {
			g.stretches = r.shifted(g.stretches, start, side, n, fr.wooded)
		}
	}
	return sumIntervals(g.stretches[start:])
}
