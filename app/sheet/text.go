package sheet

import (
	"math"

	"heartside/app/render"
)

// fit makes one line go into w mm: as it is, else in the narrow cut, else
// smaller down to the least size, else shortened with an ellipsis.
func fit(f *render.Faces, s string, st render.Style, w float64) (string, render.Style) {
	if f.Width(s, st) <= w {
		return s, st
	}
	st.Narrow = true
	if have := f.Width(s, st); have > w && have > 0 {
		st.Size = math.Max(math.Min(least, st.Size), st.Size*w/have*0.999)
	}
	return f.Fit(s, st, w), st
}

// spread moves labels of the given height, wanted at the centres at (sorted),
// as little as needed so that none overlaps the next and all lie between lo
// and hi. It reports false where they cannot.
func spread(at []float64, height, lo, hi float64) ([]float64, bool) {
	heights := make([]float64, len(at))
	for i := range heights {
		heights[i] = height
	}
	return stack(at, heights, lo, hi)
}

// stack is spread for labels of different heights.
func stack(at, heights []float64, lo, hi float64) ([]float64, bool) {
	n := len(at)
	if total(heights) > hi-lo+1e-9 {
		return nil, false
	}
	out := append([]float64(nil), at...)
	for i := range out {
		least := lo + heights[i]/2
		if i > 0 {
			least = out[i-1] + (heights[i-1]+heights[i])/2
		}
		out[i] = math.Max(out[i], least)
	}
	for i := n - 1; i >= 0; i-- {
		most := hi - heights[i]/2
		if i < n-1 {
			most = out[i+1] - (heights[i+1]+heights[i])/2
		}
		out[i] = math.Min(out[i], most)
	}
	return out, true
}
