package depth

import (
	"fmt"
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Choice is one way to share stock between the faces, and what shows then.
type Choice struct {
	Off [2]float64 // mm off face 1 and face 2
	// Shares of what is asked about, 0 to 1 of the wood in it.
	Sap, Heart, Flaw, Unseen float64
	Note                     Note
}

// shares of the stock that come off the face that shows.
var splits = [...]float64{0, 0.25, 0.5, 0.75, 1}

// Best tells what face up, 1 or 2, shows of a region (face-1 coordinates, such
// as a strip's rectangle) where total mm come off the board: none of them off
// that face, a quarter, half, three quarters, all of them. The maker, or who
// knows the wood that is wanted, picks. It fails for a side that is none and
// more stock than the board has.
func (s *Solid) Best(total float64, up int, within geom.Polygon) ([]Choice, error) {
	if up != 1 && up != 2 {
		return nil, fmt.Errorf("choosing the face to plane: side %d shows, want 1 or 2", up)
	}
	if !(total >= 0) || total > s.b.Thickness {
		return nil, fmt.Errorf("choosing the face to plane: %g mm off a board of %g mm", total, s.b.Thickness)
	}
	if up == 2 {
		within = geom.Affine{A: 1, E: -1, F: s.b.Width}.ApplyTo(within)
	}
	within = within.ClipRect(geom.R(0, 0, s.b.Length, s.b.Width))
	var d geom.Decomposer
	var parts []geom.Trapezoid
	var out []Choice
	for _, share := range splits {
		z := total * share
		f, note := s.At(up, z)
		c := Choice{Note: note}
		c.Off[up-1], c.Off[2-up] = z, total-z
		var by [face.Blank + 1]float64
		parts = d.Decompose(parts[:0], within, int(f.Base), layersOf(&f, s.b.Length, s.b.Width))
		for _, t := range parts {
			by[t.Label] += t.Area()
		}
		if all := by[face.Heart] + by[face.Sap] + by[face.Flaw] + by[face.Unseen]; all > 0 {
			c.Heart, c.Sap = by[face.Heart]/all, by[face.Sap]/all
			c.Flaw, c.Unseen = by[face.Flaw]/all, by[face.Unseen]/all
		}
		out = append(out, c)
	}
	return out, nil
}

// layersOf returns the zones of a face, and over them what is outside its
// outline.
func layersOf(f *face.BoardFace, length, width float64) []geom.Layer {
	var out []geom.Layer
	for _, z := range f.Zones {
		out = append(out, geom.Layer{Label: int(z.Kind), Polygon: z.Polygon})
	}
	if f.Outline != nil {
		// One ring, even-odd: a frame about the board with the outline cut out.
		far := length + width
		frame := geom.R(-far, -far, length+far, width+far).Polygon()
		ring := append(geom.Polygon{}, frame...)
		ring = append(ring, frame[0])
		ring = append(ring, f.Outline...)
		ring = append(ring, f.Outline[0])
		out = append(out, geom.Layer{Label: int(face.Blank), Polygon: ring})
	}
	return out
}

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
