package session

import (
	"context"
	"fmt"
	"slices"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/unit"
)

// PlanWish is what is asked of a plan of strips from the boards.
type PlanWish struct {
	Panels []string // planned anew; the others stay as they lie
	Aim    stock.Objective
}

// Planning is a plan ready to be made on a goroutine of its own.
type Planning struct {
	project *model.Project
	sys     unit.System
	supply  stock.Supply
	demands []stock.Demand
	aim     stock.Objective
}

// Planned is a plan in words, and the edit that makes it.
type Planned struct {
	Lines   []string // a panel or part a line
	Short   []string // what could not be made, and why
	Only    []string // parts that a single board can give
	Sum     string   // wood, strips, boards, cost
	Missing int      // panels and parts that are not whole
	Edit    model.Edit
}

// Plannable lists the panels whose strips may all be planned anew: none of
// them sawn or pinned.
func (s *Session) Plannable() []string {
	var out []string
	for _, n := range s.Project().Panels {
		if !slices.ContainsFunc(n.Strips, func(st model.Strip) bool { return st.Pinned || st.Stage != model.Planned }) {
			out = append(out, n.ID)
		}
	}
	return out
}

// Plan prepares to plan where the strips of panels come from.
func (s *Session) Plan(wish PlanWish) (*Planning, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	p := v.project
	q := &Planning{project: p, sys: p.Units, aim: wish.Aim}
	may := s.Plannable()
	for _, id := range wish.Panels {
		if p.Panel(id) == nil {
			return nil, fmt.Errorf("there is no panel %q to plan", id)
		}
		if !slices.Contains(may, id) {
			return nil, fmt.Errorf("panel %s has strips that are pinned or sawn: they stay where they are, so it cannot be planned anew", id)
		}
	}
	for _, b := range s.Sound() {
		n := p.Board(b.ID)
		q.supply.Boards = append(q.supply.Boards, stock.Stock{Board: b, Price: priceOf(n)})
	}
	if len(q.supply.Boards) == 0 {
		return nil, fmt.Errorf("there are no boards to plan from: enter some first")
	}
	for _, n := range p.Panels {
		fp := v.panels[n.ID]
		if !slices.Contains(wish.Panels, n.ID) {
			q.supply.Taken = append(q.supply.Taken, laidOnBoards(fp.Strips)...)
			continue
		}
		q.demands = append(q.demands, stock.Demand{
			ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness, PanelEdge: fp.PanelEdge,
			Wanted: fp.Wanted, Look: looks.Name(n.Look), Most: n.UnwantedLimit, BothShow: n.BothShow,
		})
	}
	if len(q.demands) == 0 {
		return nil, fmt.Errorf("no panel is to be planned: tick at least one")
	}
	q.supply.Taken = append(append(q.supply.Taken, laidOnBoards(v.spares)...), v.cuttings...)
	q.supply.Allowances, q.supply.Machines = AllowancesOf(p.Allowances), machinesOf(p)
	return q, nil
}

func laidOnBoards(list []face.Strip) []face.Strip {
	var out []face.Strip
	for i := range list {
		if list[i].Board != nil {
			out = append(out, list[i])
		}
	}
	return out
}

// priceOf is what a board costs by the area of its face.
func priceOf(b *model.Board) stock.Price {
	if b == nil || b.Price == nil {
		return stock.Price{}
	}
	per := map[string]float64{"board-foot": unit.BoardFootMM3, "cubic-foot": 12 * unit.BoardFootMM3, "cubic-metre": 1e9}[b.Price.Per]
	if per == 0 {
		return stock.Price{Whole: b.Price.Amount}
	}
	return stock.Price{PerArea: b.Price.Amount * b.Thickness / per}
}

// Run makes the plan. told, where not nil, is told how far it is, 0 to 1, on
// the goroutine that runs. When ctx ends, the best plan so far is returned.
func (q *Planning) Run(ctx context.Context, told func(float64)) (Planned, error) {
	o := stock.Options{Seed: 1}
	if told != nil {
		o.Progress = func(p stock.Progress) {
			if p.Of > 0 {
				told(float64(p.Done) / float64(p.Of))
			}
		}
	}
	only, err := stock.Scarce(ctx, q.supply, q.demands)
	if err != nil && ctx.Err() == nil {
		return Planned{}, err
	}
	r, err := stock.Plan(ctx, q.supply, q.demands, q.aim, o)
	if err != nil {
		return Planned{}, err
	}
	return q.words(&r, only), nil
}

