package seek

import (
	"context"
	"math"

	"heartside/layout/arrange/look"
	"heartside/layout/arrange/order"
	"heartside/layout/face"
	"heartside/layout/together"
)

// group judges several panels that are arranged at once: each by itself, and
// what the eye sees of all on the face they make.
type group struct {
	req    *SetRequest
	e      *engine
	face   *together.Face
	reader *together.Reader
	whole  *look.Judge
	panels []groupPanel
	at     []int // by place: its panel, -1 between two
	split  bool  // no strip may change panels
	others map[look.Name]*groupJudges
	strips [][]face.Strip
	sum    float64 // of what speaks against each panel by itself, as laid last
}

// groupPanel is one panel of a group.
type groupPanel struct {
	panel  face.Panel
	from   int // its first place
	judge  *look.Judge
	reader *face.Reader
	short  int                // strips too short for their place, as it lies
	width  float64            // its strips are never less wide in all than this
	known  map[string]float64 // what speaks against it by itself, by how it lies
}

// groupJudges judge a group for another look.
type groupJudges struct {
	own   []*look.Judge
	whole *look.Judge
}

// mostKnown bounds how many ways of laying one panel are remembered.
const mostKnown = 1 << 16

// Single implements scorer, for places counted over all panels.
func (g *group) Single(s *face.Strip, place, _ int) float64 {
	k := g.at[place]
	if k < 0 {
		return 0
	}
	p := &g.panels[k]
	return p.judge.Single(s, place-p.from, len(p.panel.Strips))
}

// Pair implements scorer. Panels that strips may go between are alike in all
// that a joint depends on.
func (g *group) Pair(front, rear *face.Strip) float64 {
	return g.panels[g.home(front)].judge.Pair(front, rear)
}

// home is the panel a strip is from.
func (g *group) home(s *face.Strip) int {
	for i := range g.e.members {
		if m := &g.e.members[i]; m.ID == s.ID && m.Board == s.Board {
			return max(g.e.from[i], 0)
		}
	}
	return 0
}

// Points implements scorer; a group is read by read.
func (g *group) Points(*face.Panel, *face.Reading) float64 { return 0 }

// lay puts the strips of l into the panels.
func (g *group) lay(l laying) [][]face.Strip {
	for k := range g.panels {
		p := &g.panels[k]
		g.strips[k] = g.strips[k][:0]
		for _, w := range l[p.from : p.from+len(p.panel.Strips)] {
			g.strips[k] = append(g.strips[k], g.e.ways[w])
		}
	}
	return g.strips
}

// read reads all panels laid as l, +Inf where one will not do.
func (g *group) read(l laying) float64 {
	strips := g.lay(l)
	g.sum = 0
	for k := range g.panels {
		p := &g.panels[k]
		key := l[p.from : p.from+len(strips[k])]
		x, ok := p.known[string(key)]
		if !ok {
			x = p.points(strips[k])
			if len(p.known) >= mostKnown {
				clear(p.known)
			}
			p.known[string(key)] = x
		}
		g.sum += x
	}
	if math.IsInf(g.sum, 1) {
		return g.sum
	}
	g.face.LayAll(strips)
	return g.sum + g.whole.Together(g.face.Panel, g.reader.Read(g.face))
}

// points is what speaks against a panel by itself.
func (p *groupPanel) points(strips []face.Strip) float64 {
	q := p.panel
	q.Strips = strips
	if q.StripsWidth() < p.width-mm {
		return math.Inf(1)
	}
	r := p.reader.Read(&q)
	if tooShort(r) > p.short {
		return math.Inf(1)
	}
	return p.judge.Own(&q, r)
}

// least returns the least local cost of all panels together, where each may be
// taken by itself and that is soon done.
func (g *group) least(ctx context.Context) (float64, bool) {
	if !g.split {
		return 0, false
	}
	sum := 0.0
	for k := range g.panels {
		p := g.alone(k)
		if bytes, additions := order.Bytes(p); !(bytes > 0) || additions > mostAdditions {
			return 0, false
		}
		best, err := order.Best(ctx, p, 1)
		if err != nil || len(best) == 0 {
			return 0, false
		}
		sum += best[0].Cost
	}
	return sum, true
}

// alone is the problem of one panel out of that of all.
func (g *group) alone(k int) *order.Problem {
	e, p := g.e, &g.panels[k]
	n := len(p.panel.Strips)
	var who []int
	for i := range e.members {
		if e.from[i] == k {
			who = append(who, i)
		}
	}
	out := &order.Problem{Strips: len(who), Places: n}
	all := len(e.ways)
	for _, i := range who {
		out.Allowed = append(out.Allowed, e.allowed[i])
	}
	for place := range n {
		for _, i := range who {
			for s := range order.States {
				out.Single = append(out.Single, e.prob.Single[(p.from+place)*all+i*order.States+s])
			}
		}
	}
	for _, i := range who {
		for s := range order.States {
			for _, j := range who {
				for t := range order.States {
					out.Pair = append(out.Pair, e.prob.Pair[(i*order.States+s)*all+j*order.States+t])
				}
			}
		}
	}
	for _, f := range e.prob.Fixed {
		for x, i := range who {
			if f.Strip == i {
				out.Fixed = append(out.Fixed, order.Fixed{Place: f.Place - p.from, Strip: x, State: f.State})
			}
		}
	}
	return out
}

// grids tells where the light wood lies in all panels.
func (g *group) grids() func(laying) []float64 {
	var list []*profiles
	for k := range g.panels {
		p := &g.panels[k]
		list = append(list, newProfiles(g.e, &p.panel, func(i int) bool { return g.e.class[i] == g.e.homes[p.from] }))
	}
	return func(l laying) []float64 {
		var out []float64
		for k, prof := range list {
			p := &g.panels[k]
			out = append(out, prof.grid(l[p.from:p.from+len(p.panel.Strips)])...)
		}
		return out
	}
}

// judges returns those for a look.
func (g *group) judges(name look.Name) *groupJudges {
	if got := g.others[name]; got != nil {
		return got
	}
	out := &groupJudges{whole: look.NewJudge(g.face.Panel, name, g.req.Rules)}
	for k := range g.panels {
		out.own = append(out.own, look.NewJudge(&g.panels[k].panel, name, g.req.Rules))
	}
	g.others[name] = out
	return out
}
