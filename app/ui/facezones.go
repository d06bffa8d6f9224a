package ui

import (
	"context"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/light"
	"heartside/model/say"
)

// farShare is how much of a face a stroke may change away from itself before
// that is told. An engineering choice.
const farShare = 0.02

// faceZones is the step where sapwood, heartwood and flaws are corrected on
// the squared face.
type faceZones struct {
	p      *facePage
	canvas *faceCanvas
	work   *faceWork      // nil: being made ready
	sq     *photo.Squared // that the editor works on
	fine   *photo.Squared // that is shown
	even   *photo.Squared // in even light; nil not made
	hand   faceHand
	waits  []faceMark // lines of acts that are not done yet
	show   faceShow
	ends   context.CancelFunc
}

// faceShow is how the face is shown.
type faceShow struct {
	even   bool // in even light
	making bool // even light is being made
	doubt  bool // where the program is not sure
	peek   bool // the zones are hidden while the key is held
	zones  float64
}

func newFaceZones(p *facePage) *faceZones {
	z := &faceZones{p: p}
	z.hand.width, z.hand.kind, z.show.zones = firstWidth, photo.Sap, 0.85
	z.canvas = newFaceCanvas(z, geom.Pt(p.length, p.width))
	return z
}

// put shows a face that is made ready.
func (z *faceZones) put(sq, fine *photo.Squared, work *faceWork) {
	z.drop()
	z.sq, z.fine, z.even, z.work, z.waits = sq, fine, nil, work, nil
	work.then = z.done
	if z.show.even {
		z.show.even = false
		z.evenLight(true)
	}
	z.canvas.renew()
}

// done is told that an act is done, or why it was not.
func (z *faceZones) done(err error) {
	if len(z.waits) > 0 {
		z.waits = z.waits[1:]
	}
	if err != nil {
		z.p.w.say(sentence(say.Err(err)))
	}
	z.outlined()
	z.canvas.renew()
	z.p.show()
}

// shown is the picture under the zones.
func (z *faceZones) shown() *photo.Squared {
	if z.show.even && z.even != nil {
		return z.even
	}
	if z.fine != nil {
		return z.fine
	}
	return z.p.w.ses.Untouched(z.p.board, z.p.face) // until ours is ready
}

func (z *faceZones) overlay() faceOverlay {
	o := faceOverlay{shown: z.show.zones, doubt: z.show.doubt}
	if z.work == nil {
		return o
	}
	o.mask = z.work.now.mask
	if z.show.peek {
		o.shown, o.doubt = 0, false
	}
	if r := z.work.now.result; r != nil {
		o.sure = r.Sure
	}
	o.doubt = o.doubt && len(o.sure.P) == o.sure.NX*o.sure.NY
	return o
}

// peek hides the zones while it is on.
func (z *faceZones) peek(on bool) {
	if z.show.peek != on {
		z.show.peek = on
		z.canvas.renew()
	}
}

// evenLight shows the face as under one light, or the picture untouched.
func (z *faceZones) evenLight(on bool) {
	z.show.even = on
	if on && z.even == nil && !z.show.making && z.fine != nil && z.work != nil {
		z.show.making = true
		fine, mask, w := z.fine, z.work.now.mask, z.p.w
		ctx := z.p.ctx
		w.say(say.T("Making the light even…"))
		go func() {
			var out *photo.Squared
			err := guarded(func() (err error) { out, _, err = light.Even(ctx, fine, mask); return err })
			w.post(func() {
				z.show.making = false
				if ctx.Err() != nil || fine != z.fine {
					return
				}
				w.say("")
				if err != nil {
					z.show.even = false
					w.say(say.F("The light cannot be made even: %s", say.Err(err)))
				}
				z.even = out
				z.canvas.renew()
				z.p.show()
			})
		}()
	}
	z.canvas.renew()
	z.p.show()
}

// reachedFar reports whether the last stroke changed the split away from
// itself.
func (z *faceZones) reachedFar() bool {
	return z.work != nil && z.work.now.taught && z.work.now.changed.Far > farShare
}

// share is the light share of the face, 0 to 1.
func (z *faceZones) share() (float64, bool) {
	if z.work == nil || z.work.now.mask == nil {
		return 0, false
	}
	return z.work.now.mask.Shares()[photo.Sap], true
}

// tooled shows another tool in hand.
func (z *faceZones) tooled() {
	z.canvas.stir()
	z.p.show()
	z.p.w.say("")
}
