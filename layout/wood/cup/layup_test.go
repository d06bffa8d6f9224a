package cup

import (
	"math"
	"testing"

	"heartside/layout/geom"
)

func laid(strips []Strip) []Laid {
	var out []Laid
	for _, s := range strips {
		out = append(out, Laid{Strip: s, Dry: Change{Strains: dried(cherry)},
			Wet: Change{Strains: ByCoefficient(cherry[0], cherry[1], 2)}, Radial: cherry[0], Tangential: cherry[1]})
	}
	return out
}

func compared(t *testing.T, l []Laid, best []bool) map[LayupName]Layup {
	t.Helper()
	c, err := Compare(l, best, OnePoint)
	if err != nil {
		t.Fatal(err)
	}
	out := map[LayupName]Layup{}
	for _, w := range c.Layups {
		out[w.Name] = w
	}
	return out
}

// Strips of one kind, bark up, down, up, up. By the arcs: all bark up bows
// hollow when dry by kappa W^2/8, all heart up as much the other way, and
// alternated strips not at all; wetting turns every sign.
func TestCompare(t *testing.T) {
	strips := row(4, 150, 20, 110, Strains{}, true, false, true, true)
	w := compared(t, laid(strips), []bool{false, true, false, true})
	if len(w) != 5 {
		t.Fatalf("%d ways", len(w))
	}
	k := cupped(t, under(150, 20, 110), dried(cherry)).Middle.Kappa
	near(t, "bark up", w[LaidBarkUp].Dry.Smooth.Sagitta, k*600*600/8, 0.02)
	near(t, "heart up", w[LaidHeartUp].Dry.Smooth.Sagitta, -w[LaidBarkUp].Dry.Smooth.Sagitta, 1e-6)
	near(t, "alternate", w[LaidAlternate].Dry.Smooth.Sagitta, 0, 1e-3)
	near(t, "alternate, each strip", w[LaidAlternate].Dry.Smooth.Washboard, k*150*150/8, 1e-4)
	near(t, "wet, half as much the other way", w[LaidBarkUp].Wet.Smooth.Sagitta, -0.5*w[LaidBarkUp].Dry.Smooth.Sagitta, 0.2)
	for name, want := range map[LayupName][]bool{
		LaidAsIs:      {false, false, false, false},
		LaidHeartUp:   {true, false, true, true},
		LaidBarkUp:    {false, true, false, false},
		LaidAlternate: {false, false, false, true},
		LaidBestFace:  {false, true, false, true},
	} {
		for i, r := range w[name].Rolled {
			if r != want[i] {
				t.Errorf("%s: rolled over %v, want %v", name, w[name].Rolled, want)
				break
			}
		}
	}
	near(t, "best face", w[LaidBestFace].Dry.Strips[3].Kappa.Best, -k, 1e-15)
}

// A quarter-sawn strip and one of unknown side lie as they lie, and the
// alternation goes over them.
func TestStripsWithoutASide(t *testing.T) {
	strips := row(4, 100, 20, 110, Strains{}, true)
	strips[1].Section.Pith = geom.Pt(-200, 0)
	strips[2] = Strip{ID: "S3", Section: Section{Width: 100, Thickness: 20}}
	w := compared(t, laid(strips), nil)
	if _, ok := w[LaidBestFace]; ok || len(w) != 4 {
		t.Error("nobody chose faces")
	}
	for name, want := range map[LayupName][]bool{LaidHeartUp: {true, false, false, true}, LaidAlternate: {false, false, false, true}} {
		for i, r := range w[name].Rolled {
			if r != want[i] {
				t.Errorf("%s: %v, want %v", name, w[name].Rolled, want)
				break
			}
		}
	}
	if d := w[LaidAsIs].Dry; d.Range.Lo >= d.Range.Best || d.Range.Hi <= d.Range.Best {
		t.Errorf("a strip nobody knows gives no range: %v", d.Range)
	}
}

// One point between the faces, cherry, 4 x 150 x 20, flat-sawn: 0.00248/20 x
// 600^2/8 = 5.58 mm; quarter-sawn with the radial coefficient 0.00126: 2.835.
func TestGradientBeside(t *testing.T) {
	c, err := Compare(laid(row(4, 150, 20, 110, Strains{})), nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flat-sawn", c.Gradient.Smooth.Sagitta, 5.58, 0.005)
	quarter := row(4, 150, 20, 110, Strains{})
	for i := range quarter {
		quarter[i].Section.Pith = geom.Pt(math.Inf(1), 10)
	}
	c, _ = Compare(laid(quarter), nil, 1)
	near(t, "quarter-sawn", c.Gradient.Smooth.Sagitta, 2.835, 0.005)
	if _, err := Compare(laid(quarter), []bool{true}, 1); err == nil {
		t.Error("one choice for four strips is taken")
	}
	if _, err := Compare(laid(quarter), nil, math.NaN()); err == nil {
		t.Error("no number of points is taken")
	}
	if _, err := Compare(nil, nil, 1); err == nil {
		t.Error("no strips are taken")
	}
}
