package session

import (
	"context"
	"math"
	"slices"

	"heartside/layout/cost"
	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// KeepTrim is a search for two plans of the same parts from the same boards: one
// that keeps the wood that is not wanted as far as the panels allow, and one that
// trims it. It is ready to be run on a goroutine of its own.
type KeepTrim struct {
	keep, trim *Planning
	currency   string
	left       []string
	nothing    bool
}

// KeptPlan is one of the two plans.
type KeptPlan struct {
	Planned
	Cost      cost.Plan
	Planed    float64 // mm3 of the finished parts' stock that planing takes off; in no figure of Cost
	Thickness float64 // of the stock used, weighted by its face, mm
	Unpriced  []string
	Tally     cost.Tally // the boards that are cut, whole, as a seller tallies them
}

// KeptTrimmed are both plans.
type KeptTrimmed struct {
	Keep, Trim KeptPlan
	Left       []string // what is not planned, and why
	Nothing    bool     // no wood is unwanted: there is nothing to trim
	Stopped    bool     // the search was ended early
	sys        unit.System
	currency   string // of amounts, "" not said
	wood       string
}

// KeepTrim prepares to plan a panel, or with "" all panels and the solid parts
// that lie on no board yet.
func (s *Session) KeepTrim(panel string) (*KeepTrim, error) {
	out := &KeepTrim{currency: s.Project().Currency}
	wish := PlanWish{Aim: stock.LeastWood}
	may := s.Plannable()
	for _, n := range s.Project().Panels {
		switch {
		case panel != "" && n.ID != panel:
		case slices.Contains(may, n.ID):
			wish.Panels = append(wish.Panels, n.ID)
		default:
			out.left = append(out.left, say.F("%s has strips that are pinned or sawn: they stay where they are, and the panel is in none of the figures.", n.ID))
		}
	}
	if panel == "" {
		for _, x := range s.PartsToPlan() {
			if x.Missing > 0 {
				wish.Parts = append(wish.Parts, x.ID)
			}
			if x.Lie > 0 {
				out.left = append(out.left, say.F("Of part %s %s on boards already: they stay, and are in none of the figures.", x.ID, lies(x.Lie)))
			}
		}
	}
	if len(wish.Panels)+len(wish.Parts) == 0 {
		if panel != "" && s.Project().Panel(panel) != nil {
			return nil, say.Errorf("panel %s has strips that are pinned or sawn: there is nothing left to choose. Unpin them, or look at another panel", panel)
		}
		return nil, say.Errorf("there is no panel or part to plan: make a panel first, or unpin what is pinned")
	}
	q, err := s.Plan(wish)
	if err != nil {
		return nil, err
	}
	out.keep, out.trim, out.nothing = q, trimmed(q), true
	for _, d := range q.demands {
		out.nothing = out.nothing && d.Wanted == face.WantBoth
	}
	return out, nil
}

func lies(n int) string {
	if n == 1 {
		return say.T("1 piece lies")
	}
	return say.F("%d pieces lie", n)
}

// trimmed is the same search where no unwanted wood is allowed on what shows.
// Limits go before the least wood: what is left over is spent to keep them.
func trimmed(q *Planning) *Planning {
	t := *q
	t.demands, t.clear, t.best = slices.Clone(q.demands), true, map[string]laidPanel{}
	for i := range t.demands {
		d := &t.demands[i]
		if d.Wanted == face.WantBoth {
			continue
		}
		d.Most[0] = 0
		if d.BothShow {
			d.Most[1] = 0
		}
		d.Look = "" // welcomes no unwanted wood
	}
	return &t
}

// Run finds both plans. told, where not nil, is told how far it is, 0 to 1, on the
// goroutine that runs. When ctx ends, what was found so far comes back, or its
// error where one of the plans was not begun.
func (k *KeepTrim) Run(ctx context.Context, told func(float64)) (*KeptTrimmed, error) {
	out := &KeptTrimmed{Left: k.left, Nothing: k.nothing, sys: k.keep.sys, currency: k.currency, wood: unwantedOf(k.keep.demands)}
	for i, q := range []*Planning{k.keep, k.trim} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		o := stock.Options{Seed: 1, Progress: func(p stock.Progress) {
			if told != nil && p.Of > 0 {
				told((float64(i) + float64(p.Done)/float64(p.Of)) / 2)
			}
		}}
		r, err := stock.Plan(ctx, q.supply, q.demands, q.aim, o)
		if err != nil {
			return nil, err
		}
		out.Stopped = out.Stopped || r.Stopped
		if i == 0 {
			out.Keep = q.kept(ctx, r, cost.Keep)
		} else {
			out.Trim = q.kept(ctx, r, cost.Trim)
		}
	}
	// Finding out how they look may be cut short too.
	out.Stopped = out.Stopped || ctx.Err() != nil
	return out, nil
}

