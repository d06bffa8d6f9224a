package ui

import (
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo/scale"
	"heartside/model/say"
)

// faceTape measures the board by a tape or a folding rule in the picture: two
// marks are clicked on it and the distance between them is typed, once or for
// two stretches. It is no part of the face and goes when the step is left.
type faceTape struct {
	c     *faceCorners
	on    bool
	marks []geom.Point // two of each stretch, pixels
	told  [2]tapeTold  // by stretch
	hand  int          // mark in hand, -1 none
	held  bool
	fresh bool       // the mark held was set by this press
	from  geom.Point // where it was when a drag began
	grip  geom.Point // from the press to the mark, units
}

// tapeTold is what is said of a stretch.
type tapeTold struct {
	known    bool
	distance float64 // mm
	ground   bool
}

// stretches returns those whose distance is known.
func (t *faceTape) stretches() []scale.Stretch {
	var out []scale.Stretch
	for k, v := range t.told {
		if v.known && len(t.marks) >= 2*k+2 {
			out = append(out, scale.Stretch{A: t.marks[2*k], B: t.marks[2*k+1], Distance: v.distance, Ground: v.ground})
		}
	}
	return out
}

// turn begins measuring, or ends it.
func (t *faceTape) turn() {
	c := t.c
	switch {
	case t.on:
		t.stop()
		return
	case c.lie.waney:
		c.p.w.say(say.T("Waney edges are measured by the length; a tape in the picture measures straight boards."))
		return
	case c.p.img == nil || len(c.lie.at) != 4:
		c.p.w.say(say.T("Set all four corners of the board first; then it can be measured by the tape."))
		return
	case c.busy != "":
		return
	}
	c.pic.settle()
	c.pic.hand, c.pic.held = -1, false
	t.on, t.hand = true, -1
	t.shown()
}

// stop forgets the marks.
func (t *faceTape) stop() {
	if t.on {
		*t = faceTape{c: t.c, hand: -1}
		t.shown()
	}
}

// shown brings picture, buttons and the line of text up to date.
func (t *faceTape) shown() {
	t.c.pic.Refresh()
	t.c.p.show()
	t.c.p.w.say("")
}

// half reports whether a mark is missing for a distance to be typed.
func (t *faceTape) half() bool { return t.on && (len(t.marks) == 0 || len(t.marks)%2 == 1) }

// open reports whether another mark may be set: the second stretch begins once
// the distance of the first is known.
func (t *faceTape) open() bool {
	n := len(t.marks)
	return n%2 == 1 || n == 0 || n == 2 && t.told[0].known
}

// press takes hold of a mark, or sets the next one; false where the press does
// neither.
func (t *faceTape) press(at geom.Point) bool {
	v := &t.c.pic.view
	t.hand, t.held, t.fresh, t.grip = -1, false, false, geom.Point{}
	for i, q := range t.marks {
		to := v.toRoom(q)
		if d := to.Dist(at); d < cornerReach && (t.hand < 0 || d < t.grip.Len()) {
			t.hand, t.grip = i, to.Sub(at)
		}
	}
	if t.hand < 0 && t.open() {
		t.hand, t.fresh = len(t.marks), true
		t.marks = append(t.marks, v.inside(v.toPic(at)))
	}
	if t.held = t.hand >= 0; t.held {
		t.from = t.marks[t.hand]
	}
	t.shown()
	return t.held
}

func (t *faceTape) drag(at geom.Point) {
	v := &t.c.pic.view
	t.marks[t.hand] = v.inside(v.toPic(at.Add(t.grip)))
	t.c.pic.Refresh()
}

// release ends a drag; the second mark of a stretch leads to its distance.
func (t *faceTape) release() {
	if !t.held {
		return
	}
	t.held = false
	t.shown()
	if t.fresh && len(t.marks)%2 == 0 {
		t.c.p.w.post(func() { // after the press, which takes the keys from what it does not lie on
			if !t.half() && t.on && t.c.p.w.asks == nil {
				t.enter()
			}
		})
	}
}

// take takes a mark in hand by key; the next one not set yet is set in the
// middle of the view.
func (t *faceTape) take(i int) {
	if i == len(t.marks) && t.open() {
		t.marks = append(t.marks, t.c.pic.view.inside(t.c.pic.view.at))
	}
	if i < len(t.marks) {
		t.hand = i
		t.shown()
	}
}

