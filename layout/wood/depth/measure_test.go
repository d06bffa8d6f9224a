//go:build !race

package depth

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/trace"
)

// rastered draws a face at 1 px a mm, as the masks of truth are.
func rastered(t *testing.T, f face.BoardFace, like *photo.Mask) *photo.Mask {
	t.Helper()
	zones := make([]trace.Zone, len(f.Zones))
	for i, z := range f.Zones {
		zones[i] = trace.Zone{Kind: label(z.Kind), Polygon: z.Polygon}
	}
	m, err := trace.Rasterise(zones, label(f.Base), like.Length, like.Width, 1)
	if err != nil {
		t.Fatal(err)
	}
	if m.W != like.W || m.H != like.H {
		t.Fatalf("masks of %d x %d and %d x %d", m.W, m.H, like.W, like.H)
	}
	return m
}

// sapLineOf lists where heart meets sap in a mask, by column of the mask:
// points half way between cells, in cells.
func sapLineOf(m *photo.Mask) [][]geom.Point {
	out := make([][]geom.Point, m.W)
	differ := func(a, b photo.Label) bool {
		return a == photo.Heart && b == photo.Sap || a == photo.Sap && b == photo.Heart
	}
	for i := range m.W {
		for j := range m.H {
			if j+1 < m.H && differ(m.At(i, j), m.At(i, j+1)) {
				out[i] = append(out[i], geom.Pt(float64(i), float64(j)+0.5))
			}
			if i+1 < m.W && differ(m.At(i, j), m.At(i+1, j)) {
				out[i] = append(out[i], geom.Pt(float64(i)+0.5, float64(j)))
			}
		}
	}
	return out
}

// lost is the distance that counts where there is no other line to be near, mm.
const lost = 40.0

// nearest returns the distance from q to a line of sapLineOf, held to lost. A
// line that is not there any more has run off the board: the long edges of a
// board of so many cells count as lines.
func nearest(line [][]geom.Point, q geom.Point, high int) float64 {
	best := min(lost, q.Y+0.5, float64(high)-0.5-q.Y)
	from := int(q.X)
	for d := 0; float64(d)-1 < best; d++ {
		for _, i := range [2]int{from - d, from + d} {
			if i < 0 || i >= len(line) {
				continue
			}
			for _, p := range line[i] {
				best = math.Min(best, p.Dist(q))
			}
		}
	}
	return best
}

// apart compares two masks: mean and worst distance between their sap lines,
// both ways, mm, and how far their shares of sapwood differ.
func apart(a, b *photo.Mask) (mean, worst, share float64, any bool) {
	la, lb := sapLineOf(a), sapLineOf(b)
	n := 0.0
	for _, way := range [2][2][][]geom.Point{{la, lb}, {lb, la}} {
		for _, column := range way[0] {
			for _, q := range column {
				d := nearest(way[1], q, a.H)
				mean += d
				worst = math.Max(worst, d)
				n++
			}
		}
	}
	if n > 0 {
		mean /= n
	}
	return mean, worst, math.Abs(sapShare(a) - sapShare(b)), n > 0
}

func sapShare(m *photo.Mask) float64 {
	s := m.Shares()
	if s[photo.Heart]+s[photo.Sap] == 0 {
		return 0
	}
	return s[photo.Sap] / (s[photo.Heart] + s[photo.Sap])
}

// label is the mask's word for a kind of wood.
func label(k face.Kind) photo.Label {
	switch k {
	case face.Heart:
		return photo.Heart
	case face.Sap:
		return photo.Sap
	case face.Flaw:
		return photo.Flaw
	}
	return photo.Unseen
}
