package outline

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// noisyPlane is a picture of chance colours.
func noisyPlane(w, h int) *plane {
	rng := rand.New(rand.NewPCG(5, 7))
	p := &plane{w: w, h: h, factor: 2, pix: make([]sample, w*h)}
	for i := range p.pix {
		for c := range p.pix[i] {
			p.pix[i][c] = 255 * rng.Float32()
		}
	}
	return p
}

// Every line judged by its pieces is as good as judged place by place.
func TestScoresByPiecesAndByPlaces(t *testing.T) {
	f := profileOf(noisyPlane(200, 120), photo.Lens{}, geom.Pt(20, 40), geom.Pt(180, 70), 1, 7, wideWindow)
	const reach, lean = 7, 6
	wide := 2*reach + 1
	grid := f.scores(reach, lean)
	for k, got := range grid {
		a, b := k/wide-reach, k%wide-reach
		want := 0.0
		if d := b - a; d >= -lean && d <= lean {
			want = f.along(float64(a), float64(b)).score
		}
		if math.Abs(got-want) > 1e-5 {
			t.Errorf("from %d to %d: %.6f, by places %.6f", a, b, got, want)
		}
	}
}

// Equal scores keep their order; the rest fall.
func TestRanked(t *testing.T) {
	of := []float64{2, 7, math.Inf(-1), 7, 3}
	if got := ranked(len(of), func(i int) float64 { return of[i] }); !slices.Equal(got, []int{1, 3, 4, 0, 2}) {
		t.Errorf("ranked %v", got)
	}
	if got := ranked(0, nil); len(got) != 0 {
		t.Errorf("ranked %v of nothing", got)
	}
}

// Between four pixels the colours mix by distance, beyond the border that of
// the border stands: both ways of reading, worked by hand. The middles of the
// pixels lie at 0.5 and 1.5.
func TestReadersMixNeighbours(t *testing.T) {
	p := &plane{w: 2, h: 2, factor: 4, pix: []sample{{0, 0, 8}, {100, 0, 8}, {200, 40, 8}, {60, 80, 8}}}
	for _, c := range []struct {
		x, y float64
		want sample
	}{
		{0.5, 0.5, sample{0, 0, 8}},
		{1.5, 0.5, sample{100, 0, 8}},
		{1, 1, sample{90, 30, 8}},       // the mean of all four
		{0.75, 1.5, sample{165, 50, 8}}, // a quarter of the way along the lower two
		{-9, 1, sample{100, 20, 8}},     // the left two
		{99, 99, sample{60, 80, 8}},     // the last pixel
		{1.5, -0.25, sample{100, 0, 8}}, // above it
	} {
		to := []sample{{1, 1, 1}}
		scaled{p}.add(to, []place{{4 * c.x, 4 * c.y}}, 2)
		if got, s := p.at(c.x, c.y), (sample{1 + 2*c.want[0], 1 + 2*c.want[1], 1 + 2*c.want[2]}); got != c.want || to[0] != s {
			t.Errorf("at %g, %g: %v, want %v; twice that and 1: %v", c.x, c.y, got, c.want, to[0])
		}
	}
}
