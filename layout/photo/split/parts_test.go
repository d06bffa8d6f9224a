package split

import (
	"math"
	"slices"
	"testing"
)

// Worked by hand: [4 2; 2 3] x = [10 9] has x = [1.5 2].
func TestSolveByHand(t *testing.T) {
	b := []float64{10, 9}
	solve([][]float64{{4, 2}, {2, 3}}, [][]float64{b})
	if math.Abs(b[0]-1.5) > 1e-12 || math.Abs(b[1]-2) > 1e-12 {
		t.Errorf("got %v, want [1.5 2]", b)
	}
	// A matrix times its inverse is one.
	m := mat3{{4, 1, 0.5}, {1, 3, -1}, {0.5, -1, 2}}
	inv := m.inverse()
	for i := range 3 {
		var e vec3
		e[i] = 1
		got := m.mul(inv.mul(e))
		if got.sub(e).norm() > 1e-12 {
			t.Errorf("column %d of the product is %v", i, got)
		}
	}
	// By hand, along the first row: 4 (6 - 1) - 1 (2 + .5) + .5 (-1 - 1.5).
	if d := m.det(); math.Abs(d-16.25) > 1e-12 {
		t.Errorf("determinant %g, want 16.25", d)
	}
}

// The turn keeps lengths, and takes grey to lightness alone.
func TestTurn(t *testing.T) {
	v := vec3{.3, -1.2, 2}
	if d := turn(v).norm() - v.norm(); math.Abs(d) > 1e-12 {
		t.Errorf("lengths differ by %g", d)
	}
	if g := turn(vec3{2, 2, 2}); math.Abs(g[0]-2*math.Sqrt(3)) > 1e-12 || math.Abs(g[1]) > 1e-12 || math.Abs(g[2]) > 1e-12 {
		t.Errorf("grey turns to %v", g)
	}
}

// Against sorting each window, to a step of the median's levels.
func TestRunningMedian(t *testing.T) {
	const nx, ny, rx, ry = 17, 9, 3, 2
	v := make([]float64, nx*ny)
	for i := range v {
		v[i] = math.Sin(float64(i*i)) - float64(i%nx)/9
	}
	got := median2(v, nx, ny, rx, ry)
	for j := range ny {
		for i := range nx {
			var in []float64
			for b := max(j-ry, 0); b <= min(j+ry, ny-1); b++ {
				for a := max(i-rx, 0); a <= min(i+rx, nx-1); a++ {
					in = append(in, v[b*nx+a])
				}
			}
			slices.Sort(in)
			if want := in[len(in)/2]; math.Abs(got[j*nx+i]-want) > medianRange/medianLevels {
				t.Fatalf("(%d, %d): %g, want %g", i, j, got[j*nx+i], want)
			}
		}
	}
}

// Against trying all paths of a small grid.
func TestPathIsBest(t *testing.T) {
	const nx, ny = 5, 3
	gain := make([]float64, nx*(ny+1))
	for i := range gain {
		gain[i] = 2 * math.Cos(float64(3*i*i+1))
	}
	y, best := path(gain, nx, ny, 4, 1)
	score := func(y []int) float64 {
		s := 0.0
		for i, j := range y {
			s += gain[j*nx+i]
			if i > 0 {
				s -= bend(float64(j-y[i-1]), 4)
			}
		}
		return s
	}
	want := math.Inf(-1)
	for k := range 4 * 4 * 4 * 4 * 4 {
		p := make([]int, nx)
		for i := range p {
			p[i] = k >> (2 * i) & 3
		}
		want = math.Max(want, score(p))
	}
	if math.Abs(best-want) > 1e-9 || math.Abs(score(y)-want) > 1e-9 {
		t.Errorf("best %g, its path %g, want %g", best, score(y), want)
	}
}

// The field solves its own equations: the left side from a direct sum over
// neighbours.
func TestFieldIsSolved(t *testing.T) {
	g := newGrid(6, 5, 4, 1)
	for i := range g.f[0] {
		g.f[0][i] = math.Sin(float64(i))
		g.w[i] = 1
	}
	f := newField(g)
	tg, c, p := make([]float64, 30), make([]float64, 30), make([]float64, 30)
	for i := range tg {
		tg[i] = math.Copysign(1, math.Cos(float64(2*i)))
		c[i] = .1 + float64(i%3)
	}
	f.relax(tg, c, p, 200)
	for j := range 5 {
		for i := range 6 {
			at := j*6 + i
			left := c[at] * (p[at] - tg[at])
			if i > 0 {
				left += f.kx[at-1] * (p[at] - p[at-1])
			}
			if i < 5 {
				left += f.kx[at] * (p[at] - p[at+1])
			}
			if j > 0 {
				left += f.ky[at-6] * (p[at] - p[at-6])
			}
			if j < 4 {
				left += f.ky[at] * (p[at] - p[at+6])
			}
			if math.Abs(left) > 5e-3 {
				t.Fatalf("cell %d is off by %g", at, left)
			}
		}
	}
}

// A Gaussian keeps a constant and the mean of a spike's reach.
func TestSmoothKeepsWhatIsEven(t *testing.T) {
	v := make([]float64, 40*20)
	for i := range v {
		v[i] = 3
	}
	for _, x := range smooth(v, 40, 20, 2, 3) {
		if math.Abs(x-3) > 1e-12 {
			t.Fatalf("3 became %g", x)
		}
	}
	clear(v)
	v[10*40+20] = 1
	sum := 0.0
	for _, x := range smooth(v, 40, 20, 1.5, 2) {
		sum += x
	}
	if math.Abs(sum-1) > 1e-12 {
		t.Errorf("a spike of 1 holds %g", sum)
	}
}

// By hand: a change of light alone, from neutral to warm on the bright side,
// has no hue of sapwood; less red has, and so has yellow, which is less blue
// with green kept.
func TestHueOfLight(t *testing.T) {
	for _, c := range []struct {
		name string
		rgb  vec3
		sap  bool
	}{
		{"neutral", vec3{.5, .5, .5}, false},
		{"warm bright side", vec3{.6, .5, .4}, false},
		{"less red", vec3{.42, .60, .66}, true},
		{"yellow", vec3{.3, .34, .2}, true},
	} {
		if h := hueOf(turn(c.rgb)); h > leastHue != c.sap {
			t.Errorf("%s: %.3f", c.name, h)
		}
	}
}
