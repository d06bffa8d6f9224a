package light

import (
	"context"
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// cell is the size in mm of the cells a face is read in: a few grain lines.
const cell = 4

// reading is the mean logarithm of light of one wood in one cell.
type reading struct {
	x, y float64 // middle, face mm
	i, j int     // column from the left, row from the bottom
	sap  bool
	log  [3]float64 // red, green, blue
	luma float64
	n    float64 // share of the cell it covers
}

// logs are the logarithms of the light of 8-bit values; 0 counts as 1. It is
// never changed.
var logs = func() (t [256]float64) {
	for i := range t {
		t[i] = math.Log(colour.Light(uint8(max(i, 1))))
	}
	return t
}()

// luma weighs logarithms of light as IEC 61966-2-1 weighs light.
func luma(v [3]float64) float64 { return 0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2] }

// read averages a face in cells. Without a mask all of it is taken as heart.
func read(ctx context.Context, s *photo.Squared, m *photo.Mask) (out []reading, nx, ny int, err error) {
	w, h := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	nx, ny = max(1, int(math.Ceil(s.Length/cell-1e-9))), max(1, int(math.Ceil(s.Width/cell-1e-9)))
	toX, toY := columns(w, nx), columns(h, ny)
	var in []photo.Label
	var cols, rows []int
	if m != nil {
		in, cols, rows = inner(m, borderAway), columns(w, m.W), columns(h, m.H)
	}
	sums := make([][2]struct {
		v [3]float64
		n int
	}, nx)
	out = make([]reading, 0, nx*ny+nx)
	full := float64(w) * float64(h) / float64(nx*ny)
	flush := func(j int) {
		for i := range sums {
			for wood := range sums[i] {
				c := &sums[i][wood]
				// A cell of a few pixels is all border.
				if float64(c.n) < full/8 || c.n == 0 {
					continue
				}
				r := reading{
					x: (float64(i) + 0.5) * s.Length / float64(nx), y: s.Width * (1 - (float64(j)+0.5)/float64(ny)),
					i: i, j: ny - 1 - j, sap: wood == 1, n: float64(c.n) / full,
				}
				for k := range r.log {
					r.log[k] = c.v[k] / float64(c.n)
				}
				r.luma = luma(r.log)
				out = append(out, r)
			}
		}
		clear(sums)
	}
	for y := range h {
		if err := ctx.Err(); err != nil {
			return nil, 0, 0, err
		}
		if y > 0 && toY[y] != toY[y-1] {
			flush(toY[y-1])
		}
		row := s.Pix.Pix[y*s.Pix.Stride:]
		for x := range w {
			wood := 0
			if m != nil {
				switch in[rows[y]*m.W+cols[x]] {
				case photo.Heart:
				case photo.Sap:
					wood = 1
				default:
					continue
				}
			}
			px := row[4*x : 4*x+4]
			if clipped(px) {
				continue
			}
			c := &sums[toX[x]][wood]
			c.v[0] += logs[px[0]]
			c.v[1] += logs[px[1]]
			c.v[2] += logs[px[2]]
			c.n++
		}
	}
	flush(toY[h-1])
	return out, nx, ny, nil
}

// stepWithin is how many cells to each side of a border tell its step: 12 mm,
// in which light hardly changes but where a shadow's edge runs along it.
const stepWithin = 3

// borderSteps returns the steps of luma from heart to sap over the borders that
// run along the face, one for each place where a column of cells crosses one;
// light is what has been found of it so far.
func borderSteps(rs []reading, nx, ny int, light func(r *reading) float64) []float64 {
	grid := make([][2]int32, nx*ny) // readings + 1
	for k, r := range rs {
		wood := 0
		if r.sap {
			wood = 1
		}
		grid[r.j*nx+r.i][wood] = int32(k + 1)
	}
	// mean takes up to three readings of a wood going from row j by d.
	mean := func(i, j, d, wood int) (float64, bool) {
		var sum, n float64
		for k := 0; k < stepWithin; k++ {
			row := j + d*k
			if row < 0 || row >= ny {
				break
			}
			at := grid[row*nx+i][wood]
			if at == 0 {
				if k == 0 {
					continue
				}
				break
			}
			r := &rs[at-1]
			sum += r.n * (r.luma - light(r))
			n += r.n
		}
		return sum / n, n > 0.5
	}
	var steps []float64
	for i := range nx {
		for j := 0; j+1 < ny; j++ {
			for wood := range 2 {
				// This wood up to row j, the other from row j+1 on.
				one, other := grid[j*nx+i], grid[(j+1)*nx+i]
				if one[wood] == 0 || other[1-wood] == 0 || other[wood] != 0 && one[1-wood] != 0 {
					continue
				}
				a, okA := mean(i, j, -1, wood)
				b, okB := mean(i, j+1, 1, 1-wood)
				if okA && okB {
					if wood == 1 {
						a, b = b, a
					}
					steps = append(steps, b-a)
				}
			}
		}
	}
	return steps
}
