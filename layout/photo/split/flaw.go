package split

import (
	"math"
	"slices"

	"heartside/layout/photo"
)

// Limits of what counts as a knot or as bark. Engineering choices, on the safe
// side: a flaw missed is easily drawn, sapwood called a flaw is lost.
const (
	knotLeast, knotMost = 40.0, 4000.0 // mm2
	knotAcross          = 5.0          // mm, least
	knotLong            = 3.0          // times as long as across, most
	knotFull            = .5           // of its box, least
	knotDark            = .45          // log light under the wood about it, least
	barkDark            = 1.1          // log light under the darkest fifth of the face
	barkLeast           = 50.0         // mm2
	barkMost            = .08          // of the face
)

// flaws tells which cells are knots, dark and round, or bark and wane, dark
// along a long edge.
func flaws(g *grid) []bool {
	n := g.nx * g.ny
	f := g.f[0]
	out := make([]bool, n)
	res := residual(f, median2(f, g.nx, g.ny, int(80/g.dx), int(8/g.dy)))
	least := math.Max(knotDark, 4*spreadOf(res))
	dark := make([]bool, n)
	for i, r := range res {
		dark[i] = r < -least
	}
	eachPatch(dark, g.nx, g.ny, func(p []int, i0, i1, j0, j1 int) {
		long, across := float64(i1-i0+1)*g.dx, float64(j1-j0+1)*g.dy
		area := float64(len(p)) * g.dx * g.dy
		if area < knotLeast || area > knotMost || across < knotAcross || long > knotLong*across || area < knotFull*long*across {
			return
		}
		for _, at := range p {
			out[at] = true
		}
	})
	sorted := slices.Clone(f)
	slices.Sort(sorted)
	limit := sorted[n/5] - barkDark
	for i, v := range f {
		dark[i] = v < limit
	}
	eachPatch(dark, g.nx, g.ny, func(p []int, _, _, j0, j1 int) {
		// Bark lies along one long edge; a dark stretch across the whole
		// board is a shadow.
		if j0 > 0 == (j1 < g.ny-1) || float64(len(p))*g.dx*g.dy < barkLeast || float64(len(p)) > barkMost*float64(n) || 3*(j1-j0+1) > g.ny {
			return
		}
		for _, at := range p {
			out[at] = true
		}
	})
	return out
}

// eachPatch calls do for every connected patch of cells, with its box.
func eachPatch(in []bool, nx, ny int, do func(cells []int, i0, i1, j0, j1 int)) {
	seen := make([]bool, len(in))
	var patch []int
	for start, v := range in {
		if !v || seen[start] {
			continue
		}
		patch = append(patch[:0], start)
		seen[start] = true
		i0, i1, j0, j1 := nx, 0, ny, 0
		for k := 0; k < len(patch); k++ {
			at := patch[k]
			i, j := at%nx, at/nx
			i0, i1, j0, j1 = min(i0, i), max(i1, i), min(j0, j), max(j1, j)
			visit := func(to int, ok bool) {
				if ok && in[to] && !seen[to] {
					seen[to] = true
					patch = append(patch, to)
				}
			}
			visit(at-1, i > 0)
			visit(at+1, i+1 < nx)
			visit(at-nx, j > 0)
			visit(at+nx, j+1 < ny)
		}
		do(patch, i0, i1, j0, j1)
	}
}

// markFlaws puts the flaws found on a mask.
func (f *Face) markFlaws(m *photo.Mask) {
	for j := range m.H {
		row := j * f.g.ny / m.H * f.g.nx
		for i := range m.W {
			if at := j*m.W + i; f.flaws[row+i*f.g.nx/m.W] && m.Pix[at] != photo.Outside {
				m.Pix[at] = photo.Flaw
			}
		}
	}
}