func (q *Planning) words(r *stock.Result, only []stock.Only) Planned {
	var out Planned
	edit := model.SetPlan{Verb: "Plan strips from the boards"}
	taken := idsTaken(q.project)
	for i := range r.Parts {
		part := &r.Parts[i]
		strips := make([]model.Strip, 0, len(part.Strips))
		for k := range part.Strips {
			st := part.Strips[k]
			strips = append(strips, model.Strip{ID: freeID(taken, part.Demand), Board: st.Board.ID, X: st.X, Y: st.Y, L: st.L, W: st.W, Angle: st.Angle, Up: st.UpFace(), Turned: st.Turned, Stage: model.Planned})
		}
		out.Lines = append(out.Lines, q.line(part))
		if part.Short != nil {
			out.Missing++
			out.Short = append(out.Short, q.short(part))
		}
		if len(strips) > 0 {
			edit.Panels = append(edit.Panels, model.PlanPanel{Panel: part.Demand, Strips: strips})
		}
	}
	for _, x := range only {
		text := fmt.Sprintf("only board %s gives %s", x.Board, x.Part)
		if len(x.Others) > 0 {
			text += "; " + strings.Join(x.Others, " and ") + " could take it, and must not"
		}
		out.Only = append(out.Only, text)
	}
	var boards []string
	for _, b := range r.Boards {
		boards = append(boards, b.Board)
	}
	out.Sum = fmt.Sprintf("%s from boards %s; %s of face used up, %s of it lost", howMany(r.Strips, "strip"), strings.Join(boards, ", "),
		unit.FormatArea(r.Used, q.sys), unit.FormatArea(r.Lost, q.sys))
	if r.Cost > 0 {
		out.Sum += fmt.Sprintf("; %.2f by the boards' prices", r.Cost)
	}
	if len(edit.Panels) > 0 {
		out.Edit = edit
	}
	return out
}

func howMany(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// idsTaken are the ids of all strips of a project, kept arrangements too.
func idsTaken(p *model.Project) map[string]bool {
	out := map[string]bool{}
	mark := func(list []model.Strip) {
		for i := range list {
			out[list[i].ID] = true
		}
	}
	mark(p.Spares)
	for _, n := range p.Panels {
		mark(n.Strips)
	}
	for _, k := range p.Kept {
		mark(k.Strips)
	}
	return out
}

// freeID takes an id for a strip of a panel that nothing has yet.
func freeID(taken map[string]bool, panel string) string {
	for i := 1; ; i++ {
		if id := fmt.Sprintf("%s-%d", panel, i); !taken[id] {
			taken[id] = true
			return id
		}
	}
}

// line says where a panel comes from.
func (q *Planning) line(part *stock.Part) string {
	if len(part.Strips) == 0 {
		return part.Demand + ": nothing"
	}
	var from, widths []string
	for i := range part.Strips {
		if id := part.Strips[i].Board.ID; !slices.Contains(from, id) {
			from = append(from, id)
		}
		widths = append(widths, unit.Format(part.Strips[i].W, q.sys))
	}
	text := fmt.Sprintf("%s: %s from %s, %s wide; about %s unwanted on show", part.Demand, howMany(len(part.Strips), "strip"),
		strings.Join(from, ", "), strings.Join(widths, ", "), Percent(part.Unwanted[0]))
	if part.OverMost {
		text += ", over the limit"
	}
	return text
}

// short says what is missing and which board comes nearest.
func (q *Planning) short(part *stock.Part) string {
	s := part.Short
	text := fmt.Sprintf("%s: needs %s more of %s by %s", part.Demand, howMany(s.Strips, "strip"), unit.Format(s.L, q.sys), unit.Format(s.W, q.sys))
	if s.OverWidth > 0 {
		return text + ", wider than the machines take"
	}
	best := -1
	for i := range s.Boards {
		if s.Boards[i].By > 0 && (best < 0 || s.Boards[i].By < s.Boards[best].By) {
			best = i
		}
	}
	if best >= 0 {
		text += fmt.Sprintf("; board %s lacks %s", s.Boards[best].Board, unit.Format(s.Boards[best].By, q.sys))
	}
	return text
}
