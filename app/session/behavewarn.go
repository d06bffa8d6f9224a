package session

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/moisture"
	"heartside/model"
	"heartside/model/say"
)

// Kinds of warning about how the wood behaves.
const (
	MovesApart      face.WarningKind = "moves-apart"       // joined panels; Why is the other one
	WillCup         face.WarningKind = "will-cup"          // Why is the season
	MoistureOfRoom  face.WarningKind = "moisture-of-room"  // not at home in the room yet
	GrooveTooFlat   face.WarningKind = "groove-too-flat"   // the panel comes out of it
	StreakMayAppear face.WarningKind = "streak-may-appear" // as the wood ages; Why is after how long
)

// Weights among the other warnings: below what spoils the face, above slivers.
const (
	weightApart  = 75
	weightGroove = 72
	weightRoom   = 54
	weightCup    = 53
	weightLater  = 52
)

// behaved keeps the warnings about behaviour of one project.
type behaved struct {
	project *model.Project
	came    int
	by      map[string][]face.Warning
}

// behaviourWarnings warns of how the wood of a panel will behave. While a
// gesture runs they stay those of the project before it.
func (s *Session) behaviourWarnings(panel string) []face.Warning {
	p := s.Committed()
	if s.behaved.project != p || s.behaved.came != s.viewer.came {
		if s.Previewing() && s.behaved.by != nil {
			return s.behaved.by[panel]
		}
		s.behaved = behaved{project: p, came: s.viewer.came, by: map[string][]face.Warning{}}
	}
	got, ok := s.behaved.by[panel]
	if !ok && !s.Previewing() {
		got = s.behaving(panel).warnings()
		s.behaved.by[panel] = got
	}
	return got
}

// behaving is what a panel's behaviour is worked out from, nil where there is
// no such panel.
func (s *Session) behaving(panel string) *behaving {
	p := s.Project()
	n := p.Panel(panel)
	if n == nil {
		return nil
	}
	b := &behaving{s: s, p: p, n: n, fp: s.Panel(panel), read: s.Reading(panel)}
	b.span, b.trouble = spanOf(p.Climate)
	return b
}

func (b *behaving) warnings() []face.Warning {
	if b == nil || b.trouble != nil || b.read.Placed == 0 {
		return nil
	}
	out := append(b.apartWarnings(), b.flatWarnings()...)
	out = append(out, b.roomWarnings()...)
	out = append(out, b.grooveWarnings()...)
	out = append(out, b.cupWarnings()...)
	return append(out, b.laterWarnings()...)
}

// apartWarnings tell of panels fixed to each other that move apart.
func (b *behaving) apartWarnings() (out []face.Warning) {
	for _, j := range b.p.Joined {
		other, mine := b.joinedTo(j)
		if !mine || j.How == "free" {
			continue
		}
		m, _, err := b.meeting(j)
		if err != nil || m.Most < b.p.Limits.ApartLimit() {
			continue
		}
		out = append(out, face.Warning{Kind: MovesApart, Why: other, Measure: m.Most, Limit: b.p.Limits.ApartLimit(), Weight: weightApart})
	}
	return out
}

// roomWarnings tell of strips that have not settled in the room.
func (b *behaving) roomWarnings() (out []face.Warning) {
	byNumber := map[string]*face.Strip{}
	for _, k := range b.pieces() {
		byNumber[k.number] = k.strip
	}
	for _, f := range b.stack() {
		if f.Kind != moisture.OutOfRoom {
			continue
		}
		w := face.Warning{Kind: MoistureOfRoom, Measure: f.Measure, Limit: f.Limit, Weight: weightRoom + f.Measure/100}
		for _, n := range f.Strips {
			if st := byNumber[n]; st != nil {
				w.Strips, w.Boards = append(w.Strips, st.ID), append(w.Boards, st.Board.ID)
				w.Why = say.T("damper")
				if st.Board.Moisture < b.span.Now.MC {
					w.Why = say.T("drier")
				}
			}
		}
		out = append(out, w)
	}
	return out
}

