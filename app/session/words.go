package session

import (
	"math"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// words says what the readings found, in the maker's words and units.
type words struct {
	sys    unit.System
	role   model.Role
	wanted face.Wanted
	number func(strip string) string // the number chalked on a strip
	panel  *face.Panel
	look   looks.Name // asked of a search
	// solid returns what a cutting of a solid part is called; nil: there is none.
	solid func(id string) (string, bool)
}

func (s *Session) words(panel string) words {
	p := s.Project()
	m := p.Panel(panel)
	fp := s.Panel(panel)
	w := words{sys: p.Units, panel: fp, number: numbersOf(p, panel), solid: solidNames(p)}
	if m != nil {
		w.role, w.wanted = m.Role, fp.Wanted
	}
	return w
}

// Number returns what is chalked on a strip of a panel, "" for a spare's, and
// what a cutting of a solid part is called.
func (s *Session) Number(panel, strip string) string {
	if panel == "" {
		if name, ok := cuttingName(s.Project(), strip); ok {
			return name
		}
	}
	return model.StripNumber(s.Project(), panel, strip)
}

// len prints a length.
func (w words) len(mm float64) string { return unit.Format(mm, w.sys) }

// some prints a length that is there though it may be less than is shown.
func (w words) some(mm float64) string {
	text := w.len(mm)
	if mm <= 0 || text != w.len(0) {
		return text
	}
	if w.sys == unit.Inch {
		return say.F("less than %s", w.len(unit.InchMM/16))
	}
	return say.F("less than %s", w.len(0.1))
}

// tone names the unwanted wood by how it strikes the eye.
func (w words) tone() string {
	if w.wanted == face.WantSap {
		return say.T("dark")
	}
	return say.T("light")
}

// strips names strips by number: "strip A1", "strips A1 and B2", and solid parts
// among them: "strip A1 and part leg 2".
func (w words) strips(ids []string) string {
	var n, parts []string
	for _, id := range ids {
		if name, ok := w.part(id); ok {
			parts = append(parts, name)
		} else {
			n = append(n, w.number(id))
		}
	}
	switch {
	case len(ids) == 0:
		return say.T("the panel")
	case len(parts) == 0:
		return several(stripNoun(), n)
	case len(n) == 0:
		return several(partNoun(), parts)
	}
	return say.F("%s and %s", several(stripNoun(), n), several(partNoun(), parts))
}

// numbersOf lists strips by their numbers alone: "A1 and B2".
func (w words) numbersOf(ids []string) string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = w.number(id)
	}
	return say.List(out)
}

func (w words) part(id string) (string, bool) {
	if w.solid == nil {
		return "", false
	}
	return w.solid(id)
}

// several lists names behind what they are: "strip A1", "strips A1 and B2".
func several(what noun, n []string) string {
	if len(n) == 1 {
		return what.one + " " + n[0]
	}
	return say.F("%s %s and %s", what.many, strings.Join(n[:len(n)-1], ", "), n[len(n)-1])
}

// side names a side of the panel as its role does.
func (w words) side(s face.Side) string {
	sides := w.role.Sides()
	switch s {
	case face.Back:
		return say.T("the back")
	case face.Front:
		return sides[0].The
	case face.Rear:
		return sides[1].The
	case face.Left:
		return sides[2].The
	case face.Right:
		return sides[3].The
	}
	return say.T("the show face")
}

// from says how far a place is from the front edge, or from its counterpart
// on the back.
func (w words) from(x *face.Warning) string {
	y := x.Place.Centre().Y
	if x.Side == face.Back {
		y = w.panel.Width - y
	}
	return say.F("%s from %s", w.len(y), w.role.Sides()[0].The)
}

// long says how long a place is.
func (w words) long(x *face.Warning) string { return say.F("%s long", w.len(x.Place.W())) }

