package ui

import (
	"context"
	"image"
	"math"
	"slices"

	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/say"
)

// mostFine is the most pixels of the face as it is shown: enough for every
// telephone, and no more memory than that.
const mostFine = 12e6

// open reads the photograph, then makes the face ready or looks for the board.
func (p *facePage) open() {
	path, ctx, w := p.w.photoPath(p.base.Photo), p.ctx, p.w
	p.wait(say.T("Opening the photograph…"))
	go func() {
		var img image.Image
		var small *image.RGBA
		err := guarded(func() (err error) {
			if img, err = p.means.open(ctx, path); err == nil {
				small = smallOf(img)
			}
			return err
		})
		w.post(func() {
			if ctx.Err() != nil {
				return
			}
			p.wait("")
			if err != nil {
				p.trouble = say.F("The photograph cannot be opened: %s.", say.Err(err))
				p.withoutPhoto()
				return
			}
			p.img = img
			p.corners.pic.put(img, small)
			if p.base.Corners == nil {
				p.corners.find()
				return
			}
			p.make(p.corners.lie, p.oldMask())
		})
	}()
}

// withoutPhoto shows what the session squared earlier, where it did.
func (p *facePage) withoutPhoto() {
	if p.w.ses.Untouched(p.board, p.face) != nil {
		p.make(p.corners.lie, p.oldMask())
	}
	p.w.say(p.trouble)
	p.show()
}

// wait tells what is being made ready, "" nothing.
func (p *facePage) wait(what string) {
	p.making = what
	p.show()
	if p.w.page == page(p) && p.w.said == "" {
		p.w.say("") // the hint tells it; what was said of an act stays
	}
}

// byHand reports whether the maker drew or checked the zones there are.
func byHand(f *model.Face) bool {
	if f.Split != nil {
		return f.Split.By == model.SplitChecked
	}
	return len(f.Zones) > 0 || f.Base == model.Sap
}

// oldMask is the face as the maker left it, nil where the program may split
// it.
func (p *facePage) oldMask() *photo.Mask {
	if !byHand(&p.base) {
		return nil
	}
	m, err := intake.MaskOf(&p.base, p.length, p.width)
	if err != nil {
		return nil
	}
	return m
}

// make squares the face at a lie and opens it for correction.
func (p *facePage) make(lie faceLie, mask *photo.Mask) {
	z, w, img, means := p.zones, p.w, p.img, p.means
	have := w.ses.Untouched(p.board, p.face)
	if img != nil && !lie.same(p.saved.lie) || have != nil && (have.Length != p.length || have.Width != p.width) {
		have = nil
	}
	if z.ends != nil {
		z.ends()
	}
	ctx, ends := context.WithCancel(p.ctx)
	z.ends = ends
	ring := lie.ring
	z.drop()
	z.work, z.waits = nil, nil
	p.wait(say.T("Squaring the face and splitting heart from sap…"))
	go func() {
		var sq, fine *photo.Squared
		var work *faceWork
		err := guarded(func() (err error) {
			if sq, fine, err = squares(ctx, img, lie, p.length, p.width, have); err != nil {
				return err
			}
			ed, err := means.editor(ctx, sq, mask, ring)
			if err != nil {
				return err
			}
			work = newFaceWork(ctx, w.post, ed)
			return nil
		})
		w.post(func() {
			if ctx.Err() != nil {
				return
			}
			p.wait("")
			if err != nil {
				p.ready = nil
				p.trouble = say.F("The face cannot be split: %s.", say.Err(err))
				w.say(p.trouble)
				p.show()
				return
			}
			p.trouble = ""
			z.put(sq, fine, work)
			if lie.same(p.saved.lie) {
				p.saved.mask = work.now.mask
			}
			p.show()
			if then := p.ready; then != nil {
				p.ready = nil
				then()
			}
		})
	}()
}

// squares squares a face for the split, and as finely as the photograph is for
// the eye.
func squares(ctx context.Context, img image.Image, lie faceLie, length, width float64, have *photo.Squared) (sq, fine *photo.Squared, err error) {
	if sq = have; sq == nil {
		if img == nil {
			return nil, nil, say.Error("there is no photograph")
		}
		if sq, err = photo.Square(ctx, img, lie.view(), length, width, 1); err != nil {
			return nil, nil, err
		}
	}
	if img == nil || len(lie.at) != 4 {
		return sq, sq, nil
	}
	k := max(lie.at[0].Dist(lie.at[1]), lie.at[2].Dist(lie.at[3])) / length
	if k = min(k, 4, math.Sqrt(mostFine/(length*width))); k < 1.15 {
		return sq, sq, nil
	}
	fine, err = photo.Square(ctx, img, lie.view(), length, width, k)
	return sq, fine, err
}

// use squares the face with the corners as they are and goes on to the zones;
// then, where given, follows once the face is ready.
func (c *faceCorners) use(then func()) {
	p := c.p
	c.pic.settle()
	if c.lie.same(c.used) && c.lie.waney == c.used.waney && p.zones.work != nil {
		p.toZones(then)
		return
	}
	if err := c.good(); err != nil {
		p.w.say(sentence(say.Err(err)))
		return
	}
	if c.lie.waney && c.lie.ring == nil {
		c.traceWaney(func() { c.use(then) })
		return
	}
	mask := p.oldMask()
	if k := p.zones.work; k != nil && (mask != nil || k.now.touched) {
		mask = k.now.mask
	}
	if mask != nil && c.lie.turned != c.used.turned {
		mask = turnedMask(mask)
	}
	waned := c.lie.waney || c.used.waney
	again := func(mask *photo.Mask) {
		if waned {
			mask = fitted(mask, c.lie.ring)
		}
		c.used = c.lie
		p.make(c.lie, mask)
		p.toZones(then)
	}
	if mask == nil || c.lie.aboutTurned().same(c.used) { // zones turn with the board
		again(mask)
		return
	}
	p.w.ask(question{title: say.T("Keep the zones?"), yes: say.T("Keep the zones"), other: say.T("Split again"), no: say.T("Go back"), plain: true,
		body: wrapped(say.T("You looked at the zones of this face, or corrected them. They can stay where they are on the board, or the newly squared picture is split again and your corrections go."), widget.MediumImportance),
		do:   func() error { again(mask); return nil },
		also: func() { again(nil) }})
}

func (p *facePage) toZones(then func()) {
	if p.step != stepZones {
		p.corners.tape.stop()
		p.step = stepZones
		p.turned()
		if p.w.page == page(p) && p.w.asks == nil {
			p.w.takeKeys()
		}
		p.w.say("")
	}
	switch {
	case then == nil:
	case p.zones.work != nil:
		then()
	default:
		p.ready = then
	}
}

// turnedMask is a mask of the face turned end for end in its plane.
func turnedMask(m *photo.Mask) *photo.Mask {
	out := *m
	out.Pix = slices.Clone(m.Pix)
	slices.Reverse(out.Pix)
	return &out
}
