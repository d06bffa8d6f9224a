package ui

import (
	"context"
	"errors"
	"sync"

	"heartside/app/session"
	"heartside/model/say"
)

// foundBox holds the latest that a search told, so that no more than one
// message waits for the window at a time.
type foundBox struct {
	mu    sync.Mutex
	turn  int
	found session.Found
	full  bool
}

// put keeps what was found and reports whether the window is to be told.
func (b *foundBox) put(turn int, f session.Found) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	told := b.full
	b.turn, b.found, b.full = turn, f, true
	return !told
}

func (b *foundBox) take() (int, session.Found) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.full = false
	return b.turn, b.found
}

// wish is what is asked of the search.
func (p *arrangePage) wish() session.Wish {
	return session.Wish{Panel: p.panel, Look: p.ask.look, Seed: 1,
		NoRoll: !p.ask.roll, NoTurn: !p.ask.turn, Spares: p.ask.spares && !p.whole && len(p.w.ses.Spares()) > 0,
		Whole: p.whole, Change: p.changeAsked()}
}

// search begins anew.
func (p *arrangePage) search() {
	if p.halt != nil {
		p.halt()
	}
	p.w.nudge.settle()
	p.turn++
	turn := p.turn
	p.found, p.trouble, p.was, p.running, p.stopped = session.Found{}, "", "", false, false
	p.restsOn = p.restsOnNow()
	s, err := p.begin(p.wish())
	if err != nil {
		p.trouble = ended(sentence(say.Err(err)))
		p.shown()
		return
	}
	ctx, halt := context.WithCancel(p.ctx)
	p.halt, p.running = halt, true
	p.shown()
	go func() {
		defer halt()
		got, err := ran(ctx, s, func(f session.Found) {
			if p.box.put(turn, f) {
				p.w.post(p.improved)
			}
		})
		p.w.post(func() { p.done(turn, got, err) })
	}()
}

// ran runs a search; what goes wrong in it is told and does not end the window.
func ran(ctx context.Context, s searcher, told func(session.Found)) (got session.Found, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("the search failed on this panel (%v); ask for another look, or hold fewer strips", r)
		}
	}()
	return s.Run(ctx, told)
}

// gone reports whether the page was left; nothing is done for it then.
func (p *arrangePage) gone() bool { return p.ctx.Err() != nil || p.w.page != page(p) }

// improved takes what the search under way has found so far.
func (p *arrangePage) improved() {
	turn, f := p.box.take()
	if p.gone() || turn != p.turn || !p.running {
		return
	}
	p.take(f)
}

// done takes what the search ended with; one that was stopped keeps its best.
func (p *arrangePage) done(turn int, f session.Found, err error) {
	if p.gone() || turn != p.turn {
		return
	}
	p.running = false
	switch {
	case err != nil && p.stopped && errors.Is(err, context.Canceled): // what was found stays
		p.shown()
	case err != nil:
		p.trouble = ended(sentence(say.Err(err)))
		p.shown()
	default:
		p.take(f)
	}
	p.w.trace.line("answers %d", len(p.found.Answers))
}

// take shows what was found; the arrangement in hand stays in hand where it is
// still there.
func (p *arrangePage) take(f session.Found) {
	p.found = f
	p.shown()
}

// end stops the search; the best so far stays.
func (p *arrangePage) end() {
	if !p.running {
		return
	}
	p.stopped = true
	p.halt()
	p.shown()
}

// weigh sees to it that what speaks against an arrangement becomes known: from
// what was found, or else beside the window.
func (p *arrangePage) weigh(e *layEntry) {
	for _, a := range append([]session.Arrangement{p.found.Now}, p.found.Answers...) {
		if a.Panel != nil && e.fault == "" && p.lieIn(&a) == e.lie {
			after := e.got.After
			e.got, e.known = a, true
			if e.kind == layNow && !p.whole {
				e.got.After = after
			}
			return
		}
	}
	if e.fault != "" || e.kind == layNow && (p.running || p.trouble != "" || p.turn == 0) {
		return // there is none, or it will be told
	}
	key := e.id[:3] + woodKey(e.panel) + p.restsOn + string(p.ask.look)
	got, ok := p.weighed[key]
	switch {
	case ok && got.Panel != nil:
		e.got, e.known = got, true
		return
	case ok:
		return // it is being weighed
	}
	if len(p.weighed) > mostWeighed {
		clear(p.weighed)
	}
	p.weighed[key] = session.Arrangement{}
	look := p.ask.look
	s, err := p.appraise(e)
	if err != nil {
		return
	}
	work := func() (session.Arrangement, error) {
		ctx, stop := context.WithCancel(p.ctx)
		if e.kind == layNow {
			stop() // a search that ends at once
		}
		defer stop()
		f, err := ran(ctx, s, nil)
		return f.Now, err
	}
	go func() {
		got, err := work()
		p.w.post(func() {
			if p.gone() || err != nil || got.Panel == nil {
				return
			}
			for _, l := range got.Looks {
				if l.Look == look {
					got.Points = l.Points
				}
			}
			p.weighed[key] = got
			p.shown()
		})
	}()
}

// appraise prepares to tell what speaks against an arrangement.
func (p *arrangePage) appraise(e *layEntry) (searcher, error) {
	if e.kind == layNow {
		return p.begin(p.wish())
	}
	if p.whole {
		q, err := p.w.ses.AppraiseSet(p.wish(), e.parts)
		if err != nil {
			return nil, err
		}
		return q, nil
	}
	q, err := p.w.ses.Appraise(p.wish(), e.panel)
	if err != nil {
		return nil, err
	}
	return q, nil
}

// mostWeighed bounds how many arrangements are remembered with what speaks
// against them.
const mostWeighed = 200
