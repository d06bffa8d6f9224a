package ui

import (
	"unicode"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model/say"
)

// key implements page.
func (p *endPage) key(ev *fyne.KeyEvent) bool {
	by, arrow := arrows(ev.Name)
	switch {
	case arrow:
		if p.w.surf.mods().Shift {
			by = by.Mul(10)
		}
		p.pic.walk(by)
	case ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter:
		p.enter()
	case ev.Name == fyne.KeySpace && p.step != endCorners:
		p.pic.press()
	case ev.Name == fyne.KeyDelete || ev.Name == fyne.KeyBackspace:
		p.pic.remove()
	default:
		return false
	}
	return true
}

// enter goes on to the next step; in the last one it keeps.
func (p *endPage) enter() {
	if p.making != "" || p.img == nil {
		return
	}
	p.pic.settle()
	switch p.step {
	case endCorners:
		p.turn(endPith)
	case endPith:
		p.turn(endHeart)
	default:
		p.keep(nil)
	}
}

// sign implements page.
func (p *endPage) sign(r rune) bool {
	c := p.pic
	switch s := unicode.ToUpper(r); {
	case s == 'C':
		p.turn(endCorners)
	case s == 'P':
		p.turn(endPith)
	case s == 'H':
		p.turn(endHeart)
	case s == 'K':
		p.keep(nil)
	case s == 'O':
		p.other()
	case s == 'F':
		p.find()
	case s == 'D':
		p.flip(faceLie.aboutTurned)
	case s == 'M':
		p.flip(swapped)
	case s == 'N':
		p.nextRing()
	case s == 'X':
		p.none(!p.now.none)
	case s == '?':
		p.w.act("keys")
	case p.step == endCorners && s >= '1' && s <= '4':
		c.take(int(s - '1'))
	case s == '+' || s == '=':
		c.zoom(c.middle(), 1.5)
	case s == '-':
		c.zoom(c.middle(), 1/1.5)
	case s == '0':
		c.all()
	case s == '9':
		c.near()
	default:
		return false
	}
	return true
}

// flip names the corners otherwise.
func (p *endPage) flip(how func(faceLie) faceLie) {
	if len(p.now.lie.at) != 4 {
		p.w.say(say.T("Set all four corners first."))
		return
	}
	d := p.now
	d.lie = how(d.lie)
	d.lie.turned = false
	p.do(d)
}

// nextRing begins a further ring.
func (p *endPage) nextRing() {
	if p.step != endPith {
		return
	}
	d, ok := p.now.nextRing()
	if !ok {
		p.w.say(say.T("Click at least three points of this ring first; then begin another one."))
		return
	}
	p.do(d)
}

// none answers whether the border of the heartwood is to be seen at all.
func (p *endPage) none(on bool) {
	if p.step != endHeart || on == p.now.none {
		return
	}
	d := p.now
	if d.none = on; on {
		d.border = nil
	}
	p.do(d)
}

// clear takes all clicks of the step away.
func (p *endPage) clear() {
	p.pic.letGo()
	if d := p.now.cleared(p.step); !d.same(p.now) {
		p.do(d)
	}
}

// other opens the other end of the board.
func (p *endPage) other() {
	b := p.w.ses.Project().Board(p.board)
	if b == nil || b.Ends[1-p.end].Photo == "" {
		p.w.say(say.F("The %s of board %s has no photograph. The rack takes one.", endName(1-p.end), p.board))
		return
	}
	p.leave(func() { p.w.showEnd(p.board, 1-p.end, p.means) })
}

// take takes a corner in hand by key; the next one not set yet is set in the
// middle of the view.
func (c *endCanvas) take(i int) {
	c.settle()
	if c.small == nil {
		return
	}
	lie := c.p.now.lie
	if i == len(lie.at) {
		d := c.p.now
		d.lie = lie.with(i, c.view.at)
		c.p.do(d)
	}
	if i < len(c.p.now.lie.at) {
		c.corner = i
		c.Refresh()
		c.p.show()
	}
}

// walk moves what is in hand by units of the screen, or the cursor; a run of
// arrows is one act. Where corners are set and none is in hand it moves the
// view.
func (c *endCanvas) walk(by geom.Point) {
	if c.small == nil {
		return
	}
	step := by.Mul(min(max(1/c.view.scale(), 0.25), 4)) // finer the nearer the view, pixels
	at, ok := c.focus()
	switch {
	case c.p.step == endCorners && !ok:
		c.view.moved(by.Mul(-40))
		c.Refresh()
		return
	case !ok || !c.has && c.p.step != endCorners:
		if c.keyed {
			c.cursor = c.view.inside(c.cursor.Add(step.Mul(4)))
		}
		c.keyed = true
		c.follow(c.cursor)
		return
	}
	if !c.walking {
		c.walking, c.start = true, c.p.now
	}
	at = c.view.inside(at.Add(step))
	if c.p.step == endCorners {
		c.p.now.lie = c.p.now.lie.with(c.corner, at)
	} else {
		c.p.now = c.p.now.moved(c.p.step, c.click, at)
		c.cursor = at
	}
	c.follow(at)
	c.p.show()
}

// follow keeps a pixel in sight.
func (c *endCanvas) follow(at geom.Point) {
	q, room := c.view.toRoom(at), c.view.room
	in := geom.Pt(min(max(q.X, room.X*0.08), room.X*0.92), min(max(q.Y, room.Y*0.08), room.Y*0.92))
	c.view.moved(in.Sub(q))
	c.Refresh()
}

// press clicks at the cursor; at a click it takes that in hand, and puts it
// down again.
func (c *endCanvas) press() {
	switch {
	case c.small == nil:
	case c.has:
		c.settle()
		c.has = false
		c.p.show()
		c.Refresh()
	case !c.keyed:
		c.walk(geom.Point{})
	default:
		if k, ok := c.nearest(c.cursor); ok {
			c.click, c.has = k, true
			c.Refresh()
			c.p.show()
			return
		}
		c.p.do(c.p.now.clicked(c.p.step, c.cursor))
	}
}

// remove takes away the click in hand or at the cursor, else the last one.
func (c *endCanvas) remove() {
	c.settle()
	list := c.p.now.clicks(c.p.step)
	for len(list) > 0 && len(list[len(list)-1]) == 0 {
		list = list[:len(list)-1]
	}
	if len(list) == 0 {
		return
	}
	k := click{len(list) - 1, len(list[len(list)-1]) - 1}
	if c.has {
		k = c.click
	} else if c.keyed {
		if q, ok := c.nearest(c.cursor); ok {
			k = q
		}
	}
	c.has = false
	d := c.p.now
	if n := len(d.rings); c.p.step == endPith && n > 0 && len(d.rings[n-1]) == 0 {
		d.rings = d.rings[:n-1] // a ring begun and not clicked on
	}
	c.p.do(d.without(c.p.step, k))
}

// settle ends a run of arrows.
func (c *endCanvas) settle() {
	if c.walking {
		c.walking = false
		c.p.keepFrom(c.start, c.p.now)
	}
}

// letGo drops a drag, then lets go what is in hand, then hides the cursor;
// false where there was nothing.
func (c *endCanvas) letGo() bool {
	switch {
	case c.held:
		c.held, c.has = false, false
		c.p.now = c.start
	case c.corner >= 0 || c.has:
		c.settle()
		c.corner, c.has = -1, false
	case c.keyed:
		c.keyed = false
	default:
		return false
	}
	c.Refresh()
	c.p.show()
	return true
}
