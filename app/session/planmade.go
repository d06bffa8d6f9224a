package session

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	looks "heartside/layout/arrange/look"
	"heartside/layout/arrange/seek"
	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
)

// Planned is a plan in words and figures, and the edit that makes it.
type Planned struct {
	ID    string // tells it from others, also after an improvement of those
	Title string // what it is best at

	Used, Lost float64  // face area used up, and of it what does not end up in finished work, mm2
	Cost       float64  // by the boards' prices, 0 where there are none
	Joints     int      // glue lines of the panels
	Points     float64  // against the panels for their looks, as they are laid here
	Unwanted   float64  // share on the show faces of panels
	Cut, Whole []string // boards that are cut into, and those that nothing is cut from
	Missing    int      // panels and parts that are not whole

	Lines  []string // a panel or part a line
	Short  []string // what could not be made, and why
	Boards []PlannedBoard
	Panels []*face.Panel // as they would look
	Edit   model.Edit    // nil where nothing can be made
}

// PlannedBoard is a board with what a plan cuts from it.
type PlannedBoard struct {
	Board *face.Board
	New   []face.Strip // to be cut for the plan
	Names []string     // what each is for
	Old   []face.Strip // what lies there already and stays
}

// laidPanel is a panel's strips as they are arranged.
type laidPanel struct {
	strips   []face.Strip
	points   float64
	unwanted float64
}

// A plan's panels are arranged with so many readings: enough to judge them by,
// not to finish. An engineering choice.
const planReadings = 400

// planned puts plans into words and edits; nil stays nil.
func (q *Planning) planned(ctx context.Context, list []stock.Choice) []Planned {
	if list == nil {
		return nil
	}
	out := make([]Planned, 0, len(list))
	for i := range list {
		out = append(out, q.made(ctx, &list[i]))
	}
	q.looks(list, out)
	return out
}

// looks calls that plan the best look which has least against it once it is
// arranged: which wood shows is only a hint of it. Where the best look was asked
// for it comes first.
func (q *Planning) looks(list []stock.Choice, out []Planned) {
	least := math.Inf(1)
	for i := range out {
		if len(out[i].Panels) > 0 {
			least = math.Min(least, out[i].Points)
		}
	}
	for i := range out {
		aims := slices.Clone(list[i].Aims)
		if len(out[i].Panels) > 0 {
			aims = slices.DeleteFunc(aims, func(a stock.Objective) bool { return a == stock.BestLook })
			if out[i].Points < least+alikePoints {
				aims = append(aims, stock.BestLook)
			}
		}
		out[i].Title = titleOf(aims, list[i].Without)
	}
	if q.aim == stock.BestLook {
		slices.SortStableFunc(out, func(a, b Planned) int { return cmp.Compare(a.Points, b.Points) })
	}
}

// alikePoints is by how many points two plans may differ and be called equally
// good: no more than is printed. An engineering choice.
const alikePoints = 0.05

func (q *Planning) made(ctx context.Context, c *stock.Choice) Planned {
	out := Planned{ID: idOf(c), Used: c.Used, Lost: c.Lost, Cost: c.Cost}
	edit := model.SetPlan{Verb: say.T("Plan strips from the boards")}
	taken := idsTaken(q.project)
	area, unwanted, pieces := 0.0, 0.0, 0
	cut := map[string]*PlannedBoard{}
	for _, u := range c.Boards {
		cut[u.Board] = &PlannedBoard{}
	}
	note := func(s face.Strip, name string) {
		b := cut[s.Board.ID]
		b.New, b.Names = append(b.New, s), append(b.Names, name)
	}
	for i := range c.Parts {
		part := &c.Parts[i]
		pieces += len(part.Strips)
		if part.Short != nil {
			out.Missing++
			out.Short = append(out.Short, q.short(part))
		}
		if job, ok := q.parts[part.Demand]; ok {
			out.Lines = append(out.Lines, q.partLine(part, &job))
			for k, s := range part.Strips {
				note(s, q.pieceName(&job, len(job.stay)+k))
			}
			edit.Parts = append(edit.Parts, model.PlanPart{Part: part.Demand, Places: job.places(part.Strips)})
			continue
		}
		lie := q.laid(ctx, part)
		out.Lines = append(out.Lines, q.line(part, &lie))
		out.Joints += max(0, len(part.Strips)-1)
		out.Points += lie.points
		p := *q.panels[part.Demand]
		p.Strips = lie.strips
		strips := make([]model.Strip, 0, len(lie.strips))
		for k := range p.Strips {
			s := &p.Strips[k]
			s.ID = freeID(taken, part.Demand)
			strips = append(strips, model.Strip{ID: s.ID, Board: s.Board.ID, X: s.X, Y: s.Y, L: s.L, W: s.W, Angle: s.Angle, Up: s.UpFace(), Turned: s.Turned, Stage: model.Planned})
			note(*s, fmt.Sprintf("%s %d", part.Demand, k+1))
		}
		if x := part.Short; x != nil {
			for range x.Strips { // what is missing stays as empty places
				st := model.NewPlace(freeID(taken, part.Demand), x.L, x.Width/float64(x.Strips))
				strips = append(strips, st)
				p.Strips = append(p.Strips, face.Strip{ID: st.ID, L: st.L, W: st.W, Up: 1})
			}
		}
		out.Panels = append(out.Panels, &p)
		area, unwanted = area+p.Length*p.Width, unwanted+lie.unwanted*p.Length*p.Width
		edit.Panels = append(edit.Panels, model.PlanPanel{Panel: part.Demand, Strips: strips})
	}
	if area > 0 {
		out.Unwanted = unwanted / area
	}
	q.boards(&out, cut)
	if pieces > 0 {
		out.Edit = edit
	}
	return out
}

