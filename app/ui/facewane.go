package ui

import (
	"context"
	"slices"
	"strings"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/say"
)

// A face with waney edges has no straight long sides: its corners are those of
// a rectangle about the board, and its outline is traced within that.

// startWaney says of the lie whether the face has waney edges.
func (c *faceCorners) startWaney(waney bool) {
	p := c.p
	c.lie.size = geom.Pt(p.length, p.width)
	c.lie.waney = waney || len(p.base.Outline) > 0
	c.lie.ring = p.base.Outline
}

// setWaney says that the long edges are waney, or sawn, as an act.
func (c *faceCorners) setWaney(on bool) {
	if on != c.lie.waney {
		l := c.lie
		l.waney, l.ring = on, nil
		c.set(l)
	}
	c.p.w.say("")
}

// seekWaney looks for a board with waney edges.
func (c *faceCorners) seekWaney() {
	c.lay(say.T("Looking for the board and its edges…"), intake.Ask{Waney: true, Length: c.p.length, Width: c.p.width}, nil)
}

// traceWaney traces the edges in the rectangle as it is; then follows.
func (c *faceCorners) traceWaney(then func()) {
	v := c.lie.view()
	c.lay(say.T("Tracing the edges…"), intake.Ask{Waney: true, Length: c.p.length, Width: c.p.width, Corners: &v.Corners, Bow: v.Bow}, then)
}

func (c *faceCorners) lay(what string, ask intake.Ask, then func()) {
	p := c.p
	if p.img == nil || c.busy != "" || p.means.waney == nil {
		return
	}
	c.busy = what
	p.w.say(what)
	img, from, ctx := p.img, c.lie, p.ctx
	go func() {
		var f *intake.Waney
		err := guarded(func() (err error) { f, err = p.means.waney(ctx, img, ask); return err })
		p.w.post(func() {
			if ctx.Err() != nil {
				return
			}
			c.busy = ""
			switch {
			case err != nil:
				p.w.say(sentence(say.Err(err)))
			case !from.same(c.lie) || from.waney != c.lie.waney:
				p.w.say(say.T("The corners were moved meanwhile; what was found is dropped."))
			default:
				p.w.say(saidOf(f.Doubts()))
				c.set(from.traced(f))
				if then != nil {
					then()
				}
			}
			p.show()
		})
	}()
	p.show()
}

// saidOf is a list of doubts as sentences.
func saidOf(doubts []string) string {
	var out []string
	for _, d := range doubts {
		out = append(out, "⚠ "+sentence(d))
	}
	return strings.Join(out, " ")
}

// traced returns the lie with the rectangle of the board and its outline. Of
// the two ways round it takes the one nearer to the corners so far.
func (l faceLie) traced(f *intake.Waney) faceLie {
	n := l
	n.at, n.bow, n.ring, n.measured = slices.Clone(f.View.Corners[:]), f.View.Bow, f.Ring, false
	for i := range n.trust {
		n.trust[i] = cornerTrust{known: true, sure: f.Sure, mine: !f.Found}
	}
	if len(l.at) == 4 {
		t := n.aboutTurned()
		t.turned = l.turned
		if apart(t.at, l.at) < apart(n.at, l.at) {
			return t
		}
	}
	return n
}

// turnedRing is an outline on a board laid the other way round.
func turnedRing(ring geom.Polygon, size geom.Point) geom.Polygon {
	var out geom.Polygon
	for _, p := range ring {
		out = append(out, size.Sub(p))
	}
	return out
}

// fitted is a mask with an outline: beyond it there is no wood, and within it
// heartwood where there was none. nil fits the whole face.
func fitted(m *photo.Mask, ring geom.Polygon) *photo.Mask {
	if m == nil {
		return nil
	}
	out := *m
	out.Pix = slices.Clone(m.Pix)
	in := intake.WoodIn(ring, m)
	for k, l := range out.Pix {
		switch {
		case !in[k]:
			out.Pix[k] = photo.Outside
		case l == photo.Outside:
			out.Pix[k] = photo.Heart
		}
	}
	return &out
}

// waney traces the outline on the face as it lies, or makes the edges straight
// where there is one; an act that can be taken back.
func (z *faceZones) waney() {
	p := z.p
	switch {
	case z.work == nil:
		return
	case z.work.now.waney:
		z.act(func(ctx context.Context, ed faceEditor) error { return ed.Outline(ctx, nil) })
		return
	case p.img == nil || len(p.corners.used.at) != 4 || p.means.trace == nil:
		p.w.say(say.T("The edges are traced in the photograph, which is not open. Paint away what is no wood (X)."))
		return
	}
	p.w.say(say.T("Tracing the edges…"))
	img, view, trace := p.img, p.corners.used.view(), p.means.trace
	var sure float64
	z.drop()
	z.waits = append(z.waits, faceMark{})
	z.work.do(faceJob{
		act: func(ctx context.Context, ed faceEditor) error {
			ring, how, err := trace(ctx, img, view, p.length, p.width)
			if err != nil {
				return err
			}
			sure = how
			return ed.Outline(ctx, ring)
		},
		then: func() {
			p.w.say(say.T("The outline is traced: what is grey is no wood. Drag corners or paint (X) where it is wrong."))
			if sure < unsure {
				p.w.say(say.T("⚠ The edges are hard to tell from the ground: look at the outline, and paint away what is no wood (X)."))
			}
		},
	})
	p.show()
}

// outlined keeps what is said of the corners in step with the mask.
func (z *faceZones) outlined() {
	c := z.p.corners
	if z.work == nil || c.lie.waney != c.used.waney || !c.lie.same(c.used) || c.lie.waney == z.work.now.waney {
		return
	}
	c.lie.waney, c.lie.ring = z.work.now.waney, nil
	c.used = c.lie
}

// outlineOf is the outline to be kept with a face that was changed.
func outlineOf(ed faceEditor) (geom.Polygon, error) {
	ring, _, err := ed.Ring()
	if err == nil && ring != nil && ring.Validate() != nil {
		err = say.Error("the outline crosses itself; paint it clear (X)")
	}
	return ring, err
}

// waneyWords tell what the corners of a face with waney edges are.
func waneyWords(l *faceLie) string {
	if l.ring != nil {
		return say.T("Waney edges: the corners are those of a rectangle about the board. The line is its outline.")
	}
	return say.T("Waney edges: lay the corners of a rectangle about the board, its short sides on the two ends, its long sides along the board and clear of it. Enter traces the outline within it.")
}
