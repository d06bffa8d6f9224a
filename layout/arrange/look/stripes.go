package look

import (
	"math"

	"heartside/layout/face"
)

// What makes bands look like the stripes of a pole. Engineering choices.
const (
	stripesLeast = 4   // bands
	stripesLong  = 0.5 // share of the panel's length each runs at least
	stripesAlike = 1.5 // the widest against the narrowest, at most
	stripesOff   = 0.2 // of the distance between two, off the even place, at most
	stripesOver  = 0.5 // share of the panel's width from the first to the last, at least
)

// stripes counts the bands of a face that look like the stripes of a pole: long
// ones of one width at even distances over much of the panel. 0 where they do
// not.
func stripes(bands []face.Band, length, width float64) int {
	n, first, last := 0, math.Inf(1), math.Inf(-1)
	thin, wide := math.Inf(1), 0.0
	for i := range bands {
		if b := &bands[i]; runs(b, length) {
			n++
			first, last = math.Min(first, b.CentreY), math.Max(last, b.CentreY)
			thin, wide = math.Min(thin, b.MeanWidth), math.Max(wide, b.MeanWidth)
		}
	}
	if n < stripesLeast || last-first < stripesOver*width || wide > stripesAlike*thin {
		return 0
	}
	gap := (last - first) / float64(n-1)
	for i := range bands {
		if b := &bands[i]; runs(b, length) {
			k := (b.CentreY - first) / gap
			if math.Abs(k-math.Round(k)) > stripesOff {
				return 0
			}
		}
	}
	return n
}

// runs reports whether a band runs along much of a panel.
func runs(b *face.Band, length float64) bool {
	return !b.Sliver && b.Length >= stripesLong*length && b.Length > b.MeanWidth
}
