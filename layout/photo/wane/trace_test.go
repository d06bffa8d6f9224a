package wane

import (
	"context"
	"errors"
	"image"
	"math"
	"slices"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

func cases() map[string]scene {
	long := scene{length: 1600, width: 330, seed: 3, waves: 24, heart: walnut, sap: pale, sapWide: 28, ground: concrete}
	with := func(change func(*scene)) scene {
		s := long
		change(&s)
		return s
	}
	return map[string]scene{
		"walnut on concrete":               long,
		"walnut on a dark wood floor":      with(func(s *scene) { s.ground, s.seed = floor, 8 }),
		"walnut, no sapwood, dark floor":   with(func(s *scene) { s.ground, s.sapWide, s.seed = floor, -20, 11 }),
		"walnut on cloth, bark, shadow":    with(func(s *scene) { s.ground, s.bark, s.shadow, s.seed = cloth, 5, 14, 5 }),
		"oak on grass, tapered, uneven":    with(func(s *scene) { s.ground, s.heart, s.taper, s.uneven, s.seed = grass, oak, 0.35, 0.3, 7 }),
		"pale sapwood on a pale bench":     with(func(s *scene) { s.ground, s.seed = bench, 13 }),
		"pale sapwood on a bench, shadow":  with(func(s *scene) { s.ground, s.shadow, s.seed = bench, 10, 21 }),
		"oak on concrete with its shadow":  with(func(s *scene) { s.heart, s.shadow, s.seed = oak, 20, 17 }),
		"short and wide on a floor":        with(func(s *scene) { s.length, s.width, s.ground, s.seed = 700, 420, floor, 23 }),
		"walnut, pale sap, sap like floor": with(func(s *scene) { s.ground, s.sap, s.seed = floor, [3]float64{120, 92, 70}, 29 }),
	}
}

// The true edges are sums of sines drawn by the test. 95 of 100 places of the
// outline lie within 1.5 mm of them, which the smoothing (0.7 mm), the cells
// (1 mm) and the shortest bumps drawn (2 mm high on 36 mm) leave over.
func TestTraceFollowsEdges(t *testing.T) {
	for name, s := range cases() {
		t.Run(name, func(t *testing.T) {
			const margin = 60
			pic, around := s.flat(margin)
			f, err := Trace(context.Background(), pic, around)
			if err != nil {
				t.Fatal(err)
			}
			e := s.errors(f.Ring, margin)
			slices.Sort(e)
			t.Logf("error %.1f mm in the middle, %.1f on 95 of 100, %.1f at most; %d points, %.2f sure, vague %.0f",
				e[len(e)/2], e[len(e)*95/100], e[len(e)-1], len(f.Ring), f.Sure, f.Vague)
			if v := e[len(e)*95/100]; v > 1.5 {
				t.Errorf("95 of 100 places within %.2f mm of the edges, want 1.5", v)
			}
			if f.Sure < 0.5 && s.bark == 0 {
				t.Errorf("%.2f sure of a right outline", f.Sure)
			}
			if err := f.Ring.Validate(); err != nil || f.Ring.SignedArea() < 0 {
				t.Errorf("the ring is no board: %v", err)
			}
			// A sawn end is straight: two corners lie on it.
			for _, x := range []float64{around.Min.X, around.Max.X} {
				n := 0
				for _, p := range f.Ring {
					if p.X == x {
						n++
					}
				}
				if n != 2 {
					t.Errorf("%d corners on the end at %g, want 2", n, x)
				}
			}
			if len(f.Ring) > 120 {
				t.Errorf("%d corners are too many to drag", len(f.Ring))
			}
		})
	}
}

func TestTraceSaysWhereItCannotTell(t *testing.T) {
	same := func(s *scene, x, y float64) [3]float64 {
		g := 0.05*noise(s.seed+70, x/160, y/3) + 0.06*noise(s.seed+71, x/300, y/14) + 0.03*noise(s.seed+72, x/4, y/1.5)
		return lit(s.heart, 1+g)
	}
	s := scene{length: 900, width: 250, seed: 4, waves: 15, heart: walnut, sap: pale, sapWide: -20, ground: same}
	pic, around := s.flat(60)
	f, err := Trace(context.Background(), pic, around)
	if err != nil {
		t.Fatal(err)
	}
	if f.Sure >= 0.5 {
		t.Errorf("%.2f sure of a board on ground of its own wood", f.Sure)
	}
	// Half of the board on ground of its own wood: that half is vague.
	s.ground = func(s *scene, x, y float64) [3]float64 {
		if x > 450 {
			return same(s, x, y)
		}
		return concrete(s, x, y)
	}
	pic, around = s.flat(60)
	if f, err = Trace(context.Background(), pic, around); err != nil {
		t.Fatal(err)
	}
	told := [2]float64{}
	for _, v := range f.Vague {
		for x := v[0]; x < v[1]; x++ {
			told[min(int((x-60)/450), 1)] += 1. / 450
		}
	}
	if told[0] > 0.2 || told[1] < 0.5 {
		t.Errorf("vague on %.2f of the clear half and %.2f of the other", told[0], told[1])
	}
}

func TestTraceIsTheSameTwiceAndMirrored(t *testing.T) {
	s := scene{length: 500, width: 160, seed: 6, waves: 10, heart: walnut, sap: pale, sapWide: 15, ground: cloth}
	pic, around := s.flat(40)
	a, err := Trace(context.Background(), pic, around)
	if err != nil {
		t.Fatal(err)
	}
	pic, _ = s.flat(40)
	b, err := Trace(context.Background(), pic, around)
	if err != nil || !slices.Equal(a.Ring, b.Ring) || a.Sure != b.Sure {
		t.Errorf("traced twice: %v, %v", a.Ring, b.Ring)
	}
	// Upside down.
	w, h := pic.Pix.Rect.Dx(), pic.Pix.Rect.Dy()
	turned := &photo.Squared{Pix: image.NewRGBA(pic.Pix.Rect), PxPerMM: 1, Length: pic.Length, Width: pic.Width}
	for j := range h {
		copy(turned.Pix.Pix[turned.Pix.PixOffset(0, h-1-j):][:4*w], pic.Pix.Pix[pic.Pix.PixOffset(0, j):][:4*w])
	}
	if b, err = Trace(context.Background(), turned, around); err != nil {
		t.Fatal(err)
	}
	for x := 45.0; x < 540; x += 5 {
		l, u := across(a.Ring, x)
		m, v := across(b.Ring, x)
		if math.Abs(l-(pic.Width-v)) > 2 || math.Abs(u-(pic.Width-m)) > 2 {
			t.Fatalf("at %g: edges %.1f, %.1f, and upside down %.1f, %.1f", x, l, u, pic.Width-v, pic.Width-m)
		}
	}
}

func TestTraceRefusesWhatItCannotDo(t *testing.T) {
	s := scene{length: 300, width: 120, seed: 6, waves: 10, heart: walnut, sap: pale, ground: cloth}
	pic, around := s.flat(40)
	none := context.Background()
	for name, err := range map[string]error{
		"no picture": second(Trace(none, nil, around)),
		"outside":    second(Trace(none, pic, geom.R(-5, 0, 100, 100))),
		"no ground":  second(Trace(none, pic, geom.R(0, 0, pic.Length, pic.Width))),
		"no number":  second(Trace(none, pic, geom.R(math.NaN(), 0, 100, 100))),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	ctx, stop := context.WithCancel(none)
	stop()
	if err := second(Trace(ctx, pic, around)); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

func second(_ *Found, err error) error { return err }
