package movement

import (
	"math"
	"path/filepath"
	"strconv"
	"testing"

	"heartside/layout/layouttest"
	"heartside/layout/wood/moisture"
)

type row struct {
	species        string
	sr, st, cr, ct float64 // 0: not in the table
	fsp            float64
	exception      string
}

func tableRows(t *testing.T) []row {
	t.Helper()
	_, rows := layouttest.CSV(t, filepath.Join(layouttest.Root(t), "testdata", "tables", "shrinkage.csv"))
	number := func(s string) float64 {
		if s == "" {
			return 0
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	var out []row
	for _, c := range rows {
		out = append(out, row{c[0], number(c[1]), number(c[2]), number(c[4]), number(c[5]), number(c[7]), c[8]})
	}
	if len(out) != 54 {
		t.Fatalf("%d rows, want 54", len(out))
	}
	return out
}

// Wood Handbook, Table 13-5 from Tables 4-3 and 4-4: coefficients printed to
// the fifth decimal, so one in the last digit. The rows that borrow from
// another wood or from a group, or contradict themselves, say so in the table
// and must not follow, else the reason is out of date.
func TestTable135FromTable43(t *testing.T) {
	checked, excepted := 0, 0
	for _, r := range tableRows(t) {
		off := 0.0
		for _, way := range [][2]float64{{r.sr, r.cr}, {r.st, r.ct}} {
			if way[0] == 0 || way[1] == 0 {
				continue
			}
			off = math.Max(off, math.Abs(CoefficientOf(way[0], r.fsp)-way[1]))
			checked++
		}
		if follows := off <= 1.05e-5; follows == (r.exception != "") {
			t.Errorf("%s: coefficients lie %.5f from what the shrinkage gives; exception: %q", r.species, off, r.exception)
		}
		if r.exception != "" {
			excepted++
		}
	}
	// 47 rows with both directions and 2 with the tangential one alone.
	if checked != 96 || excepted != 7 {
		t.Errorf("%d values checked, %d rows excepted", checked, excepted)
	}
}

// Western redcedar and redwood reproduce with 22 alone (footnote, M).
func TestFSP(t *testing.T) {
	for _, r := range tableRows(t) {
		if r.fsp == 22 && math.Abs(CoefficientOf(r.st, 30)-r.ct) < 2e-5 {
			t.Errorf("%s follows from 30 as well", r.species)
		}
	}
	for id, want := range map[string]float64{"cedar-western-red": 22, "redwood-old-growth": 22, "redwood-young-growth": 22, "cedar-eastern-red": 30, "walnut-black": 30, "": 30} {
		if got := FSP(id); got != want {
			t.Errorf("%s: %g, want %g", id, got, want)
		}
	}
}

func TestCoefficientAndShrinkageGoBothWays(t *testing.T) {
	for _, s := range []float64{0.5, 2.1, 7, 12.7} {
		for _, fsp := range []float64{22, 30} {
			layouttest.Near(t, "shrinkage", ShrinkageOf(CoefficientOf(s, fsp), fsp), s, 1e-12)
		}
	}
}

func num(v float64) Number { return Number{v, moisture.Read} }

// Table 4-3 and 13-5 of the Wood Handbook.
func maple() Wood {
	return Wood{Name: "sugar maple", CT: num(0.00353), CR: num(0.00165), ST: num(9.9), SR: num(4.8), SV: num(14.7), SG12: num(0.63)}
}
func walnut() Wood {
	return Wood{Name: "black walnut", CT: num(0.00274), CR: num(0.00190), ST: num(7.8), SR: num(5.5)}
}
func whiteFir() Wood {
	return Wood{Name: "white fir", CT: num(0.00245), CR: num(0.00112), ST: num(7.0), SR: num(3.3)}
}
func whiteOak() Wood {
	return Wood{Name: "white oak", CT: num(0.00365), CR: num(0.00180), ST: num(10.5), SR: num(5.6), SG12: num(0.68)}
}
func cherry() Wood {
	return Wood{Name: "black cherry", CT: num(0.00248), CR: num(0.00126), ST: num(7.1), SR: num(3.7), ET: Number{972, moisture.Memory}, ER: Number{900, moisture.Memory}}
}
