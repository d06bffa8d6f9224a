package arrange

import (
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

const (
	mostPlaces = 16  // free places tried for one strip
	otherBoard = 1e4 // mm, what a move to another board counts as
)

// clear moves a strip that leaves its board or comes too near another one by
// as much as is wrong, along and across. Of two that overlap either may give
// way.
func (h *hunt) clear() []change {
	by := tenthUp(h.w.Measure)
	var out []change
	for _, i := range h.aimed() {
		s := h.f.p.Strips[i]
		if !cuttable(&s) {
			continue
		}
		for _, d := range [...]geom.Point{{X: by}, {X: -by}, {Y: by}, {Y: -by}} {
			kind := MoveAlong
			if d.Y != 0 {
				kind = MoveAcross
			}
			for _, own := range [...]bool{true, false} {
				// Along the board's axes and along the strip's own.
				q := s
				if own {
					q = moved(s, d.X, d.Y)
				} else if s.Angle != 0 {
					q.X, q.Y = s.X+d.X, s.Y+d.Y
				} else {
					continue
				}
				out = append(out, change{
					steps:  []Step{{Kind: kind, Strips: []string{s.ID}, By: d.X + d.Y}},
					strips: h.with(func(list []face.Strip) { list[i] = q }),
					cost:   ReCut, size: by,
				})
			}
		}
	}
	return out
}

// elsewhere moves a strip to the free places of its board and of the others,
// nearest first.
func (h *hunt) elsewhere() []change {
	var out []change
	for _, i := range h.aimed() {
		s := h.f.p.Strips[i]
		if !cuttable(&s) {
			continue
		}
		taken := join(h.f.opt.Others, h.f.spares)
		for k := range h.f.p.Strips {
			if k != i {
				taken = append(taken, h.f.p.Strips[k])
			}
		}
		n := 0
		for _, b := range h.boards(s.Board) {
			for _, q := range cutting.Spots(b, s, taken, h.f.opt.Allowances) {
				if n++; n > mostPlaces {
					break
				}
				size := math.Hypot(q.X-s.X, q.Y-s.Y)
				step := Step{Kind: MoveOnBoard, Strips: []string{s.ID}, By: size}
				if b.ID != s.Board.ID {
					step.By, step.Board = 0, b.ID
					size += otherBoard
				}
				q.Up, q.Turned = s.Up, s.Turned
				out = append(out, change{
					steps:  []Step{step},
					strips: h.with(func(list []face.Strip) { list[i] = q }),
					cost:   ReCut, size: size,
				})
			}
		}
	}
	return out
}

// boards returns the boards a strip may go to, its own first.
func (h *hunt) boards(own *face.Board) []*face.Board {
	out := []*face.Board{own}
	for _, b := range h.f.opt.Boards {
		if b != nil && b.ID != own.ID {
			out = append(out, b)
		}
	}
	return out
}

// pastFlaw moves a strip on its board so that a flaw leaves what stays of it:
// beyond the ends of the panel, or beyond the strip's long edges.
func (h *hunt) pastFlaw() []change {
	var out []change
	p := h.f.p
	margin := math.Max(beyondLine, h.f.opt.Allowances.FlawMargin)
	at := h.w.Place
	if h.w.Side == face.Back {
		at.Min.Y, at.Max.Y = p.Width-at.Max.Y, p.Width-at.Min.Y
	}
	for _, i := range h.aimed() {
		s := p.Strips[i]
		if !cuttable(&s) {
			continue
		}
		y := p.StripY(i)
		for _, d := range [...]float64{at.Max.X + margin, p.Length - at.Min.X + margin} {
			for _, ds := range [...]float64{tenthUp(d), -tenthUp(d)} {
				out = append(out, change{
					steps:  []Step{{Kind: MoveAlong, Strips: []string{s.ID}, By: ds}},
					strips: h.with(func(list []face.Strip) { list[i] = moved(s, ds, 0) }),
					cost:   ReCut, size: math.Abs(ds),
				})
			}
		}
		for _, d := range [...]float64{at.Max.Y - y + margin, y + s.W - at.Min.Y + margin} {
			out = h.movedAcross(out, i, tenthUp(d))
			out = h.movedAcross(out, i, -tenthUp(d))
		}
	}
	return out
}
