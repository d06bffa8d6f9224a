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
	return ps.get(&ps.plain, sh, spec, func(o order) error {
		_, _, _, err := ps.shelf.picture(ps.ctx, o, &spec, true)
		return err
	}, func(err error) {
		if sh.shown != nil {
			ps.lost(sh, err)
		}
	})
}

// grade is how finely pictures for the screen are squared.
type grade struct {
	px     float64 // pixels a mm
	memory *memory
	making map[memoryKey]int64 // bytes
}

// need is what a picture takes with its halves, bytes.
func (g *grade) need(k *pictureKey) int64 {
	return int64(whole(k.length*g.px)) * int64(whole(k.width*g.px)) * 4 * 4 / 3
}

// get returns a picture from memory, or has it made, which puts it there, and
// returns nil meanwhile.
func (ps *pictures) get(g *grade, sh *shot, spec lookSpec, made func(order) error, failed func(error)) *photo.Squared {
	k := memoryKey{sh, spec.tint}
	if pic := g.memory.get(k); pic != nil {
		return pic
	}
	if g.making[k] > 0 {
		return nil
	}
	o := order{sh, sh.key, ps.from}
	if ps.s.opt.Post == nil {
		if err := made(o); err != nil {
			return nil
		}
		return g.memory.get(k)
	}
	need := g.need(&sh.key)
	coming := need
	for _, n := range g.making {
		coming += n
	}
	if !g.memory.room(coming) {
		if !sh.again { // what is on screen now may be gone by then
			sh.again = true
			later := time.AfterFunc(onScreen, func() { ps.queue.give(func() {}, ps.s.changed) })
			context.AfterFunc(ps.ctx, func() { later.Stop() })
		}
		return nil
	}
	sh.again = false
	g.making[k] = need
	ps.queue.add(&task{
		name: taskName{what: k, px: g.px}, urgent: true,
		work: func() func() {
			err := made(o)
			return func() {
				delete(g.making, k)
				if err != nil && ps.ctx.Err() == nil {
					failed(err)
				}
			}
		},
		drop: func() { delete(g.making, k) },
	}, ps.s.changed)
	return nil
}

// lost notes that a photograph that was read before cannot be read now.
func (ps *pictures) lost(sh *shot, err error) {
	sh.err = err
	ps.s.viewer.came++
}
