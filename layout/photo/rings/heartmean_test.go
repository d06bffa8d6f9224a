//go:build !race

package rings

import (
	"image"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
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

// within counts the numbers no farther from 0 than limit.
func within(v []float64, limit float64) (n int) {
	for _, x := range v {
		if math.Abs(x) <= limit {
			n++
		}
	}
	return n
}

// What an end can tell at best: the true border about the true pith. Its mean
// radius lies between the least and the greatest true radius, but often far
// from the mean all the way round. This tests how the truth is read.
func TestTrueArcIsNotTheMeanAllRound(t *testing.T) {
	var off []float64
	inside := 0
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
		t.Logf("%-18s true %5.1f (%5.1f to %5.1f) arc %5.1f off %5.1f%%, Mean off %5.1f%%", s.name, s.mean, s.lo, s.hi, h.Radius, 100*(h.Radius/s.mean-1), 100*(h.Mean/s.mean-1))
		if s.level > 3 {
			continue
		}
		off = append(off, h.Radius/s.mean-1)
		if h.Radius >= s.lo-2 && h.Radius <= s.hi+2 {
			inside++
		}
	}
	t.Logf("levels 1 to 3, %d ends with a border: true arc within 5 %% of the true mean on %d, between least and greatest on %d", len(off), within(off, 0.05), inside)
	if len(off) == 0 || inside < len(off) {
		t.Error("a true arc lies off the true outline: the masks are read wrongly")
	}
}

// The heartwood after three clicks on a ring, as a maker works: Radius against
// the true arc, and whether Low to High holds the true mean. The border on the
// faces is given as known to 2 mm.
func TestHeartWithThreeClicks(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	var arcs, bare, means, radii []float64
	holds, missed := 0, 0
	for _, s := range samples(t) {
		c := Clicks{Rings: []Ring{clicksOn(s, rng)}}
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
		if len(truth) == 0 {
			t.Logf("%-18s true mean %5.1f, no border on the faces: picture says seen %v %5.1f", s.name, s.mean, plain.Seen, plain.Radius)
			continue
		}
		o, err := HeartFromClicks(s.pith, truth)
		if err != nil {
			t.Fatal(err)
		}
		held := h.Seen && h.Low <= s.mean && s.mean <= h.High
		t.Logf("%-18s pith off %4.1f | true mean %5.1f arc %5.1f | picture alone %5v arc %6.1f%% | with faces (%d) arc %5.1f%%, of the true mean: Radius %5.1f%% Mean %5.1f%% (%5.1f to %5.1f) %v", s.name, p.At.Dist(s.pith), s.mean, o.Radius,
			plain.Seen, 100*(plain.Radius/o.Radius-1), len(faces), 100*(h.Radius/o.Radius-1), 100*(h.Radius/s.mean-1), 100*(h.Mean/s.mean-1), h.Low, h.High, held)
		if s.level > 3 {
			continue
		}
		if !h.Seen {
			missed++
			continue
		}
		if held {
			holds++
		}
		arcs, radii, means = append(arcs, h.Radius/o.Radius-1), append(radii, h.Radius/s.mean-1), append(means, h.Mean/s.mean-1)
		if plain.Seen {
			bare = append(bare, plain.Radius/o.Radius-1)
		}
	}
	n := len(arcs)
	t.Logf("levels 1 to 3, %d ends (%d missed): within 5 %% of the true arc %d with the faces, %d of %d from the picture alone; of the true mean Radius %d, Mean %d; the interval holds the true mean on %d",
		n, missed, within(arcs, 0.05), within(bare, 0.05), len(bare), within(radii, 0.05), within(means, 0.05), holds)
	if n == 0 || within(arcs, 0.05)*10 < n*8 || holds*10 < n*9 {
		t.Error("too few")
	}
}
