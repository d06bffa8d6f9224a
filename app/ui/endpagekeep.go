package ui

import (
	"math"
	"slices"

	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// pithOfEnd reports whether a place of the pith is that of an end, 0 the
// marked one.
func pithOfEnd(e model.Pith, end int, length float64) bool {
	at := 0.0
	if end == 1 {
		at = length
	}
	return e.HasX && math.Abs(e.X-at) < 1
}

// otherPith is the pith kept for the end across.
func otherPith(b *model.Board, end int) (model.Pith, bool) {
	for _, e := range b.Pith {
		if pithOfEnd(e, 1-end, b.Length) {
			return e, true
		}
	}
	return model.Pith{}, false
}

// otherPiths are the places of the pith that stay when an end is kept: all
// that have an x of their own, but not that of the end.
func otherPiths(b *model.Board, end int, length float64) []model.Pith {
	var out []model.Pith
	for _, e := range b.Pith {
		if e.HasX && !pithOfEnd(e, end, length) {
			out = append(out, e)
		}
	}
	return out
}

// barkOf is the bark side that places of the pith leave: the face away from
// the pith, unknown where they disagree. A board that has none keeps none.
func barkOf(b *model.Board, list []model.Pith) model.Bark {
	if b.Bark == model.BarkNone {
		return b.Bark
	}
	out := model.BarkUnknown
	for _, e := range list {
		side := model.BarkFace2
		switch mid := b.Thickness / 2; {
		case e.Depth == mid:
			continue
		case e.Depth > mid:
			side = model.BarkFace1
		}
		if out != model.BarkUnknown && out != side {
			return model.BarkUnknown
		}
		out = side
	}
	return out
}

// endHearts are the heart radii kept for the ends of boards while the window
// is open: a board has only their mean.
type endHearts map[string][2]float64

// mean is the radius of a board when an end is kept with one: the mean of the
// ends known. A board whose mean is not that of the radii here was changed
// elsewhere; what it has then stands for the other end.
func (h endHearts) mean(b *model.Board, end int, radius float64) (mean, other float64) {
	if _, both := otherPith(b, end); !both || b.Heart == 0 {
		return math.Round(radius), 0
	}
	other = b.Heart
	if r := h[b.ID]; math.Round((r[0]+r[1])/2) == b.Heart && r[0] > 0 && r[1] > 0 || r[1-end] == b.Heart {
		other = r[1-end]
	}
	return math.Round((radius + other) / 2), other
}

// kept is a board with what the draft tells of an end.
func (p *endPage) kept(b *model.Board) (c model.Board, bark model.Bark) {
	c = *b
	e := model.End{Photo: p.base.Photo}
	if len(p.now.lie.at) == 4 {
		e.Corners = new([4]geom.Point)
		copy(e.Corners[:], p.now.lie.at)
	}
	c.Ends[p.end] = e
	bark = b.Bark
	g := p.got.pith
	if g == nil || !g.Found {
		return c, bark
	}
	at := model.Pith{HasX: true, Across: math.Round(g.At.X), Depth: math.Round(g.At.Y)}
	if p.end == 1 {
		at.X = p.length
	}
	c.Pith = append(otherPiths(b, p.end, p.length), at)
	slices.SortStableFunc(c.Pith, func(a, b model.Pith) int {
		switch {
		case a.X < b.X:
			return -1
		case a.X > b.X:
			return 1
		}
		return 0
	})
	c.Bark = barkOf(b, c.Pith)
	if h := p.got.heart; h != nil && h.Seen && !p.now.none {
		c.Heart, _ = p.w.rack.hearts.mean(b, p.end, h.Radius)
	}
	return c, c.Bark
}

// keep takes what was read of the end into the project as one change; then
// follows, or the page it came from.
func (p *endPage) keep(then func()) {
	b := p.w.ses.Committed().Board(p.board)
	switch why := p.now.bad(); {
	case b == nil:
		return
	case p.making != "":
		p.w.say(say.F("The end is not ready yet: %s", p.making))
		return
	case why != "":
		p.w.say(why)
		return
	case p.step == endCorners && p.got.pith == nil && !p.reading:
		p.read()
	}
	if p.reading {
		p.w.say(say.T("The rings are still being read. Keep once the pith is shown."))
		p.show()
		return
	}
	c, bark := p.kept(b)
	if b.Bark != model.BarkUnknown && b.Bark != model.BarkNone && bark != b.Bark {
		yes := say.F("Call face %s the bark side", string(bark))
		if bark == model.BarkUnknown {
			yes = say.T("Take the bark side off")
		}
		p.w.ask(question{title: say.T("Pith and bark side disagree"), yes: yes, no: say.T("Go back"), plain: true,
			body: wrapped(say.F("Face %s of board %s is called the bark side, but by these rings the pith lies on that side of the middle at one end at least. The bark is always on the side away from the pith. If the photograph lies upside down, go back and set “face 1 down”.", string(b.Bark), b.ID), widget.MediumImportance),
			do:   func() error { p.w.post(func() { p.commit(b, c, then) }); return nil }})
		return
	}
	p.commit(b, c, then)
}

func (p *endPage) commit(b *model.Board, c model.Board, then func()) {
	text := p.place() + ": " + p.keptWords(b, &c)
	radius := p.got.heart
	was := p.base
	p.base, p.saved = c.Ends[p.end], p.now
	if !p.w.setBoard(c, say.F("Read the %s of board %s", endName(p.end), p.board)) {
		p.base = was
		p.saved = endDraft{}
		return
	}
	if radius != nil && radius.Seen && !p.now.none {
		_, other := p.w.rack.hearts.mean(b, p.end, radius.Radius)
		h := p.w.rack.hearts[b.ID]
		h[p.end], h[1-p.end] = radius.Radius, other
		p.w.rack.hearts[b.ID] = h
	}
	if then != nil {
		then()
		return
	}
	p.stop()
	p.w.turnTo(p.from)
	p.w.say(text)
}

// keptWords tell what was kept.
func (p *endPage) keptWords(b, c *model.Board) string {
	ses := p.w.ses
	g := p.got.pith
	if g == nil || !g.Found {
		return say.T("corners kept; the pith is not known.")
	}
	text := say.T("pith kept")
	if c.Heart != b.Heart {
		text += say.F(", heartwood radius %s", ses.Len(c.Heart))
		if _, other := p.w.rack.hearts.mean(b, p.end, p.got.heart.Radius); other > 0 {
			text += say.T(" (mean of both ends)")
		}
	}
	if c.Bark != b.Bark {
		switch c.Bark {
		case model.BarkUnknown:
			text += say.T(", no bark side")
		default:
			text += say.F(", face %s is the bark side", string(c.Bark))
		}
	}
	return say.F("%s. %s takes it back.", text, p.w.acts.byID["undo"].keyNames())
}

// leave asks about what is not kept yet, then goes on elsewhere.
func (p *endPage) leave(then func()) {
	p.ask(say.T("Drop"), func() { p.stop(); then() })
}

// origin implements drafted.
func (p *endPage) origin() page { return p.from }

// ask asks about what is not kept yet; then follows with it in the project or,
// by the way called without, not.
func (p *endPage) ask(without string, then func()) {
	p.pic.settle()
	if !p.unsaved() {
		then()
		return
	}
	p.w.ask(question{title: say.T("Keep what you marked?"), yes: say.T("Keep"), other: without, no: say.T("Go on"), plain: true,
		body: wrapped(say.F("The %s of board %s was marked. Keep takes it into the project as one change; “%s” leaves the project as it was; Go on stays here.", endName(p.end), p.board, without), widget.MediumImportance),
		do: func() error {
			p.w.post(func() { p.keep(then) })
			return nil
		},
		also: then})
}

// back implements page: Escape drops what is in hand, then leaves.
func (p *endPage) back() (page, bool) {
	if p.pic.letGo() {
		return nil, true
	}
	p.leave(func() { p.w.turnTo(p.from) })
	return nil, true
}
