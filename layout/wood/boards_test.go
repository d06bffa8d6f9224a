//go:build !race

package wood

import (
	"encoding/json"
	"image"
	_ "image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"heartside/layout/photo"
)

// board is a modelled board with its truth: masks of both faces and the pith
// along the length.
type board struct {
	Name                     string
	Level                    int
	Cut                      string
	Length, Width, Thickness float64
	Faces                    map[string]struct{ Mask string }
	Pith                     []struct {
		X, Across, Depth float64
		HeartRadius      float64 `json:"heart_radius"`
	}
	mask [2]*photo.Mask
}

func (b *board) faces() Faces {
	return Faces{b.Length, b.Width, b.Thickness, [2]Face{FromMask(b.mask[0]), FromMask(b.mask[1])}}
}

// boards reads the boards of testdata, or of the folder that HEARTSIDE_BOARDS
// names.
func boards(t *testing.T) []*board {
	t.Helper()
	dir := os.Getenv("HEARTSIDE_BOARDS")
	if dir == "" {
		dir = "../../testdata/boards"
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no boards in %s", dir)
	}
	var out []*board
	for _, name := range names {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		b := &board{}
		if err := json.Unmarshal(raw, b); err != nil {
			t.Fatal(err)
		}
		for i, k := range []string{"1", "2"} {
			b.mask[i] = readMask(t, filepath.Join(dir, b.Faces[k].Mask), b.Length, b.Width)
		}
		out = append(out, b)
	}
	return out
}

func readMask(t *testing.T, name string, length, width float64) *photo.Mask {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	g, ok := img.(*image.Gray)
	if !ok {
		t.Fatalf("%s: %T", name, img)
	}
	m := &photo.Mask{W: g.Rect.Dx(), H: g.Rect.Dy(), Length: length, Width: width}
	for j := range m.H {
		for i := range m.W {
			m.Pix = append(m.Pix, photo.Label(g.GrayAt(i, j).Y))
		}
	}
	return m
}

func TestBoundsHoldThePithOfModelledBoards(t *testing.T) {
	for _, b := range boards(t) {
		l, err := Read(t.Context(), b.faces())
		if err != nil {
			t.Fatal(err)
		}
		var across, depth, radius float64
		n := float64(len(b.Pith))
		for _, p := range b.Pith {
			across += p.Across / n
			depth += p.Depth / n
			radius += p.HeartRadius / n
			if !l.Across.Holds(p.Across) || !l.Depth.Holds(p.Depth) || !l.HeartRadius.Holds(p.HeartRadius) {
				t.Errorf("%s at %g: pith %g, %g, radius %g not in %v, %v, %v", b.Name, p.X, p.Across, p.Depth, p.HeartRadius, l.Across, l.Depth, l.HeartRadius)
			}
		}
		t.Logf("%-16s %-7s across %4.0f in %4.0f, depth %4.0f in %4.0f, radius %3.0f in %3.0f, bark %q %.2f", b.Name, b.Cut, across, l.Across, depth, l.Depth, radius, l.HeartRadius, l.Bark, l.Sure)
		truth := BarkFace1
		if depth < b.Thickness/2 {
			truth = BarkFace2
		}
		if l.Bark != BarkUnknown && l.Bark != BarkNone && l.Bark != truth {
			t.Errorf("%s: bark side %s, want %s", b.Name, l.Bark, truth)
		}
	}
}

// roughened returns a mask as a hand or a machine would draw it: the edge of
// the heartwood off by a wandering error of about 2 mm, and a few islands.
func roughened(m *photo.Mask, rng *rand.Rand) *photo.Mask {
	out := *m
	out.Pix = append([]photo.Label(nil), m.Pix...)
	shift := 0.0
	for i := range m.W {
		shift = 0.95*shift + 0.6*rng.NormFloat64() // settles at a spread of 1.9
		for j := range m.H {
			from := min(max(j+int(math.Round(shift)), 0), m.H-1)
			if l := m.At(i, from); l != photo.Outside && m.At(i, j) != photo.Outside {
				out.Pix[j*m.W+i] = l
			}
		}
	}
	for range 4 {
		x, y, r := rng.IntN(m.W), rng.IntN(m.H), 4+rng.IntN(8)
		for j := max(0, y-r); j < min(m.H, y+r); j++ {
			for i := max(0, x-2*r); i < min(m.W, x+2*r); i++ {
				switch out.Pix[j*m.W+i] {
				case photo.Heart:
					out.Pix[j*m.W+i] = photo.Sap
				case photo.Sap:
					out.Pix[j*m.W+i] = photo.Heart
				}
			}
		}
	}
	return &out
}

func TestWrongSecondFacesOfModelledBoardsAreCaught(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for _, b := range boards(t) {
		for pass, name := range []string{"true", "rough"} {
			f := b.faces()
			if pass > 0 {
				f.Side[0], f.Side[1] = FromMask(roughened(b.mask[0], rng)), FromMask(roughened(b.mask[1], rng))
			}
			right := f.Side[1]
			for v := AsGiven; v <= Both; v++ {
				f.Side[1] = right.Turn(v, f.Length, f.Width)
				fit, err := Compare(t.Context(), f)
				if err != nil {
					t.Fatal(err)
				}
				if fit.Verdict != CannotTell && (fit.Verdict == Fits) != (v == AsGiven) {
					t.Errorf("%s, %s mask, variant %d: %s", b.Name, name, v, fit.Verdict)
				}
				t.Logf("%-16s %-5s variant %d: %-11s %.3f %s", b.Name, name, v, fit.Verdict, fit.Chance, fit.Why)
			}
		}
	}
}
