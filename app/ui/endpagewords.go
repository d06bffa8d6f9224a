package ui

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo/rings"
	"heartside/layout/wood"
	"heartside/model"
	"heartside/model/say"
)

// wayWords say how an end is to be photographed.
func (p *endPage) wayWords() string {
	if p.end == 0 {
		return say.T("Stand before the marked end with face 1 up: the marked edge is at your right.")
	}
	return say.T("Stand before the other end with face 1 up: the marked edge is at your left.")
}

// cornerWords tell how sure each corner is, and what lies where.
func (p *endPage) cornerWords() string {
	text := ""
	for i, n := range endCornerNames() {
		state := say.T("to be set")
		if i < len(p.now.lie.at) {
			state = p.now.lie.trust[i].words()
			if p.now.lie.trust[i] == (cornerTrust{}) {
				state = say.T("✓ as kept")
			}
		}
		text += itoa(i+1) + "  " + n + ": " + state + "\n"
	}
	if c := p.now.lie.at; len(c) == 4 {
		mid := func(i, j int) geom.Point { return c[i].Lerp(c[j], 0.5) }
		text += say.F("\nIn this picture face 1 is %s and the marked edge %s.", sideWords(mid(2, 3), mid(0, 1)), sideWords(mid(3, 0), mid(1, 2)))
	}
	return text
}

// pithWords are the numbers of the pith.
func (p *endPage) pithWords() string {
	g, ses := p.got.pith, p.w.ses
	switch {
	case p.trouble != "":
		return ""
	case g == nil:
		return say.T("Reading the rings…")
	case !g.Found:
		return say.F("Pith not found: %s.", g.Why)
	}
	whole := func(v float64) string { return ses.Len(math.Round(math.Abs(v))) }
	across := say.F("Pith from the marked edge: %s", whole(g.At.X))
	switch {
	case g.At.X < 0:
		across = say.F("Pith outside the marked edge: %s", whole(g.At.X))
	case g.At.X > p.width:
		across += say.F(" (%s beyond the other edge)", whole(g.At.X-p.width))
	}
	depth := say.F("Pith below face 1: %s", whole(g.At.Y))
	switch {
	case g.At.Y < 0:
		depth = say.F("Pith above face 1: %s", whole(g.At.Y))
	case g.At.Y > p.thickness:
		depth += say.F(" (%s beyond face 2)", whole(g.At.Y-p.thickness))
	}
	return say.F("%s\n%s\nGive or take: %s", across, depth, whole(max(g.Error, 1)))
}

// heartWords are the numbers of the heartwood.
func (p *endPage) heartWords() string {
	h, ses := p.got.heart, p.w.ses
	switch {
	case p.trouble != "" || p.got.pith == nil:
		return ""
	case p.now.none:
		return say.T("Heartwood: no border seen on this end. Its radius stays as the board has it.")
	case !p.got.pith.Found:
		return say.T("Heartwood: its radius is counted from the pith, so that comes first.")
	case h == nil:
		return say.T("Looking for the border of the heartwood…")
	case !h.Seen:
		return say.F("Heartwood: %s.", h.Why)
	}
	whole := func(v float64) string { return ses.Len(math.Round(v)) }
	text := say.F("Heartwood radius: %s\nGive or take: %s", whole(h.Radius), whole(max(h.Error, 1)))
	if h.Most-h.Least >= 2 {
		text += say.F("\nBorder seen: %s to %s from the pith", whole(h.Least), whole(h.Most))
	}
	return text
}

// restWords tell what the numbers rest on, and what keeping them does.
func (p *endPage) restWords(b *model.Board) string {
	g := p.got.pith
	if g == nil || p.trouble != "" {
		return ""
	}
	text := say.T("Rests on ")
	whole, clicks := 0, 0
	for _, r := range p.now.rings {
		if len(r) >= leastClicks {
			whole, clicks = whole+1, clicks+len(r)
		}
	}
	switch {
	case whole > 0:
		text += say.F("%s on %s and on the rings in the picture", say.Count(clicks, say.T("click"), say.T("clicks")), say.Count(whole, say.T("ring"), say.T("rings")))
	case !g.Found:
		text = say.T("The rings in the picture alone tell too little")
	default:
		text += say.F("the rings in the picture alone, which the program is %s sure of", shareWords(g.Sure))
	}
	text += "."
	if whole == 0 {
		text += say.T(" Clicks on one ring, far apart, tell more.")
	}
	if n := len(p.now.rings); n > 0 {
		if k := len(p.now.rings[n-1]); k > 0 && k < leastClicks {
			text += say.F(" Ring %s wants %s.", itoa(n), say.Count(leastClicks-k, say.T("more click"), say.T("more clicks")))
		}
	}
	if p.step == endHeart {
		switch n := len(p.now.border); {
		case n >= leastClicks:
			text += say.F(" The radius: %s on the border of the heartwood.", say.Count(n, say.T("click"), say.T("clicks")))
		case n > 0:
			text += say.F(" The border wants %s.", say.Count(leastClicks-n, say.T("more click"), say.T("more clicks")))
		case p.got.heart != nil && p.got.heart.Seen:
			text += say.T(" The radius: the line in the picture over which the wood turns lighter outwards.")
		}
	}
	if e, ok := otherPith(b, p.end); ok {
		text += say.F(" At the %s the pith is kept at %s from the marked edge.", endName(1-p.end), p.w.ses.Len(math.Round(e.Across)))
	} else if len(b.Pith) == 1 && !b.Pith[0].HasX {
		text += say.T(" Keeping this takes the place of the pith that was told for the whole board.")
	}
	return text
}

