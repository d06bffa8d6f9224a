//go:build !race

package rings

import (
	"encoding/json"
	"image"
	_ "image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"heartside/layout/geom"
)

// sample is one end of a modelled board, with its truth.
type sample struct {
	name         string
	level        int
	end          *End
	pith         geom.Point
	mean, lo, hi float64 // heart radius

	far   bool   // the other end
	dir   string // where the masks are
	masks [2]string
	below [2]map[string]string // mm under a face
}

// samples reads the ends of the boards in testdata, or of the folder HEARTSIDE_BOARDS
// names.
func samples(t *testing.T) []sample {
	t.Helper()
	dir := os.Getenv("HEARTSIDE_BOARDS")
	if dir == "" {
		dir = "../../../testdata/boards"
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no boards in %s", dir)
	}
	var out []sample
	for _, name := range names {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var b struct {
			Name             string
			Level            int
			Width, Thickness float64
			Faces            map[string]struct {
				Mask  string
				Below map[string]string
			}
			Ends map[string]struct {
				Photo   string
				Corners [4][2]float64
				Pith    struct{ Across, Depth float64 }
				Heart   struct{ Mean, Min, Max float64 } `json:"heart_radius"`
			}
		}
		if err := json.Unmarshal(raw, &b); err != nil {
			t.Fatal(err)
		}
		for _, k := range []string{"a", "b"} {
			e := b.Ends[k]
			f, err := os.Open(filepath.Join(dir, e.Photo))
			if err != nil {
				t.Fatal(err)
			}
			img, _, err := image.Decode(f)
			f.Close()
			if err != nil {
				t.Fatal(err)
			}
			var c [4]geom.Point
			for i, p := range e.Corners {
				c[i] = geom.Pt(p[0], p[1])
			}
			end, err := Square(t.Context(), img, c, 0, b.Width, b.Thickness, DefaultScale)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, sample{b.Name + "-" + k, b.Level, end, geom.Pt(e.Pith.Across, e.Pith.Depth), e.Heart.Mean, e.Heart.Min, e.Heart.Max,
				k == "b", dir, [2]string{b.Faces["1"].Mask, b.Faces["2"].Mask}, [2]map[string]string{b.Faces["1"].Below, b.Faces["2"].Below}})
		}
	}
	return out
}

// clicksOn returns three clicks on a ring about the pith, well spread over the
// part of it that the section shows, each off by an error of 1 mm.
func clicksOn(s sample, rng *rand.Rand) Ring {
	var ring Ring
	widest := 0.0
	for r := 10.0; r < 400; r += 5 {
		// The longest stretch of this ring inside the section.
		first, last, run := -1, -1, -1
		const n = 720
		for k := range 2 * n {
			sin, cos := math.Sincos(float64(k) * 2 * math.Pi / n)
			p := s.pith.Add(geom.Pt(cos, sin).Mul(r))
			in := p.X > 2 && p.Y > 2 && p.X < s.end.Width-2 && p.Y < s.end.Thickness-2
			switch {
			case in && run < 0:
				run = k
			case !in:
				run = -1
			}
			if run >= 0 && k-run > last-first && k-run < n {
				first, last = run, k
			}
		}
		// The sagitta over the click error is what counts.
		arc := float64(last-first) * math.Pi / n
		if arc <= 0 {
			continue
		}
		arc = math.Min(arc, math.Pi*0.6)
		if sag := r * (1 - math.Cos(arc)); sag/math.Sqrt(r) > widest {
			widest = sag / math.Sqrt(r)
			ring = nil
			for _, k := range []float64{0, 0.5, 1} {
				a := (float64(first) + k*2*arc/(2*math.Pi)*n) * 2 * math.Pi / n
				ring = append(ring, s.pith.Add(geom.Pt(math.Cos(a), math.Sin(a)).Mul(r)).Add(geom.Pt(rng.NormFloat64(), rng.NormFloat64()).Mul(1/math.Sqrt2)))
			}
		}
	}
	return ring
}

func TestPithOfModelledEnds(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	clean, alone, clicked := 0, 0, 0
	for _, s := range samples(t) {
		auto, err := Find(t.Context(), s.end, Clicks{})
		if err != nil {
			t.Fatal(err)
		}
		c := Clicks{Rings: []Ring{clicksOn(s, rng)}}
		three, err := FromClicks(c)
		if err != nil {
			t.Fatal(err)
		}
		both, err := Find(t.Context(), s.end, c)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%-18s auto %5v off %5.1f +-%5.1f sure %.2f | three %5v off %5.1f +-%5.1f | both %5v off %5.1f +-%4.1f", s.name,
			auto.Found, auto.At.Dist(s.pith), auto.Error, auto.Sure, three.Found, three.At.Dist(s.pith), three.Error, both.Found, both.At.Dist(s.pith), both.Error)
		// What is called found must be about where it says it is.
		for _, p := range []*Pith{auto, both} {
			if p.Found && p.At.Dist(s.pith) > math.Max(10, 3*p.Error) {
				t.Errorf("%s: found %.1f mm off, said %.1f", s.name, p.At.Dist(s.pith), p.Error)
			}
		}
		if s.level <= 3 {
			clean++
			if auto.Found && auto.At.Dist(s.pith) <= 10 {
				alone++
			}
			if both.At.Dist(s.pith) <= 10 {
				clicked++
			}
		}
	}
	t.Logf("levels 1 to 3: of %d ends, pith within 10 mm without clicks on %d, with three clicks on %d", clean, alone, clicked)
	// With three clicks; without, half is enough to be of use.
	if clicked*100 < clean*85 || alone*2 < clean {
		t.Error("too few")
	}
}

func TestHeartOfModelledEnds(t *testing.T) {
	near, seen := 0, 0
	for _, s := range samples(t) {
		h, err := FindHeart(t.Context(), s.end, s.pith)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%-18s true %5.1f (%5.1f to %5.1f) seen %5v %5.1f (%5.1f to %5.1f) +-%4.1f off %5.1f%% step %.1f %s", s.name, s.mean, s.lo, s.hi, h.Seen, h.Radius, h.Least, h.Most, h.Error, 100*(h.Radius/s.mean-1), h.Step, h.Why)
		if s.level <= 3 && h.Seen {
			seen++
			// The edge seen lies where the true outline runs, within 2 mm.
			if h.Radius >= s.lo-2 && h.Radius <= s.hi+2 {
				near++
			}
		}
	}
	if near < seen || seen == 0 {
		t.Errorf("%d of %d edges seen lie on the outline", near, seen)
	}
}
