package cutting

import (
	"cmp"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// weights rank the findings among the warnings of a reading: what cannot be
// sawn ranks with what looks like a mistake.
const (
	weightOutside  = 97.0
	weightOverlap  = 96.0
	weightUnder    = 65.0
	weightBackFlaw = 58.0
	weightTooWide  = 52.0
	weightSections = 22.0
	weightMargin   = 20.0
)

// Finding is what is wrong with the place or the size of a strip.
type Finding struct {
	Panel string // id; "" where only spares are concerned
	face.Warning
}

// Check judges every strip of every panel, and the spares, on their boards and
// against the machines. Strips that lie on no board are not judged. Where
// strips of two panels come too near one another each panel is told. Findings
// come panel by panel, in the order of the strips.
func Check(panels []*face.Panel, spares []face.Strip, a Allowances, m Machines) []Finding {
	all := make([]piece, 0, 32)
	from := make([]int, 0, len(panels)+1)
	for _, p := range panels {
		from = append(from, len(all))
		for i := range p.Strips {
			all = addPiece(all, &p.Strips[i], a)
		}
	}
	from = append(from, len(all))
	for i := range spares {
		all = addPiece(all, &spares[i], a)
	}
	var out []Finding
	for k, p := range panels {
		own := all[from[k]:from[k+1]]
		for _, w := range judge(p, own, [2][]piece{all[:from[k]], all[from[k+1]:]}, a, m) {
			out = append(out, Finding{p.ID, w})
		}
	}
	rest := all[from[len(panels)]:]
	for i := range rest {
		for _, w := range onBoard(&rest[i], a, m, geom.Rect{}) {
			out = append(out, Finding{"", w})
		}
		for k := i + 1; k < len(rest); k++ {
			if w, ok := overlap(&rest[i], &rest[k], a, geom.Rect{}); ok {
				out = append(out, Finding{"", w})
			}
		}
	}
	return out
}

// Checker judges one panel after another beside strips that stay where they
// are. It may not be shared between goroutines.
type Checker struct {
	others []piece
	own    []piece
	a      Allowances
	m      Machines
}

// NewChecker returns a Checker for panels that share boards with others, the
// strips of other panels and the spares.
func NewChecker(others []face.Strip, a Allowances, m Machines) *Checker {
	c := &Checker{a: a, m: m}
	for i := range others {
		c.others = addPiece(c.others, &others[i], a)
	}
	return c
}

// Panel returns the findings of p, without those of the others alone.
func (c *Checker) Panel(p *face.Panel) []face.Warning {
	c.own = c.own[:0]
	for i := range p.Strips {
		c.own = addPiece(c.own, &p.Strips[i], c.a)
	}
	return judge(p, c.own, [2][]piece{c.others}, c.a, c.m)
}

// piece is a strip on its board.
type piece struct {
	s     *face.Strip
	blank geom.Polygon
	bare  geom.Polygon // without allowances
	box   geom.Rect    // of the blank
}

func addPiece(list []piece, s *face.Strip, a Allowances) []piece {
	if !sound(s) {
		return append(list, piece{s: s})
	}
	b := Blank(s, a)
	return append(list, piece{s, b, grown(s, 0, 0), b.Bounds()})
}

// judge returns the findings of a panel whose strips are own, beside others.
func judge(p *face.Panel, own []piece, others [2][]piece, a Allowances, m Machines) []face.Warning {
	var out []face.Warning
	y := p.Y0()
	placed := false
	for i := range own {
		q := &own[i]
		f := finished{}
		if q.blank != nil {
			placed = true
			f = finishedOf(p, i, y)
			where := f.place(p, q.s)
			out = append(out, onBoard(q, a, m, where)...)
			for k := i + 1; k < len(own); k++ {
				if w, ok := overlap(q, &own[k], a, where); ok {
					out = append(out, w)
				}
			}
			for _, list := range others {
				for k := range list {
					if w, ok := overlap(q, &list[k], a, where); ok {
						out = append(out, w)
					}
				}
			}
			for _, x := range flawsOf(p, q.s, &f, a.FlawMargin) {
				out = append(out, flawWarning(p, q.s, &f, x, a))
			}
		}
		y += q.s.W
	}
	if w := p.StripsWidth(); placed && m.Thickness > 0 && w > m.Thickness+slack {
		out = append(out, face.Warning{
			Kind: face.OverMachineWidth, Why: "panel", Measure: w, Limit: m.Thickness, Weight: weightSections,
			Place: geom.R(0, 0, p.Length, p.Width),
		})
	}
	slices.SortStableFunc(out, func(x, y face.Warning) int { return cmp.Compare(y.Weight, x.Weight) })
	return out
}

func flawWarning(p *face.Panel, s *face.Strip, f *finished, x flawed, a Allowances) face.Warning {
	w := face.Warning{
		Kind: face.FlawInEdge, Side: x.side, Why: x.why, Strips: []string{s.ID}, Boards: []string{s.Board.ID},
		Place: f.inPanel(p, x.box, x.side), Measure: x.measure, Weight: weightBackFlaw,
	}
	if x.why == FlawInMargin {
		w.Limit, w.Weight = a.FlawMargin, weightMargin
	}
	return w
}

// onBoard judges one strip by itself: whether it lies on its board, and
// whether the machines take it. Once sawn, what counts on the board is the
// strip alone; once jointed, no machine limit does.
func onBoard(q *piece, a Allowances, m Machines, place geom.Rect) []face.Warning {
	if q.blank == nil {
		return nil
	}
	s := q.s
	own := BlankRect(s, a)
	l, w := own.W(), own.H()
	if s.Stage >= face.Sawn {
		own = geom.R(0, 0, s.L, s.W)
	}
	var out []face.Warning
	tell := func(kind face.WarningKind, why string, measure, limit, weight float64) {
		out = append(out, face.Warning{
			Kind: kind, Why: why, Strips: []string{s.ID}, Boards: []string{s.Board.ID}, Place: place,
			Measure: measure, Limit: limit, Weight: weight,
		})
	}
	if mm, where := outside(s, own); where != "" {
		tell(face.OutsideBoard, where, mm, 0, weightOutside+min(0.9, mm/1e4))
	}
	if s.Stage >= face.Jointed {
		return out
	}
	if m.Shortest > 0 && l < m.Shortest-slack {
		tell(face.UnderMachineLimit, "short", l, m.Shortest, weightUnder)
	}
	if m.Narrowest > 0 && w < m.Narrowest-slack {
		tell(face.UnderMachineLimit, "narrow", w, m.Narrowest, weightUnder)
	}
	switch {
	case m.Flatten > 0 && w > m.Flatten+slack:
		tell(face.OverMachineWidth, "flatten", w, m.Flatten, weightTooWide)
	case m.Thickness > 0 && w > m.Thickness+slack:
		tell(face.OverMachineWidth, "thickness", w, m.Thickness, weightTooWide)
	}
	return out
}

// overlap reports whether two strips of one board come nearer than the kerf.
// Neighbours of one row have no allowances between them. Of two that are sawn only the strips themselves count: they were parted.
// Measure is how much more they need between them.
func overlap(x, y *piece, a Allowances, place geom.Rect) (face.Warning, bool) {
	if x.blank == nil || y.blank == nil || x.s.Board != y.s.Board && x.s.Board.ID != y.s.Board.ID {
		return face.Warning{}, false
	}
	kerf := a.Kerf
	if x.box.Inset(-kerf).Intersect(y.box).Empty() {
		return face.Warning{}, false
	}
	p, q := x.blank, y.blank
	if x.s.Stage >= face.Sawn && y.s.Stage >= face.Sawn {
		p, q, kerf = x.bare, y.bare, 0
	}
	need := kerf - Clearance(p, q)
	if need <= slack {
		return face.Warning{}, false
	}
	return face.Warning{
		Kind: face.PartsOverlap, Strips: []string{x.s.ID, y.s.ID}, Boards: []string{x.s.Board.ID}, Place: place,
		Measure: need, Limit: a.Kerf, Weight: weightOverlap + min(0.9, need/1e4),
	}, true
}
