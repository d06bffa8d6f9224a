package ui

import (
	"context"

	"heartside/layout/geom"
	"heartside/layout/photo/outline"
	"heartside/model/say"
)

// find looks for the board in the picture; snapEdges lays the sides on the
// edges near the corners as they are.
func (c *faceCorners) find() {
	if c.lie.waney {
		c.seekWaney()
		return
	}
	c.seek(say.T("Looking for the board in the picture…"), c.p.means.find)
}

func (c *faceCorners) snapEdges() {
	if c.lie.waney {
		c.p.w.say(say.T("Waney edges are not straight: there is nothing to lay the corners on. Enter traces them."))
		return
	}
	if len(c.lie.at) != 4 {
		c.p.w.say(say.T("Set all four corners first; then their edges can be snapped."))
		return
	}
	view := c.lie.view()
	c.seek(say.T("Laying the edges…"), func(ctx context.Context, img imageOf, length, width float64) (*outline.Found, error) {
		return c.p.means.refine(ctx, img, view, length, width)
	})
}

func (c *faceCorners) seek(what string, do func(context.Context, imageOf, float64, float64) (*outline.Found, error)) {
	p := c.p
	if p.img == nil || c.busy != "" {
		return
	}
	c.busy = what
	p.w.say(what)
	img, from, ctx := p.img, c.lie, p.ctx
	go func() {
		var f *outline.Found
		err := guarded(func() (err error) { f, err = do(ctx, img, p.length, p.width); return err })
		p.w.post(func() {
			if ctx.Err() != nil {
				return
			}
			c.busy = ""
			switch {
			case err != nil:
				p.w.say(say.F("The board was not found: %s. Set the corners by hand.", say.Err(err)))
			case !from.same(c.lie):
				p.w.say(say.T("The corners were moved meanwhile; what was found is dropped."))
			case f.Confidence == [4]float64{}:
				p.w.say(say.T("There are no edges of the board near these corners: bring them nearer, or let the board be found again (F)."))
			default:
				p.w.say("")
				c.set(from.found(f))
			}
			p.show()
		})
	}()
	p.show()
}

// nearEnough is how far edges laid anew may lie from the corners, pixels, for
// their judgement to count for these corners. An engineering choice.
const nearEnough = 3

// judge finds out, once, how sure corners are that came without a word on it.
func (c *faceCorners) judge() {
	p := c.p
	if c.judged || c.lie.waney || p.img == nil || len(c.lie.at) != 4 || c.lie.trust != [4]cornerTrust{} {
		return
	}
	c.judged = true
	img, from, ctx, refine := p.img, c.lie, p.ctx, p.means.refine
	go func() {
		var f *outline.Found
		err := guarded(func() (err error) { f, err = refine(ctx, img, from.view(), p.length, p.width); return err })
		p.w.post(func() {
			if ctx.Err() != nil || err != nil || !from.same(c.lie) || c.lie.waney {
				return
			}
			for i, q := range f.View.Corners {
				if q.Dist(from.at[i]) > nearEnough {
					return // of another place
				}
			}
			at := c.lie.at
			turned := c.lie.turned
			c.lie = from.found(f)
			c.lie.at, c.lie.bow, c.lie.turned = at, from.bow, turned
			c.pic.Refresh()
			p.show()
		})
	}()
}

// found returns the lie with what was found; of the two ways round it takes
// the one that is nearer to the corners so far, as one picture cannot tell.
func (l faceLie) found(f *outline.Found) faceLie {
	n := faceLie{at: append([]geom.Point(nil), f.View.Corners[:]...), bow: f.View.Bow, residual: f.Residual, measured: f.Residual > 0, turned: l.turned, size: l.size}
	for i, v := range f.Confidence {
		n.trust[i] = cornerTrust{known: true, sure: v}
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

func apart(a, b []geom.Point) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i].Dist(b[i])
	}
	return sum
}
