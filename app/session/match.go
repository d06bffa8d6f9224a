package session

import (
	"context"
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
)

// UsualTolerance is by how much the widths of two edges may differ where the
// maker says nothing, mm: an engineering choice.
const UsualTolerance = 4.0

// mostMatches bounds how many pairs are told; more are counted. An engineering
// choice: nobody looks at more pictures.
const mostMatches = 48

// MatchKind says why two strips go together.
type MatchKind string

// Kinds of matches.
const (
	EdgeMatch MatchKind = "edges" // their edges carry one width of unwanted wood
	BookMatch MatchKind = "book"  // opened like a book
	SlipMatch MatchKind = "slip"  // one slid off the other
)

// Match is two strips that go together, and how they come to lie so.
type Match struct {
	Kind        MatchKind
	Front, Rear string      // ids; that of a strip still to be cut is new
	Title, Text string      // what meets, and how well
	Opened      string      // of a book or slip match, which faces show and where they meet
	Assumed     string      // what was guessed or chosen for it, "" nothing
	Pair        *face.Panel // the two by themselves, for a picture
	Lays        []Laying    // ways to lay them so, the least change first
	Same        bool        // they lie so now

	// Of edges the band and how far its halves differ in width; of a book or
	// slip match how far the sap lines are from level. mm.
	Width, Mean, Greatest float64
	Within                float64 // share of the joint along which they agree
}

// Matches is what was found, best first.
type Matches struct {
	List []Match
	More int     // agree too, less well than those of the list, and are not told
	Why  string  // where the list is empty, why
	Need float64 // where the list is empty, the tolerance that shows the nearest miss, mm; 0 there is none
}

// MatchSearch looks for edges that go together. It holds what it needs and is
// not changed by what is done in the session meanwhile.
type MatchSearch struct {
	Tolerance float64 // by how much widths may differ, mm; 0 is the usual
	Strip     string  // only pairs with this strip of the panel; "" all
	*bench
}

// Matches prepares a search for edges that go together, among the strips of a
// panel and the spares, to be run on a goroutine of its own.
func (s *Session) Matches(panel string) (*MatchSearch, error) {
	b, err := s.bench(panel)
	if err != nil {
		return nil, err
	}
	return &MatchSearch{bench: b}, nil
}

// Run looks for pairs. Where ctx ends early, what was found until then is told.
func (q *MatchSearch) Run(ctx context.Context) Matches {
	if _, ok := q.panel.Wanted.Unwanted(); !ok {
		return Matches{Why: say.T("Both kinds of wood are welcome in this panel, so no edge needs another. Say in the panel's settings which wood is wanted.")}
	}
	pool, of := q.pool()
	if len(pool) < 2 {
		return Matches{Why: say.T("It takes two strips that lie on boards, in the panel or among the spares.")}
	}
	o := match.Options{Wanted: q.panel.Wanted, Length: q.panel.Length, Tolerance: q.tolerance(), Most: 4000}
	var out Matches
	held := 0
	for _, p := range match.Pairs(ctx, pool, o) {
		if ctx.Err() != nil {
			break
		}
		if !q.asked(of, &p) {
			continue
		}
		if len(out.List) == mostMatches {
			out.More++
			continue
		}
		if m, ok := q.matchOf(pool, of, &p); ok {
			out.List = append(out.List, m)
		} else {
			held++
		}
	}
	switch {
	case len(out.List) > 0:
		q.weigh(ctx, out.List)
	case held > 0:
		out.Why = say.T("What would agree cannot be laid side by side while strips are pinned or glued where they are.")
	case ctx.Err() == nil:
		out.Why, out.Need = q.miss(ctx, pool, of, o)
	}
	return out
}

func (q *MatchSearch) tolerance() float64 {
	if q.Tolerance > 0 {
		return q.Tolerance
	}
	return UsualTolerance
}

// asked reports whether a pair is one of those wanted.
func (q *MatchSearch) asked(of []int, p *match.Pair) bool {
	is := func(i int) bool { return !q.pieces[of[i]].spare && q.pieces[of[i]].strip.ID == q.Strip }
	return q.Strip == "" || is(p.Front) || is(p.Rear)
}

