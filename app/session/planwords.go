package session

import (
	"fmt"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// AimWords is an objective in words.
func AimWords(a stock.Objective) string {
	switch a {
	case stock.LeastCost:
		return say.T("Least cost")
	case stock.BestLook:
		return say.T("Best look")
	case stock.FewestJoints:
		return say.T("Fewest joints")
	case stock.WholeBoards:
		return say.T("Most boards left whole")
	}
	return say.T("Least wood")
}

// titleOf says what a plan is best at, or what sets it apart.
func titleOf(aims []stock.Objective, without string) string {
	var out []string
	for i, a := range aims {
		text := AimWords(a)
		if i > 0 {
			text = say.Lower(text)
		}
		out = append(out, text)
	}
	switch {
	case len(out) > 0:
		return say.List(out)
	case without != "":
		return say.F("Without board %s", without)
	}
	return say.T("Another way")
}

func howMany(n int, what noun) string {
	return say.Count(n, what.one, what.many)
}

// noun is what things are called, one of them and several.
type noun struct{ one, many string }

func stripNoun() noun { return noun{say.T("strip"), say.T("strips")} }
func pieceNoun() noun { return noun{say.T("piece"), say.T("pieces")} }
func partNoun() noun  { return noun{say.T("part"), say.T("parts")} }

// Sum is what a plan takes, in a sentence.
func (p *Planned) Sum(sys unit.System) string {
	text := say.F("%s of face used up, %s of it lost", unit.FormatArea(p.Used, sys), unit.FormatArea(p.Lost, sys))
	if p.Cost > 0 {
		text += say.F("; %.2f by the boards' prices", p.Cost)
	}
	return text
}

// onlyWords says which parts a single board can give.
func (q *Planning) onlyWords(only []stock.Only) []string {
	var out []string
	for _, x := range only {
		text := say.F("only board %s gives %s", x.Board, x.Part)
		if len(x.Others) > 0 {
			text += say.F("; %s could come from it too and must leave it that room", say.List(x.Others))
		}
		out = append(out, text)
	}
	return out
}

// fromBoards lists the boards of strips in the order they come.
func fromBoards(list []face.Strip) []string {
	var out []string
	for i := range list {
		if id := list[i].Board.ID; !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// boardsOfWords names boards: "board A", "boards A and B".
func boardsOfWords(ids []string) string {
	if len(ids) == 1 {
		return say.F("board %s", ids[0])
	}
	return say.F("boards %s", say.List(ids))
}

// line says where a panel comes from.
func (q *Planning) line(part *stock.Part, lie *laidPanel) string {
	strips := lie.strips
	if len(strips) == 0 {
		return say.F("%s: nothing", part.Demand)
	}
	var widths []string
	for i := range strips {
		widths = append(widths, unit.Format(strips[i].W, q.sys))
	}
	wide := say.T(" wide")
	if len(widths) > 1 {
		wide = say.T(" wide from the front")
	}
	text := say.F("%s: %s from %s, %s%s; unwanted on show %s", part.Demand, howMany(len(strips), stripNoun()),
		boardsOfWords(fromBoards(strips)), strings.Join(widths, ", "), wide, Percent(lie.unwanted))
	if part.OverMost {
		text += say.T(", over the limit")
	}
	return text
}

// partLine says where the pieces of a part come from.
func (q *Planning) partLine(part *stock.Part, job *partJob) string {
	if len(part.Strips) == 0 {
		return say.F("%s: nothing", part.Demand)
	}
	text := say.F("%s: %s from %s", part.Demand, howMany(len(part.Strips), pieceNoun()), boardsOfWords(fromBoards(part.Strips)))
	if job.layers > 1 {
		text += say.F(", each part glued up of %d", job.layers)
	}
	if part.Unwanted[0] >= 0.005 {
		text += say.F("; unwanted on the better face %s", Percent(part.Unwanted[0]))
	}
	return text
}

// pieceName is what piece i of a part is called.
func (q *Planning) pieceName(job *partJob, i int) string {
	if job.part.Count == 1 && job.layers == 1 {
		return job.part.ID
	}
	return fmt.Sprintf("%s %d", job.part.ID, i+1)
}

// ownersOf says of everything that lies on boards what it is for, by id.
func ownersOf(p *model.Project) map[string]string {
	out := map[string]string{}
	for _, s := range p.Spares {
		out[s.ID] = say.T("a spare")
	}
	for _, n := range p.Panels {
		for _, s := range n.Strips {
			out[s.ID] = n.ID
		}
	}
	for _, n := range p.Parts {
		for i := range n.Places {
			out[CuttingID(n.ID, i)] = n.ID
		}
	}
	return out
}

// short says what of a panel or part cannot be made, and why.
func (q *Planning) short(part *stock.Part) string {
	s := part.Short
	text := say.F("%s: needs %s more of %s by %s", part.Demand, howMany(s.Strips, stripNoun()), unit.Format(s.L, q.sys), unit.Format(s.W, q.sys))
	if _, solid := q.parts[part.Demand]; solid {
		text = say.F("%s: %s of %s by %s cannot be placed", part.Demand, howMany(s.Strips, pieceNoun()), unit.Format(s.L, q.sys), unit.Format(s.W, q.sys))
	}
	if s.OverWidth > 0 {
		return say.F("%s, as the machines take %s less", text, unit.Format(s.OverWidth, q.sys))
	}
	if why := whyShort(s.Boards, q.owners, q.sys); why != "" {
		text += ": " + why
	}
	return text
}

// whyShort says why boards give no more, alike boards together.
func whyShort(near []stock.Near, owners map[string]string, sys unit.System) string {
	var out, flawed []string
	type use struct {
		boards []string
		by     string
	}
	var uses []use
	nearest := map[string]stock.Near{}
	count, meant := map[string]int{}, 0
	for _, n := range near {
		if n.Why != stock.NotMeant {
			meant++
		}
		count[n.Why]++
		switch n.Why {
		case stock.InUse, stock.UsedUp:
			var by []string
			for _, id := range n.For {
				name, ok := owners[id]
				if !ok || n.Why == stock.UsedUp {
					name = id
				}
				if !slices.Contains(by, name) {
					by = append(by, name)
				}
			}
			k := slices.IndexFunc(uses, func(u use) bool { return u.by == say.List(by) })
			if k < 0 {
				uses = append(uses, use{by: say.List(by)})
				k = len(uses) - 1
			}
			uses[k].boards = append(uses[k].boards, n.Board)
		case stock.Flawed:
			flawed = append(flawed, n.Board)
		case stock.TooShort, stock.TooNarrow, stock.TooThin:
			if old, ok := nearest[n.Why]; !ok || n.By < old.By {
				nearest[n.Why] = n
			}
		}
	}
	for _, u := range uses {
		is := say.T(" is")
		if len(u.boards) > 1 {
			is = say.T(" are")
		}
		out = append(out, say.F("%s%s in use by %s", boardsOfWords(u.boards), is, u.by))
	}
	if len(flawed) > 0 {
		out = append(out, say.F("flaws or wane leave no room on %s", boardsOfWords(flawed)))
	}
	for _, k := range [...]struct{ why, adjective, noun string }{{stock.TooShort, say.T("long"), say.T("length")}, {stock.TooNarrow, say.T("wide"), say.T("width")}, {stock.TooThin, say.T("thick"), say.T("thickness")}} {
		n, ok := nearest[k.why]
		if !ok {
			continue
		}
		lacks := say.F("board %s lacks %s of %s", n.Board, unit.Format(n.By, sys), k.noun)
		switch c := count[k.why]; {
		case c == meant && c > 1:
			lacks = say.F("no board is %s enough; the nearest, %s", k.adjective, lacks)
		case c == meant:
			lacks = say.F("no board is %s enough; %s", k.adjective, lacks)
		case c > 1:
			lacks = say.F("%d boards are not %s enough; the nearest, %s", c, k.adjective, lacks)
		}
		out = append(out, lacks)
	}
	if meant == 0 && len(near) > 0 {
		return say.T("no board of that species is left")
	}
	return strings.Join(out, "; ")
}
