package face

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/geom"
)

// What excuses a band from being a lone streak. Engineering choices with no
// published source.
const (
	edgeAlong    = 0.80 // of the length, along an outside long edge
	edgeAnswer   = 0.40 // of the length, along an edge so that it answers a band along the other
	edgeWidest   = 0.15 // of the panel's width, the mean width of an edge band
	mirrorOff    = 0.05 // of the width, how far a mirrored pair may be off
	mirrorLeast  = 15.0 // mm, the same at least
	mirrorMeet   = 0.60 // of the shorter band, how far the two overlap along X
	mirrorArea   = 2.5  // times, the greater area over the smaller
	centreOff    = 0.025
	centreLong   = 0.80 // of the panel's length
	jointBoth    = 0.80 // of the longer half
	jointLeast   = 5.0  // mm, mean width of each half
	jointFactor  = 2.0  // times, the wider half over the narrower
	jointShare   = 0.80 // of the band's area, in the two halves
	patternCount = 3
	patternArea  = 3.0 // times, from the median area
	patternGap   = 0.5 // of the width
	sameLevel    = 0.5 // of the smaller extent across: bands at the same Y
)

// bar is a set of thresholds that are moved together: below 1 an excuse is
// harder to have, above 1 easier.
type bar float64

const barEps = 1e-9

func (k bar) least(v, limit float64) bool { return v >= limit/float64(k)-barEps }
func (k bar) most(v, limit float64) bool  { return v <= limit*float64(k)+barEps }

// excuse returns why band i is no lone streak, the first that holds.
func (r *Reader) excuse(p *Panel, g *grouping, i int, k bar) Excuse {
	b := &g.bands[i]
	switch {
	case atEdge(p, g.bands, b, k):
		return ExcuseEdge
	case mirrored(p, g.bands, i, k):
		return ExcuseMirror
	case joined(g, b, k):
		return ExcuseJoint
	case r.paired(p, g.bands, i, k):
		return ExcusePair
	case patterned(p, g, i, k):
		return ExcusePattern
	}
	return NoExcuse
}

// atEdge: along an outside long edge for most of the panel's length, or for
// most of its own where the opposite edge carries a band for most of the
// panel's; and narrow.
func atEdge(p *Panel, bands []bandData, b *bandData, k bar) bool {
	if !k.most(b.MeanWidth, edgeWidest*p.Width) {
		return false
	}
	for e := range b.edges {
		if k.least(b.edges[e], edgeAlong*p.Length) {
			return true
		}
		if !k.least(b.edges[e], edgeAnswer*p.Length) || !k.least(b.edges[e], edgeAlong*b.Length) {
			continue
		}
		for n := range bands {
			if o := &bands[n]; o != b && k.least(o.edges[1-e], edgeAlong*p.Length) {
				return true
			}
		}
	}
	return false
}

// mirrored: reflected about the long centre line by another band, or itself
// on the centre line and long.
func mirrored(p *Panel, bands []bandData, i int, k bar) bool {
	b := &bands[i]
	if k.most(math.Abs(b.centre-p.Width/2), centreOff*p.Width) && k.least(b.Length, centreLong*p.Length) {
		return true
	}
	for n := range bands {
		if n != i && mirrors(b, &bands[n], p.Width/2, p.Width, k) {
			return true
		}
	}
	return false
}

// mirrors reports whether two bands mirror one another about a line, in a
// piece of the given width.
func mirrors(a, b *bandData, line, width float64, k bar) bool {
	along := min(a.place.Max.X, b.place.Max.X) - max(a.place.Min.X, b.place.Min.X)
	return k.most(math.Abs(a.centre+b.centre-2*line), max(mirrorLeast, mirrorOff*width)) &&
		k.least(along, mirrorMeet*min(a.Length, b.Length)) &&
		k.most(max(a.Area, b.Area)/min(a.Area, b.Area), mirrorArea)
}