// pool is all strips that lie on boards, how they may lie and slide; of gives
// their pieces.
func (q *MatchSearch) pool() (pool []match.Source, of []int) {
	for i := range q.pieces {
		p := &q.pieces[i]
		if p.strip.Board == nil || q.view.lost(&p.strip) {
			continue
		}
		s := match.Source{Strip: p.strip}
		s.Strip.Board = p.strip.Wood(q.panel) // edges meet on the planed faces
		if p.held() {
			s.Lies = []match.Lie{lieOf(&p.strip)}
		}
		s.MinSlide, s.MaxSlide = match.Room(&p.strip, q.beside(i), q.cut)
		pool, of = append(pool, s), append(of, i)
	}
	return pool, of
}

// matchOf puts a pair into words and edits; false where it cannot be laid.
func (q *MatchSearch) matchOf(pool []match.Source, of []int, p *match.Pair) (Match, bool) {
	a, b := q.pieces[of[p.Front]].as(p.FrontLie), q.pieces[of[p.Rear]].as(p.RearLie)
	if p.Slid >= 0 {
		x := &a
		if p.Slid == p.Rear {
			x = &b
		}
		x.slide(p.Slide)
	}
	a.at, b.at = of[p.Front], of[p.Rear]
	ways := [][2]lying{{a, b}}
	if a.m.Shift == 0 && b.m.Shift == 0 { // the same, the panel turned half round
		ways = append(ways, [2]lying{b.round(), a.round()})
	}
	m := Match{Kind: EdgeMatch, Lays: q.lays(ways),
		Width: p.Seam.Width, Mean: p.Seam.Mean, Greatest: p.Seam.Greatest, Within: p.Seam.Within}
	if len(m.Lays) == 0 {
		return m, false
	}
	m.Same = m.Lays[0].Change == ""
	// The one that comes to lie in front is named first.
	front, rear := &m.Lays[0].way[0], &m.Lays[0].way[1]
	names := [2]string{q.edge(&q.pieces[a.at], p.FrontEdge), q.edge(&q.pieces[b.at], p.RearEdge)}
	if front.at != a.at {
		names[0], names[1] = names[1], names[0]
	}
	m.Front, m.Rear = front.m.ID, rear.m.ID
	m.Title = say.F("%s to %s", names[0], names[1])
	m.Text = q.band(&p.Seam, front, rear)
	m.Pair = q.pair(front, rear)
	return m, true
}

// miss says why there are no pairs, and the tolerance that shows the nearest.
func (q *MatchSearch) miss(ctx context.Context, pool []match.Source, of []int, o match.Options) (string, float64) {
	wood := say.F("%s wood", q.tone())
	o.Tolerance = 1e4
	best, need := "", math.Inf(1)
	for _, p := range match.Pairs(ctx, pool, o) {
		n := neededTolerance(&p.Seam)
		if !q.asked(of, &p) || n >= need || ctx.Err() != nil {
			continue
		}
		if m, ok := q.matchOf(pool, of, &p); ok {
			best, need = m.Title, n
		}
	}
	if best != "" {
		show := q.up(need)
		return say.F("No two edges agree within %s. The nearest miss is %s: the widths differ by up to %s along nine tenths of the joint.",
			q.len(q.tolerance()), best, q.len(show)), show
	}
	o.Least, o.Both, o.Within = 0.01, 1e-6, 1e-6
	all := match.Pairs(ctx, pool, o)
	if !slices.ContainsFunc(all, func(p match.Pair) bool { return q.asked(of, &p) }) {
		who := say.T("No strip carries")
		if q.Strip != "" {
			who = say.T("No strip carries, beside one that does,")
		}
		return say.F("%s %s along a long edge, on either face: there is nothing to match.", who, wood), 0
	}
	return say.F("There is %s along some edges, but no two of them carry %s or more of it along four fifths of a joint, whichever way they lie.", wood, q.len(5)), 0
}

// neededTolerance is how far the widths differ along nine tenths of the joint.
func neededTolerance(s *match.Seam) float64 {
	d := make([]float64, len(s.Front))
	for k := range d {
		d[k] = math.Abs(s.Front[k] - s.Rear[k])
	}
	if len(d) == 0 {
		return math.Inf(1)
	}
	slices.Sort(d)
	return d[min(max(int(math.Ceil(0.9*float64(len(d))-1e-9))-1, 0), len(d)-1)]
}

func lieOf(s *face.Strip) match.Lie { return match.Lie{Up: s.UpFace(), Turned: s.Turned} }

// slid moves a place on a board along the strip, away from the marked end.
func slid(m *model.Strip, by float64) {
	d := geom.Rotate(m.Angle).Apply(geom.Pt(by, 0))
	m.X, m.Y = m.X+d.X, m.Y+d.Y
}
