package match

import (
	"cmp"
	"context"
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Source is a strip of the pool, how it may lie and how far it may slide.
type Source struct {
	Strip face.Strip
	Lies  []Lie // nil: all four
	// MinSlide (0 or less) and MaxSlide (0 or more) are how far it may slide
	// along itself on its board, mm, away from the marked end. See Room.
	MinSlide, MaxSlide float64
}

// Options say what makes a pair. What is 0 has its default.
type Options struct {
	Wanted    face.Wanted
	Length    float64 // of the panel, to which the joint is trimmed; 0: untrimmed, mm
	Tolerance float64 // difference of the widths that agrees, mm; default 4
	Within    float64 // share of the joint along which they have to agree; default 0.9
	Least     float64 // width from which a strip carries unwanted wood, mm; default 5, as for a joint's excuse
	Both      float64 // share of the joint along which both have to carry it; default 0.8, likewise
	Worth     float64 // by how much a slide has to lessen the mean difference, mm; default 0.5
	Most      int     // pairs wanted; 0: 200
}

func (o Options) filled() Options {
	fill := func(v *float64, by float64) {
		if !(*v > 0) {
			*v = by
		}
	}
	fill(&o.Tolerance, 4)
	fill(&o.Within, 0.9)
	fill(&o.Least, 5)
	fill(&o.Both, 0.8)
	fill(&o.Worth, 0.5)
	if o.Most <= 0 {
		o.Most = 200
	}
	return o
}

// Pair is two edges whose unwanted wood agrees.
type Pair struct {
	Front, Rear         int // indices into the sources
	FrontLie, RearLie   Lie
	FrontEdge, RearEdge Edge // which edge of each meets the other
	// Slid is the index of the source that has to slide for it, -1 where none
	// has to, and Slide by how much along itself on its board, mm, away from
	// the marked end: what is added to X where its angle is 0.
	Slid  int
	Slide float64
	Seam  Seam
}

// Strips returns both strips of a pair as they would lie.
func (p *Pair) Strips(pool []Source) (front, rear face.Strip) {
	lay := func(i int, l Lie) face.Strip {
		s := l.of(pool[i].Strip)
		if i == p.Slid {
			d := geom.Rotate(s.Angle).Apply(geom.Pt(p.Slide, 0))
			s.X, s.Y = s.X+d.X, s.Y+d.Y
		}
		return s
	}
	return lay(p.Front, p.FrontLie), lay(p.Rear, p.RearLie)
}

// Pairs returns the pairs of long edges whose unwanted widths agree along the
// joint: first those that differ least, in tenths of a mm on the mean, and of
// equal ones the widest band. A pair that is another turned half round as a
// whole is the same and not listed. A strip slides where that lessens the mean
// difference enough, one of the two and by whole mm; what else slides into
// the strip, flaws for one, is not looked at. Strips that lie on no board are
// passed over. Where ctx ends early what was found until then comes back.
func Pairs(ctx context.Context, pool []Source, o Options) []Pair {
	kind, ok := o.Wanted.Unwanted()
	if !ok {
		return nil
	}
	o = o.filled()
	read := make([]*pooled, len(pool))
	for i := range pool {
		if ctx.Err() != nil {
			return nil
		}
		read[i] = readSource(&pool[i], kind)
	}
	var found []Pair
	var w search
	for i := range read {
		for k := i + 1; k < len(read); k++ {
			if ctx.Err() != nil {
				return best(found, o.Most)
			}
			if read[i] != nil && read[k] != nil {
				found = w.pairsOf(found, i, k, read[i], read[k], o)
			}
		}
		if len(found) > 8*o.Most+1000 {
			found = best(found, o.Most)
		}
	}
	return best(found, o.Most)
}

// pooled is a source and what was read along it.
type pooled struct {
	*Source
	lo, hi float64
	tracks [2]track
}

func readSource(s *Source, kind face.Kind) *pooled {
	if !sound(&s.Strip) {
		return nil
	}
	p := &pooled{Source: s}
	if s.MinSlide < 0 {
		p.lo = -min(-s.MinSlide, s.Strip.Board.Length)
	}
	if s.MaxSlide > 0 {
		p.hi = min(s.MaxSlide, s.Strip.Board.Length)
	}
	if s.Strip.Planed != nil {
		p.lo, p.hi = 0, 0
	}
	for f := range p.tracks {
		p.tracks[f] = trackOf(&s.Strip, f+1, p.lo, p.hi, kind)
	}
	return p
}

func (p *pooled) may(l Lie) bool { return p.Lies == nil || slices.Contains(p.Lies, l) }

// pairsOf appends the pairs of strips i and k. With i in front each of the
// sixteen ways for two edges to meet comes up once.
func (w *search) pairsOf(found []Pair, i, k int, a, b *pooled, o Options) []Pair {
	for _, la := range Lies {
		if a.tracks[la.Up-1].widest[la.rear()] < o.Least {
			continue
		}
		for _, lb := range Lies {
			if b.tracks[lb.Up-1].widest[lb.front()] < o.Least {
				continue
			}
			p := Pair{Front: i, Rear: k, FrontLie: la, RearLie: lb}
			front, rear := a, b
			if !a.may(la) || !b.may(lb) {
				p = Pair{Front: k, Rear: i, FrontLie: lb.round(), RearLie: la.round()}
				front, rear = b, a
				if !b.may(p.FrontLie) || !a.may(p.RearLie) {
					continue
				}
			}
			if w.meet(&p, front, rear, o) {
				found = append(found, p)
			}
		}
	}
	return found
}

// meet finds the best way for the two edges of p to meet, and whether it will
// do.
func (w *search) meet(p *Pair, front, rear *pooled, o Options) bool {
	j, ok := jointOf(&front.Strip, &rear.Strip, o.Length)
	if !ok {
		return false
	}
	p.FrontEdge, p.RearEdge = p.FrontLie.rear(), p.RearLie.front()
	a := side{&front.tracks[p.FrontLie.Up-1], p.FrontEdge, p.FrontLie.Turned, front.Strip.L}
	b := side{&rear.tracks[p.RearLie.Up-1], p.RearEdge, p.RearLie.Turned, rear.Strip.L}
	p.Slid = -1
	p.Seam = seamOf(j, a, b, 0, 0, o)
	done := p.Seam.enough(o)
	// No slide will do whose mean is over what the tolerance leaves: agreeing
	// where it has to, and nothing against the widest elsewhere.
	limit := min(p.Seam.Mean-o.Worth, o.Tolerance+(1-o.Within)*max(a.widest(), b.widest())+1e-6)
	if limit <= 0 {
		return done
	}
	da, ma := w.slide(j, a, b, 0, j.shift, front.lo, front.hi, limit)
	db, mb := w.slide(j, b, a, j.shift, 0, rear.lo, rear.hi, limit)
	tries := [2]struct {
		mean, da, db float64
		slid         int
	}{{ma, da, 0, p.Front}, {mb, 0, db, p.Rear}}
	if mb < ma-1e-9 || mb < ma+1e-9 && math.Abs(db) < math.Abs(da) {
		tries[0], tries[1] = tries[1], tries[0]
	}
	for _, t := range tries {
		if t.mean >= limit {
			continue
		}
		if s := seamOf(j, a, b, t.da, t.db, o); s.enough(o) {
			p.Seam, p.Slid, p.Slide = s, t.slid, t.da+t.db
			return true
		}
	}
	return done
}

// enough reports whether the seam makes a pair.
func (s *Seam) enough(o Options) bool { return s.Within >= o.Within-1e-9 && s.Both >= o.Both-1e-9 }

// best returns the first of the pairs in their order.
func best(found []Pair, most int) []Pair {
	tenths := func(p *Pair) float64 { return math.Round(p.Seam.Mean * 10) }
	slices.SortStableFunc(found, func(a, b Pair) int {
		return cmp.Or(cmp.Compare(tenths(&a), tenths(&b)),
			-cmp.Compare(math.Round(a.Seam.Width), math.Round(b.Seam.Width)),
			cmp.Compare(math.Abs(a.Slide), math.Abs(b.Slide)))
	})
	if len(found) > most {
		found = found[:most:most]
	}
	return found
}
