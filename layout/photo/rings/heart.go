package rings

import (
	"context"
	"fmt"
	"math"
	"sort"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// Heart is how far the heartwood reaches from the pith in a section, mm.
type Heart struct {
	// Seen is false where no edge of the heartwood shows; Why says more.
	Seen bool
	Why  string
	// Radius is that of the arc that shows: the mean over the directions in
	// which the edge is seen; Least and Most are the ends of their range. It is
	// what counts where this board is cut.
	Radius, Least, Most float64
	// Share is the part of all directions in which the edge shows, 0 to 1.
	Share float64
	// Mean is the likely mean all the way round the log, seen or not, and Low
	// to High is meant to hold it 19 times of 20: heartwood is not round, and a
	// section shows a part of it.
	Mean, Low, High float64
	// Error is how far the mean all the way round may lie from Radius, one
	// spread, mm.
	Error float64
	Edge  []geom.Point // the edge itself, in order round the pith
	// Step is the CIEDE2000 between the wood just outside and just inside.
	Step float64
}

const (
	sector    = 2.0 // degrees
	ringWidth = 1.0 // mm, of a cell of the unrolled section
	sideWidth = 6   // cells either side of an edge that are compared
	leastCell = 2   // pixels for a cell to count
	// A step less than leastStep is no edge between two woods (the least of
	// the classes of layout/colour that is plainly seen is 6; half of it, as
	// ends are rough). leastEdge is how much edge must show, mm; mostJump how
	// far it may jump from sector to sector, cells. Engineering choices.
	leastStep = 3.5
	leastEdge = 8.0
	mostJump  = 3
)

// HeartFromClicks returns the heart radius about a pith from points clicked on
// the edge of the heartwood.
func HeartFromClicks(pith geom.Point, edge []geom.Point) (*Heart, error) {
	if len(edge) == 0 {
		return nil, fmt.Errorf("the heart radius from clicks: click points where heartwood meets sapwood")
	}
	h := &Heart{Seen: true, Least: math.Inf(1), Edge: append([]geom.Point(nil), edge...)}
	for _, p := range edge {
		d := p.Dist(pith)
		if math.IsNaN(d) || math.IsInf(d, 0) {
			return nil, fmt.Errorf("the heart radius from clicks: (%g, %g) is no place", p.X, p.Y)
		}
		h.Radius += d / float64(len(edge))
		h.Least, h.Most = math.Min(h.Least, d), math.Max(h.Most, d)
	}
	h.Share = shareOf(pith, edge)
	h.allRound(pith, 0, DefaultClick)
	return h, nil
}

// shareOf returns the part of all directions that points lie round.
func shareOf(pith geom.Point, edge []geom.Point) float64 {
	turn := make([]float64, len(edge))
	for i, p := range edge {
		v := p.Sub(pith)
		turn[i] = math.Atan2(v.Y, v.X)
	}
	sort.Float64s(turn)
	gap := turn[0] + 2*math.Pi - turn[len(turn)-1]
	for i := 1; i < len(turn); i++ {
		gap = math.Max(gap, turn[i]-turn[i-1])
	}
	return 1 - gap/(2*math.Pi)
}

// sectorOf returns the sector of a direction.
func sectorOf(d geom.Point) int {
	return int((math.Atan2(d.Y, d.X)/math.Pi*180+360)/sector) % int(360/sector)
}

// unrolled is a section by direction and distance from the pith.
type unrolled struct {
	n, m  int // sectors, rings
	mean  []colour.Lab
	count []float64
}

func (e *End) unroll(pith geom.Point) unrolled {
	far := 0.0
	for _, c := range geom.R(0, 0, e.Width, e.Thickness).Polygon() {
		far = math.Max(far, c.Dist(pith))
	}
	u := unrolled{n: int(360 / sector), m: int(far/ringWidth) + 1}
	u.mean, u.count = make([]colour.Lab, u.n*u.m), make([]float64, u.n*u.m)
	for j := range e.NY {
		for i := range e.NX {
			c := e.Lab[j*e.NX+i]
			if !c.Known() {
				continue
			}
			d := e.place(i, j).Sub(pith)
			k := sectorOf(d)*u.m + min(int(d.Len()/ringWidth), u.m-1)
			u.mean[k].L += c.L
			u.mean[k].A += c.A
			u.mean[k].B += c.B
			u.count[k]++
		}
	}
	return u
}

// steps returns for each cell how much lighter and other the wood just outside
// is than the wood just inside, as CIELAB distance; NaN where one is missing.
func (u *unrolled) steps() []float64 {
	out := make([]float64, u.n*u.m)
	side := func(t, a, b int) (colour.Lab, bool) {
		var s colour.Lab
		n, cells := 0.0, 0
		for r := max(a, 0); r < min(b, u.m); r++ {
			k := t*u.m + r
			if u.count[k] < leastCell {
				continue
			}
			s.L += u.mean[k].L
			s.A += u.mean[k].A
			s.B += u.mean[k].B
			n += u.count[k]
			cells++
		}
		if cells < sideWidth/2 {
			return s, false
		}
		return colour.Lab{L: s.L / n, A: s.A / n, B: s.B / n}, true
	}
	for t := range u.n {
		for r := range u.m {
			k := t*u.m + r
			in, ok1 := side(t, r-sideWidth, r)
			ex, ok2 := side(t, r, r+sideWidth)
			if !ok1 || !ok2 {
				out[k] = math.NaN()
				continue
			}
			d := colour.DeltaE(in, ex)
			if ex.L < in.L {
				d = -d
			}
			out[k] = d
		}
	}
	return out
}

// path returns for each sector the ring at which the edge lies, -1 where it
// does not show: dynamic programming round the pith, the sum of steps less the
// least that counts, with jumps costing.
func (u *unrolled) path(ctx context.Context, step []float64) ([]int, error) {
	// The section leaves some directions empty; begin at one, else anywhere.
	first := 0
	for t := range u.n {
		empty := true
		for r := range u.m {
			if !math.IsNaN(step[t*u.m+r]) {
				empty = false
				break
			}
		}
		if empty {
			first = t
			break
		}
	}
	// A cell: as much as a mm of edge gains whose step is 4 above the least.
	// An engineering choice.
	const jump = 4.0
	gain := make([]float64, u.n*u.m)
	from := make([]int, u.n*u.m)
	none := math.Inf(-1)
	bestEnd, bestGain := -1, 0.0
	for s := range u.n {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		t, before := (first+s)%u.n, (first+s-1+u.n)%u.n
		for r := range u.m {
			k := t*u.m + r
			gain[k], from[k] = none, -1
			if math.IsNaN(step[k]) || r < 2 {
				continue
			}
			// A mm of edge counts alike however near the pith.
			v := (step[k] - leastStep) * float64(r) * ringWidth * sector * math.Pi / 180
			top := 0.0
			if s > 0 {
				for d := -mostJump; d <= mostJump; d++ {
					if q := r + d; q >= 0 && q < u.m {
						if g := gain[before*u.m+q] - jump*math.Abs(float64(d)); g > top {
							top, from[k] = g, before*u.m+q
						}
					}
				}
			}
			gain[k] = top + v
			if gain[k] > bestGain {
				bestEnd, bestGain = k, gain[k]
			}
		}
	}
	out := make([]int, u.n)
	for t := range out {
		out[t] = -1
	}
	for k := bestEnd; k >= 0; k = from[k] {
		out[k/u.m] = k % u.m
	}
	return out, nil
}
