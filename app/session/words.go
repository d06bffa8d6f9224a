package session

import (
	"fmt"
	"math"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/model"
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
		return "less than " + w.len(unit.InchMM/16)
	}
	return "less than " + w.len(0.1)
}

// tone names the unwanted wood by how it strikes the eye.
func (w words) tone() string {
	if w.wanted == face.WantSap {
		return "dark"
	}
	return "light"
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
		return "the panel"
	case len(parts) == 0:
		return several("strip", n)
	case len(n) == 0:
		return several("part", parts)
	}
	return several("strip", n) + " and " + several("part", parts)
}

func (w words) part(id string) (string, bool) {
	if w.solid == nil {
		return "", false
	}
	return w.solid(id)
}

// several lists names behind what they are: "strip A1", "strips A1 and B2".
func several(what string, n []string) string {
	if len(n) == 1 {
		return what + " " + n[0]
	}
	return what + "s " + strings.Join(n[:len(n)-1], ", ") + " and " + n[len(n)-1]
}

// side names a side of the panel as its role does.
func (w words) side(s face.Side) string {
	front, back, left, right := w.role.EdgeNames()
	switch s {
	case face.Back:
		return "the back"
	case face.Front:
		return "the " + front + " edge"
	case face.Rear:
		return "the " + strings.TrimSuffix(back, " edge") + " edge"
	case face.Left:
		return "the " + strings.TrimSuffix(left, " end") + " end"
	case face.Right:
		return "the " + strings.TrimSuffix(right, " end") + " end"
	}
	return "the show face"
}

// from says how far a place is from the front edge, or from its counterpart
// on the back.
func (w words) from(x *face.Warning) string {
	front, _, _, _ := w.role.EdgeNames()
	y := x.Place.Centre().Y
	if x.Side == face.Back {
		y = w.panel.Width - y
	}
	return fmt.Sprintf("%s from the %s", w.len(y), front)
}

// long says how long a place is.
func (w words) long(x *face.Warning) string { return w.len(x.Place.W()) + " long" }

// say returns the one-line title and the text of a warning.
func (w words) say(x *face.Warning) (title, text string) {
	where := w.strips(x.Strips)
	on := ""
	if x.Side == face.Back {
		on = " on the back"
	}
	switch x.Kind {
	case face.LoneStreak:
		title = fmt.Sprintf("One %s streak%s: %s, %s, %s", w.tone(), on, where, w.from(x), w.long(x))
		text = "Nothing balances it, so it will look like a mistake."
		if x.Later {
			text = "It will appear as the wood ages: " + strings.ToLower(text[:1]) + text[1:]
		}
		if x.Why == "hard" {
			text += " Its straight border along the glue line shouts."
		}
	case face.SliverKind:
		title = fmt.Sprintf("A sliver of %s wood%s: %s, %s wide, %s", w.tone(), on, where, w.len(x.Measure), w.long(x))
		text = "Too thin to read as meant. Rip 2 mm more and it is gone, or leave enough to see."
		if w.sys == unit.Inch {
			text = strings.Replace(text, "2 mm", w.len(2), 1)
		}
	case face.OneSidedJoint:
		title = fmt.Sprintf("%s wood on one side of a joint only%s: %s", capital(w.tone()), on, where)
		text = fmt.Sprintf("Sapwood meets heartwood along %s of the joint with a straight border.", Percent(x.Measure))
	case face.OneSidedEdge:
		title = fmt.Sprintf("%s wood along one edge only%s: %s", capital(w.tone()), on, where)
		text = "The other outside edge has none. Many like it; some see an unfinished pair."
	case face.Lopsided:
		title = fmt.Sprintf("The %s wood lies to one side%s", w.tone(), on)
		text = fmt.Sprintf("Its balance point is %s of the width off the centre line; %s is the limit.", Percent(math.Abs(x.Measure)), Percent(x.Limit))
	case face.OverLimit:
		title = fmt.Sprintf("More %s wood than you allow on %s: %s, limit %s", w.tone(), w.side(x.Side), Percent(x.Measure), Percent(x.Limit))
		text = "The limit is yours, set with the panel."
		if x.Why == "unseen" {
			text = "Only if the wood not seen yet turns out " + w.tone() + ". " + text
		}
	case face.FlawOnShow:
		title = fmt.Sprintf("A flaw shows on %s: %s, %s", w.side(x.Side), where, w.from(x))
		text = "A knot, split or wane lies inside the finished face."
	case face.FlawInEdge:
		title, text = w.flawInEdge(x, where)
	case face.NotSeen:
		title = fmt.Sprintf("Not seen yet: %s of %s", Percent(x.Measure), w.side(x.Side))
		text = "Skim the boards and draw the zones; until then the shares are a range."
		if x.Why == "guessed" {
			title = fmt.Sprintf("Not looked at: the board face that %s turns to %s", where, w.side(x.Side))
			text = "It is taken straight through from the other face, or as all heartwood where neither is known. Look at it and enter its sapwood."
			if len(x.Strips) > 1 {
				title = strings.Replace(title, " turns to", " turn to", 1)
			}
		}
	case face.SapAfterPlaning:
		title, text = w.afterPlaning(x, where)
	case face.StripeRisk:
		title = fmt.Sprintf("May look like stripes under a finish: %s", where)
		text = fmt.Sprintf("The grain comes up the other way in %s, and changes %.0f times from front to back: such strips are bright where their neighbours are dark. Turn them, or make it regular.", where, x.Measure)
	case face.PlanesBackwards:
		title = fmt.Sprintf("Planes against the others: %s", where)
		text = "Turned end for end or rolled over, its grain runs the other way; doing both restores it."
	case face.MoistureDiffers:
		title = fmt.Sprintf("Moisture differs by %.1f %% between neighbours: %s", x.Measure, where)
		text = fmt.Sprintf("More than %.1f %%: let them come level before gluing (common practice, no source).", x.Limit)
	case face.OutsideBoard:
		title = fmt.Sprintf("Runs off its board: %s", where)
		text = fmt.Sprintf("The blank reaches %s over %s. Move, shorten or narrow it.", w.some(x.Measure), w.outsideOf(x))
	case face.PartsOverlap:
		title = fmt.Sprintf("Cut from the same wood: %s", where)
		text = fmt.Sprintf("Their blanks need %s more between them, saw kerf counted.", w.some(x.Measure))
	case face.UnderMachineLimit:
		title = fmt.Sprintf("Too %s for your machines: %s, %s", shortOr(x.Why), where, w.len(x.Measure))
		text = fmt.Sprintf("You set %s as the least that is safe. The machine's manual decides.", w.len(x.Limit))
	case face.OverMachineWidth:
		title, text = w.overWidth(x, where)
	case face.PanelTooSmall:
		title, text = w.tooSmall(x, where)
	case face.ColoursNotComparable:
		title = "Photographs share no grey or white reference"
		text = "Colours of boards " + strings.Join(x.Boards, ", ") + " are not compared with each other; contrast is read board by board."
	case BoardSpoiled:
		title, text = w.saySpoiled(x)
	default:
		var ok bool
		if title, text, ok = w.sayBehaviour(x, where); !ok {
			title = string(x.Kind)
		}
	}
	if x.Assumed && (x.Kind == face.LoneStreak || x.Kind == face.OneSidedJoint) {
		text += " Colours assumed: no photograph."
	}
	return title, text
}

