package session

import (
	"context"
	"math"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// PlaningShares are the parts of the stock that are offered to come off the
// show face before glue-up. The model's own default is half.
func PlaningShares() [5]float64 { return [5]float64{0, 0.25, 0.5, 0.75, 1} }

// Planings is what strips of a panel show, by where the stock comes off.
type Planings struct {
	Panel  string
	Wanted face.Wanted
	Strips []StripPlanings
	// Of all strips that may still be chosen at once: the show face's shares.
	Light, Unwanted [5]float64
	Lone            [5]int // lone streaks then
	Best            int    // of all; -1 none: both woods are wanted, or it makes no difference
	Now             int    // -1: they differ, or are something else
}

// StripPlanings are the choices for one strip.
type StripPlanings struct {
	Strip, Number, Board string
	Stock                Stock
	Before               float64 // what comes off before glue-up, mm
	Show                 string  // the side that shows: "bark side", "face 1"
	Light                [5]float64
	Best                 int // -1: none
	Now                  int // -1: another share than those offered
	Why                  string
	How                  string // how the finished line is known
}

// offFor is the stock off face 1 and face 2 with a share of it off the face
// that shows; nil stands for halves.
func offFor(before, share float64, up int) *[2]float64 {
	if share == 0.5 {
		return nil
	}
	var off [2]float64
	off[up-1], off[2-up] = round3(before*share), round3(before*(1-share))
	return &off
}

// round3 rounds to what the file keeps, mm.
func round3(mm float64) float64 { return math.Round(mm*1000) / 1000 }

// sameChoice is how near two depths are that count as one choice, mm.
const sameChoice = 0.05

// alike is the difference in light share that makes no choice better. An
// engineering choice: half a point, less than zones are drawn to.
const alike = 0.005

// Planings returns a function that works out what the strips of a panel show
// with a share of the stock off the show face, and may run on any goroutine.
// Nil where there is no such panel.
func (s *Session) Planings(panel string) func(context.Context) (*Planings, error) {
	p, n := s.Panel(panel), s.Project().Panel(panel)
	if p == nil || n == nil || len(p.Strips) != len(n.Strips) {
		return nil
	}
	frame := *p
	strips := append([]face.Strip(nil), p.Strips...)
	out := &Planings{Panel: panel, Wanted: p.Wanted, Best: -1, Now: -1}
	for i := range strips {
		st := &strips[i]
		k := stockOf(st, p.Thickness, s.Project().Allowances.AfterGlue)
		x := StripPlanings{Strip: st.ID, Number: s.Number(panel, st.ID), Stock: k, Best: -1, Now: -1, Why: s.planable(&n.Strips[i], st, k)}
		if st.Board != nil {
			x.Board, x.Show = st.Board.ID, say.Of(st.Board.SideName(st.UpFace()))
			x.Before = k.All() - s.after(k)
		}
		if x.Why == "" {
			x.Now = nowOf(&x, st)
			if d := deepOf(st.Board); d != nil {
				if o := d.belowFaces.at(k.Taken()); o != nil {
					x.How = s.HowKnown(o.notes[st.UpFace()-1])
				}
			}
		}
		out.Strips = append(out.Strips, x)
	}
	return func(ctx context.Context) (*Planings, error) {
		var reader face.Reader
		for c, share := range PlaningShares() {
			q := frame
			q.Strips = append([]face.Strip(nil), strips...)
			for i := range q.Strips {
				if err := ctx.Err(); err != nil {
					return nil, err
				}
				st := &q.Strips[i]
				if st.Board == nil {
					continue
				}
				if out.Strips[i].Why == "" {
					st.Off = offOf(offFor(out.Strips[i].Before, share, st.UpFace()))
				}
				if d := deepOf(st.Board); d != nil {
					off := st.Taken(q.Thickness)
					d.belowFaces.find(hundredths(off))
					if b := d.Finished(off); b != nil {
						st.Board = b
					}
				}
			}
			r := reader.Read(&q)
			out.Light[c], out.Unwanted[c], out.Lone[c] = r.Show.Light.Value, r.Show.Unwanted.Value, r.Show.Lone()
			for i := range out.Strips {
				out.Strips[i].Light[c] = r.Strips[i].Light.Value
			}
		}
		out.judge()
		return out, nil
	}
}

// Renew finds anew what is chosen of the strips.
func (s *Session) Renew(p *Planings) {
	q := s.Panel(p.Panel)
	if q == nil {
		return
	}
	for i := range p.Strips {
		x := &p.Strips[i]
		for k := range q.Strips {
			if st := &q.Strips[k]; st.ID == x.Strip && x.Why == "" {
				x.Stock = stockOf(st, q.Thickness, s.Project().Allowances.AfterGlue)
				x.Now = nowOf(x, st)
			}
		}
	}
	p.together()
}

// together finds what is chosen of all strips alike.
func (p *Planings) together() {
	p.Now = -1
	first := true
	for i := range p.Strips {
		switch x := &p.Strips[i]; {
		case x.Why != "":
		case first:
			p.Now, first = x.Now, false
		case p.Now != x.Now:
			p.Now = -1
		}
	}
}

// nowOf is which choice a strip has.
func nowOf(x *StripPlanings, st *face.Strip) int {
	for c, share := range PlaningShares() {
		off := [2]float64{x.Before / 2, x.Before / 2}
		if o := offFor(x.Before, share, st.UpFace()); o != nil {
			off = *o
		}
		if math.Abs(off[0]-x.Stock.Off[0]) < sameChoice && math.Abs(off[1]-x.Stock.Off[1]) < sameChoice {
			return c
		}
	}
	return -1
}

// judge marks the choices that show least of the wood that is not wanted.
func (p *Planings) judge() {
	some := false
	for i := range p.Strips {
		if x := &p.Strips[i]; x.Why == "" {
			x.Best, some = bestOf(x.Light, p.Wanted), true
		}
	}
	p.together()
	if some {
		p.Best = bestOf(p.Unwanted, face.WantHeart) // least of it
		if p.Wanted == face.WantBoth {
			p.Best = -1
		}
	}
}

// bestOf is the light share that suits the wanted wood best, -1 where none
// does better than another. Among those alike it is the one nearest to halves,
// which cups least (common practice, no source).
func bestOf(light [5]float64, wanted face.Wanted) int {
	if wanted == face.WantBoth {
		return -1
	}
	cost := light
	if wanted == face.WantSap {
		for i := range cost {
			cost[i] = 1 - cost[i]
		}
	}
	lo, hi := cost[0], cost[0]
	for _, v := range cost {
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	if hi-lo < alike {
		return -1
	}
	best := -1
	for i, v := range cost {
		if v < lo+alike && (best < 0 || math.Abs(float64(i)-2) < math.Abs(float64(best)-2)) {
			best = i
		}
	}
	return best
}

// PlaneEdit is the edit by which a share of the stock of a strip comes off its
// show face, or of all strips where strip is "". ok is false where nothing may be
// chosen or nothing would change.
func (s *Session) PlaneEdit(p *Planings, strip string, choice int) (edit model.Edit, ok bool) {
	return s.planeEdit(p, say.F("Plane all strips of %s", p.Panel), func(x *StripPlanings) int {
		if strip != "" && x.Strip != strip {
			return -1
		}
		return choice
	}, strip)
}

// PlaneBest is the edit by which each strip is planed so that it shows least of
// what is not wanted.
func (s *Session) PlaneBest(p *Planings) (model.Edit, bool) {
	return s.planeEdit(p, say.F("Plane each strip of %s for its best face", p.Panel), func(x *StripPlanings) int { return x.Best }, "")
}

func (s *Session) planeEdit(p *Planings, verb string, choice func(*StripPlanings) int, only string) (model.Edit, bool) {
	n := s.Committed().Panel(p.Panel)
	if n == nil {
		return nil, false
	}
	strips := append([]model.Strip(nil), n.Strips...)
	shares := PlaningShares()
	changed := false
	for i := range p.Strips {
		x := &p.Strips[i]
		c := choice(x)
		if x.Why != "" || c < 0 || c >= len(shares) {
			continue
		}
		for k := range strips {
			m := &strips[k]
			if m.ID != x.Strip {
				continue
			}
			off := offFor(x.Before, shares[c], upOf(m))
			if same := off == nil && m.Off == nil || off != nil && m.Off != nil && *off == *m.Off; same {
				continue
			}
			m.Off, changed = off, true
			if only != "" {
				return model.SetStrip{Panel: p.Panel, Strip: *m, Verb: say.T("Plane")}, true
			}
		}
	}
	return model.SetStrips{Panel: p.Panel, Strips: strips, Verb: verb}, changed
}

func upOf(m *model.Strip) int {
	if m.Up == 2 {
		return 2
	}
	return 1
}
