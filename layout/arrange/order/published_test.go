package order

import (
	"math"
	"slices"
	"testing"
)

// tour asks for the shortest tour from city 0 through all others and back: a
// strip is a city in one state, city 0 is pinned in front, and the way back is
// a cost of the last place.
func tour(dist [][]float64) *Problem {
	m := len(dist)
	p := &Problem{Strips: m, Places: m, Fixed: []Fixed{{0, 0, 0}}}
	p.Single = make([]float64, m*m*States)
	p.Pair = make([]float64, m*m*States*States)
	for i := range m {
		p.Allowed = append(p.Allowed, 1)
		p.Single[((m-1)*m+i)*States] = dist[i][0]
		for j := range m {
			p.Pair[(i*States)*m*States+j*States] = dist[i][j]
		}
	}
	return p
}

// Instances gr17 and burma14 of TSPLIB (G. Reinelt, "TSPLIB - a traveling
// salesman problem library", ORSA J. Computing 3, 1991). The data are those of
// the library; shortest tours of 2085 and 3323 are proved there.

// gr17 as the lower triangle of its distances.
var gr17 = [][]float64{
	{},
	{633},
	{257, 390},
	{91, 661, 228},
	{412, 227, 169, 383},
	{150, 488, 112, 120, 267},
	{80, 572, 196, 77, 351, 63},
	{134, 530, 154, 105, 309, 34, 29},
	{259, 555, 372, 175, 338, 264, 232, 249},
	{505, 289, 262, 476, 196, 360, 444, 402, 495},
	{353, 282, 110, 324, 61, 208, 292, 250, 352, 154},
	{324, 638, 437, 240, 421, 329, 297, 314, 95, 578, 435},
	{70, 567, 191, 27, 346, 83, 47, 68, 189, 439, 287, 254},
	{211, 466, 74, 182, 243, 105, 150, 108, 326, 336, 184, 391, 145},
	{268, 420, 53, 239, 199, 123, 207, 165, 383, 240, 140, 448, 202, 57},
	{246, 745, 472, 237, 528, 364, 332, 349, 202, 685, 542, 157, 289, 426, 483},
	{121, 518, 142, 84, 297, 35, 29, 36, 236, 390, 238, 301, 55, 96, 153, 336},
}

// burma14: latitude and longitude in degrees and minutes (16.47 is 16 degrees
// 47 minutes).
var burma14 = [][2]float64{
	{16.47, 96.10}, {16.47, 94.44}, {20.09, 92.54}, {22.39, 93.37}, {25.23, 97.24},
	{22.00, 96.05}, {20.47, 97.02}, {17.20, 96.29}, {16.30, 97.38}, {14.05, 98.12},
	{16.53, 97.38}, {21.52, 95.59}, {19.41, 97.13}, {20.09, 94.55},
}

// geo is the library's distance between two places, in whole km.
func geo(a, b [2]float64) float64 {
	rad := func(x float64) float64 {
		deg := math.Trunc(x)
		return 3.141592 * (deg + 5*(x-deg)/3) / 180
	}
	q1 := math.Cos(rad(a[1]) - rad(b[1]))
	q2 := math.Cos(rad(a[0]) - rad(b[0]))
	q3 := math.Cos(rad(a[0]) + rad(b[0]))
	return math.Trunc(6378.388*math.Acos(0.5*((1+q1)*q2-(1-q1)*q3)) + 1)
}

func published() map[string]*Problem {
	a := make([][]float64, len(gr17))
	for i := range a {
		a[i] = make([]float64, len(gr17))
		for j := range i {
			a[i][j], a[j][i] = gr17[i][j], gr17[i][j]
		}
	}
	b := make([][]float64, len(burma14))
	for i := range b {
		b[i] = make([]float64, len(burma14))
		for j := range b {
			if i != j {
				b[i][j] = geo(burma14[i], burma14[j])
			}
		}
	}
	return map[string]*Problem{"gr17": tour(a), "burma14": tour(b)}
}

func TestPublishedTours(t *testing.T) {
	for name, want := range map[string]float64{"gr17": 2085, "burma14": 3323} {
		p := published()[name]
		got, err := Best(t.Context(), p, 2)
		if err != nil || len(got) != 2 {
			t.Fatal(name, got, err)
		}
		if got[0].Cost != want {
			t.Errorf("%s: shortest tour %v, published %v", name, got[0].Cost, want)
		}
		// The second is the first the other way round.
		back := slices.Clone(got[0].Strips[1:])
		slices.Reverse(back)
		if got[1].Cost != want || !slices.Equal(got[1].Strips[1:], back) {
			t.Errorf("%s: second tour %v, want %v reversed", name, got[1], got[0])
		}
		bound, err := Bound(t.Context(), p)
		if err != nil || bound > want {
			t.Errorf("%s: bound %v over the published optimum %v, %v", name, bound, want, err)
		}
		t.Logf("%s: bound %.1f of %v", name, bound, want)
	}
}
