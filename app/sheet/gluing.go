package sheet

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/model/say"
)

// glued is some strips that are glued up together first, by index from the
// front.
type glued struct {
	first, last int
	width       float64 // as jointed, mm
	over        bool    // one strip alone is wider than the machine
}

// gluedInto parts strips into the fewest sections no wider than limit, mm, and
// of these ways takes the one whose widest section is narrowest. A strip wider
// than that stands alone. A limit of 0 is none.
func gluedInto(widths []float64, limit float64) []glued {
	const slack = 0.05
	n := len(widths)
	if n == 0 {
		return nil
	}
	if limit <= 0 {
		limit = math.Inf(1)
	}
	type way struct {
		count int
		most  float64
		from  int // where the last section begins
	}
	best := make([]way, n+1)
	for end := 1; end <= n; end++ {
		best[end] = way{count: math.MaxInt}
		w := 0.0
		for from := end - 1; from >= 0; from-- {
			if w += widths[from]; w > limit+slack && from < end-1 {
				break
			}
			k := way{best[from].count + 1, math.Max(best[from].most, w), from}
			if k.count < best[end].count || k.count == best[end].count && k.most < best[end].most-slack {
				best[end] = k
			}
		}
	}
	var out []glued
	for end := n; end > 0; end = best[end].from {
		g := glued{first: best[end].from, last: end - 1}
		for i := g.first; i <= g.last; i++ {
			g.width += widths[i]
		}
		g.over = g.width > limit+slack
		out = append([]glued{g}, out...)
	}
	return out
}

// sections are those of a panel against the machine that thicknesses.
func (b *builder) sections(p *face.Panel) []glued {
	widths := make([]float64, len(p.Strips))
	for i := range widths {
		widths[i] = p.Strips[i].W
	}
	return gluedInto(widths, b.in.Project.Machines.Thickness)
}

// clampsFor returns how many clamps hold a joint of a length, mm, from a
// distance to a distance apart, the outer ones inset from its ends. Common
// practice, no source.
func clampsFor(length float64) (fewest, most int) {
	run := math.Max(length-2*clampInset, 0)
	count := func(apart float64) int { return max(2, int(math.Ceil(run/apart-1e-9))+1) }
	return count(clampsWide), count(clampsClose)
}

const clampInset, clampsClose, clampsWide = 50.0, 200.0, 300.0

// namedStrips is how many strips of a section are named one by one.
const namedStrips = 6

// stripsText names the strips of a section, front to back.
func (v *view) stripsText(g glued) string {
	if n := g.last - g.first + 1; n > namedStrips {
		return say.F("%s to %s, %d strips", v.numbers[g.first], v.numbers[g.last], n)
	}
	return strings.Join(v.numbers[g.first:g.last+1], ", ")
}

// jointsText names joints by their numbers from the front, 1 to n-1.
func jointsText(first, last int) string {
	switch {
	case last < first:
		return say.T("none")
	case last == first:
		return say.F("joint %d", first)
	case last == first+1:
		return say.F("joints %d and %d", first, last)
	}
	return say.F("joints %d to %d", first, last)
}

// glueTable is the order of the joints: within the sections first, then
// between them. It is nil where there is one strip.
func (b *builder) glueTable(v *view) *table {
	p := v.Panel.Panel
	if len(p.Strips) < 2 {
		return nil
	}
	list := b.sections(p)
	t := &table{
		name: say.T("Order of gluing"),
		head: []string{"", say.T("Strips"), say.T("Glue"), say.T("Wide"), say.T("Done")},
		left: []bool{true, true, true, false, false},
		box:  []bool{false, false, false, false, true},
		room: []float64{0, 0, 0, 0, 10},
	}
	step := 0
	add := func(strips, what, wide string) {
		step++
		t.rows = append(t.rows, []string{fmt.Sprintf("%d.", step), strips, what, wide, ""})
	}
	to := b.say.fine(p.Thickness)
	if len(list) == 1 {
		g := list[0]
		_, w := gluedSize(p, b.say)
		add(v.stripsText(g), jointsText(1, g.last), b.say.bare(w))
		end := say.T("rest, flatten, thickness to ")
		if g.over {
			end = say.T("wider than the machine: by hand or sander to ")
		}
		add(say.T("all"), end+to, "")
		return t
	}
	var last []string
	for i, g := range list {
		what := jointsText(g.first+1, g.last)
		switch {
		case g.over:
			what = say.T("none: wider than the machine")
		case g.first == g.last:
			what = say.T("none: one strip")
		}
		add(v.stripsText(g), what, b.say.bare(g.width))
		if i > 0 {
			last = append(last, fmt.Sprint(g.first))
		}
	}
	add(say.T("each section"), say.T("rest, flatten, then thickness all alike"), "")
	name := say.T("joints ")
	if len(last) == 1 {
		name = say.T("joint ")
	}
	_, w := gluedSize(p, b.say)
	add(say.T("the sections"), say.F("%s%s, faces level", name, say.List(last)), b.say.bare(w))
	add(say.T("all"), say.F("by hand or sander to %s", to), "")
	return t
}