// grooveWarnings tell of a groove the panel would come out of.
func (b *behaving) grooveWarnings() []face.Warning {
	f := b.n.Fitting
	if f == nil || f.Held != model.HeldGroove {
		return nil
	}
	m, _, err := b.movement()
	if err != nil {
		return nil
	}
	depth := grooveOf(*f)
	g, err := inGroove(m, fixedOf(b.n), depth)
	if err != nil || g.Front.Holds && g.Back.Holds {
		return nil
	}
	need := math.Max(g.Front.DepthNeeded, g.Back.DepthNeeded)
	return []face.Warning{{Kind: GrooveTooFlat, Measure: depth, Limit: need, Weight: weightGroove}}
}

// cupWarnings tell of a panel that bows beyond the limit where nothing holds
// it.
func (b *behaving) cupWarnings() []face.Warning {
	c, err := b.cups()
	if err != nil {
		return nil
	}
	dry, wet := mostBow(c.Layups[0].Dry), mostBow(c.Layups[0].Wet)
	most, season := dry, say.T("driest")
	if math.Abs(wet) > math.Abs(dry) {
		most, season = wet, say.T("dampest")
	}
	limit := b.p.Limits.CupLimit() * c.Layups[0].Dry.Width / 1000
	if math.Abs(most) <= limit {
		return nil
	}
	return []face.Warning{{Kind: WillCup, Why: season, Measure: most, Limit: limit, Weight: weightCup,
		Place: geom.R(0, 0, b.fp.Length, b.fp.Width)}}
}

// laterWarnings tell of streaks that the ageing of the wood may bring out,
// where its size is no measurement: what was measured is in the readings.
func (b *behaving) laterWarnings() []face.Warning {
	measured := true
	for i := range b.fp.Strips {
		if bd := b.fp.Strips[i].Board; bd != nil && bd.Ageing == nil {
			measured = false
		}
	}
	if measured || len(b.read.Show.Bands) == 0 { // no colour makes a band where there is none
		return nil
	}
	reads, err := b.agedReadings()
	if err != nil {
		return nil
	}
	now := reads[0].Show.Lone()
	for i, why := range []string{"", say.T("one year"), say.T("ten years")} {
		if n := reads[i].Show.Lone(); i > 0 && n > now && n > b.read.Show.Lone() {
			w := face.Warning{Kind: StreakMayAppear, Why: why, Measure: float64(n - now), Assumed: true, Weight: weightLater}
			for k := range reads[i].Show.Bands {
				band := &reads[i].Show.Bands[k]
				if band.Lone {
					w.Place = band.Place
					for _, s := range band.Strips {
						w.Strips = append(w.Strips, b.fp.Strips[s].ID)
					}
					break
				}
			}
			return []face.Warning{w}
		}
	}
	return nil
}

// sayBehaviour words the warnings about how the wood behaves.
func (w words) sayBehaviour(x *face.Warning, where string) (title, text string, ok bool) {
	switch x.Kind {
	case MovesApart:
		return say.F("Moves apart from %s by %s through the year", x.Why, w.fine(x.Measure)),
			say.T("They are fixed to each other: let one of them move, with slots, buttons or a sliding dovetail, or turn its grain."), true
	case WillNotCleanUp:
		title, text = w.sayFlat(x, where)
		return title, text, true
	case MoistureOfRoom:
		return say.F("%.1f points %s than the room gives wood: %s", x.Measure, x.Why, where),
			say.F("More than %.1f points: let the board stand, stickered, and read it again before it is glued.", x.Limit), true
	case GrooveTooFlat:
		return say.F("The groove is too shallow: %s, %s is needed", w.len(x.Measure), w.fine(x.Limit)),
			say.T("In the driest season the panel would come out of it, or show a gap."), true
	case WillCup:
		how := say.T("goes hollow")
		if x.Measure < 0 {
			how = say.T("rises")
		}
		return say.F("The show face %s by up to %s in the %s season", how, w.fine(math.Abs(x.Measure)), x.Why),
			say.F("If nothing holds it; over %s for this width. Roll strips over, or hold it with battens or an apron.", w.fine(x.Limit)), true
	case StreakMayAppear:
		return say.F("A streak may appear in %s: %s, %s", x.Why, where, w.from(x)),
			say.T("The contrast grows as this wood ages. The direction is known; its size is an illustration."), true
	}
	return "", "", false
}

// fine prints a small length.
func (w words) fine(mm float64) string { return fineIn(mm, w.sys) }
