package ui

import (
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo/outline"
	"heartside/model/say"
)

// endDraft is what the maker marked on the photograph of an end, in pixels of
// the picture: so clicks stay on the wood when a corner is moved. It is not
// changed once made; acts make another.
type endDraft struct {
	lie    faceLie        // corners in the order of endCornerNames
	rings  [][]geom.Point // clicks; the last ring may be under way
	border []geom.Point   // clicks on the border of the heartwood
	none   bool           // no such border is to be seen
}

// endCornerNames are the corners of a section in the order of the file.
func endCornerNames() [4]string {
	return [4]string{say.T("other edge, face 1"), say.T("marked edge, face 1"), say.T("marked edge, face 2"), say.T("other edge, face 2")}
}

// leastClicks are needed on a ring, or on the border of the heartwood.
const leastClicks = 3

func (d endDraft) same(e endDraft) bool {
	return d.lie.same(e.lie) && d.none == e.none && slices.Equal(d.border, e.border) && slices.EqualFunc(d.rings, e.rings, slices.Equal[[]geom.Point])
}

// clicked returns the draft with a further click.
func (d endDraft) clicked(s endStep, at geom.Point) endDraft {
	if s == endHeart {
		d.border, d.none = append(slices.Clone(d.border), at), false
		return d
	}
	d.rings = slices.Clone(d.rings)
	if len(d.rings) == 0 {
		d.rings = [][]geom.Point{nil}
	}
	n := len(d.rings) - 1
	d.rings[n] = append(slices.Clone(d.rings[n]), at)
	return d
}

// click names a click of a step: ring and place in it.
type click struct{ ring, i int }

// clicks are those of a step.
func (d endDraft) clicks(s endStep) [][]geom.Point {
	switch s {
	case endPith:
		return d.rings
	case endHeart:
		return [][]geom.Point{d.border}
	}
	return nil
}

// moved returns the draft with a click elsewhere.
func (d endDraft) moved(s endStep, c click, at geom.Point) endDraft {
	if s == endHeart {
		d.border = slices.Clone(d.border)
		d.border[c.i] = at
		return d
	}
	d.rings = slices.Clone(d.rings)
	d.rings[c.ring] = slices.Clone(d.rings[c.ring])
	d.rings[c.ring][c.i] = at
	return d
}

// without returns the draft less a click; a ring without clicks goes too,
// unless it is the one under way.
func (d endDraft) without(s endStep, c click) endDraft {
	if s == endHeart {
		d.border = slices.Delete(slices.Clone(d.border), c.i, c.i+1)
		return d
	}
	d.rings = slices.Clone(d.rings)
	d.rings[c.ring] = slices.Delete(slices.Clone(d.rings[c.ring]), c.i, c.i+1)
	if len(d.rings[c.ring]) == 0 {
		d.rings = slices.Delete(d.rings, c.ring, c.ring+1)
	}
	return d
}

// nextRing returns the draft with a new ring begun; false where the one under
// way has not clicks enough.
func (d endDraft) nextRing() (endDraft, bool) {
	if n := len(d.rings); n == 0 || len(d.rings[n-1]) < leastClicks {
		return d, false
	}
	d.rings = append(slices.Clone(d.rings), nil)
	return d, true
}

// cleared returns the draft without the clicks of a step.
func (d endDraft) cleared(s endStep) endDraft {
	if s == endHeart {
		d.border, d.none = nil, false
	} else {
		d.rings = nil
	}
	return d
}

// faceDown reports whether face 1 lies down in the picture, or at the right
// where the section stands in it.
func (d endDraft) faceDown() bool {
	c := d.lie.at
	if len(c) != 4 {
		return false
	}
	v := c[0].Lerp(c[1], 0.5).Sub(c[2].Lerp(c[3], 0.5))
	if max(v.X, -v.X) > max(v.Y, -v.Y) {
		return v.X > 0
	}
	return v.Y > 0
}

