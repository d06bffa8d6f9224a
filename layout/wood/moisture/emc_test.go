package moisture

import (
	"math"
	"path/filepath"
	"strconv"
	"testing"

	"heartside/layout/layouttest"

	"pgregory.net/rapid"
)

// fahrenheit holds the constants of eq. 4-5 for degrees F, W in its own units:
// quoted from FPL-GTR-282, p. 4-3 (S).
var fahrenheit = constants{
	{330, 0.452, 0.00415},
	{0.791, 0.000463, -0.000000844},
	{6.34, 0.000775, -0.0000935},
	{1.09, 0.0284, -0.0000904},
}

type cell struct{ tempF, rh, mc float64 }

func table(t *testing.T) []cell {
	t.Helper()
	heads, rows := layouttest.CSV(t, filepath.Join(layouttest.Root(t), "testdata", "tables", "emc.csv"))
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	var out []cell
	for _, row := range rows {
		for i, s := range row[1:] {
			out = append(out, cell{number(row[0]), number(heads[i+1]), number(s)})
		}
	}
	if len(out) != 8*19 {
		t.Fatalf("%d cells, want 152", len(out))
	}
	return out
}

// Wood Handbook, Table 4-2 (R): printed to 0.1, so 0.05 is its rounding; both
// sets of constants were rounded too.
func TestTable42(t *testing.T) {
	for _, c := range table(t) {
		got, err := EMC(c.rh, (c.tempF-32)/1.8)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "EMC", got, c.mc, 0.06)
		// The set for degrees F stays within 0.065 (C).
		layouttest.Near(t, "EMC by the set for F", fahrenheit.at(c.rh/100, c.tempF), c.mc, 0.065)
	}
}

// Values at 20 C worked out apart from this code (C).
func TestEMCAt20(t *testing.T) {
	for rh, want := range map[float64]float64{20: 4.51, 30: 6.19, 35: 6.96, 40: 7.72, 50: 9.27, 60: 11.00, 65: 12.00, 70: 13.13, 80: 16.04, 90: 20.53} {
		got, err := EMC(rh, 20)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "EMC", got, want, 0.0051)
	}
	for mc, want := range map[float64]float64{6: 28.8, 7: 35.2, 8: 41.8, 9: 48.3, 10: 54.4, 12: 65.0} {
		got, err := RH(mc, 20)
		if err != nil {
			t.Fatal(err)
		}
		layouttest.Near(t, "RH", got, want, 0.051)
	}
}

// E. Wengert: about 35 per cent RH in the heating season is 7.0 per cent MC
// (S); by the formula at 70 F it is 6.94 (C).
func TestHeatingSeason(t *testing.T) {
	got, err := EMC(35, (70.0-32)/1.8)
	if err != nil {
		t.Fatal(err)
	}
	layouttest.Near(t, "EMC", got, 6.94, 0.0051)
}

func TestRHUndoesEMC(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rh := rapid.Float64Range(0, MaxRH).Draw(t, "rh")
		temp := rapid.Float64Range(MinTemp, MaxTemp).Draw(t, "temp")
		mc, err := EMC(rh, temp)
		if err != nil {
			t.Fatal(err)
		}
		back, err := RH(mc, temp)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(back-rh) > 0.001 {
			t.Fatalf("%g %% came back as %g", rh, back)
		}
		if damper, err := EMC(rh+0.01, temp); err == nil && !(damper > mc) {
			t.Fatalf("damper air, drier wood: %g then %g", mc, damper)
		}
	})
}

func TestOutsideTheTable(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct{ rh, temp float64 }{{-1, 20}, {95.5, 20}, {101, 20}, {nan, 20}, {50, -2}, {50, 61}, {50, nan}, {math.Inf(1), 20}} {
		if mc, err := EMC(c.rh, c.temp); err == nil || mc != 0 {
			t.Errorf("EMC(%g, %g) = %g, %v", c.rh, c.temp, mc, err)
		}
	}
	for _, c := range []struct{ mc, temp float64 }{{-1, 20}, {26, 20}, {nan, 20}, {8, -5}, {8, 100}} {
		if rh, err := RH(c.mc, c.temp); err == nil || rh != 0 {
			t.Errorf("RH(%g, %g) = %g, %v", c.mc, c.temp, rh, err)
		}
	}
	if mc, err := EMC(0, 20); mc != 0 || err != nil {
		t.Errorf("dry air: %g, %v", mc, err)
	}
}

func BenchmarkEMC(b *testing.B) {
	for b.Loop() {
		if _, err := EMC(45, 20); err != nil {
			b.Fatal(err)
		}
	}
}
