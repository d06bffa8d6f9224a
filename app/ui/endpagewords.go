package ui

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo/rings"
	"heartside/layout/wood"
	"heartside/model"
)

// wayWords say how an end is to be photographed.
func (p *endPage) wayWords() string {
	if p.end == 0 {
		return "Stand before the marked end with face 1 up: the marked edge is at your right."
	}
	return "Stand before the other end with face 1 up: the marked edge is at your left."
}

// cornerWords tell how sure each corner is, and what lies where.
func (p *endPage) cornerWords() string {
	text := ""
	for i, n := range endCornerNames() {
		state := "to be set"
		if i < len(p.now.lie.at) {
			state = p.now.lie.trust[i].words()
			if p.now.lie.trust[i] == (cornerTrust{}) {
				state = "✓ as kept"
			}
		}
		text += itoa(i+1) + "  " + n + ": " + state + "\n"
	}
	if c := p.now.lie.at; len(c) == 4 {
		mid := func(i, j int) geom.Point { return c[i].Lerp(c[j], 0.5) }
		text += "\nIn this picture face 1 is " + sideWords(mid(2, 3), mid(0, 1)) + " and the marked edge " + sideWords(mid(3, 0), mid(1, 2)) + "."
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
		return "Reading the rings…"
	case !g.Found:
		return "Pith not found: " + g.Why + "."
	}
	whole := func(v float64) string { return ses.Len(math.Round(math.Abs(v))) }
	across := "Pith from the marked edge: " + whole(g.At.X)
	switch {
	case g.At.X < 0:
		across = "Pith outside the marked edge: " + whole(g.At.X)
	case g.At.X > p.width:
		across += " (" + whole(g.At.X-p.width) + " beyond the other edge)"
	}
	depth := "Pith below face 1: " + whole(g.At.Y)
	switch {
	case g.At.Y < 0:
		depth = "Pith above face 1: " + whole(g.At.Y)
	case g.At.Y > p.thickness:
		depth += " (" + whole(g.At.Y-p.thickness) + " beyond face 2)"
	}
	return across + "\n" + depth + "\nGive or take: " + whole(max(g.Error, 1))
}

// heartWords are the numbers of the heartwood.
func (p *endPage) heartWords() string {
	h, ses := p.got.heart, p.w.ses
	switch {
	case p.trouble != "" || p.got.pith == nil:
		return ""
	case p.now.none:
		return "Heartwood: no border seen on this end. Its radius stays as the board has it."
	case !p.got.pith.Found:
		return "Heartwood: its radius is counted from the pith, so that comes first."
	case h == nil:
		return "Looking for the border of the heartwood…"
	case !h.Seen:
		return "Heartwood: " + h.Why + "."
	}
	whole := func(v float64) string { return ses.Len(math.Round(v)) }
	text := "Heartwood radius: " + whole(h.Radius) + "\nGive or take: " + whole(max(h.Error, 1))
	if h.Most-h.Least >= 2 {
		text += "\nBorder seen: " + whole(h.Least) + " to " + whole(h.Most) + " from the pith"
	}
	return text
}

