//go:build !race

package rings

import (
	"math"
	"os"
	"testing"

	"heartside/layout/geom"
)

func TestZZ(t *testing.T) {
	if os.Getenv("ZZ") == "" {
		t.Skip()
	}
	for _, s := range samples(t) {
		h, _ := FindHeart(t.Context(), s.end, s.pith)
		if !h.Seen {
			continue
		}
		rim := func(p geom.Point) float64 {
			return math.Min(math.Min(p.X, s.end.Width-p.X), math.Min(p.Y, s.end.Thickness-p.Y))
		}
		out := ""
		n := len(h.Edge)
		cut := []int{0}
		for i := 1; i < n; i++ {
			if h.Edge[i].Dist(h.Edge[i-1]) > 15 {
				cut = append(cut, i)
			}
		}
		cut = append(cut, n)
		_ = out
		for k := 0; k+1 < len(cut); k++ {
			a, b := h.Edge[cut[k]], h.Edge[cut[k+1]-1]
			m := 0.0
			for i := cut[k]; i < cut[k+1]; i++ {
				m += h.Edge[i].Dist(s.pith) / float64(cut[k+1]-cut[k])
			}
			t.Logf("%-18s W %.0f T %.0f true %.0f: arc %d r %.0f (%+.1f%%) n %d ends rim %.1f %.1f  from %.0f,%.0f to %.0f,%.0f step %.1f", s.name, s.end.Width, s.end.Thickness, s.mean, k, m, 100*(m/s.mean-1), cut[k+1]-cut[k], rim(a), rim(b), a.X, a.Y, b.X, b.Y, h.Step)
		}
	}
}