// shareWords is a share in whole per cent.
func shareWords(v float64) string { return whole(min(max(v, 0), 0.99)) }

// Doubts: how far a pith may be off, mm, before that is said, and how far the
// pith of one log wanders from end to end, mm a metre. Engineering choices.
const (
	widePith = 15
	wander   = 40
)

// doubts say in words what the maker should look at.
func (p *endPage) doubts(b *model.Board) []string {
	var out []string
	if p.trouble != "" {
		return []string{"⚠ " + p.trouble}
	}
	if p.now.mirrored(p.end) {
		out = append(out, say.T("⚠ As the corners are named, this picture is a mirror image, or it shows the other end. A photograph taken from outside needs no mirror: untick it, or see that the picture belongs to this end."))
	}
	if p.step == endCorners {
		for i := range p.now.lie.at {
			if p.now.lie.trust[i].doubtful() {
				out = append(out, say.F("⚠ Look at corner %s: the program is not sure of it.", itoa(i+1)))
			}
		}
		return out
	}
	g := p.got.pith
	if g == nil || !g.Found {
		return out
	}
	if g.Error > widePith {
		out = append(out, say.F("⚠ The rings leave the pith open by %s: click three points of one ring, as far apart as it shows.", p.w.ses.Len(math.Round(g.Error))))
	}
	if want := barkOf(b, append(otherPiths(b, p.end, p.length), model.Pith{Depth: math.Round(g.At.Y)})); b.Bark != want && b.Bark != model.BarkUnknown && b.Bark != model.BarkNone {
		out = append(out, "⚠ "+clashWords(b, want))
	}
	if e, ok := otherPith(b, p.end); ok {
		if d := geom.Pt(e.Across, e.Depth).Dist(g.At); d > 2*g.Error+wander*p.length/1000 {
			out = append(out, say.F("⚠ The pith lies %s from where it is at the %s. That is far for one log: see that both pictures show the right end the right way up.", p.w.ses.Len(math.Round(d)), endName(1-p.end)))
		}
	}
	return append(out, p.logDoubts(b, g)...)
}

// logDoubts compare with what the two faces tell.
func (p *endPage) logDoubts(b *model.Board, g *rings.Pith) []string {
	a, ok := p.w.ses.Agreement(b.ID)
	if !ok || !a.Log.Seen {
		return nil
	}
	var out []string
	apart := func(v, err float64, i wood.Interval) bool { return v+2*err < i.Lo || v-2*err > i.Hi }
	span := func(i wood.Interval) string {
		return say.F("%s to %s", p.w.ses.Len(math.Round(i.Lo)), p.w.ses.Len(math.Round(i.Hi)))
	}
	if apart(g.At.X, g.Error, a.Log.Across) {
		out = append(out, say.F("⚠ The faces tell a pith %s from the marked edge. One of the two is wrong, or the picture lies the wrong way round.", span(a.Log.Across)))
	}
	if h := p.got.heart; h != nil && h.Seen && apart(h.Radius, h.Error, a.Log.HeartRadius) {
		out = append(out, say.F("⚠ The faces tell a heartwood radius of %s.", span(a.Log.HeartRadius)))
	}
	return out
}

// clashWords tell that bark side and pith disagree.
func clashWords(b *model.Board, want model.Bark) string {
	if want == model.BarkUnknown {
		return say.F("Face %s is called the bark side, but the pith crosses the middle of the thickness from end to end. Keeping takes the bark side off.", string(b.Bark))
	}
	return say.F("Face %s is called the bark side, but the pith lies nearer to it: face %s is the bark side by these rings. Keeping asks first.", string(b.Bark), string(want))
}

// keyWords list the keys that have no button with their name on it.
func (p *endPage) keyWords() string {
	text := say.T("Arrows: cursor, or what is in hand; with Shift ten times as far. Space: click there, or take the click in hand. Del: remove it. 9: the section. 0: all of the picture. + and −: zoom. O: other end.")
	if p.step == endCorners {
		text = say.T("1 to 4: corner in hand. Arrows: move it, with Shift ten times as far. 0: all of the picture. + and −: zoom. O: other end.")
	}
	if p.w.large() {
		text = say.F("Enter: go on. C, P, H: corners, pith, heartwood. K: keep. F: find again. N: next ring. X: no border. %s", text)
	}
	return text
}