// restWords tell what the numbers rest on, and what keeping them does.
func (p *endPage) restWords(b *model.Board) string {
	g := p.got.pith
	if g == nil || p.trouble != "" {
		return ""
	}
	text := "Rests on "
	whole, clicks := 0, 0
	for _, r := range p.now.rings {
		if len(r) >= leastClicks {
			whole, clicks = whole+1, clicks+len(r)
		}
	}
	switch {
	case whole > 0:
		text += count(clicks, "click", "clicks") + " on " + count(whole, "ring", "rings") + " and on the rings in the picture"
	case !g.Found:
		text = "The rings in the picture alone tell too little"
	default:
		text += "the rings in the picture alone, which the program is " + shareWords(g.Sure) + " sure of"
	}
	text += "."
	if whole == 0 {
		text += " Clicks on one ring, far apart, tell more."
	}
	if n := len(p.now.rings); n > 0 {
		if k := len(p.now.rings[n-1]); k > 0 && k < leastClicks {
			text += " Ring " + itoa(n) + " wants " + count(leastClicks-k, "more click", "more clicks") + "."
		}
	}
	if p.step == endHeart {
		switch n := len(p.now.border); {
		case n >= leastClicks:
			text += " The radius: " + count(n, "click", "clicks") + " on the border of the heartwood."
		case n > 0:
			text += " The border wants " + count(leastClicks-n, "more click", "more clicks") + "."
		case p.got.heart != nil && p.got.heart.Seen:
			text += " The radius: the line in the picture over which the wood turns lighter outwards."
		}
	}
	if e, ok := otherPith(b, p.end); ok {
		text += " At the " + endName(1-p.end) + " the pith is kept at " + p.w.ses.Len(math.Round(e.Across)) + " from the marked edge."
	} else if len(b.Pith) == 1 && !b.Pith[0].HasX {
		text += " Keeping this takes the place of the pith that was told for the whole board."
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
		out = append(out, "⚠ As the corners are named, this picture is a mirror image, or it shows the other end. A photograph taken from outside needs no mirror: untick it, or see that the picture belongs to this end.")
	}
	if p.step == endCorners {
		for i := range p.now.lie.at {
			if p.now.lie.trust[i].doubtful() {
				out = append(out, "⚠ Look at corner "+itoa(i+1)+": the program is not sure of it.")
			}
		}
		return out
	}
	g := p.got.pith
	if g == nil || !g.Found {
		return out
	}
	if g.Error > widePith {
		out = append(out, "⚠ The rings leave the pith open by "+p.w.ses.Len(math.Round(g.Error))+": click three points of one ring, as far apart as it shows.")
	}
	if want := barkOf(b, append(otherPiths(b, p.end, p.length), model.Pith{Depth: math.Round(g.At.Y)})); b.Bark != want && b.Bark != model.BarkUnknown && b.Bark != model.BarkNone {
		out = append(out, "⚠ "+clashWords(b, want))
	}
	if e, ok := otherPith(b, p.end); ok {
		if d := geom.Pt(e.Across, e.Depth).Dist(g.At); d > 2*g.Error+wander*p.length/1000 {
			out = append(out, "⚠ The pith lies "+p.w.ses.Len(math.Round(d))+" from where it is at the "+endName(1-p.end)+". That is far for one log: see that both pictures show the right end the right way up.")
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
		return p.w.ses.Len(math.Round(i.Lo)) + " to " + p.w.ses.Len(math.Round(i.Hi))
	}
	if apart(g.At.X, g.Error, a.Log.Across) {
		out = append(out, "⚠ The faces tell a pith "+span(a.Log.Across)+" from the marked edge. One of the two is wrong, or the picture lies the wrong way round.")
	}
	if h := p.got.heart; h != nil && h.Seen && apart(h.Radius, h.Error, a.Log.HeartRadius) {
		out = append(out, "⚠ The faces tell a heartwood radius of "+span(a.Log.HeartRadius)+".")
	}
	return out
}

// clashWords tell that bark side and pith disagree.
func clashWords(b *model.Board, want model.Bark) string {
	if want == model.BarkUnknown {
		return "Face " + string(b.Bark) + " is called the bark side, but the pith crosses the middle of the thickness from end to end. Keeping takes the bark side off."
	}
	return "Face " + string(b.Bark) + " is called the bark side, but the pith lies nearer to it: face " + string(want) + " is the bark side by these rings. Keeping asks first."
}

// keyWords list the keys that have no button with their name on it.
func (p *endPage) keyWords() string {
	text := "Arrows: cursor, or what is in hand; with Shift ten times as far. Space: click there, or take the click in hand. Del: remove it. 9: the section. 0: all of the picture. + and −: zoom. O: other end."
	if p.step == endCorners {
		text = "1 to 4: corner in hand. Arrows: move it, with Shift ten times as far. 0: all of the picture. + and −: zoom. O: other end."
	}
	if p.w.large() {
		text = "Enter: go on. C, P, H: corners, pith, heartwood. K: keep. F: find again. N: next ring. X: no border. " + text
	}
	return text
}
