package wood

import (
	"context"
	"math"
)

// The outline of the heartwood about the pith is not a circle: its radius
// swings with the angle, slowly. Here ln(radius) is a Gaussian process round
// the pith, with spread and swing as below; what the faces show is weighed
// against it for every place of the pith and every radius (Bayes' rule).
//
// All are engineering choices. Published sapwood widths vary round a stem
// (Quinonez-Pinon and Valeo, Forests 8 (2017) 457) but no such spread is given
// there; a log is taken to be mild or, less often, wild.
var moods = [2]struct{ share, spread float64 }{{0.6, 0.06}, {0.4, 0.13}}

const (
	swing    = 0.7  // radians over which the radius stays alike
	ragged   = 0.02 // of the radius: what is left along the edge's own ups and downs
	sapWidth = 27.0 // mm, middle of what logs have
	sapRange = 0.55 // spread of its logarithm
	reach    = 420  // mm beyond the board that the pith is sought
	cell     = 8.0  // mm, of the search
	radii    = 36   // radii tried
	leastR   = 20.0 // mm
	mostR    = 600.0
	// Logs that furniture boards are sawn from: the middle radius of their
	// heartwood, mm, and the spread of its logarithm. One in twenty is under
	// 55 or over 400 mm.
	midR   = 150.0
	rangeR = 0.6
)

// corner is where a face meets an edge of the board in the section.
type corner struct {
	border
	depth, edge float64
}

// evidence is what both faces say of the section, means over the length.
type evidence struct {
	width, thick float64
	seen, firm   []corner  // heartwood's edge on the face; heartwood to the corner
	bare         []float64 // depths of faces that show no heartwood
}

func gather(f Faces, ls [2][]line) evidence {
	e := evidence{width: f.Width, thick: f.Thickness}
	for side, l := range ls {
		depth := float64(side) * f.Thickness
		bs, bare := borders(l, f.Width)
		if bare {
			e.bare = append(e.bare, depth)
			continue
		}
		for k, b := range bs {
			c := corner{b, depth, float64(k) * f.Width}
			switch b.state {
			case seen:
				e.seen = append(e.seen, c)
			case beyond:
				e.firm = append(e.firm, c)
			}
		}
	}
	return e
}

// grid is the belief about the pith and the radius: weights that sum to all.
type grid struct {
	a0, d0 float64 // middle of the first cell
	na, nd int
	at     []float64 // weight by place, across fastest
	radius []float64 // weight by radius
	all    float64
}

func lnRadius(k int) float64 {
	return math.Log(leastR) + (float64(k)+0.5)*math.Log(mostR/leastR)/radii
}

// weigh tries every place of the pith.
func (e *evidence) weigh(ctx context.Context) (*grid, error) {
	// The cells lie even about the middle of the section, so that a mirrored
	// board gives a mirrored answer.
	half := func(size float64) int { return int(math.Ceil((size/2 + reach) / cell)) }
	ha, hd := half(e.width), half(e.thick)
	g := &grid{na: 2 * ha, nd: 2 * hd, radius: make([]float64, radii)}
	g.a0, g.d0 = e.width/2-(float64(ha)-0.5)*cell, e.thick/2-(float64(hd)-0.5)*cell
	g.at = make([]float64, g.na*g.nd)
	var w [radii]float64
	for j := 0; j < g.nd; j++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for i := 0; i < g.na; i++ {
			e.place(g.a0+float64(i)*cell, g.d0+float64(j)*cell, &w)
			for k, v := range w {
				g.at[j*g.na+i] += v
				g.radius[k] += v
			}
			g.all += g.at[j*g.na+i]
		}
	}
	return g, nil
}

// place fills w with the weight of each radius, were the pith at (a, d).
func (e *evidence) place(a, d float64, w *[radii]float64) {
	prior := e.underBark(a, d)
	for k := range w {
		w[k] = 0
	}
	if prior < 1e-12 {
		return
	}
	for _, m := range moods {
		s := newShape(e.seen, a, d, m.spread)
		// Heartwood to a corner, or none on a face: the outline lies beyond
		// that point, or does not reach it.
		type test struct {
			toward
			ln    float64
			holds bool
		}
		var buf [8]test
		tests := buf[:0]
		for _, c := range e.firm {
			tests = append(tests, test{s.toward(c.edge-a, c.depth-d), lnLen(c.edge-a, c.depth-d), true})
		}
		for _, z := range e.bare {
			y := math.Min(math.Max(a, 0), e.width) - a
			tests = append(tests, test{s.toward(y, z-d), lnLen(y, z-d), false})
		}
		for k := range w {
			// A board lies anywhere in its log: 1/R^2 for the place.
			ln := lnRadius(k)
			size := (ln - math.Log(midR)) / rangeR
			v := m.share * prior * math.Exp(-2*ln-size*size/2) * s.density(ln)
			for _, t := range tests {
				if v < 1e-25 {
					break
				}
				p := below(t.ln, t.mean(ln), t.sd)
				if !t.holds {
					p = 1 - p
				}
				v *= p
			}
			w[k] += v
		}
	}
}

// underBark weighs that the corners with sapwood on them lie under the bark.
func (e *evidence) underBark(a, d float64) float64 {
	p := 1.0
	for _, c := range e.seen {
		sap := math.Hypot(c.edge-a, c.depth-d) - math.Hypot(c.at-a, c.depth-d)
		if sap > 1 {
			p *= 1 - below(math.Log(sap), math.Log(sapWidth), sapRange)
		}
	}
	return p
}

// below is the chance that a normal value lies above x.
func below(x, mean, sd float64) float64 {
	return 0.5 * math.Erfc((x-mean)/(sd*math.Sqrt2))
}

func lnLen(y, z float64) float64 { return math.Log(math.Max(math.Hypot(y, z), 1)) }
