package session

import (
	"context"
	"slices"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// PlanWish is what is asked of plans of strips and solid parts from the
// boards. What it does not name stays as it lies.
type PlanWish struct {
	Panels  []string // planned anew
	Parts   []string // of which the pieces that lie nowhere yet are planned
	Again   []string // of these those that lie on boards too, unless they are sawn
	Species string   // of boards for what lies on none yet; "" any
	Aim     stock.Objective
}

// MostPlans is how many plans are looked for.
const MostPlans = 5

// Planning is a search for plans ready to be run on a goroutine of its own.
type Planning struct {
	project *model.Project
	sys     unit.System
	supply  stock.Supply
	demands []stock.Demand
	panels  map[string]*face.Panel // those to plan, as they lie
	parts   map[string]partJob
	owners  map[string]string // of what lies on boards, in words, by id
	aim     stock.Objective
	best    map[string]laidPanel // arrangements found, by what they are of
	clear   bool                 // no unwanted wood may show, whatever the panels allow
}

// Plans are what was found so far, the best for the aim first.
type Plans struct {
	Done float64 // how far the search is, 0 to 1
	List []Planned
	Only []string // what a single board can give, in words
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

// Plan prepares to plan where the strips of panels and the pieces of solid
// parts come from.
func (s *Session) Plan(wish PlanWish) (*Planning, error) {
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	p := v.project
	q := &Planning{project: p, sys: p.Units, aim: wish.Aim, panels: map[string]*face.Panel{}, parts: map[string]partJob{},
		owners: ownersOf(p), best: map[string]laidPanel{}}
	may := s.Plannable()
	for _, id := range wish.Panels {
		if p.Panel(id) == nil {
			return nil, say.Errorf("there is no panel %q to plan", id)
		}
		if !slices.Contains(may, id) {
			return nil, say.Errorf("panel %s has strips that are pinned or sawn: they stay where they are, so it cannot be planned anew", id)
		}
	}
	for _, id := range append(slices.Clone(wish.Parts), wish.Again...) {
		if _, ok := p.Part(id); !ok {
			return nil, say.Errorf("there is no part %q to plan", id)
		}
	}
	for _, b := range v.sound() {
		q.supply.Boards = append(q.supply.Boards, stock.Stock{Board: b, Price: priceOf(p.Board(b.ID))})
	}
	if len(q.supply.Boards) == 0 {
		return nil, say.Errorf("there are no boards to plan from: enter some first")
	}
	for _, n := range p.Panels {
		fp := v.panels[n.ID]
		if !slices.Contains(wish.Panels, n.ID) {
			q.supply.Taken = append(q.supply.Taken, laidOnBoards(fp.Strips)...)
			continue
		}
		d := demandOf(n, fp)
		d.Boards = q.ofSpecies(lieOn(n.Strips, func(st model.Strip) string { return st.Board }), wish.Species)
		if n.Wanted == model.WantDefault && len(laidOnBoards(fp.Strips)) == 0 {
			d.Wanted = q.boardsWant(d.Boards)
		}
		q.demands = append(q.demands, d)
		q.panels[n.ID] = fp
	}
	q.supply.Taken = append(q.supply.Taken, laidOnBoards(v.spares)...)
	for _, n := range p.Parts {
		q.part(v, n, wish)
	}
	if len(q.demands) == 0 {
		return nil, say.Errorf("nothing is to be planned: tick at least one panel, or a part that is not all laid on boards")
	}
	q.supply.Allowances, q.supply.Machines = AllowancesOf(p.Allowances), machinesOf(p)
	return q, nil
}

// demandOf is what a panel asks of the boards.
func demandOf(n *model.Panel, fp *face.Panel) stock.Demand {
	return stock.Demand{ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness, PanelEdge: fp.PanelEdge,
		Wanted: fp.Wanted, Look: looks.Name(n.Look), Most: n.UnwantedLimit, BothShow: n.BothShow}
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

// lieOn lists the boards that pieces lie on, each once.
func lieOn[T any](list []T, board func(T) string) []string {
	var out []string
	for _, x := range list {
		if id := board(x); id != "" && !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// ofSpecies lists the boards for what lies on some boards now: those of the
// same species where that is one, else of the species wished for; nil is any.
func (q *Planning) ofSpecies(now []string, wish string) []string {
	species := wish
	for i, id := range now {
		if b := q.project.Board(id); b != nil {
			if i > 0 && b.Species != species {
				species = wish
				break
			}
			species = b.Species
		}
	}
	if species == "" {
		return nil
	}
	var out []string
	for _, k := range q.supply.Boards {
		if q.project.Board(k.Board.ID).Species == species {
			out = append(out, k.Board.ID)
		}
	}
	if len(out) == len(q.supply.Boards) {
		return nil
	}
	if out == nil { // none of them is left
		out = []string{}
	}
	return out
}

// boardsWant is the wood that boards want, nil all of them; where they differ no wood is
// unwanted.
func (q *Planning) boardsWant(boards []string) face.Wanted {
	var want model.Wanted
	for _, k := range q.supply.Boards {
		if boards != nil && !slices.Contains(boards, k.Board.ID) {
			continue
		}
		w := q.project.Board(k.Board.ID).Wanted
		if w == model.WantDefault {
			w = model.WantHeart
		}
		if want != "" && w != want {
			return face.WantBoth
		}
		want = w
	}
	return wantedOf(want)
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

// Run looks for plans that are clearly different from one another, see
// stock.Different. told, where not nil, is told how far it is and what there is
// so far, on the goroutine that runs; List is nil where that did not change.
// When ctx ends, the plans found so far are returned.
func (q *Planning) Run(ctx context.Context, told func(Plans)) (Plans, error) {
	only, err := stock.Scarce(ctx, q.supply, q.demands)
	if err != nil && ctx.Err() == nil {
		return Plans{}, err
	}
	words := q.onlyWords(only)
	var tell func(float64, []stock.Choice)
	if told != nil {
		tell = func(done float64, list []stock.Choice) {
			told(Plans{Done: done, List: q.planned(ctx, list), Only: words})
		}
	}
	list, err := stock.Several(ctx, q.supply, q.demands, q.aim, MostPlans, stock.Options{Seed: 1}, tell)
	if err != nil {
		return Plans{}, err
	}
	return Plans{Done: 1, List: q.planned(ctx, list), Only: words}, nil
}