// say returns the one-line title and the text of a warning.
func (w words) say(x *face.Warning) (title, text string) {
	where := w.strips(x.Strips)
	on := ""
	if x.Side == face.Back {
		on = say.T(" on the back")
	}
	switch x.Kind {
	case face.LoneStreak:
		title = say.F("One %s streak%s: %s, %s, %s", w.tone(), on, where, w.from(x), w.long(x))
		text = say.T("Nothing balances it, so it will look like a mistake.")
		if x.Later {
			text = say.F("It will appear as the wood ages: %s", say.Lower(text))
		}
		if x.Why == "hard" {
			text += say.T(" Its straight border along the glue line shouts.")
		}
	case face.SliverKind:
		title = say.F("A sliver of %s wood%s: %s, %s wide, %s", w.tone(), on, where, w.len(x.Measure), w.long(x))
		text = say.F("Too thin to read as meant. Rip %s more and it is gone, or leave enough to see.", w.len(2))
	case face.OneSidedJoint:
		title = say.Upper(say.F("%s wood on one side of a joint only%s: %s", w.tone(), on, where))
		text = say.F("Sapwood meets heartwood along %s of the joint with a straight border.", Percent(x.Measure))
	case face.OneSidedEdge:
		title = say.Upper(say.F("%s wood along one edge only%s: %s", w.tone(), on, where))
		text = say.T("The other outside edge has none. Many like it; some see an unfinished pair.")
	case face.Lopsided:
		title = say.F("The %s wood lies to one side%s", w.tone(), on)
		text = say.F("Its balance point is %s of the width off the centre line; %s is the limit.", Percent(math.Abs(x.Measure)), Percent(x.Limit))
	case face.OverLimit:
		title = say.F("More %s wood than you allow on %s: %s, limit %s", w.tone(), w.side(x.Side), Percent(x.Measure), Percent(x.Limit))
		text = say.T("The limit is yours, set with the panel.")
		if x.Why == "unseen" {
			text = say.F("Only if the wood not seen yet turns out %s. %s", w.tone(), text)
		}
	case face.FlawOnShow:
		title = say.F("A flaw shows on %s: %s, %s", w.side(x.Side), where, w.from(x))
		text = say.T("A knot, split or wane lies inside the finished face.")
	case face.FlawInEdge:
		title, text = w.flawInEdge(x, where)
	case face.NotSeen:
		title = say.F("Not seen yet: %s of %s", Percent(x.Measure), w.side(x.Side))
		text = say.T("Skim the boards and draw the zones; until then the shares are a range.")
		if x.Why == "guessed" {
			title = say.F("Not looked at: the board face that %s turns to %s", where, w.side(x.Side))
			if len(x.Strips) > 1 {
				title = say.F("Not looked at: the board faces that %s turn to %s", where, w.side(x.Side))
			}
			text = say.T("It is taken straight through from the other face, or as all heartwood where neither is known. Look at it and enter its sapwood.")
		}
	case face.SapAfterPlaning:
		title, text = w.afterPlaning(x, where)
	case face.StripeRisk:
		title = say.F("May look like stripes under a finish: %s", where)
		text = say.F("The grain comes up the other way in %s, and changes %.0f times from front to back: such strips are bright where their neighbours are dark. Turn them, or make it regular.", where, x.Measure)
	case face.PlanesBackwards:
		title = say.F("Planes against the others: %s", where)
		text = say.T("Turned end for end or rolled over, its grain runs the other way; doing both restores it.")
	case face.MoistureDiffers:
		title = say.F("Moisture differs by %.1f %% between neighbours: %s", x.Measure, where)
		text = say.F("More than %.1f %%: let them come level before gluing (common practice, no source).", x.Limit)
	case face.OutsideBoard:
		title = say.F("Runs off its board: %s", where)
		text = say.F("The blank reaches %s over %s. Move, shorten or narrow it.", w.some(x.Measure), w.outsideOf(x))
	case face.PartsOverlap:
		title = say.F("Cut from the same wood: %s", where)
		text = say.F("Their blanks need %s more between them, saw kerf counted.", w.some(x.Measure))
	case face.UnderMachineLimit:
		title = say.F("Too %s for your machines: %s, %s", shortOr(x.Why), where, w.len(x.Measure))
		text = say.F("You set %s as the least that is safe. The machine's manual decides.", w.len(x.Limit))
	case face.OverMachineWidth:
		title, text = w.overWidth(x, where)
	case face.PanelTooSmall:
		title, text = w.tooSmall(x, where)
	case face.ColoursNotComparable:
		title = say.T("Photographs share no grey or white reference")
		text = say.F("Colours of boards %s are not compared with each other; contrast is read board by board.", strings.Join(x.Boards, ", "))
	case BoardSpoiled:
		title, text = w.saySpoiled(x)
	default:
		var ok bool
		if title, text, ok = w.sayBehaviour(x, where); !ok {
			title = string(x.Kind)
		}
	}
	if x.Assumed && (x.Kind == face.LoneStreak || x.Kind == face.OneSidedJoint) {
		text += say.T(" Colours assumed: no photograph.")
	}
	return title, text
}

