package session

import (
	"context"
	"math"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/match"
	"heartside/model"
	"heartside/model/say"
)

// LeafSearch looks for book and slip matches of one strip. It holds what it
// needs and is not changed by what is done in the session meanwhile.
type LeafSearch struct {
	How  *Touch // how the maker says two boards lay; nil: as their zones agree best
	Edge Edge   // of the strip, at which the other is to lie
	*bench
	at int // the strip, among the pieces
}

// Leaves prepares a search for what makes a book or slip match with a strip of
// a panel on the boards sawn next to its own, to be run on a goroutine of its
// own.
func (s *Session) Leaves(panel, strip string) (*LeafSearch, error) {
	b, err := s.bench(panel)
	if err != nil {
		return nil, err
	}
	for i := 0; i < b.inPanel; i++ {
		if b.pieces[i].m.ID == strip {
			if b.pieces[i].strip.Board == nil {
				return nil, say.Errorf("the place is empty: lay a strip on a board first")
			}
			return &LeafSearch{bench: b, at: i}, nil
		}
	}
	return nil, say.Errorf("panel %s has no strip %q", panel, strip)
}

// Run looks for matches. Where ctx ends early, what was found until then is
// told.
func (q *LeafSearch) Run(ctx context.Context) Matches {
	cuts, why := q.cuts()
	if why != "" {
		return Matches{Why: why}
	}
	own := &q.pieces[q.at]
	var out Matches
	for _, sib := range match.Siblings(cuts) {
		if sib.A != own.strip.Board && sib.B != own.strip.Board {
			continue
		}
		sib = q.chosen(sib)
		for _, kind := range [2]match.Kind{match.Book, match.Slip} {
			if ctx.Err() != nil {
				break
			}
			out.List = append(out.List, q.leaves(sib, kind)...)
		}
	}
	slices.SortStableFunc(out.List, func(a, b Match) int {
		if a.Kind != b.Kind { // books first
			return strings.Compare(string(a.Kind), string(b.Kind))
		}
		return int(math.Round(10*a.Mean)) - int(math.Round(10*b.Mean))
	})
	q.weigh(ctx, out.List)
	if len(out.List) == 0 && ctx.Err() == nil {
		out.Why = say.F("Strip %s cannot get a neighbour while strips are pinned or glued where they are.", own.number)
	}
	return out
}

// cuts lists the board of the strip and those sawn next to it, or says why
// there are none.
func (q *LeafSearch) cuts() ([]match.Cut, string) {
	own := &q.pieces[q.at]
	m := q.project.Board(own.m.Board)
	if m == nil || m.Log == nil || m.Log.Name == "" {
		return nil, say.F("It is not known which log board %s came from: enter log and cut with the board, and those of the boards sawn beside it.", own.m.Board)
	}
	if m.Log.Order < 1 {
		return nil, say.F("It is not known which cut of log %s board %s is: enter it with the board.", m.Log.Name, m.ID)
	}
	cuts := []match.Cut{{Board: own.strip.Board, Log: m.Log.Name, Order: m.Log.Order}}
	spoiled := ""
	for _, o := range q.project.Boards {
		if o.ID == m.ID || o.Log == nil || o.Log.Name != m.Log.Name {
			continue
		}
		switch d := o.Log.Order - m.Log.Order; {
		case d != 1 && d != -1 || o.Log.Order < 1:
		case o.Spoiled:
			spoiled = say.F(" Board %s is, but it is spoiled.", o.ID)
		default:
			cuts = append(cuts, match.Cut{Board: q.view.boards[o.ID], Log: o.Log.Name, Order: o.Log.Order})
		}
	}
	if len(cuts) == 1 {
		return nil, say.F("No board here is the cut before or after board %s, which is cut %d of log %s.%s", m.ID, m.Log.Order, m.Log.Name, spoiled)
	}
	return cuts, ""
}

// leaves are the matches of one kind from one board: behind the strip, and in
// front of it.
func (q *LeafSearch) leaves(sib match.Sibling, kind match.Kind) []Match {
	own := &q.pieces[q.at]
	if sib.A != own.strip.Board {
		sib = sib.Swapped()
	}
	lie := lieOf(&own.strip)
	if kind == match.Book && lie.Up != sib.FaceA {
		if own.held() {
			return nil
		}
		lie.Up = sib.FaceA // it shows the face that touched once it is rolled over
	}
	a := own.as(lie)
	a.at = q.at
	st := q.faced(&a.m)
	l, err := match.Match(sib, &st, kind, match.Options{Wanted: q.panel.Wanted, Length: q.panel.Length})
	if err != nil {
		return nil
	}
	agreed := 0.0
	for _, off := range l.Off {
		if off <= UsualTolerance {
			agreed += 1 / float64(len(l.Off))
		}
	}
	var out []Match
	for _, behind := range [2]bool{true, false} {
		if q.Edge == FrontEdge && behind || q.Edge == BackEdge && !behind {
			continue
		}
		m := Match{Kind: MatchKind(kind), Front: a.m.ID, Assumed: q.assumed(&sib), Mean: l.Mean, Greatest: l.Greatest, Within: agreed}
		seam, side := l.Behind, say.T("behind")
		if !behind {
			seam, side = l.Before, say.T("in front of")
		}
		name := say.T("Book match")
		if kind == match.Slip {
			name = say.T("Slip match")
		}
		m.Title = say.F("%s from board %s, %s %s", name, sib.B.ID, side, own.number)
		m.Width = seam.Width
		m.Opened = q.opened(&sib, &a, &l, kind, behind)
		m.Text = q.level(&l, &seam)
		var leaf lying
		for _, c := range q.sources(&l.Strip, &a) {
			ways := [][2]lying{{a, c}}
			if !behind {
				ways = [][2]lying{{c, a}}
			}
			leaf = c
			m.Lays = append(m.Lays, q.lays(ways)...)
		}
		if len(m.Lays) == 0 {
			continue
		}
		m.Text += q.guessed(&a, &leaf)
		m.Pair = q.pair(&a, &leaf)
		if !behind {
			m.Pair = q.pair(&leaf, &a)
		}
		m.Same = m.Lays[0].Change == ""
		out = append(out, m)
	}
	return out
}

