package face

import (
	"math"

	"heartside/layout/colour"
)

// standsOut finds how much a band differs from the wanted wood near it, today
// and at the later ages that are known: the mean over its fragments, each held
// against the wanted wood within 20 mm of its own strip and, where photographs
// compare, of its neighbours. The wanted wood is taken by cells of 10 mm.
func (r *Reader) standsOut(side Side, b *bandData, nodes []bandNode) {
	unwanted, ok := r.wanted.Unwanted()
	if !ok {
		return
	}
	wood := r.wanted.Wood()
	var sums [len(ages)]float64
	var area float64
	for _, n := range nodes {
		st := r.strips[n.strip]
		f := &st.faces[side]
		fr := &f.frags[n.frag]
		own, ok := fr.own.mean()
		if !ok {
			continue
		}
		near := fr.near
		aged := f.woods.ages
		assumed := f.assumed[unwanted] || (near.area > 0 && f.assumed[wood])
		if i := int(n.strip); i > 0 && r.strips[i-1] != nil {
			t := r.joints[i-1].faces[side].near[1][n.frag]
			near.join(t)
			o := &r.strips[i-1].faces[side]
			aged = aged || (t.area > 0 && o.woods.ages)
			assumed = assumed || (t.area > 0 && o.assumed[wood])
		}
		if i := int(n.strip); i+1 < len(r.strips) && r.strips[i+1] != nil {
			t := r.joints[i].faces[side].near[0][n.frag]
			near.join(t)
			o := &r.strips[i+1].faces[side]
			aged = aged || (t.area > 0 && o.woods.ages)
			assumed = assumed || (t.area > 0 && o.assumed[wood])
		}
		against, ok := near.mean()
		if !ok {
			if against, ok = r.farWood(side, f); !ok {
				continue
			}
		}
		b.Assumed = b.Assumed || assumed
		area += fr.area
		sums[0] += fr.area * colour.DeltaE(own, against)
		for k := 1; k < len(ages); k++ {
			if !aged {
				sums[k] += fr.area * colour.DeltaE(own, against)
				continue
			}
			sums[k] += fr.area * colour.DeltaE(plus(own, f.woods.aged[unwanted][k]), r.agedNear(side, n, fr, against, k))
		}
	}
	if area <= 0 {
		b.Unknown, b.Assumed = true, true
		return
	}
	b.Today = sums[0] / area
	for _, s := range sums {
		b.Contrast = max(b.Contrast, s/area)
	}
}

// agedNear returns the wanted wood near a fragment at a later age.
func (r *Reader) agedNear(side Side, n bandNode, fr *fragment, today colour.Lab, age int) colour.Lab {
	wood := r.wanted.Wood()
	i := int(n.strip)
	own := r.strips[i].faces[side].woods.aged[wood][age]
	all := fr.near.moved(own)
	if i > 0 && r.strips[i-1] != nil {
		all.join(r.joints[i-1].faces[side].near[1][n.frag].moved(r.strips[i-1].faces[side].woods.aged[wood][age]))
	}
	if i+1 < len(r.strips) && r.strips[i+1] != nil {
		all.join(r.joints[i].faces[side].near[0][n.frag].moved(r.strips[i+1].faces[side].woods.aged[wood][age]))
	}
	if c, ok := all.mean(); ok {
		return c
	}
	return plus(today, own)
}

func plus(a, b colour.Lab) colour.Lab { return colour.Lab{L: a.L + b.L, A: a.A + b.A, B: a.B + b.B} }

// farWood returns the wanted wood of the face, for a band that has none near:
// of its own strip, else of all strips whose colours compare, else of its
// board.
func (r *Reader) farWood(side Side, f *faceData) (colour.Lab, bool) {
	wood := r.wanted.Wood()
	if c, ok := f.seen[wood].mean(); ok {
		return c, true
	}
	var all tint
	for _, st := range r.strips {
		if st != nil && st.faces[side].woods.comparable(&f.woods) {
			all.join(st.faces[side].seen[wood])
		}
	}
	if c, ok := all.mean(); ok {
		return c, true
	}
	return f.woods.lab[wood], f.woods.known[wood]
}

// contrastOf reads the contrast between the mean sapwood and the mean
// heartwood of a face. Where photographs share no reference it is the mean over
// groups of strips that compare, by their area.
func (r *Reader) contrastOf(side Side, split bool) Contrast {
	var c Contrast
	var weight, de, dl float64
	for i, leader := range r.strips {
		if leader == nil || (split && r.ledBefore(side, i)) || (!split && weight > 0) {
			continue
		}
		var wood [2]tint
		var assumed bool
		for _, st := range r.strips {
			if st == nil {
				continue
			}
			f := &st.faces[side]
			if split && !f.woods.grouped(&leader.faces[side].woods) {
				continue
			}
			for k := range wood {
				wood[k].join(f.seen[k])
				assumed = assumed || (f.seen[k].area > 0 && f.assumed[k])
			}
		}
		heart, ok1 := wood[Heart].mean()
		sap, ok2 := wood[Sap].mean()
		if !ok1 || !ok2 {
			if !split {
				break
			}
			continue
		}
		w := wood[Heart].area + wood[Sap].area
		weight += w
		de += w * colour.DeltaE(heart, sap)
		dl += w * (sap.L - heart.L)
		c.Assumed = c.Assumed || assumed
	}
	if weight > 0 {
		c.Known, c.DE, c.DL = true, de/weight, dl/weight
	}
	c.Split = split
	return c
}

// ledBefore reports whether an earlier strip compares with strip i, so that
// its group was read.
func (r *Reader) ledBefore(side Side, i int) bool {
	for _, st := range r.strips[:i] {
		if st != nil && st.faces[side].woods.grouped(&r.strips[i].faces[side].woods) {
			return true
		}
	}
	return false
}

// isSplit reports whether some photographs of a face share no reference.
func (r *Reader) isSplit(side Side) bool {
	var first *woods
	for _, st := range r.strips {
		if st == nil || !st.faces[side].woods.photo || st.faces[side].wooded() <= 0 {
			continue
		}
		if first == nil {
			first = &st.faces[side].woods
		} else if !first.comparable(&st.faces[side].woods) {
			return true
		}
	}
	return false
}

// balanceOf returns how far the balance point of the unwanted wood lies from
// the middle, as a share of the width.
func (r *Reader) balanceOf(side Side, width float64) float64 {
	unwanted, ok := r.wanted.Unwanted()
	if !ok {
		return 0
	}
	var area, moment float64
	for i, st := range r.strips {
		if st != nil {
			a := st.faces[side].area[unwanted]
			area += a
			moment += st.faces[side].moment + a*r.ys[i]
		}
	}
	if area <= 0 {
		return 0
	}
	return math.Min(0.5, math.Max(-0.5, (moment/area-width/2)/width))
}