// stillShows is the share of unwanted wood from which a plan that trims is said
// to show some: from there it prints as a per cent. An engineering choice.
const stillShows = 0.005

// kept puts a result into the figures of a comparison.
func (q *Planning) kept(ctx context.Context, r stock.Result, way cost.Way) KeptPlan {
	k := KeptPlan{Planned: q.made(ctx, &stock.Choice{Result: r})}
	c := &k.Cost
	*c = cost.Plan{Way: way, Used: r.Used, Lost: math.Min(math.Max(r.Lost, 0), r.Used), Boards: len(r.Boards), Joints: k.Joints,
		Cost: r.Cost, Points: k.Points, Judged: len(k.Panels) > 0 && ctx.Err() == nil}
	total, lacking := 0.0, 0.0
	for i, d := range q.demands {
		total += d.Length * d.Width * float64(max(1, d.Count))
		if x := r.Parts[i].Short; x != nil {
			lacking += d.Length * x.Width
		}
	}
	// A panel that lacks no more than is trimmed off it at last is not made either.
	c.Missing = math.Min(total, math.Max(total-(c.Used-c.Lost), lacking))
	c.Finished = total - c.Missing
	c.Lost = math.Min(math.Max(c.Used-c.Finished, 0), c.Used)
	for _, u := range r.Boards {
		b := q.project.Board(u.Board)
		if b == nil {
			continue
		}
		c.UsedVolume += u.Used * b.Thickness
		if b.Price == nil || !(b.Price.Amount > 0) {
			k.Unpriced = append(k.Unpriced, u.Board)
		}
		// Told only: a board no tally can be made of has no figure there.
		_, _ = k.Tally.Add(b.Length, b.Width, quartersOf(b))
	}
	c.Priced = len(r.Boards) > 0 && len(k.Unpriced) == 0
	if r.Used > 0 {
		k.Thickness = c.UsedVolume / r.Used
	}
	finished := 0.0
	for i := range r.Parts {
		part := &r.Parts[i]
		c.Unwanted = c.Unwanted || part.OverMost && (way == cost.Keep || part.Unwanted[0] >= stillShows || part.Unwanted[1] >= stillShows)
		all := 0.0
		for _, s := range part.Strips {
			all += s.L * s.W
		}
		d := &q.demands[i]
		face := d.Length * math.Min(d.Width, part.Width)
		if d.Count > 0 {
			face = d.Length * d.Width * float64(len(part.Strips))
		}
		for _, s := range part.Strips {
			own := face * s.L * s.W / all
			thick := q.project.Board(s.Board.ID).Thickness
			finished += own * thick
			if d.Thickness > 0 {
				k.Planed += own * math.Max(0, thick-d.Thickness)
			}
		}
	}
	c.LostVolume = math.Min(math.Max(c.UsedVolume-finished, 0), c.UsedVolume)
	return k
}

// quartersOf is a board's thickness as a seller names it: the nearest quarter of
// an inch. An engineering choice: boards are measured here, not graded.
func quartersOf(b *model.Board) int { return max(1, int(math.Round(b.Thickness/6.35))) }

// unwantedOf names the wood that demands do not want.
func unwantedOf(demands []stock.Demand) string {
	heart, sap := false, false
	for _, d := range demands {
		heart, sap = heart || d.Wanted == face.WantHeart, sap || d.Wanted == face.WantSap
	}
	switch {
	case heart && !sap:
		return say.T("light wood")
	case sap && !heart:
		return say.T("dark wood")
	}
	return say.T("unwanted wood")
}