// walk moves the mark in hand, by pixels of the picture; false without one.
func (t *faceTape) walk(by geom.Point) bool {
	if t.hand < 0 || t.hand >= len(t.marks) {
		return false
	}
	t.marks[t.hand] = t.c.pic.view.inside(t.marks[t.hand].Add(by))
	t.c.pic.Refresh()
	return true
}

// back steps back: drops a drag, takes away the last mark, ends the measuring.
// False where there was nothing to step back from.
func (t *faceTape) back() bool {
	n := len(t.marks)
	switch {
	case !t.on:
		return false
	case t.held && !t.fresh:
		t.marks[t.hand], t.held = t.from, false
	case n > 0:
		t.marks, t.held = slices.Delete(t.marks, n-1, n), false
		t.told[(n-1)/2].known = false
		t.hand = len(t.marks) - 1
	default:
		t.stop()
		return true
	}
	t.shown()
	return true
}

// inHand is the mark in hand.
func (t *faceTape) inHand() (geom.Point, bool) {
	if !t.on || t.hand < 0 || t.hand >= len(t.marks) {
		return geom.Point{}, false
	}
	return t.marks[t.hand], true
}

// key does what a letter or figure does while measuring; false passes it on.
func (t *faceTape) key(r rune) bool {
	if !t.on {
		return false
	}
	switch {
	case r >= '1' && r <= '4':
		t.take(int(r - '1'))
	case r == 'F', r == 'E', r == 'T', r == 'P', r == 'W':
		t.c.p.w.say(say.T("The board is being measured by the tape: M or Esc ends that first."))
	default:
		return false
	}
	return true
}

// hint tells what comes next.
func (t *faceTape) hint() string {
	wheel := say.T(" Wheel: zoom. Esc takes the last mark away.")
	switch n := len(t.marks); {
	case n == 0:
		return say.T("Click the first mark on the tape. By key: 1 sets it, arrows move it. Wheel: zoom. Esc ends measuring.")
	case n == 1:
		return say.F("Click the second mark, far from the first; by key 2 and arrows.%s", wheel)
	case n == 2 && t.told[0].known:
		return say.F("Enter measures again. Click two more marks on a stretch in another direction, or correct a mark.%s", wheel)
	case n == 3:
		return say.F("Click the second mark of the second stretch; by key 4 and arrows.%s", wheel)
	}
	return say.F("Enter: type the distance. Drag a mark, or take it by its number and the arrows, to put it right.%s", wheel)
}

// keys lists what has no button.
func (t *faceTape) keys() string {
	text := say.T("1 and 2: marks of the stretch, set where there are none. 3 and 4: those of a second one. Arrows: move the mark in hand, with Shift ten times as far. Enter: the distance. + and −: zoom. 0: all of the picture. Esc: step back.")
	if t.c.p.w.large() {
		text = say.F("M: end measuring. %s", text)
	}
	return text
}

// text tells in the column how far the measuring is.
func (t *faceTape) text() string {
	out := say.T("Measuring by a tape or a folding rule. Take two marks on it as far apart as you can read, and type the distance between them.")
	for k, v := range t.told {
		if len(t.marks) < 2*k+1 {
			break
		}
		state := say.T("second mark to be set")
		if len(t.marks) >= 2*k+2 {
			state = say.T("distance to be typed")
		}
		if v.known {
			state = t.c.p.w.ses.Len(v.distance) + ", " + whereTape(v.ground)
		}
		out += say.F("\n\nStretch %s: %s.", itoa(k+1), state)
	}
	if len(t.marks) == 0 {
		out += say.T("\n\nIt may lie on the board, or on the ground beside it.")
	}
	return out
}

func whereTape(ground bool) string {
	if ground {
		return say.T("on the ground")
	}
	return say.T("on the board")
}

// arrowStep is how many pixels an arrow key moves what is in hand: finer the
// nearer the view.
func (p *facePicker) arrowStep() float64 { return min(max(1/p.view.scale(), 0.25), 4) }

// inHand is the corner or mark that the keys move and the glass shows.
func (p *facePicker) inHand() (geom.Point, bool) {
	if at, ok := p.c.tape.inHand(); ok || p.c.tape.on {
		return at, ok && p.small != nil
	}
	if p.hand < 0 || p.hand >= len(p.c.lie.at) || p.small == nil {
		return geom.Point{}, false
	}
	return p.c.lie.at[p.hand], true
}
