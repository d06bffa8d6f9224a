package outline

import (
	"context"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

const (
	beamStep  = 10  // pixels of the plane a piece of a line is long
	beamTurns = 180 // directions, one a degree
)

// Engineering choices, in grey levels a pixel: what no eye would call an edge,
// and an edge half as good as can be.
const (
	slopeFloor = 0.5
	slopeHalf  = 2.0
)

// beams holds, for every straight line over a small plane, how far each piece
// of it is an edge: 0 to 1. A piece counts by the mean of its slopes, which
// must point the same way, against their scatter; texture cancels out.
type beams struct {
	middle geom.Point
	reach  int // lines lie -reach to reach off the middle
	pieces int // along a line
	edge   []float32
	cos    [beamTurns]float64
	sin    [beamTurns]float64
}

// edgeness turns the mean slope of a piece, the scatter of its n slopes and
// the share of them that are independent into 0 to 1.
func edgeness(mean2, scatter2, n float64) float64 {
	if n < 2 {
		return 0
	}
	// Neighbours share blur: about one in three is new. A mean three times its
	// own error is as likely an edge as not.
	noise := 9 * (3*scatter2/n + slopeFloor*slopeFloor/4)
	m := math.Sqrt(mean2)
	return mean2 / (mean2 + noise) * m / (m + slopeHalf)
}

func beamsOf(ctx context.Context, p *plane) (*beams, error) {
	s := p.blurred(2)
	grad := make([][2 * colours]float32, len(s.pix))
	for j := 0; j < p.h; j++ {
		for i := 0; i < p.w; i++ {
			o := j*p.w + i
			l, r := j*p.w+max(i-1, 0), j*p.w+min(i+1, p.w-1)
			u, d := max(j-1, 0)*p.w+i, min(j+1, p.h-1)*p.w+i
			for c := 0; c < colours; c++ {
				grad[o][c] = (s.pix[r][c] - s.pix[l][c]) / 2
				grad[o][colours+c] = (s.pix[d][c] - s.pix[u][c]) / 2
			}
		}
	}
	right, low := float64(p.w-1), float64(p.h-1)
	inside := func(x, y float64) bool { return x >= 1 && y >= 1 && x < right && y < low }
	diag := math.Hypot(float64(p.w), float64(p.h)) / 2
	b := &beams{middle: geom.Pt(float64(p.w)/2, float64(p.h)/2), reach: int(diag) + 1}
	b.pieces = 2*int(diag/beamStep+1) + 1
	b.edge = make([]float32, beamTurns*(2*b.reach+1)*b.pieces)
	if err := photo.Each(ctx, beamTurns, func(turn int) {
		power := make([]float32, (2*b.reach+1)*b.pieces) // mean square of a piece's slopes
		sin, cos := math.Sincos(float64(turn) * math.Pi / beamTurns)
		b.cos[turn], b.sin[turn] = cos, sin
		nx, ny := float32(-sin), float32(cos)
		for off := -b.reach; off <= b.reach; off++ {
			x0, y0 := b.middle.X-sin*float64(off), b.middle.Y+cos*float64(off)
			row := b.row(turn, off)
			for k := range row {
				var sum sample
				var sq float32
				n := 0
				t := (float64(k-b.pieces/2) - 0.5) * beamStep
				x, y := x0+cos*(t+0.5), y0+sin*(t+0.5)
				if !(inside(x, y) || inside(x+cos*(beamStep-1), y+sin*(beamStep-1))) {
					continue
				}
				for a := 0; a < beamStep; a, x, y = a+1, x+cos, y+sin {
					if !inside(x, y) {
						continue
					}
					g := &grad[int(y)*p.w+int(x)]
					v0, v1, v2 := nx*g[0]+ny*g[3], nx*g[1]+ny*g[4], nx*g[2]+ny*g[5]
					sum[0] += v0
					sum[1] += v1
					sum[2] += v2
					sq += v0*v0 + v1*v1 + v2*v2
					n++
				}
				if n < beamStep/2 {
					continue
				}
				f := float64(n)
				mean2 := float64(sum.dot(sum)) / (f * f)
				row[k] = float32(edgeness(mean2, max(float64(sq)/f-mean2, 0), f))
				power[(off+b.reach)*b.pieces+k] = sq / float32(n)
			}
		}
		b.ridges(turn, power)
	}); err != nil {
		return nil, err
	}
	return b, nil
}

// ridges lets a piece count too whose slopes point this way and that, as where
// a board lies across stripes, when there is much less slope on both sides.
func (b *beams) ridges(turn int, power []float32) {
	const aside = 4 // pixels: beyond the blur
	for off := -b.reach + aside; off <= b.reach-aside; off++ {
		row := b.row(turn, off)
		o := (off + b.reach) * b.pieces
		for k := range row {
			p, q := power[o+k-aside*b.pieces], power[o+k+aside*b.pieces]
			if q > p {
				p = q
			}
			rise := power[o+k] - p
			if rise <= p {
				continue
			}
			// Of few slopes the mean square may double by chance.
			noise := 4*p*p + slopeFloor*slopeFloor*slopeFloor*slopeFloor
			m := float32(math.Sqrt(float64(rise)))
			row[k] = max(row[k], rise*rise/(rise*rise+noise)*m/(m+slopeHalf))
		}
	}
}

func (b *beams) row(turn, off int) []float32 {
	o := (turn*(2*b.reach+1) + off + b.reach) * b.pieces
	return b.edge[o : o+b.pieces]
}

// stroke is a stretch of a line that is an edge for the most part.
type stroke struct {
	a, b      geom.Point
	score     float64
	turn, off int
}

// strokes returns the best stretches, best first, each edge of the picture
// once, at least least pixels long.
func (b *beams) strokes(most int, least float64) []stroke {
	const par = 0.25 // pieces worse than this end a stretch, in the long run
	var all []stroke
	for turn := 0; turn < beamTurns; turn++ {
		for off := -b.reach; off <= b.reach; off++ {
			row := b.row(turn, off)
			best, sum := 0.0, 0.0
			from, bestA, bestB := 0, 0, -1
			for k, v := range row {
				if sum <= 0 {
					sum, from = 0, k
				}
				sum += float64(v) - par
				if sum > best {
					best, bestA, bestB = sum, from, k
				}
			}
			if float64(bestB-bestA+1)*beamStep < least {
				continue
			}
			cos, sin := b.cos[turn], b.sin[turn]
			at := func(k float64) geom.Point {
				t := (k - float64(b.pieces/2) - 0.5) * beamStep
				return geom.Pt(b.middle.X-sin*float64(off)+cos*t, b.middle.Y+cos*float64(off)+sin*t)
			}
			st := stroke{at(float64(bestA)), at(float64(bestB + 1)), best, turn, off}
			e := b.side(st)
			_, beyond := e.window(st.a, st.b)
			st.score *= 1 - 0.35*beyond // boards end
			all = append(all, st)
		}
	}
	return distinct(all, most)
}
