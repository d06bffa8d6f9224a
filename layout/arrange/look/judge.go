package look

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/face"
)

// Judge scores arrangements of one panel for a look. It keeps what it saw of
// every strip, and is for one goroutine.
type Judge struct {
	name     Name
	rules    Rules
	length   float64
	width    float64
	planed   face.Panel // how far strips are planed, nothing else
	mix      [2]float64
	unwanted face.Kind
	judges   bool // there is unwanted wood
	sheets   map[wayKey]*sheet
	pairs    map[[2]int32]float64
	profile  [bins]float64 // unwanted wood across the panel
	sound    bool          // the panel's sizes can be worked with
	stations int           // how often a strip is looked at along the panel
	view     view
}

// NewJudge returns a judge for panels of frame's size, wanted wood and limits;
// frame's strips do not count. A look not known is taken as AsLaid.
func NewJudge(frame *face.Panel, name Name, rules Rules) *Judge {
	if !slices.Contains(All[:], name) {
		name = AsLaid
	}
	j := &Judge{
		name: name, rules: rules, length: frame.Length, width: frame.Width, mix: frame.Limits.Mix,
		planed: face.Panel{Thickness: frame.Thickness, ToPlane: frame.ToPlane},
		sheets: map[wayKey]*sheet{}, pairs: map[[2]int32]float64{},
	}
	if j.mix == ([2]float64{}) {
		j.mix = face.DefaultLimits.Mix
	}
	j.unwanted, j.judges = frame.Wanted.Unwanted()
	j.sound = real(frame.Length, frame.Width) && frame.Length > 0 && frame.Width > 0
	j.stations = 1
	if j.sound {
		j.stations = max(int(math.Round(frame.Length/station)), 1)
		j.view = viewOf(frame, j.stations)
	}
	return j
}

// Single returns what speaks against a strip in a place, the front one 0, as it
// would lie there with its Up and Turned.
func (j *Judge) Single(s *face.Strip, place, places int) float64 {
	sum := 0.0
	j.single(s, place, places, func(_ TermKind, points, _, _ float64) { sum += points })
	return sum
}

// Pair returns what speaks against two strips side by side, the first in
// front.
func (j *Judge) Pair(front, rear *face.Strip) float64 {
	a, b := j.sheetOf(front), j.sheetOf(rear)
	k := [2]int32{a.id, b.id}
	if got, ok := j.pairs[k]; ok {
		return got
	}
	sum := 0.0
	j.pair(a, b, func(_ TermKind, points, _, _ float64) { sum += points })
	j.pairs[k] = sum
	return sum
}

// Local returns the sum of Single and Pair over a panel.
func (j *Judge) Local(p *face.Panel) float64 {
	sum := 0.0
	for i := range p.Strips {
		if i > 0 {
			sum += j.Pair(&p.Strips[i-1], &p.Strips[i])
		}
		sum += j.Single(&p.Strips[i], i, len(p.Strips))
	}
	return sum
}

// Whole returns what speaks against a panel as a whole; r is its reading.
func (j *Judge) Whole(p *face.Panel, r *face.Reading) float64 {
	sum := 0.0
	j.whole(p, r, alone, func(_ TermKind, points, _, _ float64, _ *face.Warning, _ whose) { sum += points })
	return sum
}

// Points returns what speaks against a panel in all; r is its reading.
func (j *Judge) Points(p *face.Panel, r *face.Reading) float64 { return j.Local(p) + j.Whole(p, r) }

// Own returns what speaks against a panel that is seen as part of a face: its
// joints, its strips in their places and what is wrong with it by itself. What
// the eye sees of the whole is told by Together.
func (j *Judge) Own(p *face.Panel, r *face.Reading) float64 {
	sum := j.Local(p)
	j.whole(p, r, part, func(_ TermKind, points, _, _ float64, _ *face.Warning, _ whose) { sum += points })
	return sum
}

// Together returns what speaks against all that is seen as one face, r being its
// reading. With Own of every panel it is what speaks against them in all.
func (j *Judge) Together(all *face.Panel, r *face.Reading) float64 {
	sum := 0.0
	j.whole(all, r, together, func(_ TermKind, points, _, _ float64, _ *face.Warning, _ whose) { sum += points })
	return sum
}

// Score is Points with every term.
func (j *Judge) Score(p *face.Panel, r *face.Reading) Score { return j.scored(p, r, alone) }

// OwnScore is Own with every term.
func (j *Judge) OwnScore(p *face.Panel, r *face.Reading) Score { return j.scored(p, r, part) }

// TogetherScore is Together with every term.
func (j *Judge) TogetherScore(all *face.Panel, r *face.Reading) Score {
	return j.scored(all, r, together)
}

func (j *Judge) scored(p *face.Panel, r *face.Reading, of sight) Score {
	sc := Score{Look: j.name}
	add := func(t Term) {
		if t.Points <= 0 {
			return
		}
		sc.Points += t.Points
		if t.Local {
			sc.LocalPoints += t.Points
		}
		sc.Terms = append(sc.Terms, t)
	}
	for i := range p.Strips {
		if of == together {
			break
		}
		s := &p.Strips[i]
		if i > 0 {
			q := &p.Strips[i-1]
			j.pair(j.sheetOf(q), j.sheetOf(s), func(k TermKind, points, measure, limit float64) {
				add(Term{Kind: k, Points: points, Local: true, Joint: i - 1, Strips: []string{q.ID, s.ID}, Measure: measure, Limit: limit})
			})
		}
		j.single(s, i, len(p.Strips), func(k TermKind, points, measure, limit float64) {
			add(Term{Kind: k, Points: points, Local: true, Joint: -1, Strips: []string{s.ID}, Measure: measure, Limit: limit})
		})
	}
	j.whole(p, r, of, func(k TermKind, points, measure, limit float64, w *face.Warning, who whose) {
		t := Term{Kind: k, Points: points, Joint: -1, Measure: measure, Limit: limit}
		if w != nil {
			t.Why, t.Strips = string(w.Kind), slices.Clone(w.Strips)
		} else {
			t.Strips = j.named(p, who)
		}
		add(t)
	})
	sortTerms(sc.Terms)
	return sc
}

// Join returns the score of all that the scores are parts of.
func Join(list ...Score) Score {
	var out Score
	for i, sc := range list {
		if i == 0 {
			out.Look = sc.Look
		}
		out.Points += sc.Points
		out.LocalPoints += sc.LocalPoints
		out.Terms = append(out.Terms, sc.Terms...)
	}
	sortTerms(out.Terms)
	return out
}

func sortTerms(list []Term) {
	slices.SortStableFunc(list, func(a, b Term) int { return cmp.Compare(b.Points, a.Points) })
}

// whose tells which strips a term of the whole face is about.
type whose uint8

const (
	carriers whose = iota // those with unwanted wood
	inMiddle              // those that reach into the middle third
	atFront
	atRear
)

// trace is a share of a strip that is not spoken of.
const trace = 0.002

// named lists the strips that a term is about, front to back.
func (j *Judge) named(p *face.Panel, who whose) []string {
	var out []string
	y := p.Y0()
	for i := range p.Strips {
		s := &p.Strips[i]
		from, to := y, y+s.W
		y = to
		if s.Board == nil {
			continue
		}
		is := false
		switch who {
		case carriers:
			is = j.sheetOf(s).share > trace
		case inMiddle:
			is = to > p.Width/3 && from < p.Width*2/3
		case atFront:
			is = i == 0
		case atRear:
			is = i == len(p.Strips)-1
		}
		if is {
			out = append(out, s.ID)
		}
	}
	return out
}
