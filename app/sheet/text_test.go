package sheet

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func TestSpread(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 500 {
		n := 1 + r.IntN(12)
		at := make([]float64, n)
		at[0] = 20 * r.Float64()
		for i := 1; i < n; i++ {
			at[i] = at[i-1] + 8*r.Float64()
		}
		lo, hi := 0.0, 10+60*r.Float64()
		got, ok := spread(at, 4, lo, hi)
		if ok != (float64(n)*4 <= hi-lo+1e-9) {
			t.Fatalf("%d labels of 4 in %g: %v", n, hi-lo, ok)
		}
		for i := range got {
			if got[i] < lo+2-1e-9 || got[i] > hi-2+1e-9 || i > 0 && got[i]-got[i-1] < 4-1e-9 {
				t.Fatalf("%v spread to %v between %g and %g", at, got, lo, hi)
			}
		}
	}
	// Labels far enough apart stay where they are.
	if got, _ := spread([]float64{5, 10, 20}, 4, 0, 30); got[0] != 5 || got[1] != 10 || got[2] != 20 {
		t.Errorf("moved without need: %v", got)
	}
}

func TestWrapKeepsEveryLetter(t *testing.T) {
	f := faces(t)
	r := rand.New(rand.NewPCG(6, 6))
	for range 200 {
		var list []string
		for range r.IntN(30) {
			list = append(list, strings.Repeat("wané"[:1+r.IntN(3)], 1+r.IntN(12)))
		}
		s, w := strings.Join(list, " "), 5+60*r.Float64()
		lines := f.Wrap(s, style(body), w)
		if got, want := strings.Join(lines, ""), strings.ReplaceAll(s, " ", ""); strings.ReplaceAll(got, " ", "") != want {
			t.Fatalf("%q became %q", want, got)
		}
		for _, l := range lines {
			if len(l) > 1 && f.Width(l, style(body)) > w+0.001 {
				t.Fatalf("%q is wider than %g", l, w)
			}
		}
	}
}

func TestFitStaysLegible(t *testing.T) {
	f := faces(t)
	for _, w := range []float64{200, 60, 30, 10, 3} {
		s, st := fit(f, "Writing desk for a bay window", style(heading), w)
		if f.Width(s, st) > w+0.001 || st.Size < least-1e-9 {
			t.Errorf("%g mm: %q in %g mm type, %g wide", w, s, st.Size, f.Width(s, st))
		}
	}
}

func TestSqueeze(t *testing.T) {
	for _, c := range []struct{ least, want []float64 }{
		{[]float64{0, 0, 0}, []float64{20, 10, 20}},   // the widest give first
		{[]float64{0, 10, 28}, []float64{12, 10, 28}}, // as far as they may
		{[]float64{10, 10, 30}, []float64{10, 10, 30}},
	} {
		got := squeeze([]float64{50, 10, 30}, c.least, 50)
		for i := range got {
			if d := got[i] - c.want[i]; d > 1e-9 || d < -1e-9 {
				t.Fatalf("least %v: squeezed to %v", c.least, got)
			}
		}
	}
	if got := squeeze([]float64{5, 6}, []float64{5, 6}, 20); got[0] != 5 || got[1] != 6 {
		t.Errorf("squeezed without need: %v", got)
	}
}

func TestColumnsKeepHeadingsWithText(t *testing.T) {
	f := faces(t)
	var list []paragraph
	for range 8 {
		list = append(list, paragraph{text: "Heading", bold: true, before: 2}, paragraph{text: strings.Repeat("several words of text ", 12)})
	}
	lines := set(f, list, 80, body)
	for high := 3 * line * body; high < 150; high += 1.7 {
		for rest := lines; len(rest) > 0; {
			n := take(rest, high)
			if n < len(rest) && n > 1 && rest[n-1].text == "Heading" {
				t.Fatalf("a heading is left alone at the foot of %g mm", high)
			}
			rest = rest[n:]
		}
	}
}

// A table too wide first gives up words that stand beside each other, then the room
// to write in and widths in one line, and breaks words last.
func TestTableBreaksWordsLast(t *testing.T) {
	f := faces(t)
	tb := &table{head: []string{"Strip", "Sapwood, front edge", "found"}, left: make([]bool, 3), room: []float64{2: 20},
		rows: [][]string{{"A1", "18 / 21 / 23", ""}}}
	tb.narrow = true
	whole, words := total(tb.words(f, true)), total(tb.words(f, false))
	if !(words < whole && whole < total(tb.natural(f))) {
		t.Fatalf("%g, %g, %g", words, whole, total(tb.natural(f)))
	}
	for _, w := range []float64{whole + 1, whole - 1, words + 1, words - 1} {
		l := tb.lay(f, w)
		if total(l.cols) > w+1e-6 {
			t.Errorf("%g mm: %g wide", w, total(l.cols))
		}
		broken := false
		for _, lines := range l.head {
			for _, s := range lines {
				for _, word := range strings.Fields(s) {
					broken = broken || !slices.Contains([]string{"Strip", "Sapwood,", "front", "edge", "found"}, word)
				}
			}
		}
		if broken != (w < words) {
			t.Errorf("%g mm, words need %g: broken %v", w, words, broken)
		}
		if one := len(l.cells[0][1]) == 1 && l.cols[2] > 20-1e-6; w > whole && !one {
			t.Errorf("%g mm: %q and %g of room", w, l.cells[0][1], l.cols[2])
		}
	}
}