// sources are the ways to get the strip of a match: planned strips of its
// board sawn there instead, those of the panel first, and a new one.
func (q *LeafSearch) sources(leaf *face.Strip, own *lying) []lying {
	on := func(m *model.Strip) {
		m.Board, m.X, m.Y, m.L, m.W, m.Angle = leaf.Board.ID, tenth(leaf.X), tenth(leaf.Y), leaf.L, leaf.W, leaf.Angle
		m.Up, m.Turned, m.Shift = leaf.Up, leaf.Turned, own.m.Shift
	}
	var out []lying
	for i := range q.pieces {
		p := &q.pieces[i]
		if i == own.at || p.strip.Board == nil || p.strip.Board.ID != leaf.Board.ID || q.view.lost(&p.strip) {
			continue
		}
		m := p.m
		on(&m)
		there := math.Hypot(m.X-p.m.X, m.Y-p.m.Y) < 0.5 && m.L == p.m.L && m.W == p.m.W && math.Abs(m.Angle-p.m.Angle) < 0.05
		switch {
		case there: // it is sawn there, or will be
			m.X, m.Y, m.Angle = p.m.X, p.m.Y, p.m.Angle
			if p.held() && (m.Up != p.strip.UpFace() || m.Turned != p.m.Turned) {
				continue
			}
			return []lying{{m: m, at: i}}
		case !p.held() && p.strip.Stage < face.Sawn && p.m.Planed == nil:
			out = append(out, lying{m: m, at: i, recut: true})
		}
	}
	fresh := model.Strip{}
	on(&fresh)
	return append(out, lying{m: fresh, at: -1})
}

// tenth rounds a place on a board to what can be measured.
func tenth(mm float64) float64 { return math.Round(10*mm) / 10 }

// assumed says what was guessed, or said, of how two boards lay on one another.
func (q *LeafSearch) assumed(sib *match.Sibling) string {
	text := say.T("As chosen")
	if sib.Assumed {
		text = say.T("Assumed")
	}
	text += say.F(": %s of board %s lay on %s of board %s, the marked ends ",
		theSide(sib.A, sib.FaceA), sib.A.ID, theSide(sib.B, sib.FaceB), sib.B.ID)
	if sib.EndsApart {
		text += say.T("apart")
	} else {
		text += say.T("together")
	}
	text += say.F(". Their zones agree there over %s", Percent(sib.Agree))
	ways := match.Ways(sib.A, sib.B)
	switch {
	case sib.Assumed && len(ways) > 1 && ways[0].Agree-ways[1].Agree < 0.01:
		text += say.T(", and as well another way round: look which faces show one figure")
	case sib.Agree < 0.8:
		text += say.T(", which is little: look whether the boards were sawn from one another")
		if !sib.Assumed && len(ways) > 0 && ways[0].Agree > sib.Agree+0.1 {
			text += say.F("; another way they agree over %s", Percent(ways[0].Agree))
		}
	}
	return text + "."
}

// level says how the sap lines of a match meet.
func (q *LeafSearch) level(l *match.Leaf, seam *match.Seam) string {
	text := say.T("There is nothing yet to hold the two against each other.")
	if l.Compared > 0 {
		image := say.T("mirror image")
		if l.Kind == match.Slip {
			image = say.T("repeat")
		}
		text = say.F("The sap lines are off the exact %s by %s on the mean, %s at most.", image, q.diff(l.Mean), q.diff(l.Greatest))
		if l.Compared < 0.95 {
			text += say.F(" Only %s could be compared.", Percent(l.Compared))
		}
	}
	wood := say.T("heartwood")
	if q.wanted == face.WantSap {
		wood = say.T("sapwood")
	}
	switch share := clearShare(seam); {
	case len(seam.Front) == 0: // no wood is unwanted
	case seam.Both > 0.5:
		text += say.F(" At the joint they make a %s band of %s.", q.tone(), q.len(math.Round(seam.Width)))
	case share > 0.98:
		text += say.F(" At the joint %s meets %s.", wood, wood)
	case share < 0.02:
		text += say.F(" At the joint %s wood meets none.", q.tone())
	default:
		text += say.F(" At the joint %s meets %s along %s; for the rest %s wood ends there.", wood, wood, Percent(share), q.tone())
	}
	return text
}

// clearShare is the share of a joint at which neither strip has unwanted wood.
func clearShare(s *match.Seam) float64 {
	n := 0
	for k := range s.Front {
		if s.Front[k] < 1 && s.Rear[k] < 1 {
			n++
		}
	}
	return float64(n) / float64(max(len(s.Front), 1))
}
