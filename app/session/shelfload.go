package session

import (
	"context"
	"time"

	"heartside/layout/photo"
)

// see has the look of a face, 0 or 1, made or read from disk.
func (ps *pictures) see(board string, face int, sh *shot, spec lookSpec) {
	o := order{sh, sh.key, ps.from}
	sh.busy[spec.digest] = true
	ps.left++
	ended := func() {
		delete(sh.busy, spec.digest)
		ps.left--
	}
	ps.queue.add(&task{
		name: taskName{board: board, face: face},
		work: func() func() {
			l, err := ps.shelf.look(ps.ctx, o, &spec)
			return func() {
				ended()
				ps.came(sh, spec.digest, l, err)
			}
		},
		drop: ended,
	}, ps.cameAll)
}

// came takes in a look, or why there is none.
func (ps *pictures) came(sh *shot, digest string, l *look, err error) {
	switch {
	case ps.ctx.Err() != nil:
		return
	case err == nil:
	case sh.shown == nil:
		sh.err = err
		ps.s.viewer.came++
		return
	default:
		// It was read before and cannot be now: what was seen stays.
		c := *sh.shown
		c.own, c.note = false, trouble(sh.key.name, err)
		l = &c
	}
	ps.put(sh, digest, l)
}

// put adds a look to those of a photograph.
func (ps *pictures) put(sh *shot, digest string, l *look) {
	for d := range sh.looks {
		// Those of earlier states are on disk.
		if len(sh.looks) >= mostLooksHeld && d != sh.wanted && sh.looks[d] != sh.shown {
			delete(sh.looks, d)
		}
	}
	sh.looks[digest] = l
	if digest == sh.wanted || sh.shown == nil {
		sh.shown = l
	}
	ps.s.viewer.came++
}

// mostLooksHeld is how many looks of one photograph are held for undoing.
const mostLooksHeld = 4

// cameAll is called after pictures came in from the background.
func (ps *pictures) cameAll() {
	if ps.left == 0 {
		ps.s.findFixes()
	}
	ps.s.changed()
}

// picture returns the picture of a photograph as a look has it, or has it made
// and returns nil meanwhile. Where all that is on screen does not fit into
// memory at once the last ones asked for are not made: they would push out one
// another for ever.
func (ps *pictures) picture(sh *shot, spec lookSpec) *photo.Squared {
	k := memoryKey{sh, spec.tint}
	if pic := ps.shelf.memory.get(k); pic != nil {
		return pic
	}
	if ps.full[k] > 0 {
		return nil
	}
	if ps.s.opt.Post == nil {
		pic, _, _, err := ps.shelf.picture(ps.ctx, order{sh, sh.key, ps.from}, &spec, true)
		if err != nil {
			return nil
		}
		return pic
	}
	need := int64(whole(sh.key.length*picturePx)) * int64(whole(sh.key.width*picturePx)) * 4 * 4 / 3
	coming := need
	for _, n := range ps.full {
		coming += n
	}
	if !ps.shelf.memory.room(coming) {
		if !sh.again { // what is on screen now may be gone by then
			sh.again = true
			later := time.AfterFunc(onScreen, func() { ps.queue.give(func() {}, ps.s.changed) })
			context.AfterFunc(ps.ctx, func() { later.Stop() })
		}
		return nil
	}
	sh.again = false
	ps.full[k] = need
	o := order{sh, sh.key, ps.from}
	ps.queue.add(&task{
		name: taskName{what: k}, urgent: true,
		work: func() func() {
			_, _, _, err := ps.shelf.picture(ps.ctx, o, &spec, true)
			return func() {
				delete(ps.full, k)
				if err != nil && ps.ctx.Err() == nil && sh.shown != nil {
					ps.lost(sh, err)
				}
			}
		},
		drop: func() { delete(ps.full, k) },
	}, ps.s.changed)
	return nil
}

// lost notes that a photograph that was read before cannot be read now.
func (ps *pictures) lost(sh *shot, err error) {
	sh.err = err
	ps.s.viewer.came++
}
