package face

import (
	"cmp"
	"slices"

	"heartside/layout/geom"
)

// A band below any of these is a speck: counted, not judged. Engineering
// choices with no published source.
const (
	speckArea   = 100.0 // mm2
	speckLength = 60.0  // mm
	speckShare  = 0.05  // of the panel length
)

// bandData is a band while it is being judged, in coordinates of the show
// face, with what the judging needs.
type bandData struct {
	Band
	nodes  run      // in grouping.sorted
	halves [2]int32 // in grouping.halves
	moment float64
	place  geom.Rect
	centre float64
	edges  [2]float64 // mm along the front and the back edge of the panel
	worst  int        // the strip that holds most of it
	mostly float64    // the share of its area that lies there
	level  int        // the first band of the streak it is part of
}

// bandNode is a fragment of a strip.
type bandNode struct{ strip, frag int32 }

// halving is what the two halves of a band are to one another at a joint.
type halving struct {
	both  float64    // share of the longer half's length that both carry along the joint
	mean  [2]float64 // mean widths, mm
	share float64    // of the band's area in the two halves
}

// grouping gathers the fragments of one face into bands.
type grouping struct {
	nodes        []bandNode
	base         []int32 // first node of each strip
	close, lined joins
	boxes        []geom.Rect // of each root of close
	roots        []int32
	sorted       []bandNode
	bands        []bandData
	slot         []int32
	stretches    []interval
	columns      []float32
	halves       []halving
	levels       []level
	areas        []float64
}

// group finds the bands of one side. It returns how many specks there are.
func (r *Reader) group(p *Panel, side Side) (specks int) {
	g := &r.groups[side]
	g.bands, g.halves = g.bands[:0], g.halves[:0]
	r.gather(p, side, g)
	g.joinLined()
	g.slot = g.slot[:0]
	for range g.nodes {
		g.slot = append(g.slot, -1)
	}
	for n := range g.nodes {
		fr := r.fragment(side, g.nodes[n])
		if fr.area <= 0 {
			continue
		}
		root := g.lined.root(g.close.root(int32(n)))
		if g.slot[root] < 0 {
			g.slot[root] = int32(len(g.bands))
			g.bands = append(g.bands, bandData{})
		}
		b := &g.bands[g.slot[root]]
		b.nodes.to++
		b.Area += fr.area
		b.moment += fr.moment + fr.area*r.ys[g.nodes[n].strip]
		b.place = b.place.Union(r.placed(side, g.nodes[n]))
	}
	g.sort(func(n int) int32 {
		if r.fragment(side, g.nodes[n]).area <= 0 {
			return -1
		}
		return g.slot[g.lined.root(g.close.root(int32(n)))]
	})
	least := max(speckLength, speckShare*p.Length)
	keep := g.bands[:0]
	for _, b := range g.bands {
		if b.Area < speckArea || b.place.W() < least {
			specks++
			continue
		}
		b.centre = b.moment / b.Area
		keep = append(keep, b)
	}
	g.bands = keep
	slices.SortFunc(g.bands, func(a, b bandData) int {
		return cmp.Or(cmp.Compare(a.centre, b.centre), cmp.Compare(a.place.Min.X, b.place.Min.X),
			cmp.Compare(a.place.Min.Y, b.place.Min.Y))
	})
	for i := range g.bands {
		r.fill(p, side, g, &g.bands[i])
	}
	return specks
}

// gather lists all fragments of a side and joins those near one another.
func (r *Reader) gather(p *Panel, side Side, g *grouping) {
	g.nodes, g.base = g.nodes[:0], g.base[:0]
	for i, st := range r.strips {
		g.base = append(g.base, int32(len(g.nodes)))
		if st == nil {
			continue
		}
		for k := range st.faces[side].frags {
			g.nodes = append(g.nodes, bandNode{int32(i), int32(k)})
		}
	}
	g.close.reset(len(g.nodes))
	for i := 0; i+1 < len(p.Strips); i++ {
		if r.strips[i] == nil || r.strips[i+1] == nil {
			continue
		}
		for _, l := range r.joints[i].faces[side].links {
			g.close.join(g.base[i]+l[0], g.base[i+1]+l[1])
		}
	}
	g.boxes, g.roots = g.boxes[:0], g.roots[:0]
	for n, node := range g.nodes {
		root := g.close.root(int32(n))
		g.boxes = append(g.boxes, geom.Rect{})
		if r.fragment(side, node).area > 0 {
			if g.boxes[root].Empty() {
				g.roots = append(g.roots, root)
			}
			g.boxes[root] = g.boxes[root].Union(r.placed(side, node))
		}
	}
}

// joinLined joins what lies in line: up to gapInLine apart along X, with Y
// extents that overlap by half of the smaller. Pairs are judged as they are,
// not as they grow, so that no order matters.
func (g *grouping) joinLined() {
	g.lined.reset(len(g.nodes))
	slices.SortFunc(g.roots, func(a, b int32) int {
		return cmp.Or(cmp.Compare(g.boxes[a].Min.X, g.boxes[b].Min.X), cmp.Compare(a, b))
	})
	for i, a := range g.roots {
		p := &g.boxes[a]
		for _, b := range g.roots[i+1:] {
			q := &g.boxes[b]
			if q.Min.X > p.Max.X+gapInLine {
				break
			}
			if q.Min.X >= p.Max.X-gapAlong && overlapY(p, q) >= 0.5 {
				g.lined.join(a, b)
			}
		}
	}
}

// overlapY returns the length that two rectangles have in common across, as a
// share of the smaller one's.
func overlapY(a, b *geom.Rect) float64 {
	d := min(a.Max.Y, b.Max.Y) - max(a.Min.Y, b.Min.Y)
	if least := min(a.H(), b.H()); least > 0 {
		return d / least
	}
	return 0
}

// sort puts the nodes band by band into sorted, in strip order within each.
func (g *grouping) sort(band func(n int) int32) {
	at := int32(0)
	for i := range g.bands {
		n := g.bands[i].nodes.to
		g.bands[i].nodes = run{at, at}
		at += n
	}
	g.sorted = g.sorted[:0]
	for range at {
		g.sorted = append(g.sorted, bandNode{})
	}
	for n := range g.nodes {
		if k := band(n); k >= 0 {
			b := &g.bands[k]
			g.sorted[b.nodes.to] = g.nodes[n]
			b.nodes.to++
		}
	}
}

func (r *Reader) fragment(side Side, n bandNode) *fragment {
	return &r.strips[n.strip].faces[side].frags[n.frag]
}

// placed returns the box of a fragment in panel coordinates.
func (r *Reader) placed(side Side, n bandNode) geom.Rect {
	b := r.fragment(side, n).box
	d := geom.Pt(r.lefts[n.strip], r.ys[n.strip])
	return geom.Rect{Min: b.Min.Add(d), Max: b.Max.Add(d)}
}

// shifted adds the stretches of a fragment, moved to panel X, to list[start:].
func (r *Reader) shifted(list []interval, start int, side Side, n bandNode, of run) []interval {
	left := r.lefts[n.strip]
	for _, iv := range r.strips[n.strip].faces[side].list(of) {
		list = addInterval(list, start, interval{iv.from + left, iv.to + left})
	}
	return list
}
