package rings

import (
	"context"
	"math"

	"heartside/layout/geom"
)

// vote is how well all blocks fit a place of the pith: their mean, 1 is chance.
func vote(bs []block, c geom.Point) float64 {
	sum := 0.0
	for i := range bs {
		sum += bs[i].toward(c)
	}
	return sum / float64(max(len(bs), 1))
}

// best returns the place that score likes best, from a coarse look over the
// surroundings to fine steps.
func (e *End) best(ctx context.Context, score func(geom.Point) float64) (geom.Point, error) {
	half := func(size float64) int { return int(math.Ceil((size/2 + reach) / coarse)) }
	hx, hy := half(e.Width), half(e.Thickness)
	mid := geom.Pt(e.Width/2, e.Thickness/2)
	at, top := mid, math.Inf(-1)
	for j := -hy; j <= hy; j++ {
		if err := ctx.Err(); err != nil {
			return at, err
		}
		for i := -hx; i <= hx; i++ {
			c := mid.Add(geom.Pt(float64(i), float64(j)).Mul(coarse))
			if v := score(c); v > top {
				at, top = c, v
			}
		}
	}
	return climb(at, score), nil
}

// climb goes uphill in ever finer steps.
func climb(at geom.Point, score func(geom.Point) float64) geom.Point {
	top := score(at)
	for step := coarse / 2; step >= finest; step /= 2 {
		for moved := true; moved; {
			moved = false
			from := at
			for k := range 8 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 4)
				c := from.Add(geom.Pt(cos, sin).Mul(step))
				if v := score(c); v > top+1e-12 {
					at, top, moved = c, v, true
				}
			}
		}
	}
	return at
}

// spread returns the likely distance between a peak of ln of a likelihood and
// the truth: the root mean square over the surroundings, along rays.
func spread(at geom.Point, score func(geom.Point) float64) float64 {
	top := score(at)
	var sum, all float64
	for k := range 16 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 8)
		last := 0.0
		for r := 1.0; r < 400; r *= 1.25 {
			w := math.Exp(math.Min(score(at.Add(geom.Pt(cos, sin).Mul(r)))-top, 0)) * r * (r - last)
			sum += w * r * r
			all += w
			last = r
			if w < 1e-6*all {
				break
			}
		}
	}
	if all <= 0 {
		return 0
	}
	return math.Sqrt(sum / all)
}
