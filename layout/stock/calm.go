package stock

import (
	"math"

	"heartside/layout/geom"
)

// How the wood that a look wants is sought in a room. Engineering choices with
// no published source.
const (
	scanSteps = 40    // places along a room that are looked at
	cleanRow  = 0.015 // share of unwanted wood that a clean row holds at most
	mostClean = 2     // stretches taken of a face
)

// calmest returns where along a room strips over its whole width show least
// that their look does not welcome, other than at its ends.
func (p *problem) calmest(j *job, s *site, room geom.Rect, l float64) (float64, bool) {
	reach := room.W() - l
	n := math.Min(scanSteps, math.Ceil(reach/10))
	best, at, found := math.Inf(1), 0.0, false
	for k := 0.0; k <= n; k++ {
		x := room.Min.X + reach*k/n
		box := geom.R(x, room.Min.Y, x+l, room.Max.Y)
		f := math.Min(j.lie(s.Table, box, 1).fault, j.lie(s.Table, box, 2).fault)
		if f < best-1 {
			best, at, found = f, x, k > 0 && k < n
		}
	}
	return at, found
}

// clean returns the widest stretches across a box whose rows hold next to no
// unwanted wood on one face, or on both where both are seen.
func (p *problem) clean(j *job, s *site, box geom.Rect) []geom.Rect {
	kind, ok := j.wanted.Unwanted()
	if !ok {
		return nil
	}
	grain := math.Max(s.cell, p.opt.Grid)
	rows := int(box.H() / grain)
	if rows < 1 {
		return nil
	}
	var share [2][]float64
	for f := range share {
		if s.face[f].base != kind && s.face[f].kinds[kind] == nil {
			if !j.both {
				return nil // clean all over, and the whole box is tried
			}
		}
		share[f] = make([]float64, rows)
		for i := range share[f] {
			r := geom.R(box.Min.X, box.Min.Y+float64(i)*grain, box.Max.X, box.Min.Y+float64(i+1)*grain)
			w := s.On(f+1, r)
			share[f][i] = w.Of(kind) / area(r)
		}
	}
	var out []geom.Rect
	for f := range share {
		rowClean := func(i int) bool {
			if j.both {
				return share[0][i] <= cleanRow && share[1][i] <= cleanRow
			}
			return share[f][i] <= cleanRow
		}
		var runs []geom.Rect
		for i := 0; i < rows; {
			if !rowClean(i) {
				i++
				continue
			}
			k := i
			for k < rows && rowClean(k) {
				k++
			}
			if i == 0 && k == rows {
				break // the box itself
			}
			if r := geom.R(box.Min.X, box.Min.Y+float64(i)*grain, box.Max.X, box.Min.Y+float64(k)*grain); r.H() >= j.least-tiny {
				runs = append(runs, r)
			}
			i = k
		}
		for range min(mostClean, len(runs)) {
			best := 0
			for i := range runs {
				if runs[i].H() > runs[best].H()+tiny {
					best = i
				}
			}
			out = append(out, runs[best])
			runs = append(runs[:best:best], runs[best+1:]...)
		}
		if j.both {
			break
		}
	}
	return out
}