func (w words) flawInEdge(x *face.Warning, where string) (string, string) {
	switch x.Why {
	case "back":
		return say.F("A flaw on the other face: %s", where),
			say.T("The show face is clear, but the rectangle cuts into wane or a knot on the back.")
	case "margin":
		return say.F("A flaw within %s of a cut: %s", w.len(x.Limit), where),
			say.T("It may come out in the edge when the strip is jointed.")
	}
	return say.F("A flaw comes out in %s: %s", w.side(x.Side), where),
		say.T("It misses the face but will be seen there.")
}

// afterPlaning says what comes to light when the sawn faces are planed.
func (w words) afterPlaning(x *face.Warning, where string) (title, text string) {
	wood := say.T("sapwood")
	if w.wanted == face.WantSap {
		wood = say.T("heartwood")
	}
	if x.Why == "limit" {
		return say.F("Planing brings the %s over your limit: %s, limit %s", wood, Percent(x.Measure), Percent(x.Limit)),
			say.F("The sawn faces keep to it. Most of what is new lies in %s.", where)
	}
	title = say.F("Planing brings %s of %s into %s", w.some(x.Measure), wood, where)
	text = say.T("The sawn face shows none there. Stock taken off the other face leaves it hidden, where there is enough.")
	switch x.Why {
	case "more":
		title = say.F("Planing brings %s more %s into %s", w.some(x.Measure), wood, where)
		text = say.T("What the sawn face shows there grows wider.")
	case "streak":
		text = say.T("It makes the streak; the sawn face does not show it.")
	}
	return title, text
}

// tooSmall says what the strips lack; Measure is what stands over, less than
// nothing where wood is short.
func (w words) tooSmall(x *face.Warning, where string) (string, string) {
	if x.Why == "length" {
		return say.F("Too short for the panel: %s, by %s", where, w.some(-x.Measure)),
			say.T("It does not reach both ends. Make it longer, or shift it.")
	}
	edges := say.F("%s is wanted over the width for trimming both edges. Widen a strip or add one.", w.len(x.Limit))
	if x.Measure < 0 {
		return say.F("The strips are too narrow for the panel by %s", w.some(-x.Measure)), say.Upper(edges)
	}
	return say.F("Only %s to trim off the width", w.len(x.Measure)), say.Upper(edges)
}

func (w words) overWidth(x *face.Warning, where string) (string, string) {
	if x.Why == "panel" {
		return say.F("The panel is wider than your machine: %s", w.len(x.Measure)),
			say.F("Thicknessing takes %s. Glue it in sections and join those by hand-flattening.", w.len(x.Limit))
	}
	what := say.T("Flattening")
	if x.Why == "thickness" {
		what = say.T("Thicknessing")
	}
	return say.F("Wider than your machine: %s, %s", where, w.len(x.Measure)),
		say.F("%s takes %s. Rip it first, or do it by hand.", what, w.len(x.Limit))
}

func outsideOf(why string) string {
	switch why {
	case "marked-end":
		return say.T("the marked end")
	case "other-end":
		return say.T("the other end")
	case "marked-edge":
		return say.T("the marked edge")
	case "other-edge":
		return say.T("the other edge")
	case "outline":
		return say.T("the waney outline")
	}
	return say.T("the board's edge")
}

func shortOr(why string) string {
	if strings.Contains(why, "narrow") {
		return say.T("narrow")
	}
	return say.T("short")
}