func (w words) flawInEdge(x *face.Warning, where string) (string, string) {
	switch x.Why {
	case "back":
		return fmt.Sprintf("A flaw on the other face: %s", where),
			"The show face is clear, but the rectangle cuts into wane or a knot on the back."
	case "margin":
		return fmt.Sprintf("A flaw within %s of a cut: %s", w.len(x.Limit), where),
			"It may come out in the edge when the strip is jointed."
	}
	return fmt.Sprintf("A flaw comes out in %s: %s", w.side(x.Side), where),
		"It misses the face but will be seen there."
}

// afterPlaning says what comes to light when the sawn faces are planed.
func (w words) afterPlaning(x *face.Warning, where string) (title, text string) {
	wood := "sapwood"
	if w.wanted == face.WantSap {
		wood = "heartwood"
	}
	if x.Why == "limit" {
		return fmt.Sprintf("Planing brings the %s over your limit: %s, limit %s", wood, Percent(x.Measure), Percent(x.Limit)),
			fmt.Sprintf("The sawn faces keep to it. Most of what is new lies in %s.", where)
	}
	title = fmt.Sprintf("Planing brings %s of %s into %s", w.some(x.Measure), wood, where)
	text = "The sawn face shows none there. Stock taken off the other face leaves it hidden, where there is enough."
	switch x.Why {
	case "more":
		title = fmt.Sprintf("Planing brings %s more %s into %s", w.some(x.Measure), wood, where)
		text = "What the sawn face shows there grows wider."
	case "streak":
		text = "It makes the streak; the sawn face does not show it."
	}
	return title, text
}

// tooSmall says what the strips lack; Measure is what stands over, less than
// nothing where wood is short.
func (w words) tooSmall(x *face.Warning, where string) (string, string) {
	if x.Why == "length" {
		return fmt.Sprintf("Too short for the panel: %s, by %s", where, w.some(-x.Measure)),
			"It does not reach both ends. Make it longer, or shift it."
	}
	edges := fmt.Sprintf("%s is wanted over the width for trimming both edges. Widen a strip or add one.", w.len(x.Limit))
	if x.Measure < 0 {
		return fmt.Sprintf("The strips are too narrow for the panel by %s", w.some(-x.Measure)), capital(edges)
	}
	return fmt.Sprintf("Only %s to trim off the width", w.len(x.Measure)), capital(edges)
}

func (w words) overWidth(x *face.Warning, where string) (string, string) {
	if x.Why == "panel" {
		return fmt.Sprintf("The panel is wider than your machine: %s", w.len(x.Measure)),
			fmt.Sprintf("Thicknessing takes %s. Glue it in sections and join those by hand-flattening.", w.len(x.Limit))
	}
	what := "Flattening"
	if x.Why == "thickness" {
		what = "Thicknessing"
	}
	return fmt.Sprintf("Wider than your machine: %s, %s", where, w.len(x.Measure)),
		fmt.Sprintf("%s takes %s. Rip it first, or do it by hand.", what, w.len(x.Limit))
}

func outsideOf(why string) string {
	switch why {
	case "marked-end":
		return "the marked end"
	case "other-end":
		return "the other end"
	case "marked-edge":
		return "the marked edge"
	case "other-edge":
		return "the other edge"
	case "outline":
		return "the waney outline"
	}
	return "the board's edge"
}

func shortOr(why string) string {
	if strings.Contains(why, "narrow") {
		return "narrow"
	}
	return "short"
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
