package seek

import (
	"fmt"
	"math"
	"math/rand/v2"

	"heartside/layout/arrange/look"
	"heartside/layout/arrange/order"
	"heartside/layout/face"
	"heartside/layout/together"
)

// between is the class of what stands between two panels.
const between = -1

// prepareGroup gathers the strips of all panels, with a pinned empty place
// between two of them, so that no joint is seen there.
func prepareGroup(req *SetRequest) (*engine, error) {
	f := req.Face
	if f == nil {
		return nil, fmt.Errorf("no panels to arrange together")
	}
	places := f.Len() - 1
	for k := range f.Len() {
		p := f.Part(k)
		if len(p.Strips) == 0 {
			return nil, fmt.Errorf("panel %q: no strips to arrange; lay some first", p.ID)
		}
		places += len(p.Strips)
	}
	if places > mostMembers {
		return nil, fmt.Errorf("%d strips in %d panels; the search takes at most %d at once: arrange the panels one after another", places-f.Len()+1, f.Len(), mostMembers-f.Len()+1)
	}
	e := &engine{
		prob: &order.Problem{}, seen: map[string]float64{}, rnd: rand.New(rand.NewPCG(req.Seed, 0x5eed)),
		reader: face.NewReader(), best: found{points: math.Inf(1)},
	}
	g := &group{
		req: req, e: e, face: f.Fork(), reader: &together.Reader{}, split: true,
		others: map[look.Name]*groupJudges{}, strips: make([][]face.Strip, f.Len()),
	}
	e.group, e.judge = g, g
	g.reader.SkipCoverage(true)
	g.reader.Remember(16 * places * 2)
	g.whole = look.NewJudge(g.face.Panel, req.Look, req.Rules)
	free := freedom{noTurn: req.NoTurn, noRoll: req.NoRoll}
	classes := classesOf(f, req.Exchange)
	for k := range f.Len() {
		if k > 0 {
			e.member(face.Strip{ID: together.Gap, Up: 1, Pinned: true}, between, between, 1)
			g.at = append(g.at, between)
		}
		p := groupPanel{panel: *f.Part(k), from: len(e.homes), reader: face.NewReader(), known: map[string]float64{}}
		p.reader.SkipCoverage(true)
		p.reader.Remember(16 * places)
		frame := p.panel
		p.judge = look.NewJudge(&frame, req.Look, req.Rules)
		p.short = tooShort(p.reader.Read(&p.panel))
		p.width = math.Min(p.panel.StripsWidth(), p.panel.Width+2*p.panel.PanelEdge)
		for i := range p.panel.Strips {
			s := p.panel.Strips[i]
			states := free.states(&s)
			if s.Board == nil || s.Pinned || s.Stage >= face.Glued {
				s.Pinned = true
				states = 1 << stateOf(&s)
			}
			e.member(s, k, classes[k], states)
			e.members[len(e.members)-1].Pinned = p.panel.Strips[i].Pinned
			g.at = append(g.at, k)
		}
		g.panels = append(g.panels, p)
		for j := range k {
			g.split = g.split && classes[j] != classes[k]
		}
	}
	for i := range e.members {
		e.must |= 1 << i
	}
	return e, nil
}

// member adds a strip that lies at the next place.
func (e *engine) member(s face.Strip, from, class int, states uint8) {
	i := len(e.members)
	e.join(s, from, states)
	e.class, e.homes = append(e.class, class), append(e.homes, class)
	e.pinned = append(e.pinned, s.Pinned)
	if s.Pinned {
		e.prob.Fixed = append(e.prob.Fixed, order.Fixed{Place: i, Strip: i, State: stateOf(&s)})
	}
	e.start = append(e.start, wayOf(i, stateOf(&s)))
}

// classesOf puts panels that strips may go between into one class: all of one
// length and thickness, wholly seen and with the same limits.
func classesOf(f *together.Face, exchange bool) []int {
	out := make([]int, f.Len())
	for k := range out {
		out[k] = k
		for j := range k {
			if exchange && alikePanels(f.Part(j), f.Part(k)) {
				out[k] = out[j]
				break
			}
		}
	}
	return out
}

func alikePanels(a, b *face.Panel) bool {
	whole := func(p *face.Panel) bool { return p.Shape == nil && len(p.Hidden) == 0 }
	return math.Abs(a.Length-b.Length) < mm && math.Abs(a.Thickness-b.Thickness) < mm && a.Limits == b.Limits && whole(a) && whole(b)
}

// MayExchange reports whether strips of the panels of a face may change panels
// at all, and whether their widths say that they may without asking: all of
// those that may are as wide as each other.
func MayExchange(f *together.Face) (may, alike bool) {
	classes := classesOf(f, true)
	first := map[int]float64{}
	alike = true
	for k, c := range classes {
		for j := range k {
			may = may || classes[j] == c
		}
		p := f.Part(k)
		for i := range p.Strips {
			if p.Strips[i].Board == nil {
				continue
			}
			w, ok := first[c]
			if !ok {
				w = p.Strips[i].W
				first[c] = w
			}
			alike = alike && math.Abs(w-p.Strips[i].W) < sameWidth
		}
	}
	return may, may && alike
}

// sameWidth is how far widths may be apart and still be one, mm: what is jointed
// away again. An engineering choice.
const sameWidth = 0.5
