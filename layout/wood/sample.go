package wood

import (
	"math"
	"sort"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Step is how far stations lie apart, mm: short against the ragged edge of the
// heartwood, which wanders over some 50 mm. An engineering choice.
const Step = 10.0

// Zone is a patch of a face, in the face's own coordinates; a later one lies
// on top.
type Zone struct {
	Kind    photo.Label // Heart, Sap, Flaw or Unseen
	Polygon geom.Polygon
}

// FromZones returns a face of length x width mm whose zones are drawn on a
// base. What is outside outline, where there is one, is no wood.
func FromZones(length, width float64, base photo.Label, outline geom.Polygon, zones []Zone) Face {
	if !(length > 0) || !(width > 0) || math.IsInf(length, 0) || math.IsInf(width, 0) {
		return nil
	}
	n := stations(length)
	out := make(Face, n)
	for i := range out {
		x := (float64(i) + 0.5) * length / float64(n)
		// Every ring crosses the line at some heights; between two
		// neighbouring ones nothing changes.
		cuts := []float64{0, width}
		rings := make([][]float64, len(zones)+1)
		for k := range rings {
			p := outline
			if k > 0 {
				p = zones[k-1].Polygon
			}
			rings[k] = crossings(p, x)
			cuts = append(cuts, rings[k]...)
		}
		sort.Float64s(cuts)
		out[i].X = x
		for j := 1; j < len(cuts); j++ {
			a, b := math.Max(cuts[j-1], 0), math.Min(cuts[j], width)
			if b-a < 1e-9 {
				continue
			}
			y, kind := (a+b)/2, base
			if len(outline) > 0 && !within(rings[0], y) {
				continue
			}
			for k, z := range zones {
				if within(rings[k+1], y) {
					kind = z.Kind
				}
			}
			out[i].add(kind, Span{a, b})
		}
	}
	return out
}

func stations(length float64) int {
	return int(math.Min(math.Max(1, math.Round(length/Step)), 5000))
}

// crossings returns the heights at which a ring crosses the line at x, rising.
func crossings(p geom.Polygon, x float64) []float64 {
	var ys []float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.X <= x) != (b.X <= x) {
			ys = append(ys, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
		}
	}
	sort.Float64s(ys)
	return ys
}

// within reports whether y lies inside by the even-odd rule.
func within(ys []float64, y float64) bool {
	return sort.SearchFloat64s(ys, y)%2 == 1
}

// add puts a span on a station, joined to the one it continues.
func (s *Station) add(kind photo.Label, p Span) {
	var to *[]Span
	switch kind {
	case photo.Heart:
		to = &s.Heart
	case photo.Sap:
		to = &s.Sap
	case photo.Flaw:
		to = &s.Flaw
	default:
		return
	}
	if n := len(*to); n > 0 && p.From-(*to)[n-1].To < 1e-9 {
		(*to)[n-1].To = p.To
		return
	}
	*to = append(*to, p)
}

// FromMask returns the face a mask shows; each station takes what most of its
// columns say.
func FromMask(m *photo.Mask) Face {
	if m == nil || m.W <= 0 || m.H <= 0 || len(m.Pix) < m.W*m.H || !(m.Length > 0) || !(m.Width > 0) {
		return nil
	}
	n := min(stations(m.Length), m.W)
	out := make(Face, n)
	for i := range out {
		out[i].X = (float64(i) + 0.5) * m.Length / float64(n)
		c0, c1 := i*m.W/n, max((i+1)*m.W/n, i*m.W/n+1)
		for j := m.H - 1; j >= 0; j-- {
			var votes [photo.Unseen + 1]int
			for _, l := range m.Pix[j*m.W+c0 : j*m.W+c1] {
				if l <= photo.Unseen {
					votes[l]++
				}
			}
			most := photo.Outside
			for l := range votes {
				if votes[l] > votes[most] {
					most = photo.Label(l)
				}
			}
			k := float64(m.H - 1 - j)
			out[i].add(most, Span{k * m.Width / float64(m.H), (k + 1) * m.Width / float64(m.H)})
		}
	}
	return out
}
