package look

import (
	"math"

	"heartside/layout/colour"
	"heartside/layout/face"
)

// pair says what speaks against two neighbours.
func (j *Judge) pair(a, b *sheet, say func(k TermKind, points, measure, limit float64)) {
	r := &j.rules
	if a.board == nil || b.board == nil {
		return
	}
	border, step := r.Border, r.Step
	if j.name == SapToSap {
		border, step = border*r.LikeToLike, step*r.LikeToLike
	}
	// Along the joint: where one side alone carries unwanted wood, and where
	// both do, by how much of their width they differ.
	var met, one, both, apart float64
	for i := range a.rear {
		u, v := float64(a.rear[i]), float64(b.front[i])
		if u < 0 || v < 0 { // not known, or nobody sees it
			continue
		}
		met++
		switch low, high := math.Min(u, v), math.Max(u, v); {
		case high < r.Least:
		case low < r.Least:
			one++
		default:
			both++
			apart += (high - low) / high
		}
	}
	if met > 0 {
		if one > 0 {
			say(JointBorder, border*one/met, one/met, 0)
		}
		if apart > 0 {
			say(JointStep, step*apart/met, apart/both, 0)
		}
	}
	if a.heart != nil && b.heart != nil && (a.board == b.board || a.reference != "" && a.reference == b.reference) {
		if d := colour.DeltaE(*a.heart, *b.heart); d > r.ColourFrom {
			say(ColourStep, r.Colour*math.Min((d-r.ColourFrom)/(r.ColourFull-r.ColourFrom), 1), d, r.ColourFrom)
		}
	}
	for _, f := range r.Figure.Joint(a.figure, b.figure) {
		say(TermKind(f.Kind), f.Points, f.Measure, f.Limit)
	}
	if a.planes*b.planes < 0 {
		say(PlanesApart, r.Planing, 1, 0)
	}
	if r.Rings == Alternate && a.barkUp*b.barkUp > 0 {
		say(RingsWrong, r.RingsWrong, 1, 0)
	}
	if m, n := a.board.Moisture, b.board.Moisture; m > 0 && n > 0 && math.Abs(m-n) > r.MoistureMost {
		say(Moisture, r.Moisture, math.Abs(m-n), r.MoistureMost)
	}
}

// single says what speaks against a strip in its place.
func (j *Judge) single(s *face.Strip, place, places int, say func(k TermKind, points, measure, limit float64)) {
	sh, r := j.sheetOf(s), &j.rules
	places = max(places, 1)
	if sh.board == nil {
		return
	}
	if r.Rings == BarkUp && sh.barkUp < 0 || r.Rings == HeartUp && sh.barkUp > 0 {
		say(RingsWrong, r.RingsWrong, 1, 0)
	}
	if !j.judges {
		return
	}
	of := 0.0 // the share of the panel that the strip's unwanted wood is
	if j.width > 0 {
		of = sh.sure * s.W / j.width
	}
	front, rear := place == 0, place == places-1
	switch j.name {
	case HeartOnly:
		if of > 0 {
			say(OnShow, r.OnShow*of, of, 0)
		}
	case SapOut:
		kept := 0.0
		if front {
			kept = sh.against[0]
		}
		if rear {
			kept = math.Max(kept, sh.against[1])
			if front {
				kept = math.Min(sh.against[0]+sh.against[1], 1)
			}
		}
		if x := of * (1 - kept); x > 0 {
			say(Astray, r.Astray*x, x, 0)
		}
		for e, outside := range [2]bool{front, rear} {
			if outside && sh.bare[e] > 0 {
				say(EdgeBare, r.Bare*sh.bare[e], sh.bare[e], 0)
			}
		}
	case SapIn:
		// By place: the middle of the places is where it belongs.
		if off := math.Abs(2*(float64(place)+0.5)/float64(places) - 1); of > 0 && off > 0 {
			say(Astray, r.Astray*of*off*off, of, 0)
		}
	case SapToSap:
		for e, outside := range [2]bool{front, rear} {
			if outside && sh.light[e] > 0 {
				say(EdgeLight, r.Bare*r.LikeToLike*sh.light[e], sh.light[e], 0)
			}
		}
	}
}
