//go:build !race

package figure

import (
	"context"
	"encoding/json"
	"image"
	"image/draw"
	_ "image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// modelled is a modelled board with what its truth tells of the rings: where
// the pith passes at nine places.
type modelled struct {
	Name                     string
	Level                    int
	Length, Width, Thickness float64
	Faces                    map[string]struct {
		Photo   string
		Corners [][2]float64
		Bow     float64 `json:"lens_k1"`
	}
	Pith []struct{ X, Across, Depth float64 }
}

// along is the direction of the rings at a place of face 1 or 2: a ring stays
// at one distance from the pith, r^2 = (y - a(x))^2 + d(x)^2, so that dy/dx =
// a' - d d' / (y - a). It leaves out that the modelled rings are no circles and
// that the pith wanders between the nine places.
func (b *modelled) along(face int, p geom.Point) float64 {
	k := len(b.Pith) - 2
	for k > 0 && b.Pith[k].X > p.X {
		k--
	}
	q, r := b.Pith[k], b.Pith[k+1]
	h := r.X - q.X
	u := (p.X - q.X) / h
	a, da := q.Across+u*(r.Across-q.Across), (r.Across-q.Across)/h
	d, dd := q.Depth+u*(r.Depth-q.Depth), (r.Depth-q.Depth)/h
	if face == 1 {
		return within(math.Atan2(da*(p.Y-a)-d*dd, p.Y-a) * 180 / math.Pi)
	}
	y := b.Width - p.Y - a
	d -= b.Thickness
	return within(-math.Atan2(da*y-d*dd, y) * 180 / math.Pi)
}

func (b *modelled) mapOf(t *testing.T, dir string, face int) *Map {
	t.Helper()
	f := b.Faces[strconv.Itoa(face)]
	file, err := os.Open(filepath.Join(dir, f.Photo))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	src, _, err := image.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewRGBA(src.Bounds())
	draw.Draw(img, img.Rect, src, src.Bounds().Min, draw.Src)
	v := photo.View{Bow: f.Bow}
	for i, c := range f.Corners {
		v.Corners[i] = geom.Pt(c[0], c[1])
	}
	s, err := photo.Square(context.Background(), img, v, b.Length, b.Width, 1)
	if err != nil {
		t.Fatal(err)
	}
	m, err := FromImage(context.Background(), s.Pix, b.Length, b.Width, 0)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// On modelled boards with clear rings most cells slant the way the pith says,
// where it says more than 1.5 degrees. Half of them would by chance. On woods
// where fibre and streaks are stronger than rings the direction is theirs, of
// which the truth says nothing; there, as everywhere, it is nearly along the
// board.
func TestModelledBoards(t *testing.T) {
	dir := "../../testdata/boards"
	if d := os.Getenv("HEARTSIDE_BOARDS"); d != "" {
		dir = d
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no boards in %s", dir)
	}
	right, all, clear := 0, 0, 0
	for _, name := range names {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		b := &modelled{}
		if err := json.Unmarshal(raw, b); err != nil {
			t.Fatal(err)
		}
		if b.Level > 2 || len(b.Pith) < 2 {
			continue
		}
		for face := 1; face <= 2; face++ {
			m := b.mapOf(t, dir, face)
			var coherence, slant []float64
			for _, c := range m.Cells {
				coherence = append(coherence, c.Coherence)
				slant = append(slant, math.Abs(c.Angle))
			}
			slices.Sort(coherence)
			slices.Sort(slant)
			if s := slant[len(slant)/2]; s > 6 {
				t.Errorf("%s face %d: half of the cells slant by more than %.1f degrees", b.Name, face, s)
			}
			if coherence[len(coherence)/2] < 0.9 {
				continue
			}
			clear++
			for k, c := range m.Cells {
				want := b.along(face, m.Centre(k%m.NX, k/m.NX))
				if c.Coherence < 0.4 || math.Abs(want) < 1.5 || math.Abs(want) > 60 {
					continue
				}
				all++
				if want*c.Angle > 0 {
					right++
				}
			}
		}
	}
	t.Logf("%d of %d cells of %d faces slant the right way", right, all, clear)
	if clear == 0 || all < 50 || float64(right) < 0.67*float64(all) {
		t.Errorf("%d of %d cells of %d faces slant the right way", right, all, clear)
	}
}