// mirrored reports whether the section, as its corners are named, cannot be
// seen so from outside: the picture is a mirror image, or edges are swapped.
func (d endDraft) mirrored(end int) bool {
	return len(d.lie.at) == 4 && (end == 0) != (geom.Polygon(d.lie.at).SignedArea() > 0)
}

// bad says what speaks against using the corners, "" nothing.
func (d endDraft) bad() string {
	c := d.lie.at
	if n := len(c); n < 4 {
		return say.F("Set all four corners first: %s is next.", endCornerNames()[n])
	}
	turn := geom.Polygon(c).SignedArea() > 0
	for i := range c {
		a, b := c[(i+1)%4].Sub(c[i]), c[(i+2)%4].Sub(c[(i+1)%4])
		if (a.Cross(b) > 0) != turn || a.Cross(b) == 0 {
			return say.F("The corners do not go round the section: from %s along face 1 to %s, then on round.", endCornerNames()[0], endCornerNames()[1])
		}
	}
	return ""
}

// swapped gives each corner the name of the one across the width.
func swapped(l faceLie) faceLie {
	if len(l.at) != 4 {
		return l
	}
	l.at = []geom.Point{l.at[1], l.at[0], l.at[3], l.at[2]}
	l.trust = [4]cornerTrust{l.trust[1], l.trust[0], l.trust[3], l.trust[2]}
	return l
}

// foundEnd returns the lie of a section found in a picture, whose corners go
// anticlockwise from the lower left, seen from outside with face 1 up; turned
// and mirrored are as the corners before it were.
func foundEnd(f *outline.Found, end int, down, mirrored bool) faceLie {
	order := [4]int{3, 2, 1, 0} // the marked edge at the right
	if end == 1 {
		order = [4]int{2, 3, 0, 1}
	}
	l := faceLie{bow: f.View.Bow, residual: f.Residual, measured: f.Residual > 0}
	for i, k := range order {
		l.at = append(l.at, f.View.Corners[k])
		l.trust[i] = cornerTrust{known: true, sure: f.Confidence[k]}
	}
	if down {
		l = l.aboutTurned()
		l.turned = false
	}
	if mirrored {
		l = swapped(l)
	}
	return l
}

// do makes another draft the one shown, as an act that can be taken back.
func (p *endPage) do(d endDraft) {
	p.keepFrom(p.now, d)
}

// keepFrom makes d the draft, an act that began at from.
func (p *endPage) keepFrom(from, d endDraft) {
	p.now = d
	if !from.same(d) {
		p.past, p.ahead = append(p.past, from), nil
	}
	p.drafted()
}

// drafted shows the draft and has read anew what hangs on it.
func (p *endPage) drafted() {
	p.pic.Refresh()
	if p.step != endCorners {
		p.read()
	}
	p.show()
	if p.w.page == page(p) {
		p.w.say("")
	}
}

func (p *endPage) canUndo() bool { return len(p.past) > 0 || p.pic.walking }
func (p *endPage) canRedo() bool { return len(p.ahead) > 0 }

func (p *endPage) undo() {
	p.pic.settle()
	if n := len(p.past); n > 0 {
		p.ahead = append(p.ahead, p.now)
		p.now, p.past = p.past[n-1], p.past[:n-1]
		p.returned()
	}
}

func (p *endPage) redo() {
	if n := len(p.ahead); n > 0 {
		p.past = append(p.past, p.now)
		p.now, p.ahead = p.ahead[n-1], p.ahead[:n-1]
		p.returned()
	}
}

// returned shows a draft that was gone back to; one without corners shows
// them.
func (p *endPage) returned() {
	p.pic.letGo()
	if p.step != endCorners && p.now.bad() != "" {
		p.step = endCorners
	}
	p.drafted()
}

// unsaved reports whether there is something that the project has not.
func (p *endPage) unsaved() bool { return !p.now.same(p.saved) }
