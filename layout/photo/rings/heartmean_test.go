//go:build !race

package rings

import (
	"image"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sort"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// borderOf returns where the true border of the heartwood on a face, or on the
// plane below it, meets an end: across, mm. Row 0 of a mask is the other edge
// on face 1 and, the board rolled over, the marked edge on face 2.
func borderOf(t *testing.T, path string, width float64, face int, far bool) (out []float64) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	m, ok := img.(*image.Gray)
	if !ok {
		t.Fatalf("%s is not grey", path)
	}
	x, h := 0, m.Rect.Dy()
	if far {
		x = m.Rect.Dx() - 1
	}
	label := func(row int) photo.Label {
		if face == 1 {
			row = h - 1 - row
		}
		return photo.Label(m.GrayAt(x, row).Y)
	}
	for j := 1; j < h; j++ {
		a, b := label(j-1), label(j)
		if a != b && (a == photo.Heart || a == photo.Sap) && (b == photo.Heart || b == photo.Sap) {
			out = append(out, float64(j)*width/float64(h))
		}
	}
	return out
}

// borders returns the true border on both faces, and with below on the planes
// 2, 4 and 6 mm under them as well, where the photographs come with those.
func (s sample) borders(t *testing.T, below bool) (out []geom.Point) {
	t.Helper()
	for face := 1; face <= 2; face++ {
		add := func(path string, down float64) {
			if face == 2 {
				down = s.end.Thickness - down
			}
			for _, x := range borderOf(t, filepath.Join(s.dir, path), s.end.Width, face, s.far) {
				out = append(out, geom.Pt(x, down))
			}
		}
		add(s.masks[face-1], 0)
		if below {
			for _, k := range []string{"2", "4", "6"} {
				if p, ok := s.below[face-1][k]; ok {
					add(p, float64(k[0]-'0'))
				}
			}
		}
	}
	return out
}

// What an end can tell at best: the true border, about the true pith, by its
// mean radius. The arc lies between the least and the greatest true radius, but
// is far from the mean all the way round where the heartwood is out of round.
// This tests the truth and the reading of it, not the package.
func TestTrueArcIsNotTheMeanAllRound(t *testing.T) {
	n, within, inside := 0, 0, 0
	for _, s := range samples(t) {
		ps := s.borders(t, true)
		if len(ps) == 0 {
			t.Logf("%-18s true %5.1f: no border on or under either face", s.name, s.mean)
			continue
		}
		h, err := HeartFromClicks(s.pith, ps)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%-18s true %5.1f (%5.1f to %5.1f) arc %5.1f, off %5.1f%%, %2.0f%% of the directions, by kriging off %5.1f%%", s.name, s.mean, s.lo, s.hi,
			h.Radius, 100*(h.Radius/s.mean-1), 100*h.Share, 100*(h.Mean/s.mean-1))
		if s.level > 3 {
			continue
		}
		n++
		if math.Abs(h.Radius/s.mean-1) <= 0.05 {
			within++
		}
		if h.Radius >= s.lo-2 && h.Radius <= s.hi+2 {
			inside++
		}
	}
	t.Logf("levels 1 to 3: of %d ends with a border, the true arc is within 5 %% of the mean on %d, within the least and greatest on %d", n, within, inside)
	if inside < n || n == 0 {
		t.Error("a true arc lies off the true outline: the masks are read wrongly")
	}
}

// The heartwood with three clicks on a ring, as a maker works: how far the arc
// is from the true arc, and whether Low to High holds the true mean.
func TestHeartWithThreeClicks(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	var arcs, means, bare []float64
	n, holds, all, allHold := 0, 0, 0, 0
	for _, s := range samples(t) {
		c := Clicks{Rings: []Ring{clicksOn(s, rng)}}
		// The border on the faces is known to 2 mm, and the knots on it.
		faces := s.borders(t, false)
		for i := range faces {
			faces[i].X += 2 * rng.NormFloat64()
		}
		p, err := Find(t.Context(), s.end, c)
		if err != nil {
			t.Fatal(err)
		}
		plain, err := FindHeartKnown(t.Context(), s.end, p, nil)
		if err != nil {
			t.Fatal(err)
		}
		h, err := FindHeartKnown(t.Context(), s.end, p, faces)
		if err != nil {
			t.Fatal(err)
		}
		truth := s.borders(t, true)
		if len(truth) == 0 || !p.Found {
			t.Logf("%-18s true %5.1f: border on the faces %d, pith found %v", s.name, s.mean, len(faces), p.Found)
			continue
		}
		o, err := HeartFromClicks(s.pith, truth)
		if err != nil {
			t.Fatal(err)
		}
		arc, mean := h.Radius/o.Radius-1, h.Mean/s.mean-1
		held := h.Seen && h.Low <= s.mean && s.mean <= h.High
		t.Logf("%-18s true mean %5.1f arc %5.1f | picture %5v arc %5.1f%% mean %5.1f%% | with faces (%d) arc %5.1f%% mean %5.1f%% (%5.1f to %5.1f) %v", s.name, s.mean, o.Radius,
			plain.Seen, 100*(plain.Radius/o.Radius-1), 100*(plain.Mean/s.mean-1), len(faces), 100*arc, 100*mean, h.Low, h.High, held)
		all++
		if held {
			allHold++
		}
		if s.level <= 3 && h.Seen {
			n++
			if held {
				holds++
			}
			arcs, means = append(arcs, math.Abs(arc)), append(means, math.Abs(mean))
			if plain.Seen {
				bare = append(bare, math.Abs(plain.Radius/o.Radius-1))
			}
		}
	}
	within := func(v []float64) int {
		sort.Float64s(v)
		return sort.SearchFloat64s(v, 0.05)
	}
	arcsIn := within(arcs)
	t.Logf("levels 1 to 3, %d ends: arc within 5 %% of the true arc on %d (%d of %d without the faces), mean within 5 %% of the true mean on %d, interval holds the mean on %d; all levels: holds on %d of %d",
		n, arcsIn, within(bare), len(bare), within(means), holds, allHold, all)
	// The arc nine times of ten; the interval says 19 of 20.
	if n == 0 || arcsIn*10 < n*8 || holds*10 < n*9 {
		t.Error("too few")
	}
}
