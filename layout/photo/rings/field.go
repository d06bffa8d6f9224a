package rings

import (
	"context"
	"math"
	"slices"

	"heartside/layout/geom"
)

const (
	bins      = 36   // of half a turn, 5 degrees each
	fineBlur  = 0.3  // mm: finer is noise
	broadBlur = 3.0  // mm: slower changes are light and colour, not rings
	sawReach  = 40.0 // mm
	lineReach = 2.5  // mm: rings are sought as lines of this width of weight
	lineStep  = 0.75 // mm
	blockSize = 5.0  // mm
	soft      = 1.5  // bins: rings are not circles, their normals miss the pith
)

// block is which ways the rings' normals point about one place: energies over
// half a turn whose mean is 1.
type block struct {
	at   geom.Point
	hist [bins]float32
}

// field returns the blocks of an end. In each direction the picture is
// averaged along short lines: lines that follow rings keep their contrast,
// others lose it.
func (e *End) field(ctx context.Context) ([]block, error) {
	light := e.ringLight()
	nx, ny := e.NX, e.NY
	n := max(1, int(math.Round(blockSize/e.Step)))
	bx, by := max(1, nx/n), max(1, ny/n)
	edge := int(math.Ceil(1 / e.Step)) // a mm of the rim is not read: the saw's edge
	sums := make([][bins]float64, bx*by)
	taps := int(math.Ceil(2 * lineReach / lineStep))
	for k := range bins {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		// Bin k holds normals at 5 k degrees; the line runs square to it.
		sin, cos := math.Sincos(float64(k) * math.Pi / bins)
		type tap struct {
			di, dj int
			w      float64
		}
		var ts []tap
		for m := -taps; m <= taps; m++ {
			s := float64(m) * lineStep
			ts = append(ts, tap{int(math.Round(-sin * s / e.Step)), int(math.Round(cos * s / e.Step)), math.Exp(-s * s / (2 * lineReach * lineReach))})
		}
		for j := edge; j < ny-edge; j++ {
			row := sums[min(j*by/ny, by-1)*bx:]
			for i := edge; i < nx-edge; i++ {
				var sum, all float64
				for _, t := range ts {
					a, b := i+t.di, j+t.dj
					if a < 0 || b < 0 || a >= nx || b >= ny {
						continue
					}
					sum += t.w * light[b*nx+a]
					all += t.w * t.w
				}
				// Noise has the same energy along a line that the rim cuts short.
				row[min(i*bx/nx, bx-1)][k] += sum * sum / all
			}
		}
	}
	var kernel [bins]float64
	norm := 0.0
	for k := range kernel {
		d := float64(min(k, bins-k)) / soft
		kernel[k] = math.Exp(-d * d / 2)
		norm += kernel[k]
	}
	out := make([]block, 0, len(sums))
	for b, s := range sums {
		all := 0.0
		for _, v := range s {
			all += v
		}
		if all <= 0 {
			continue
		}
		o := block{at: geom.Pt((float64(b%bx)+0.5)*e.Width/float64(bx), (float64(b/bx)+0.5)*e.Thickness/float64(by))}
		for k := range bins {
			v := 0.0
			for m := range bins {
				v += kernel[(k-m+bins)%bins] * s[m]
			}
			o.hist[k] = float32(v / norm / all * bins)
		}
		out = append(out, o)
	}
	unsaw(out)
	return out, nil
}

// everywhere is the share of blocks that marks of a saw are in: lines in one
// direction that hardly any block is without are not rings. An engineering
// choice.
const everywhere = 0.88

// unsaw takes from every block what nearly all blocks have in each direction.
func unsaw(bs []block) {
	if len(bs) == 0 {
		return
	}
	var low [bins]float32
	var mean float32
	vs := make([]float32, len(bs))
	for k := range bins {
		for i := range bs {
			vs[i] = bs[i].hist[k]
		}
		slices.Sort(vs)
		low[k] = vs[int((1-everywhere)*float64(len(vs)))]
		mean += low[k] / bins
	}
	for i := range bs {
		for k := range bins {
			bs[i].hist[k] = max(0, bs[i].hist[k]-low[k]) + min(mean, 1)
		}
	}
}

// toward returns how well the rings at a block stand square to the line from
// a place: 1 is chance.
func (b *block) toward(c geom.Point) float64 {
	t := math.Atan2(b.at.Y-c.Y, b.at.X-c.X)/math.Pi*bins + 2*bins
	k := math.Floor(t)
	f := float32(t - k)
	i := int(k) % bins
	return float64(b.hist[i]*(1-f) + b.hist[(i+1)%bins]*f)
}

// ringLight is the lightness that rings make: without noise and slow changes,
// without straight lines across the whole section, which saws leave, and of
// even contrast.
func (e *End) ringLight() []float64 {
	nx, ny := e.NX, e.NY
	l := make([]float64, nx*ny)
	for i, c := range e.Lab {
		l[i] = c.L
		if !c.Known() {
			l[i] = 0
		}
	}
	fine := gauss(l, nx, ny, fineBlur/e.Step, fineBlur/e.Step)
	broad := gauss(l, nx, ny, broadBlur/e.Step, broadBlur/e.Step)
	for i := range fine {
		fine[i] -= broad[i]
	}
	saw := gauss(fine, nx, ny, sawReach/e.Step, 0)
	for i := range fine {
		fine[i] -= saw[i]
		l[i] = fine[i] * fine[i]
	}
	power := gauss(l, nx, ny, 2*broadBlur/e.Step, 2*broadBlur/e.Step)
	for i := range fine {
		// A check or a speck of dust counts no more than a strong ring.
		v := fine[i] / math.Sqrt(power[i]+1e-6)
		fine[i] = math.Max(-2.5, math.Min(v, 2.5))
	}
	return fine
}
