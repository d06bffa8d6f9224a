package stock

import (
	"math"

	"heartside/layout/geom"
)

// grid holds the area of something in every cell, row by row, mm2.
type grid struct {
	nx, ny int
	cell   float64
	area   []float64
}

func newGrid(nx, ny int, cell float64) *grid {
	return &grid{nx, ny, cell, make([]float64, nx*ny)}
}

// add adds a trapezoid's area to the cells it covers, exactly.
func (g *grid) add(t *geom.Trapezoid) {
	if !(t.X1 > t.X0) {
		return
	}
	first := max(0, int(math.Floor(t.X0/g.cell)))
	last := min(g.nx-1, int(math.Ceil(t.X1/g.cell))-1)
	slopeLo, slopeHi := (t.Lo1-t.Lo0)/(t.X1-t.X0), (t.Hi1-t.Hi0)/(t.X1-t.X0)
	for i := first; i <= last; i++ {
		xa, xb := math.Max(t.X0, float64(i)*g.cell), math.Min(t.X1, float64(i+1)*g.cell)
		if !(xb > xa) {
			continue
		}
		g.column(i, xb-xa,
			t.Lo0+slopeLo*(xa-t.X0), t.Lo0+slopeLo*(xb-t.X0),
			t.Hi0+slopeHi*(xa-t.X0), t.Hi0+slopeHi*(xb-t.X0))
	}
}

// column adds what lies between two lines over a stretch dx wide of column i.
func (g *grid) column(i int, dx, lo0, lo1, hi0, hi1 float64) {
	first := max(0, int(math.Floor(math.Min(lo0, lo1)/g.cell)))
	last := min(g.ny-1, int(math.Ceil(math.Max(hi0, hi1)/g.cell))-1)
	loTop, hiLow := math.Max(lo0, lo1), math.Min(hi0, hi1)
	for j := first; j <= last; j++ {
		y0, y1 := float64(j)*g.cell, float64(j+1)*g.cell
		if y0 >= loTop && y1 <= hiLow {
			g.area[j*g.nx+i] += g.cell * dx
			continue
		}
		a := under(hi0, hi1, y1, dx) - under(hi0, hi1, y0, dx) - under(lo0, lo1, y1, dx) + under(lo0, lo1, y0, dx)
		g.area[j*g.nx+i] += math.Max(0, a)
	}
}

// under returns the integral of min(line, y) over a stretch dx wide, the line
// going from a to b.
func under(a, b, y, dx float64) float64 {
	switch {
	case a <= y && b <= y:
		return (a + b) / 2 * dx
	case a >= y && b >= y:
		return y * dx
	}
	lo := math.Min(a, b)
	f := (y - lo) / math.Abs(b-a) // share of the stretch where the line is under y
	return dx * (f*(lo+y)/2 + (1-f)*y)
}

// sums is a summed-area table: the area left of and below every cell corner.
type sums struct {
	nx, ny int
	cell   float64
	s      []float64 // (nx+1) * (ny+1)
}

func (g *grid) sums() *sums {
	out := &sums{g.nx, g.ny, g.cell, make([]float64, (g.nx+1)*(g.ny+1))}
	w := g.nx + 1
	for j := range g.ny {
		row := 0.0
		for i := range g.nx {
			row += g.area[j*g.nx+i]
			out.s[(j+1)*w+i+1] = out.s[j*w+i+1] + row
		}
	}
	return out
}

// upTo returns the area left of x and below y, a cell's area spread evenly
// over it.
func (s *sums) upTo(x, y float64) float64 {
	x = math.Max(0, math.Min(float64(s.nx), x/s.cell))
	y = math.Max(0, math.Min(float64(s.ny), y/s.cell))
	i, j := min(int(x), s.nx-1), min(int(y), s.ny-1)
	fx, fy := x-float64(i), y-float64(j)
	at := j*(s.nx+1) + i
	up := at + s.nx + 1
	return (1-fy)*((1-fx)*s.s[at]+fx*s.s[at+1]) + fy*((1-fx)*s.s[up]+fx*s.s[up+1])
}

// in returns the area in a rectangle; none where there is no table.
func (s *sums) in(r geom.Rect) float64 {
	if s == nil {
		return 0
	}
	a := s.upTo(r.Max.X, r.Max.Y) - s.upTo(r.Min.X, r.Max.Y) - s.upTo(r.Max.X, r.Min.Y) + s.upTo(r.Min.X, r.Min.Y)
	return math.Max(0, a)
}
