package rings

import (
	"context"
	"fmt"
	"math"
	"slices"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// faceError is how well a border on a face is known, mm, and facePull the
// weight of it as a step of colour. Engineering choices.
const (
	faceError = 3.0
	facePull  = 12.0
)

// FindHeart returns the heart radius about a pith from the picture: the line
// round the pith over which the wood turns lighter outwards the most. It stops
// early when ctx ends.
func FindHeart(ctx context.Context, e *End, pith geom.Point) (*Heart, error) {
	return findHeart(ctx, e, pith, 0, nil)
}

// FindHeartKnown is FindHeart with more that is known: how well the pith is,
// which widens Low to High, and points where the border of the heartwood on
// the faces meets this end, (across, 0) and (across, thickness). With such
// points the edge must pass by one of them; where the picture shows none that
// does, the points are the edge.
func FindHeartKnown(ctx context.Context, e *End, pith *Pith, faces []geom.Point) (*Heart, error) {
	if pith == nil {
		return nil, fmt.Errorf("the heart radius: no pith to count it from")
	}
	if !(pith.Error >= 0) || math.IsInf(pith.Error, 0) {
		return nil, fmt.Errorf("the heart radius: a pith known to %g mm", pith.Error)
	}
	for _, p := range faces {
		if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
			return nil, fmt.Errorf("the heart radius: (%g, %g) on a face is no place", p.X, p.Y)
		}
	}
	return findHeart(ctx, e, pith.At, pith.Error, faces)
}

func findHeart(ctx context.Context, e *End, pith geom.Point, pithError float64, faces []geom.Point) (*Heart, error) {
	if err := e.check(); err != nil {
		return nil, err
	}
	if math.IsNaN(pith.X+pith.Y) || math.IsInf(pith.X+pith.Y, 0) || pith.Len() > 1e5 {
		return nil, fmt.Errorf("the heart radius: the pith at (%g, %g) is no place", pith.X, pith.Y)
	}
	u := e.unroll(pith)
	step := u.steps()
	u.pull(step, pith, faces)
	path, err := u.path(ctx, step)
	if err != nil {
		return nil, err
	}
	a := u.arc(path, pith)
	switch {
	case a.step >= leastStep && a.long >= leastEdge && (len(faces) == 0 || a.passes(faces)):
	case len(faces) > 0:
		h, err := HeartFromClicks(pith, faces)
		if err != nil {
			return nil, err
		}
		h.Step = a.step
		h.allRound(pith, pithError, faceError)
		return h, nil
	default:
		return &Heart{Step: a.step, Why: "no edge of the heartwood shows on this end"}, nil
	}
	h := &Heart{Seen: true, Step: a.step, Edge: a.edge, Share: float64(len(a.radii)) / float64(u.n)}
	h.Least, h.Most = slices.Min(a.radii), slices.Max(a.radii)
	for _, r := range a.radii {
		h.Radius += r / float64(len(a.radii))
	}
	h.allRound(pith, pithError, heartRough)
	return h, nil
}

// arc is one unbroken run of an edge.
type arc struct {
	edge  []geom.Point
	radii []float64
	long  float64 // mm
	step  float64 // CIEDE2000 from inside to outside, 0 where that is darker
}

// passes says whether an arc passes by one of some points.
func (a *arc) passes(points []geom.Point) bool {
	for _, p := range points {
		for _, q := range a.edge {
			if p.Dist(q) < 3*faceError {
				return true
			}
		}
	}
	return false
}

// arc measures the edge that a path runs along.
func (u *unrolled) arc(path []int, pith geom.Point) *arc {
	a := &arc{}
	var in, ex colour.Mean
	for t, r := range path {
		if r < 0 {
			continue
		}
		d := float64(r) * ringWidth
		sin, cos := math.Sincos((float64(t) + 0.5) * sector * math.Pi / 180)
		a.edge = append(a.edge, pith.Add(geom.Pt(cos, sin).Mul(d)))
		a.radii = append(a.radii, d)
		a.long += d * sector * math.Pi / 180
		// A dark ring or a streak is lighter beyond for a while only: all
		// that lies beyond is compared with as much before.
		for q := range u.m {
			c := t*u.m + q
			if u.count[c] < leastCell {
				continue
			}
			lab := colour.Lab{L: u.mean[c].L / u.count[c], A: u.mean[c].A / u.count[c], B: u.mean[c].B / u.count[c]}
			switch {
			case q >= r:
				ex.Add(lab, u.count[c])
			case q >= r-2*sideWidth:
				in.Add(lab, u.count[c])
			}
		}
	}
	inside, ok1 := in.Lab()
	outside, ok2 := ex.Lab()
	if ok1 && ok2 && outside.L > inside.L {
		a.step = colour.DeltaE(inside, outside)
	}
	return a
}

// pull makes steps near points of the border on faces plainer, and the rest of
// their directions fainter.
func (u *unrolled) pull(step []float64, pith geom.Point, faces []geom.Point) {
	for _, p := range faces {
		v := p.Sub(pith)
		d := v.Len() / ringWidth
		for dt := -1; dt <= 1; dt++ {
			t := (sectorOf(v) + dt + u.n) % u.n
			for r := range u.m {
				away := (float64(r) - d) * ringWidth / faceError
				step[t*u.m+r] += facePull * (2*math.Exp(-away*away/2) - 1)
			}
		}
	}
}
