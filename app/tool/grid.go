package tool

import (
	"math"

	"heartside/layout/geom"
)

// grid marks cells of a rectangle.
type grid struct {
	box    geom.Rect
	step   float64
	nx, ny int
	on     []bool
}

func newGrid(box geom.Rect, step float64) *grid {
	g := &grid{box: box, step: step, nx: int(math.Ceil(box.W() / step)), ny: int(math.Ceil(box.H() / step))}
	g.on = make([]bool, g.nx*g.ny)
	return g
}

// at reports whether a cell is marked; cells outside are not.
func (g *grid) at(i, j int) bool {
	return i >= 0 && j >= 0 && i < g.nx && j < g.ny && g.on[j*g.nx+i]
}

// corner returns the place of the lower left corner of cell (i, j), held to
// the box.
func (g *grid) corner(i, j int) geom.Point {
	return geom.Pt(
		min(g.box.Min.X+float64(i)*g.step, g.box.Max.X),
		min(g.box.Min.Y+float64(j)*g.step, g.box.Max.Y))
}

// sweep marks the cells whose middle lies within r of the segment ab.
func (g *grid) sweep(a, b geom.Point, r float64) {
	lo := geom.Pt(min(a.X, b.X)-r, min(a.Y, b.Y)-r).Sub(g.box.Min).Mul(1 / g.step)
	hi := geom.Pt(max(a.X, b.X)+r, max(a.Y, b.Y)+r).Sub(g.box.Min).Mul(1 / g.step)
	for j := max(int(lo.Y), 0); j <= min(int(hi.Y), g.ny-1); j++ {
		for i := max(int(lo.X), 0); i <= min(int(hi.X), g.nx-1); i++ {
			mid := g.box.Min.Add(geom.Pt(float64(i)+0.5, float64(j)+0.5).Mul(g.step))
			if !g.on[j*g.nx+i] && fromSegment(mid, a, b) <= r {
				g.on[j*g.nx+i] = true
			}
		}
	}
}

// borders returns the outer border of each 4-connected group of marked cells,
// anticlockwise, in order of their lowest left cell.
func (g *grid) borders() []geom.Polygon {
	seen := make([]bool, len(g.on))
	var out []geom.Polygon
	for k := range g.on {
		if g.on[k] && !seen[k] {
			g.flood(k, seen)
			out = append(out, g.trace(k%g.nx, k/g.nx))
		}
	}
	return out
}

func (g *grid) flood(k int, seen []bool) {
	todo := []int{k}
	seen[k] = true
	for len(todo) > 0 {
		k := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		i, j := k%g.nx, k/g.nx
		for _, n := range [4][2]int{{i - 1, j}, {i + 1, j}, {i, j - 1}, {i, j + 1}} {
			if g.at(n[0], n[1]) && !seen[n[1]*g.nx+n[0]] {
				seen[n[1]*g.nx+n[0]] = true
				todo = append(todo, n[1]*g.nx+n[0])
			}
		}
	}
}

// trace walks the border from the lower left corner of the cell, which must be
// the first of its group in reading order, keeping the marked cells at its
// left. Where two cells meet only at a corner it turns left and stays on the
// first.
func (g *grid) trace(ci, cj int) geom.Polygon {
	dirs := [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	// The cell at the left and at the right of a step from (i, j) in direction d.
	left := [4][2]int{{0, 0}, {-1, 0}, {-1, -1}, {0, -1}}
	right := [4][2]int{{0, -1}, {0, 0}, {-1, 0}, {-1, -1}}
	i, j, d := ci, cj, 0
	var ring geom.Polygon
	for {
		ring = append(ring, g.corner(i, j))
		i, j = i+dirs[d][0], j+dirs[d][1]
		for _, turn := range [3]int{1, 0, 3} {
			n := (d + turn) % 4
			if g.at(i+left[n][0], j+left[n][1]) && !g.at(i+right[n][0], j+right[n][1]) {
				d = n
				break
			}
		}
		if i == ci && j == cj {
			return ring
		}
	}
}
