package light

import (
	"context"
	"fmt"
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// fewSteps is how many places of a border tell the step between two woods;
// with fewer their means do.
const fewSteps = 10

// leastReadings is how many cells of wood a face must show.
const leastReadings = 12

// Even returns a squared face as it would look under one light all over, and
// the light that was taken out. With a mask of the face, gradients and soft
// shadows go, and of hard shadows what crosses the board; the step between
// heart and sap, measured over their borders, stays. Without a mask only a
// slow change along the face goes. The mean luminance stays and no pixel burns
// out. Field says how much is left. It fails where the two are not of one
// face; a face with too little wood in good light comes back as it is.
//
// The logarithm of light is taken as a wood's level plus a field that is
// smooth but for edges, both fitted robustly to cells of 4 mm: the old idea of
// Land and McCann (1971) with the woods known.
func Even(ctx context.Context, s *photo.Squared, m *photo.Mask) (*photo.Squared, Field, error) {
	if err := check(s, m); err != nil {
		return nil, Field{}, fmt.Errorf("evening of light: %w", err)
	}
	rs, nx, ny, err := read(ctx, s, m)
	if err != nil {
		return nil, Field{}, err
	}
	f := Field{
		Ratio: 1, Step: 1, Tint: [3]float64{1, 1, 1}, nx: nx, length: s.Length, width: s.Width,
		ny: min(max(int(math.Round(s.Width/stripWide))+1, 2), mostStrips),
	}
	f.log = make([]float64, f.nx*f.ny)
	if len(rs) >= leastReadings {
		step := 0.0
		level := func(r *reading) float64 {
			if r.sap {
				return step
			}
			return 0
		}
		if m == nil {
			f.along(rs)
		} else {
			for range 2 {
				step = stepOf(rs, nx, ny, &f, step)
				f.solve(rs, level)
				f.slant()
				if err := ctx.Err(); err != nil {
					return nil, Field{}, err
				}
			}
		}
		f.Step = math.Exp(step)
		f.centre()
		f.tints(rs)
		f.Before = patches(rs, func(*reading) float64 { return 0 })
		f.Left = patches(rs, f.node)
	}
	k := f.brightness(s)
	out, back, err := relight(ctx, s, f.gains(s, k))
	f.Held = back
	return out, f, err
}

// stepOf returns the step of luma from heart to sap: over their borders where
// those are long enough, else of their medians.
func stepOf(rs []reading, nx, ny int, f *Field, was float64) float64 {
	if steps := borderSteps(rs, nx, ny, f.node); len(steps) >= fewSteps {
		return median(steps)
	}
	var v [2][]float64
	for k := range rs {
		wood := 0
		if rs[k].sap {
			wood = 1
		}
		v[wood] = append(v[wood], rs[k].luma-f.node(&rs[k]))
	}
	if len(v[0]) == 0 || len(v[1]) == 0 {
		return was
	}
	return median(v[1]) - median(v[0])
}

// tints measures how far each channel follows the light: shadows out of doors
// are lit by the blue sky.
func (f *Field) tints(rs []reading) {
	var square, light float64
	var n [2]float64
	var means [2][4]float64 // by wood: the channels, the light
	wood := func(r *reading) int {
		if r.sap {
			return 1
		}
		return 0
	}
	for k := range rs {
		r := &rs[k]
		w := wood(r)
		n[w]++
		light = f.node(r)
		for c, v := range [4]float64{r.log[0], r.log[1], r.log[2], light} {
			means[w][c] += v
		}
	}
	for w := range means {
		for c := range means[w] {
			means[w][c] /= math.Max(n[w], 1)
		}
	}
	var both [3]float64
	for k := range rs {
		r := &rs[k]
		w := wood(r)
		d := f.node(r) - means[w][3]
		square += d * d
		for c := range both {
			both[c] += d * (r.log[c] - r.luma - means[w][c] + luma([3]float64(means[w][:3])))
		}
	}
	// Light that hardly changes says little: neutral is likely from the start.
	square += likely * float64(len(rs))
	for c := range f.Tint {
		f.Tint[c] = math.Min(math.Max(1+both[c]/square, 1-mostTint), 1+mostTint)
	}
}

// mostTint bounds how far a shadow may be from neutral; likely is the mean
// square of the logarithm of light from which on what is measured of that has
// more say than that shadows are neutral (engineering choices).
const (
	mostTint = 0.25
	likely   = 0.01
)

// gains returns what relight asks for: the light taken out, times k.
func (f *Field) gains(s *photo.Squared, k float64) func(j int, row []colour.Linear) {
	nodes := make([]colour.Linear, f.nx)
	w, h := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	return func(j int, row []colour.Linear) {
		y := f.width * (1 - (float64(j)+0.5)/float64(h))
		p, v := f.strip(y)
		q := min(p+1, f.ny-1)
		for i := range nodes {
			l := (1-v)*f.log[i*f.ny+p] + v*f.log[i*f.ny+q]
			nodes[i] = colour.Linear{R: k * math.Exp(-f.Tint[0]*l), G: k * math.Exp(-f.Tint[1]*l), B: k * math.Exp(-f.Tint[2]*l)}
		}
		for i := range row {
			a, u := f.column((float64(i) + 0.5) / float64(w) * f.length)
			c, d := nodes[a], nodes[min(a+1, f.nx-1)]
			row[i] = colour.Linear{R: c.R + u*(d.R-c.R), G: c.G + u*(d.G-c.G), B: c.B + u*(d.B-c.B)}
		}
	}
}

// brightness returns the factor that keeps the mean luminance, from every
// third pixel or so.
func (f *Field) brightness(s *photo.Squared) float64 {
	w, h := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	gains, row := f.gains(s, 1), make([]colour.Linear, w)
	var before, after float64
	every := max(1, min(3, h/8))
	for j := every / 2; j < h; j += every {
		gains(j, row)
		for i := 0; i < w; i += every {
			px := s.Pix.Pix[j*s.Pix.Stride+4*i:]
			c := colour.FromSRGB(px[0], px[1], px[2])
			before += luminance(c)
			after += luminance(Balance(row[i]).Light(c))
		}
	}
	if !(after > 0) {
		return 1
	}
	return before / after
}

// patches returns the rms deviation of 20 mm patches from their zone's mean,
// the light found taken out.
func patches(rs []reading, light func(*reading) float64) float64 {
	const size = 20 / cell
	type key struct{ i, j, wood int }
	sums, order := map[key]*[2]float64{}, []*[2]float64{}
	var zone [2][2]float64
	woods := []int{}
	for k := range rs {
		r := &rs[k]
		at := key{r.i / size, r.j / size, 0}
		if r.sap {
			at.wood = 1
		}
		v := r.luma - light(r)
		p := sums[at]
		if p == nil {
			p = new([2]float64)
			sums[at], order, woods = p, append(order, p), append(woods, at.wood)
		}
		p[0] += r.n * v
		p[1] += r.n
		zone[at.wood][0] += r.n * v
		zone[at.wood][1] += r.n
	}
	var square, n float64
	for k, p := range order {
		z := zone[woods[k]]
		d := p[0]/p[1] - z[0]/z[1]
		square += p[1] * d * d
		n += p[1]
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(square / n)
}
