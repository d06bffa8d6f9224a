package wood

import (
	"math"

	"heartside/layout/geom"
)

// borderGap is how far heartwood and sapwood may lie apart and still meet, mm:
// the zones that a maker draws leave hairs between them. An engineering choice.
const borderGap = 0.5

// EndBorders returns where heartwood meets sapwood on both faces beside an end
// of the board, the marked one or the other, as points of that section: (across
// from the marked edge, depth below face 1), mm. A face that was not seen gives
// none.
func (f Faces) EndBorders(other bool) []geom.Point {
	var out []geom.Point
	for k, side := range f.Side {
		if len(side) == 0 {
			continue
		}
		s := &side[0]
		if other {
			s = &side[len(side)-1]
		}
		for _, h := range s.Heart {
			for _, p := range s.Sap {
				var y float64
				switch {
				case math.Abs(h.From-p.To) <= borderGap:
					y = (h.From + p.To) / 2
				case math.Abs(h.To-p.From) <= borderGap:
					y = (h.To + p.From) / 2
				default:
					continue
				}
				if k == 1 { // face 2 is seen rolled over
					y = f.Width - y
				}
				out = append(out, geom.Pt(y, float64(k)*f.Thickness))
			}
		}
	}
	return out
}
