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
	type q struct {
		s sample
		o float64
	}
	var qs []q
	for _, s := range samples(t) {
		ps := s.borders(t, true)
		if len(ps) > 0 && len(ps) < 28 {
			h, _ := HeartFromClicks(s.pith, ps)
			qs = append(qs, q{s, h.Radius})
		}
	}
	for _, zzJump = range []float64{2.8, 4, 5.2} {
		n, in3, in5, in10 := 0, 0, 0, 0
		sum, off := 0.0, 0.0
		for _, q := range qs {
			h, _ := FindHeart(t.Context(), q.s.end, q.s.pith)
			if !h.Seen {
				continue
			}
			g, _ := FindHeart(t.Context(), q.s.end, q.s.pith.Add(geom.Pt(4, -3)))
			n++
			d := math.Abs(h.Radius/q.o - 1)
			sum += d
			off += math.Abs(g.Radius/q.o-1)
			if d < .03 {
				in3++
			}
			if d < .05 {
				in5++
			}
			if d < .1 {
				in10++
			}
		}
		t.Logf("jump %4.1f: n %d in3 %d in5 %d in10 %d mean %.2f%% with pith 5 mm off %.2f%%", zzJump, n, in3, in5, in10, 100*sum/float64(n), 100*off/float64(n))
	}
}
