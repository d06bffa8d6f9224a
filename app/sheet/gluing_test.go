package sheet

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// Sections by hand. 400 wide and a machine of 300 wants two: 200 and 200 beats
// 300 and 100. A strip wider than the machine stands alone.
func TestGluedInto(t *testing.T) {
	for name, c := range map[string]struct {
		widths []float64
		limit  float64
		want   []float64
		over   int // which, -1 none
	}{
		"one section":            {[]float64{100, 100, 90}, 300, []float64{290}, -1},
		"just goes":              {[]float64{100, 100, 100}, 300, []float64{300}, -1},
		"two alike":              {[]float64{100, 100, 100, 100}, 300, []float64{200, 200}, -1},
		"not filled up":          {[]float64{120, 100, 80, 90, 100}, 300, []float64{220, 270}, -1}, // 300 and 190 is wider
		"no limit":               {[]float64{500, 600}, 0, []float64{1100}, -1},
		"a strip over the limit": {[]float64{100, 350, 100}, 300, []float64{100, 350, 100}, 1},
		"nothing":                {nil, 300, nil, -1},
	} {
		got := gluedInto(c.widths, c.limit)
		var w []float64
		for i, g := range got {
			w = append(w, g.width)
			if g.over != (i == c.over) {
				t.Errorf("%s: section %d over: %v", name, i, g.over)
			}
		}
		if !slices.Equal(w, c.want) {
			t.Errorf("%s: %v, want %v", name, w, c.want)
		}
	}
}

// Against trying every way to part them.
func TestGluedIntoAgainstAllWays(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 300 {
		n := 1 + r.IntN(9)
		widths := make([]float64, n)
		for i := range widths {
			widths[i] = float64(40 + r.IntN(160))
		}
		limit := float64(150 + r.IntN(250))
		fewest, narrowest := n+1, 0.0
		for cuts := range 1 << (n - 1) {
			count, w, most, fits := 1, 0.0, 0.0, true
			alone := 0
			for i := range widths {
				if i > 0 && cuts>>(i-1)&1 == 1 {
					count, w, alone = count+1, 0, 0
				}
				w, alone = w+widths[i], alone+1
				fits = fits && (w <= limit || alone == 1)
				most = max(most, w)
			}
			if fits && (count < fewest || count == fewest && most < narrowest) {
				fewest, narrowest = count, most
			}
		}
		got := gluedInto(widths, limit)
		most := 0.0
		for _, g := range got {
			most = max(most, g.width)
		}
		if len(got) != fewest || most != narrowest {
			t.Fatalf("%v in %g: %d sections, widest %g; of all ways %d and %g", widths, limit, len(got), most, fewest, narrowest)
		}
	}
}

// A metre less 50 at each end is 900: three lengths of 300 want 4 clamps, 4.5 of
// 200 want 5 and so 6. Two is the least.
func TestClampsFor(t *testing.T) {
	for _, c := range []struct {
		length       float64
		fewest, most int
	}{{1000, 4, 6}, {700, 3, 4}, {100, 2, 2}, {60, 2, 2}} {
		if a, b := clampsFor(c.length); a != c.fewest || b != c.most {
			t.Errorf("%g: %d to %d, want %d to %d", c.length, a, b, c.fewest, c.most)
		}
	}
}

// The demo's top, by hand: strips of 70, 92, 112 and 98 make 372. A machine of
// 250 wants two sections: 162 and 210 (274 and 98 is wider than it takes).
func TestOrderOfGluing(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	project := *in.Project
	project.Machines.Thickness = 250
	in.Project = &project
	b := newBuilder(&in)
	v := b.viewOf(&in.Panels[0], in.Project.Panel("top"))
	var rows []string
	for _, r := range b.glueTable(v).rows {
		rows = append(rows, strings.Join(r, "|"))
	}
	want := []string{
		"1.|A1, B1|joint 1|162|",
		"2.|D1, A2|joint 3|210|",
		"3.|each section|rest, flatten, then thickness all alike||",
		"4.|the sections|joint 2, faces level|372|",
		"5.|all|by hand or sander to 20 mm||",
	}
	if !slices.Equal(rows, want) {
		t.Errorf("%q, want %q", rows, want)
	}
}