// joined: made of two like halves that meet at a joint.
func joined(g *grouping, b *bandData, k bar) bool {
	for _, h := range g.halves[b.halves[0]:b.halves[1]] {
		thin, wide := min(h.mean[0], h.mean[1]), max(h.mean[0], h.mean[1])
		if k.least(h.both, jointBoth) && k.least(thin, jointLeast) && k.most(wide/thin, jointFactor) && k.least(h.share, jointShare) {
			return true
		}
	}
	return false
}

// paired: mirrored by another band about the joint between their two strips,
// within the width of those two. Each must be the other's nearest such band,
// with none as near: three in a row are no pair.
func (r *Reader) paired(p *Panel, bands []bandData, i int, k bar) bool {
	n := r.partner(p, bands, i, k)
	return n >= 0 && r.partner(p, bands, n, k) == i
}

// partner returns the nearest band that mirrors band i about a joint, -1 where
// there is none or another is as near within mirrorLeast.
func (r *Reader) partner(p *Panel, bands []bandData, i int, k bar) int {
	b := &bands[i]
	best, nearest, next := -1, math.Inf(1), math.Inf(1)
	if b.mostly < jointShare {
		return best
	}
	for n := range bands {
		o := &bands[n]
		if n == i || o.mostly < jointShare {
			continue
		}
		front, rear := min(b.worst, o.worst), max(b.worst, o.worst)
		if rear-front != 1 || !mirrors(b, o, r.ys[rear], p.Strips[front].W+p.Strips[rear].W, k) {
			continue
		}
		if d := math.Abs(b.centre - o.centre); d < nearest {
			best, nearest, next = n, d, nearest
		} else {
			next = min(next, d)
		}
	}
	if next < nearest+mirrorLeast {
		return -1
	}
	return best
}

// level is a group of bands at the same Y.
type level struct {
	place geom.Rect
	area  float64
	own   bool // holds the band asked about
}

// patterned: one of three or more bands of like area spread over the width.
func patterned(p *Panel, g *grouping, i int, k bar) bool {
	levels := g.levels[:0]
	for n := range g.bands {
		b := &g.bands[n]
		if b.Sliver {
			continue
		}
		at := -1
		for m := range levels {
			if overlapY(&levels[m].place, &b.place) >= sameLevel {
				at = m
				break
			}
		}
		if at < 0 {
			levels = append(levels, level{})
			at = len(levels) - 1
		}
		l := &levels[at]
		l.place, l.area, l.own = l.place.Union(b.place), l.area+b.Area, l.own || n == i
	}
	g.levels = levels
	if len(levels) < patternCount {
		return false
	}
	slices.SortFunc(levels, func(a, b level) int {
		return cmp.Or(cmp.Compare(a.area, b.area), cmp.Compare(a.place.Min.Y, b.place.Min.Y))
	})
	own := slices.IndexFunc(levels, func(l level) bool { return l.own })
	g.areas = g.areas[:0]
	for _, l := range levels {
		g.areas = append(g.areas, l.area)
	}
	slices.SortFunc(levels, func(a, b level) int { return cmp.Compare(a.place.Min.Y, b.place.Min.Y) })
	// The widest choice of like areas leaves the smallest gaps.
	for from := 0; from <= own; from++ {
		for to := len(levels); to > own && to >= from+patternCount; to-- {
			if alike(g.areas[from:to], k) {
				if spread(levels, g.areas[from], g.areas[to-1], p.Width, k) {
					return true
				}
				break
			}
		}
	}
	return false
}

// alike reports whether areas, in order, lie within a factor of their median.
func alike(areas []float64, k bar) bool {
	n := len(areas)
	median := (areas[(n-1)/2] + areas[n/2]) / 2
	return k.most(median/areas[0], patternArea) && k.most(areas[n-1]/median, patternArea)
}

// spread reports whether the levels with areas from lo to hi, given in order
// of Y, leave no large gap across the width.
func spread(levels []level, lo, hi, width float64, k bar) bool {
	reach, gap := 0.0, 0.0
	for _, l := range levels {
		if l.area < lo || l.area > hi {
			continue
		}
		gap = max(gap, l.place.Min.Y-reach)
		reach = max(reach, l.place.Max.Y)
	}
	return k.most(max(gap, width-reach), patternGap*width)
}
