package outline

import (
	"context"
	"math"
	"slices"

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

// slopes is the slope of each colour at a pixel, across and down, and the sums
// over the colours of its squares and of their product.
type slopes struct {
	x, y       sample
	xx, xy, yy float32
}

func slopesOf(ctx context.Context, p *plane) ([]slopes, error) {
	s, err := p.blurred(ctx)
	if err != nil {
		return nil, err
	}
	out := make([]slopes, len(s.pix))
	return out, photo.Each(ctx, p.h, func(j int) {
		for i := range p.w {
			l, r := j*p.w+max(i-1, 0), j*p.w+min(i+1, p.w-1)
			u, d := max(j-1, 0)*p.w+i, min(j+1, p.h-1)*p.w+i
			g := &out[j*p.w+i]
			g.x, g.y = s.pix[r].sub(s.pix[l]), s.pix[d].sub(s.pix[u])
			for c := range g.x {
				g.x[c] /= 2
				g.y[c] /= 2
			}
			g.xx, g.xy, g.yy = g.x.dot(g.x), g.x.dot(g.y), g.y.dot(g.y)
		}
	})
}

// abreast is how many directions are looked along one after the other by one
// core.
const abreast = 6

func beamsOf(ctx context.Context, p *plane) (*beams, error) {
	grad, err := slopesOf(ctx, p)
	if err != nil {
		return nil, err
	}
	diag := math.Hypot(float64(p.w), float64(p.h)) / 2
	b := &beams{middle: geom.Pt(float64(p.w)/2, float64(p.h)/2), reach: int(diag) + 1}
	b.pieces = 2*int(diag/beamStep+1) + 1
	b.edge = make([]float32, beamTurns*(2*b.reach+1)*b.pieces)
	return b, photo.Each(ctx, beamTurns/abreast, func(k int) {
		power := make([]float32, (2*b.reach+1)*b.pieces) // mean square of a piece's slopes
		for turn := k * abreast; turn < (k+1)*abreast; turn++ {
			clear(power)
			b.look(turn, p.w, p.h, grad, power)
			b.ridges(turn, power)
		}
	})
}

// look judges the pieces of all lines of one direction.
func (b *beams) look(turn, w, h int, grad []slopes, power []float32) {
	sin, cos := math.Sincos(float64(turn) * math.Pi / beamTurns)
	b.cos[turn], b.sin[turn] = cos, sin
	right, low := float64(w-1), float64(h-1)
	inside := func(x, y float64) bool { return x >= 1 && y >= 1 && x < right && y < low }
	nx, ny := float32(-sin), float32(cos)
	// In parts of a pixel, so that whole ones are found fast.
	const bits, one = 16, 1 << 16
	dx, dy := int(math.Round(cos*one)), int(math.Round(sin*one))
	for off := -b.reach; off <= b.reach; off++ {
		left, top := b.middle.X-sin*float64(off), b.middle.Y+cos*float64(off)
		row := b.row(turn, off)
		for k := range row {
			t := (float64(k-b.pieces/2) - 0.5) * beamStep
			x, y := left+cos*(t+0.5), top+sin*(t+0.5)
			n := beamStep
			switch in, out := inside(x, y), inside(x+cos*(beamStep-1), y+sin*(beamStep-1)); {
			case in && out:
			case in:
				for n = 1; n < beamStep && inside(x+cos*float64(n), y+sin*float64(n)); n++ {
				}
			case out:
				for ; n > 0 && !inside(x, y); n-- {
					x, y = x+cos, y+sin
				}
			default:
				continue
			}
			if n < beamStep/2 {
				continue
			}
			var x0, x1, x2, y0, y1, y2, xx, xy, yy float32
			i, j := int(x*one), int(y*one)
			for range n {
				g := &grad[j>>bits*w+i>>bits]
				x0 += g.x[0]
				x1 += g.x[1]
				x2 += g.x[2]
				y0 += g.y[0]
				y1 += g.y[1]
				y2 += g.y[2]
				xx += g.xx
				xy += g.xy
				yy += g.yy
				i, j = i+dx, j+dy
			}
			// Across the line: all is a sum over its pixels.
			f := float64(n)
			sq := max(nx*nx*xx+2*nx*ny*xy+ny*ny*yy, 0)
			v0, v1, v2 := nx*x0+ny*y0, nx*x1+ny*y1, nx*x2+ny*y2
			mean2 := float64(v0*v0+v1*v1+v2*v2) / (f * f)
			row[k] = float32(edgeness(mean2, max(float64(sq)/f-mean2, 0), f))
			power[(off+b.reach)*b.pieces+k] = sq / float32(n)
		}
	}
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
func (b *beams) strokes(ctx context.Context, most int, least float64) ([]stroke, error) {
	all := make([][]stroke, beamTurns)
	if err := photo.Each(ctx, beamTurns, func(turn int) {
		for off := -b.reach; off <= b.reach; off++ {
			if s, ok := b.stroke(turn, off, least); ok {
				all[turn] = append(all[turn], s)
			}
		}
	}); err != nil {
		return nil, err
	}
	return distinct(slices.Concat(all...), most), nil
}

// stroke returns the best stretch of a line.
func (b *beams) stroke(turn, off int, least float64) (stroke, bool) {
	const par = 0.25 // pieces worse than this end a stretch, in the long run
	best, sum := float32(0), float32(0)
	from, bestA, bestB := 0, 0, -1
	for k, v := range b.row(turn, off) {
		if sum <= 0 {
			sum, from = 0, k
		}
		if sum += v - par; sum > best {
			best, bestA, bestB = sum, from, k
		}
	}
	if float64(bestB-bestA+1)*beamStep < least {
		return stroke{}, false
	}
	e := b.side(stroke{turn: turn, off: off})
	// Pieces before the stretch and up to its end.
	start, to := (float64(bestA)-e.middle)*beamStep, (float64(bestB+1)-e.middle)*beamStep
	beyond := e.beyond(start, to, e.mean(start, to))
	// Boards end.
	return stroke{e.at(start), e.at(to), float64(best) * (1 - 0.35*beyond), turn, off}, true
}