// boards fills in what is cut from which board and what stays whole.
func (q *Planning) boards(out *Planned, cut map[string]*PlannedBoard) {
	for _, k := range q.supply.Boards {
		id := k.Board.ID
		var old []face.Strip
		for _, s := range q.supply.Taken {
			if s.Board != nil && s.Board.ID == id {
				old = append(old, s)
			}
		}
		b := cut[id]
		if b == nil || len(b.New) == 0 {
			if old == nil {
				out.Whole = append(out.Whole, id)
			}
			continue
		}
		b.Board, b.Old = k.Board, old
		out.Cut = append(out.Cut, id)
		out.Boards = append(out.Boards, *b)
	}
}

// laid arranges the strips of a panel for its look, as they would be laid after
// the plan. Panels that are seen together are looked at one by one.
func (q *Planning) laid(ctx context.Context, part *stock.Part) laidPanel {
	if len(part.Strips) == 0 {
		return laidPanel{}
	}
	key := stripsKey(part.Demand, part.Strips)
	if got, ok := q.best[key]; ok {
		return cloneLaid(got)
	}
	m, p := q.project.Panel(part.Demand), *q.panels[part.Demand]
	p.Strips = slices.Clone(part.Strips)
	rules := looks.DefaultRules
	rules.Rings = ringsOf(m.Rings)
	out := laidPanel{strips: slices.Clone(part.Strips), unwanted: part.Unwanted[0]}
	look := looks.Name(m.Look)
	if q.clear {
		look = looks.HeartOnly
	}
	r, err := seek.Search(ctx, seek.Request{Panel: p, Look: look, Rules: rules, Seed: 1, Answers: 1, Readings: planReadings}, nil)
	if err == nil && len(r.Answers) > 0 && len(r.Answers[0].Strips) == len(part.Strips) {
		a := &r.Answers[0]
		out = laidPanel{slices.Clone(a.Strips), a.Score.Points, a.Reading.Unwanted}
	} else if err == nil {
		out.points, out.unwanted = r.As.Score.Points, r.As.Reading.Unwanted
	}
	if q.clear && err == nil { // judged by the panel's own look, as other plans are
		p.Strips = out.strips
		out.points = looks.NewJudge(&p, looks.Name(m.Look), rules).Points(&p, face.ReadFull(&p))
	}
	if ctx.Err() == nil {
		q.best[key] = out
	}
	return cloneLaid(out)
}

func cloneLaid(l laidPanel) laidPanel {
	l.strips = slices.Clone(l.strips)
	return l
}

func stripsKey(name string, list []face.Strip) string {
	var b strings.Builder
	b.WriteString(name)
	for i := range list {
		s := &list[i]
		fmt.Fprintf(&b, "\x00%s %.2f %.2f %.2f %.2f %.3f %d", s.Board.ID, s.X, s.Y, s.L, s.W, s.Angle, s.UpFace())
	}
	return b.String()
}

// idOf tells a plan from others by what it cuts.
func idOf(c *stock.Choice) string {
	var b strings.Builder
	for i := range c.Parts {
		b.WriteString(stripsKey(c.Parts[i].Demand, c.Parts[i].Strips))
		b.WriteByte(1)
	}
	return b.String()
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
