package arrange

import (
	"math"

	"heartside/layout/face"
)

// skim is the least that is taken off a face for it to clean up, mm. An
// engineering choice with no published source.
const skim = 1.0

// stocks takes the stock off the other face of a strip that is warned of: no
// more than it needs off the face that shows, or all but that. Only where the
// wood below its faces is known and it is still to be planed.
func (h *hunt) stocks() []change {
	var out []change
	for _, i := range h.aimed() {
		s := &h.f.p.Strips[i]
		if !layable(s) || s.Stage >= face.Planed || s.Board.Deep == nil {
			continue
		}
		all := s.Board.Thickness - h.f.p.Thickness
		given := all - h.f.opt.AfterGlue
		if !(given > skim) || !(h.f.p.Thickness > 0) {
			continue
		}
		show := s.UpFace() - 1
		now := s.Taken(h.f.p.Thickness)
		for rank, off := range [2]float64{skim, given - skim} {
			o := face.Off{Set: true}
			o.Face[show], o.Face[1-show] = off, given-off
			if math.Abs(off+h.f.opt.AfterGlue/2-now[show]) < 0.05 {
				continue
			}
			out = append(out, change{
				steps: []Step{{Kind: TakeOff, Strips: []string{s.ID}, By: off}},
				strips: h.with(func(list []face.Strip) {
					list[i].Off = o
				}),
				size: 2 + 0.1*float64(rank),
			})
		}
	}
	return out
}
