package match

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Way is how two panels stand to each other over a gap.
type Way string

// Ways.
const (
	// Beside: the second behind the first, across the grain, as two doors. Long
	// edges meet; heights are X along the grain.
	Beside Way = "beside"
	// Along: the second to the right of the first, as drawer fronts in a row.
	// Ends meet; heights are Y.
	Along Way = "along"
)

// Border is a sap line that reaches the gap.
type Border struct {
	A, B float64 // its height on the first and the second panel, mm; NaN on one where it ends at the gap
	// Sap: sapwood lies above it, towards greater heights, and heartwood below.
	Sap bool
}

// Levels tells how the faces of two panels go on over the gap between them.
type Levels struct {
	Borders []Border // by height
	// Mean and Greatest are the differences in height of the borders that go
	// on, mm; Ending counts those that end at the gap.
	Mean, Greatest float64
	Ending         int
	Mismatch       float64 // share of the gap where sapwood faces heartwood

	// Mirrored and Slipped are how far the second face is from being the mirror
	// image of the first about the gap, and from repeating it: the width across
	// the grain in which one has heartwood where the other should have sapwood,
	// on the mean over the length, mm.
	Mirrored, Slipped float64
}

// reach is up to which difference in height two borders are taken for one sap
// line, mm. Engineering choice.
const reach = 40.0

// Level compares the show faces of two panels, as planed, over the gap between
// them: b behind a, or to the right of it. Heights are measured from the left
// end of both, or from the front edge of both. Shapes other than the rectangle, and
// what is hidden, are not looked at; empty places hold nothing.
func Level(a, b *face.Panel, way Way) Levels {
	var l Levels
	if !measured(a) || !measured(b) {
		return l
	}
	a, b = a.Finished(), b.Finished()
	n := max(1, int(min(a.Length, b.Length)/Step))
	at, back := make([]float64, n), make([]float64, n)
	for k := range at {
		at[k] = Step/2 + Step*float64(k)
		back[n-1-k] = a.Length - at[k]
	}
	ca, cb := across(a, at), across(b, at)
	if way == Along {
		l.gap(across(a, []float64{a.Length - hair})[0], across(b, []float64{hair})[0])
		cm := across(a, back)
		for k := range at {
			d, _ := apart(cm[n-1-k], cb[k])
			l.Mirrored += d / float64(n)
		}
	} else {
		l.gap(lengthways(a, a.Width-hair), lengthways(b, hair))
		for k := range at {
			d, _ := apart(mirrored(ca[k], a.Width), cb[k])
			l.Mirrored += d / float64(n)
		}
	}
	for k := range at {
		d, _ := apart(ca[k], cb[k])
		l.Slipped += d / float64(n)
	}
	return l
}

func measured(p *face.Panel) bool {
	return p != nil && p.Length > 0 && p.Width > 0 && p.Length <= most && p.Width <= most
}

// zonesAt returns the zones of strip i in panel coordinates, and what of the
// panel it covers.
func zonesAt(p *face.Panel, i int) ([]geom.Layer, geom.Rect) {
	s := &p.Strips[i]
	if !sound(s) {
		return nil, geom.Rect{}
	}
	to, ok := s.FromPlace().Inverse()
	if !ok {
		return nil, geom.Rect{}
	}
	x, y := p.Left(i), p.StripY(i)
	to = to.Then(geom.Translate(x, y))
	region := geom.R(x, y, x+s.L, y+s.W).Intersect(geom.R(0, 0, p.Length, p.Width))
	layers := layersOf(s, s.UpFace(), geom.R(0, 0, s.L, s.W))
	for k := range layers {
		layers[k].Polygon = to.ApplyTo(layers[k].Polygon)
	}
	return layers, region
}

// across reads a panel from the front edge to the rear at the places x, which
// rise.
func across(p *face.Panel, x []float64) [][]piece {
	out := make([][]piece, len(x))
	for i := range p.Strips {
		layers, region := zonesAt(p, i)
		if region.Empty() {
			continue
		}
		for k, c := range columnsIn(layers, region, x) {
			out[k] = append(out[k], c...)
		}
	}
	return out
}

// lengthways reads a panel from left to right at y.
func lengthways(p *face.Panel, y float64) []piece {
	swap := geom.Affine{B: 1, D: 1}
	for i := range p.Strips {
		layers, region := zonesAt(p, i)
		if region.Empty() || y < region.Min.Y || y >= region.Max.Y {
			continue
		}
		for k := range layers {
			layers[k].Polygon = swap.ApplyTo(layers[k].Polygon)
		}
		return columnsIn(layers, geom.R(region.Min.Y, region.Min.X, region.Max.Y, region.Max.X), []float64{y})[0]
	}
	return nil
}

// border is where heartwood meets sapwood along a line.
type border struct {
	at  float64
	sap bool
}

// bordersOf finds the borders of a line. Where a flaw lies between the two the
// border is taken through its middle; what is not seen yet hides it.
func bordersOf(line []piece) []border {
	var out []border
	last := -1
	for i, p := range line {
		if p.kind == face.Flaw {
			continue
		}
		if last >= 0 && p.kind <= face.Sap && line[last].kind <= face.Sap && p.kind != line[last].kind {
			out = append(out, border{(line[last].to + p.from) / 2, p.kind == face.Sap})
		}
		last = i
	}
	return out
}

// gap compares what lies along both sides of the gap.
func (l *Levels) gap(a, b []piece) {
	if off, both := apart(a, b); both > 0 {
		l.Mismatch = off / both
	}
	l.pair(bordersOf(a), bordersOf(b))
}

// pair finds which borders go on over the gap: those of one kind, in their
// order, so that the heights differ least on the whole.
func (l *Levels) pair(a, b []border) {
	n, m := len(a), len(b)
	cost := make([][]float64, n+1)
	for i := range cost {
		cost[i] = make([]float64, m+1)
	}
	fits := func(i, k int) (float64, bool) {
		d := math.Abs(a[i].at - b[k].at)
		return d, a[i].sap == b[k].sap && d <= reach
	}
	for i := n; i >= 0; i-- {
		for k := m; k >= 0; k-- {
			if i == n || k == m {
				cost[i][k] = reach / 2 * float64(n-i+m-k)
				continue
			}
			c := reach/2 + min(cost[i+1][k], cost[i][k+1])
			if d, ok := fits(i, k); ok {
				c = min(c, d+cost[i+1][k+1])
			}
			cost[i][k] = c
		}
	}
	paired := 0
	for i, k := 0, 0; i < n || k < m; {
		if i < n && k < m {
			if d, ok := fits(i, k); ok && cost[i][k] == d+cost[i+1][k+1] {
				l.Borders = append(l.Borders, Border{a[i].at, b[k].at, a[i].sap})
				l.Mean += d
				l.Greatest = max(l.Greatest, d)
				paired++
				i, k = i+1, k+1
				continue
			}
		}
		if k == m || i < n && cost[i+1][k] <= cost[i][k+1] {
			l.Borders = append(l.Borders, Border{a[i].at, math.NaN(), a[i].sap})
			i++
		} else {
			l.Borders = append(l.Borders, Border{math.NaN(), b[k].at, b[k].sap})
			k++
		}
		l.Ending++
	}
	if paired > 0 {
		l.Mean /= float64(paired)
	}
}
