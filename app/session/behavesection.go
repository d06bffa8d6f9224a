package session

import (
	"math"

	"heartside/layout/geom"
)

// sapSection draws the sapwood of a section between what its show face and its
// back show at even steps across. The line between two faces runs straight: at
// the part t of the way down it lies where (1-t) d1 + t d2 is 0, d1 and d2 being
// the distances across to the lines of the two faces, positive in sapwood. A
// face without a line is taken to be as far from one as the wood is thick, an
// engineering choice. Points are parts of the width from the front edge and of
// the thickness from the show face.
func sapSection(sap [2][]bool, width, thickness float64) []geom.Polygon {
	n := len(sap[0])
	if n == 0 || len(sap[1]) != n || !(width > 0) || !(thickness > 0) {
		return nil
	}
	step := width / float64(n)
	d := [2][]float64{toLine(sap[0], step, thickness), toLine(sap[1], step, thickness)}
	var out []geom.Polygon
	var top, low []geom.Point
	end := func(x float64) {
		if len(top) > 0 {
			a, b := top[len(top)-1], low[len(low)-1]
			top, low = append(top, geom.Pt(x, a.Y)), append(low, geom.Pt(x, b.Y))
			ring := geom.Polygon(top)
			for i := len(low) - 1; i >= 0; i-- {
				ring = append(ring, low[i])
			}
			out = append(out, ring)
		}
		top, low = nil, nil
	}
	for i := range n {
		t0, t1 := 0.0, 1.0
		a, b := d[0][i], d[1][i]
		switch {
		case a <= 0 && b <= 0:
			end(float64(i) / float64(n))
			continue
		case a > 0 && b <= 0:
			t1 = a / (a - b)
		case a <= 0:
			t0 = a / (a - b)
		}
		x := (float64(i) + 0.5) / float64(n)
		if len(top) == 0 {
			x = float64(i) / float64(n)
			top, low = append(top, geom.Pt(x, t0)), append(low, geom.Pt(x, t1))
			x += 0.5 / float64(n)
		}
		top, low = append(top, geom.Pt(x, t0)), append(low, geom.Pt(x, t1))
	}
	end(1)
	return out
}

// toLine returns how far each step lies from the nearest line between sapwood
// and other wood, mm, positive in sapwood, at most far.
func toLine(sap []bool, step, far float64) []float64 {
	out := make([]float64, len(sap))
	for i := range out {
		out[i] = far
	}
	mend := func(line, i int) { // the line lies before step line
		out[i] = math.Min(out[i], step*math.Abs(float64(i)+0.5-float64(line)))
	}
	last := -1
	for i := range sap {
		if i > 0 && sap[i] != sap[i-1] {
			last = i
		}
		if last >= 0 {
			mend(last, i)
		}
	}
	last = -1
	for i := len(sap) - 1; i >= 0; i-- {
		if i+1 < len(sap) && sap[i] != sap[i+1] {
			last = i + 1
		}
		if last >= 0 {
			mend(last, i)
		}
	}
	for i := range out {
		if !sap[i] {
			out[i] = -out[i]
		}
	}
	return out
}
