package depth

import (
	"math"

	"heartside/layout/face"
)

// painted reports whether a zone is wholly under wood drawn later.
func painted(zones []face.Zone, i int) bool {
	for _, over := range zones[i+1:] {
		if over.Kind != face.Heart && over.Kind != face.Sap {
			continue
		}
		all := true
		for _, p := range zones[i].Polygon {
			if !over.Polygon.Contains(p) {
				all = false
				break
			}
		}
		if all {
			return true
		}
	}
	return false
}

// narrowest is the width that a band of sapwood must have somewhere to be
// drawn where the face of its side shows none at that edge: less is under what
// can be told. An engineering choice, mm.
const narrowest = 1.0

// told reports whether a band is to be drawn: the sawn face of side k has a
// line at that edge somewhere, or the band is wide enough.
func (s *Solid) told(k, branch int, lo, hi []float64) bool {
	if !math.IsInf(s.gap[k][branch][0], 1) {
		return true
	}
	for i := range lo {
		if hi[i]-lo[i] >= narrowest {
			return true
		}
	}
	return false
}
