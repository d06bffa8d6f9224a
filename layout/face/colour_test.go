package face

import (
	"math"
	"slices"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

func grey(l float64) colour.Lab { return colour.Lab{L: l} }

// greyDE is CIEDE2000 of two greys: dL / SL, SL = 1 + 0.015 m / sqrt(20 + m)
// with m = (Lm - 50)^2 (Sharma, Wu and Dalal 2005; every chroma term is 0).
func greyDE(a, b float64) float64 {
	m := ((a+b)/2 - 50) * ((a+b)/2 - 50)
	return math.Abs(a-b) / (1 + 0.015*m/math.Sqrt(20+m))
}

// greyPanel has strips of grey heartwood and sapwood; each is photographed
// with the given reference unless it is "-".
func greyPanel(d drawing, heart, sap []float64, reference []string) *Panel {
	p := d.panel()
	for i := range p.Strips {
		b := p.Strips[i].Board
		h, s := grey(heart[i%len(heart)]), grey(sap[i%len(sap)])
		b.AssumedHeart, b.AssumedSap = h, s
		if ref := reference[i%len(reference)]; ref != "-" {
			for f := range b.Faces {
				b.Faces[f].Heart, b.Faces[f].Sap, b.Faces[f].Reference = &h, &s, ref
			}
		}
	}
	return p
}

func TestContrastOfMeans(t *testing.T) {
	d := drawing{length: 900, width: 450, strips: []float64{0.5, 0.5}, show: zones(Sap, rect(0, 0, 900, 90), rect(0, 420, 900, 450))}
	// Sapwood: 90 mm at 80 and 30 mm at 60: mean 75. Heartwood: 135 mm at 40 and
	// 195 mm at 30: mean 34.0909.
	p := greyPanel(d, []float64{40, 30}, []float64{80, 60}, []string{"card"})
	c := ReadFull(p).Show.Contrast
	heart := (135*40 + 195*30) / 330.0
	layouttest.Near(t, "DE", c.DE, greyDE(heart, 75), 1e-9)
	layouttest.Near(t, "DL", c.DL, 75-heart, 1e-9)
	if !c.Known || c.Assumed || c.Split {
		t.Errorf("%+v", c)
	}
	if c = ReadFull(greyPanel(d, []float64{40, 30}, []float64{80, 60}, []string{"card", "-"})).Show.Contrast; !c.Assumed || c.Split {
		t.Errorf("one board is drawn only: %+v", c)
	}
	d.show = nil
	if c = ReadFull(d.panel()).Show.Contrast; c.Known {
		t.Errorf("no sapwood: %+v", c)
	}
}

func TestColoursThatDoNotCompare(t *testing.T) {
	d := drawing{length: 900, width: 450, strips: []float64{0.5, 0.5}, show: zones(Sap, rect(0, 0, 900, 90), rect(0, 420, 900, 450))}
	for _, c := range []struct {
		name  string
		refs  []string
		split bool
	}{
		{"shared", []string{"card"}, false}, {"none", []string{""}, true}, {"two", []string{"card", "sheet"}, true},
		{"one photographed", []string{"", "-"}, false}, {"drawn", []string{"-"}, false},
	} {
		p := greyPanel(d, []float64{40, 30}, []float64{80, 60}, c.refs)
		r := ReadFull(p)
		if r.Show.Contrast.Split != c.split || count(r, ColoursNotComparable) == 1 != c.split {
			t.Errorf("%s: %+v\n%s", c.name, r.Show.Contrast, describe(r))
		}
		if !c.split {
			continue
		}
		// Board by board, by area: 225 each.
		layouttest.Near(t, "DE", r.Show.Contrast.DE, (greyDE(40, 80)+greyDE(30, 60))/2, 1e-9)
		for _, w := range r.Warnings {
			if w.Kind == ColoursNotComparable && !slices.Equal(w.Boards, []string{"B1", "B2"}) {
				t.Errorf("boards %v", w.Boards)
			}
		}
		// Each strip is held against its own heartwood, so only sapwood differs.
		layouttest.Near(t, "coverage", r.Show.Coverage, 120.0/450, 0.02)
	}
	// Strips of one board compare with each other.
	p := greyPanel(d, []float64{40}, []float64{80}, []string{""})
	b := *p.Strips[0].Board
	b.Faces[0].Outline = nil
	p.Strips[1].Board, p.Strips[0].Board = &b, &b
	if r := ReadFull(p); r.Show.Contrast.Split {
		t.Error("one board does not compare with itself")
	}
}

// Coverage by hand: heartwood at 48, sapwood at 52 + x around 50, so that a
// cell of sapwood share q differs by q times the whole. The band is 25 wide, in
// cells of 10: two full rows and a half one.
func TestCoverageCountsCells(t *testing.T) {
	d := drawing{length: 900, width: 450, strips: []float64{1}, show: zones(Sap, rect(0, 100, 900, 125))}
	for _, c := range []struct {
		name  string
		sap   float64
		cells float64 // rows that differ
	}{
		{"half cells too: 14 apart, half 7", 62, 3},
		{"full cells only: 10 apart, half 5", 58, 2},
		{"none: 5 apart", 53, 0},
	} {
		p := greyPanel(d, []float64{48}, []float64{c.sap}, []string{"-"})
		layouttest.Near(t, c.name, ReadFull(p).Show.Coverage, c.cells*10/450, 1e-6)
	}
}

// Cells are laid from the strip's own corner and end at its glue line: strips
// of 45 hold four rows of 10 and one of 5, weighed by its area.
func TestCellsEndAtTheGlueLine(t *testing.T) {
	shares := slices.Repeat([]float64{0.1}, 10)
	d := drawing{length: 900, width: 450, strips: shares, show: zones(Sap, rect(0, 42, 900, 45))}
	p := greyPanel(d, []float64{48}, []float64{60}, []string{"-"})
	// 3 of the 5 mm are sapwood: 7.2 of 12, over 6. Across the glue line it
	// would be 3 of 10, 3.6.
	layouttest.Near(t, "coverage", ReadFull(p).Show.Coverage, 5.0/450, 1e-6)
}

// Twice the spread of the wanted wood is the bar where that is more than 6:
// four strips at 50, one at 60 of a fifth of the area: the median is 50, the
// mean difference a fifth of 60's, twice that about 4; with 90 the bar is 0.4
// of its difference, which it passes itself.
func TestCoverageAgainstTheSpread(t *testing.T) {
	d := drawing{length: 900, width: 450}
	for _, c := range []struct{ odd, want float64 }{{54, 0}, {60, 0.2}, {90, 0.2}} {
		p := greyPanel(d, []float64{50, 50, 50, 50, c.odd}, []float64{90}, []string{"card"})
		layouttest.Near(t, "coverage", ReadFull(p).Show.Coverage, c.want, 1e-6)
	}
	// Two fifths at 75 and none between: spread 0.4 of the difference, bar 0.8 of
	// it. A strip at 60 lies under the bar of twice
	// the spread though it is over once the spread.
	p := greyPanel(d, []float64{50, 75, 50, 75, 50}, []float64{90}, []string{"card"})
	layouttest.Near(t, "coverage", ReadFull(p).Show.Coverage, 0.4, 1e-6)
	p = greyPanel(d, []float64{50, 90, 50, 60, 50}, []float64{90}, []string{"card"})
	if bar := 2 * 0.2 * (greyDE(50, 90) + greyDE(50, 60)); bar < greyDE(50, 60) || bar/2 > greyDE(50, 60) || bar > greyDE(50, 90) {
		t.Fatalf("the case does not part the two: %g", bar)
	}
	layouttest.Near(t, "coverage", ReadFull(p).Show.Coverage, 0.2, 1e-6)
}

// A photograph is read where the strip lies, in all four states: a field that
// is light on one quarter of the board only.
func TestCoverageReadsThePhotograph(t *testing.T) {
	for _, c := range states {
		p := markedPanel(c.up, c.turned, 0)
		p.Length, p.Width = 930, 95
		b := p.Strips[0].Board
		for f := range b.Faces {
			fd := &colour.Field{Step: 5, NX: 480, NY: 42}
			for j := range fd.NY {
				for i := range fd.NX {
					x, y := (float64(i)+0.5)*5, (float64(j)+0.5)*5
					if f == 1 {
						y = 210 - y
					}
					l := 48.0
					if x < 40+310 && y < 8+47 { // a third by a half, at the marked corner
						l = 60
					}
					fd.Lab = append(fd.Lab, grey(l))
				}
			}
			b.Faces[f].Field = fd
		}
		r := ReadFull(p)
		layouttest.Near(t, "coverage", r.Show.Coverage, 310*47/(930.0*95), 0.018) // half a cell along the border
		layouttest.Near(t, "back", r.Back.Coverage, 310*47/(930.0*95), 0.018)     // half a cell along the border
		if r.Show.Contrast.Known {
			t.Error("contrast without sapwood")
		}
	}
}

// A band is held against the wanted wood within 20 mm, across glue lines too.
func TestBandContrastIsLocal(t *testing.T) {
	// Heartwood 48 near the band at 60 and 30 farther away, by photograph.
	p := drawing{length: 900, width: 450, strips: []float64{1}, show: zones(Sap, rect(0, 100, 900, 120))}.panel()
	b := p.Strips[0].Board
	field := &colour.Field{Step: 2, NX: 490, NY: 260}
	for j := range field.NY {
		y := (float64(j)+0.5)*2 - p.Strips[0].Y
		for range field.NX {
			switch {
			case y > 100 && y < 120:
				field.Lab = append(field.Lab, grey(60))
			case y > 70 && y < 150:
				field.Lab = append(field.Lab, grey(48))
			default:
				field.Lab = append(field.Lab, grey(30))
			}
		}
	}
	b.Faces[0].Field, b.Faces[0].Reference = field, "card"
	r := ReadFull(p)
	layouttest.Near(t, "near", r.Show.Bands[0].Contrast, greyDE(48, 60), 1e-3)
	if r.Show.Bands[0].Assumed {
		t.Error("photographed, yet assumed")
	}
	// A strip all sapwood between two of heartwood: only they are near it. Its
	// own heartwood colour, which it does not show, does not matter.
	d := drawing{length: 900, width: 450, show: zones(Sap, rect(0, 90, 900, 180))}
	q := greyPanel(d, []float64{48, 10, 44, 10, 10}, []float64{60}, []string{"card"})
	layouttest.Near(t, "neighbours", ReadFull(q).Show.Bands[0].Contrast, greyDE(46, 60), 1e-3)
	// Where the photographs do not compare, its own board's is what there is.
	q = greyPanel(d, []float64{48, 10, 44, 10, 10}, []float64{60}, []string{""})
	layouttest.Near(t, "its own board", ReadFull(q).Show.Bands[0].Contrast, greyDE(10, 60), 1e-3)
}

func TestMeanColours(t *testing.T) {
	b := &Board{Length: 100, Width: 50}
	f := &b.Faces[0]
	f.Zones = append(zones(Sap, rect(0, 0, 100, 20)), zones(Flaw, rect(40, 30, 60, 50))...)
	f.Field = &colour.Field{Step: 10, NX: 10, NY: 5}
	for j := range 5 {
		for i := range 10 {
			l := 40.0
			switch {
			case j == 1: // sapwood by the line: may hold both, left out
				l = 65
			case j == 0:
				l = 80
			case i >= 4 && i < 6 && j >= 3: // the knot
				l = 5
			}
			f.Field.Lab = append(f.Field.Lab, grey(l))
		}
	}
	f.Field.Lab[4*10] = colour.Lab{L: math.NaN()}
	heart, sap := MeanColours(f)
	if heart == nil || sap == nil {
		t.Fatal("a mean is missing")
	}
	layouttest.Near(t, "heart", heart.L, 40, 1e-9)
	layouttest.Near(t, "sap", sap.L, 80, 1e-9)
	f.Zones = nil
	if _, sap = MeanColours(f); sap != nil {
		t.Error("sapwood where none is drawn")
	}
	if heart, sap = MeanColours(&BoardFace{}); heart != nil || sap != nil {
		t.Error("colours without a photograph")
	}
	// All sapwood in one row of cells: none is clear of the line, so all count.
	f.Zones = zones(Sap, rect(0, 0, 100, 10), geom.Polygon{})
	if _, sap = MeanColours(f); sap == nil || sap.L != 80 {
		t.Errorf("narrow sapwood %v", sap)
	}
}

// fieldless is a field that says more than it holds.
func fieldless() *colour.Field { return &colour.Field{Step: 1, NX: 1000, NY: 1000} }
