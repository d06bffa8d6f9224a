package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model/say"
)

// matchEntry is one tile: a match and the way chosen to lay it.
type matchEntry struct {
	id   string // tells it from the others, also after the next search
	m    *session.Match
	leaf bool // a book or slip match
	way  int
}

// lay is the way chosen.
func (e *matchEntry) lay() *session.Laying { return &e.m.Lays[min(e.way, len(e.m.Lays)-1)] }

// search looks for matches in what is committed now. What was found before
// stays on screen until it is done.
func (p *matchPage) search() {
	if p.halt != nil {
		p.halt()
	}
	p.turn++
	turn := p.turn
	p.trouble, p.running = "", false
	p.of = p.w.ses.Committed()
	if _, ok := p.of.Panel(p.panel).Strip(p.strip); !ok {
		p.strip, p.only = "", false
	}
	q, err := p.w.ses.Matches(p.panel)
	if err != nil {
		p.trouble = ended(sentence(say.Err(err)))
		p.edges, p.leaves = session.Matches{}, session.Matches{}
		p.shown()
		return
	}
	q.Tolerance = p.tolerance
	if p.only {
		q.Strip = p.strip
	}
	leaves, why := p.leafSearch()
	ctx, halt := context.WithCancel(p.ctx)
	p.halt, p.running = halt, true
	p.shown()
	go func() {
		defer halt()
		edges, more, err := matched(ctx, q, leaves)
		if leaves == nil {
			more.Why = why
		}
		p.w.post(func() { p.done(turn, edges, more, err) })
	}()
}

// matched runs both searches; what goes wrong in them is told and does not end
// the window.
func matched(ctx context.Context, q *session.MatchSearch, l *session.LeafSearch) (edges, leaves session.Matches, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("the edges of this panel could not be compared (%v)", r)
		}
	}()
	edges = q.Run(ctx)
	if l != nil {
		leaves = l.Run(ctx)
	}
	return edges, leaves, nil
}

// done takes what was found.
func (p *matchPage) done(turn int, edges, leaves session.Matches, err error) {
	if p.gone() || turn != p.turn {
		return
	}
	p.running = false
	p.edges, p.leaves = edges, leaves
	if p.first {
		p.first, p.gallery.at, p.gallery.id = false, 0, ""
	}
	if err != nil {
		p.trouble = ended(sentence(say.Err(err)))
	}
	p.shown()
	p.w.trace.line("matches edges=%d leaves=%d", len(p.edges.List), len(p.leaves.List))
}

// gather lists what the gallery shows.
func (p *matchPage) gather() []*matchEntry {
	var out []*matchEntry
	add := func(list []session.Match, leaf bool) {
		for i := range list {
			e := &matchEntry{m: &list[i], leaf: leaf, id: say.F("leaf %s", list[i].Title)}
			if !leaf {
				e.id = edgesKey(list[i].Pair)
			}
			e.way = p.ways[e.id]
			out = append(out, e)
		}
	}
	add(p.edges.List, false)
	add(p.leaves.List, true)
	return out
}

// edgesKey names the two edges of wood that meet in a pair, whichever lies in
// front and however the panel lies now.
func edgesKey(p *face.Panel) string {
	var names []string
	for i := range p.Strips {
		s := &p.Strips[i]
		far := s.Turned != (s.UpFace() == 2) // the front edge is away from the marked edge
		if i == 0 {
			far = !far
		}
		names = append(names, fmt.Sprint(s.ID, "\x00", s.UpFace(), far))
	}
	slices.Sort(names)
	return strings.Join(names, "\x01")
}

// status says what was found, in plain words.
func (p *matchPage) status() string {
	switch n := len(p.edges.List); {
	case p.trouble != "":
		return "⚠ " + p.trouble
	case p.running && len(p.entries) == 0:
		return say.T("Comparing edges…")
	case n == 0:
		return say.F("No pair of edges agrees within %s.", p.w.ses.Len(p.tolerance))
	case p.edges.More > 0:
		return say.F("The %s best pairs of edges; %s more agree within %s. A smaller tolerance leaves fewer.", itoa(n), itoa(p.edges.More), p.w.ses.Len(p.tolerance))
	default:
		return say.F("%s within %s, the closest first.", say.Count(n, say.T("pair of edges agrees"), say.T("pairs of edges agree")), p.w.ses.Len(p.tolerance))
	}
}
