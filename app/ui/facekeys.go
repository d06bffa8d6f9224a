package ui

import (
	"unicode"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/say"
)

// key implements page.
func (p *facePage) key(ev *fyne.KeyEvent) bool {
	by, arrow := arrows(ev.Name)
	far := p.w.surf.mods().Shift
	switch {
	case ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter:
		p.enter()
	case ev.Name == fyne.KeyPageDown:
		p.skip()
	case p.step == stepCorners && arrow:
		if far {
			by = by.Mul(10)
		}
		p.corners.pic.walk(by)
	case p.step == stepCorners:
		return false
	case arrow:
		step := p.w.steps()[0]
		if far {
			step = p.w.steps()[1]
		}
		p.zones.canvas.walk(geom.Pt(by.X, -by.Y).Mul(step))
	case ev.Name == fyne.KeySpace:
		p.zones.press()
	case ev.Name == fyne.KeyHome:
		p.zones.canvas.walk(geom.Pt(-p.length, 0))
	case ev.Name == fyne.KeyEnd:
		p.zones.canvas.walk(geom.Pt(p.length, 0))
	case ev.Name == fyne.KeyBackspace:
		p.zones.pull()
	default:
		return false
	}
	return true
}

// enter is "use these corners", "close the polygon", "looks right".
func (p *facePage) enter() {
	z := p.zones
	switch {
	case p.step == stepCorners:
		p.enterButton()
	case z.hand.byKey:
		z.end()
	case z.hand.mode == modePolygon && len(z.hand.points) > 0:
		z.closeRing()
	default:
		p.looksRight()
	}
}

// skip goes to the next face to look at without saying anything of this one.
func (p *facePage) skip() {
	b, face, ok := p.w.faceAfter(p.board, p.face)
	if !ok {
		p.w.say(say.T("No other face is left to look at."))
		return
	}
	p.leave(func() { p.w.openFace(b, face) })
}

// press begins or ends a stroke at the cursor, or sets a corner there.
func (z *faceZones) press() {
	c := z.canvas
	switch {
	case z.hand.mode == modeNone:
		z.p.w.say(say.T("Take a tool first: S, H, F or U says what the wood is at the cursor."))
	case !c.keyed:
		c.walk(geom.Point{})
	case z.hand.byKey:
		z.end()
	default:
		z.begin(c.cursor, true)
	}
}

// pull takes the last corner of the polygon or the line back.
func (z *faceZones) pull() {
	if n := len(z.hand.points); n > 0 && !z.hand.drawing {
		z.hand.points = z.hand.points[:n-1]
		z.canvas.stir()
	}
}

// sign implements page.
func (p *facePage) sign(r rune) bool {
	shift := unicode.IsUpper(r) && p.w.surf.mods().Shift
	switch c := unicode.ToUpper(r); {
	case c == 'C':
		p.turn(stepCorners)
	case c == 'Z':
		p.turn(stepZones)
	case c == 'O':
		p.other()
	case c == '?':
		p.w.act("keys")
	case p.step == stepCorners:
		return p.corners.sign(c)
	default:
		return p.zones.sign(c, shift)
	}
	return true
}

func (c *faceCorners) sign(r rune) bool {
	switch {
	case c.tape.key(r):
	case r >= '1' && r <= '4':
		c.pic.take(int(r - '1'))
	case r == '+' || r == '=':
		c.pic.zoom(c.pic.middle(), 1.5)
	case r == '-':
		c.pic.zoom(c.pic.middle(), 1/1.5)
	case r == '0':
		c.pic.all()
	case r == 'F':
		c.find()
	case r == 'E':
		c.snapEdges()
	case r == 'T':
		c.turn()
	case r == 'P':
		c.paperAsk()
	case r == 'M':
		c.tape.turn()
	case r == 'W':
		c.setWaney(!c.lie.waney)
	default:
		return false
	}
	return true
}

func (z *faceZones) sign(r rune, shift bool) bool {
	c := z.canvas
	switch {
	case shift && r == 'S':
		z.all(photo.Sap)
	case shift && r == 'H':
		z.all(photo.Heart)
	case shift && r == 'U':
		z.unsure()
	case r == 'S':
		z.kind(photo.Sap)
	case r == 'H':
		z.kind(photo.Heart)
	case r == 'F':
		z.kind(photo.Flaw)
	case r == 'U':
		z.kind(photo.Unseen)
	case r == 'X':
		z.kind(photo.Outside)
	case r == 'W':
		z.waney()
	case r == 'T':
		z.take(modeTeach)
	case r == 'B':
		z.take(modePaint)
	case r == 'P':
		z.take(modePolygon)
	case r == 'L':
		z.take(modeLine)
	case r == 'M':
		z.smooth()
	case r == 'R':
		z.afresh()
	case r == 'N':
		z.nearOnly()
	case r == 'E':
		z.evenLight(!z.show.even)
	case r == 'D':
		z.doubts(!z.show.doubt)
	case r == '[':
		z.wider(-1)
	case r == ']':
		z.wider(1)
	case r == '+' || r == '=':
		c.zoom(c.zoomAt(), 1.4)
	case r == '-':
		c.zoom(c.zoomAt(), 1/1.4)
	case r == '0':
		c.fit(fitWhole)
	case r == '1':
		c.fit(fitWork)
	default:
		return false
	}
	return true
}

// doubts shows where the program is not sure.
func (z *faceZones) doubts(on bool) {
	z.show.doubt = on
	z.canvas.renew()
	z.p.show()
}
