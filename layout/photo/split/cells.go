package split

import (
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// Cells are long along the grain, where wood changes slowly. Engineering
// choices: a boundary wanders by less than 1 mm in 4 mm.
const (
	cellAlong  = 4.0 // mm
	cellAcross = 1.0 // mm
	mostCells  = 4 << 20
)

// grid holds a face's cells, row 0 at the top as seen, column 0 at x = 0.
type grid struct {
	nx, ny int
	dx, dy float64      // mm a cell
	f      [3][]float64 // logarithm of light, turned: lightness and two of hue
	w      []float64    // 0 to 1: how far the cell is to be trusted as plain wood
}

func newGrid(nx, ny int, dx, dy float64) *grid {
	g := &grid{nx: nx, ny: ny, dx: dx, dy: dy}
	for c := range g.f {
		g.f[c] = make([]float64, nx*ny)
	}
	g.w = make([]float64, nx*ny)
	return g
}

// blackLevel is added to light before the logarithm, so that noise in the
// dark does not count for much.
const blackLevel = 0.004

// gridOf averages the light of a squared face in cells.
func gridOf(s *photo.Squared) *grid {
	img := s.Level(1)
	w, h := img.Rect.Dx(), img.Rect.Dy()
	nx := max(1, int(math.Round(s.Length/cellAlong)))
	ny := max(1, int(math.Round(s.Width/cellAcross)))
	g := newGrid(nx, ny, s.Length/float64(nx), s.Width/float64(ny))
	var light [256]float64
	for i := range light {
		light[i] = colour.Light(uint8(i))
	}
	across := spread(w, nx)
	down := spread(h, ny)
	line := make([][4]float64, nx)
	for j, rows := range down {
		clear(line)
		for _, r := range rows {
			row := img.Pix[r.i*img.Stride:]
			for i, cols := range across {
				for _, c := range cols {
					px := row[4*c.i : 4*c.i+4 : 4*c.i+4]
					if px[3] == 0 {
						continue
					}
					k := r.w * c.w
					line[i][0] += k * light[px[0]]
					line[i][1] += k * light[px[1]]
					line[i][2] += k * light[px[2]]
					line[i][3] += k
				}
			}
		}
		for i, v := range line {
			at := j*nx + i
			if v[3] <= 0 {
				continue
			}
			g.w[at] = 1
			t := turn(vec3{math.Log(v[0]/v[3] + blackLevel), math.Log(v[1]/v[3] + blackLevel), math.Log(v[2]/v[3] + blackLevel)})
			for c := range g.f {
				g.f[c][at] = t[c]
			}
		}
	}
	fillBlank(g)
	return g
}

// share is how much of pixel i a cell covers.
type share struct {
	i int
	w float64
}

// spread returns the pixels of a row of n under each of m cells.
func spread(n, m int) [][]share {
	out := make([][]share, m)
	k := float64(n) / float64(m)
	for i := range out {
		a, b := float64(i)*k, math.Min(float64(i+1)*k, float64(n))
		for p := int(a); p < n && float64(p) < b-1e-9; p++ {
			if w := math.Min(b, float64(p+1)) - math.Max(a, float64(p)); w > 0 {
				out[i] = append(out[i], share{p, w})
			}
		}
		if out[i] == nil {
			out[i] = []share{{min(int(a), n-1), 1}}
		}
	}
	return out
}

// fillBlank gives cells without a picture the mean colour: their weight stays
// nought.
func fillBlank(g *grid) {
	var sum [3]float64
	n := 0.0
	for i, w := range g.w {
		if w > 0 {
			n++
			for c := range sum {
				sum[c] += g.f[c][i]
			}
		}
	}
	if n == 0 || n == float64(len(g.w)) {
		return
	}
	for i, w := range g.w {
		if w == 0 {
			for c := range sum {
				g.f[c][i] = sum[c] / n
			}
		}
	}
}

// coarse averages kx x ky cells into one, by weight.
func (g *grid) coarse(kx, ky int) *grid {
	nx, ny := (g.nx+kx-1)/kx, (g.ny+ky-1)/ky
	out := newGrid(nx, ny, g.dx*float64(kx), g.dy*float64(ky))
	for j := range ny {
		for i := range nx {
			var sum [3]float64
			var n, ws float64
			for b := j * ky; b < min((j+1)*ky, g.ny); b++ {
				for a := i * kx; a < min((i+1)*kx, g.nx); a++ {
					at := b*g.nx + a
					k := g.w[at] + 1e-6
					n++
					ws += k
					for c := range sum {
						sum[c] += k * g.f[c][at]
					}
				}
			}
			at := j*nx + i
			g2 := math.Min(ws/n, 1)
			out.w[at] = g2
			for c := range sum {
				out.f[c][at] = sum[c] / ws
			}
		}
	}
	return out
}

// turn takes logarithms of red, green and blue light to lightness, which is
// all that a shadow changes, and two axes of hue: green and blue against red,
// blue against green. Lengths stay.
func turn(v vec3) vec3 {
	return vec3{
		(v[0] + v[1] + v[2]) / math.Sqrt(3),
		(v[1] + v[2] - 2*v[0]) / math.Sqrt(6),
		(v[2] - v[1]) / math.Sqrt2,
	}
}
