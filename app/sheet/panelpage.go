package sheet

import (
	"fmt"
	"sort"
	"strings"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/unit"
)

// panel writes the pages of one panel.
func (b *builder) panel(p *Panel) error {
	m := b.in.Project.Panel(p.Panel.ID)
	if m == nil || p.Reading == nil {
		return fmt.Errorf("layout sheet: panel %s is not in the project or has not been read", p.Panel.ID)
	}
	v := b.viewOf(p, m)
	ext := extent(p.Panel)
	b.open(ext.W() >= ext.H(), b.panelHeader(v), panelMarks())
	tables := v.tables(b)
	text := b.panelText(v)
	need := b.heightsOf(tables...) + b.textHeight(text)
	b.drawPanel(v, b.drawingHeight(v, need))
	b.tables(tables...)
	b.paragraphs(text)
	return nil
}

// strip8 is how high a strip has to be drawn for a number 8 mm high and a row
// of widths along each edge, mm.
const strip8 = 10.2

// drawingHeight is what the drawing may take of the page: what the rest
// leaves, but no less than lets the strips hold their numbers; all of the page
// where the rest goes on to the next one anyway.
func (b *builder) drawingHeight(v *view, rest float64) float64 {
	p, all := v.Panel.Panel, b.left()
	floor := 0.28 * all
	if len(p.Strips) > 0 {
		floor = max(floor, strip8/minStrip(p)*extent(p).H()+2*nameRoom)
	}
	floor = min(floor, 0.5*all)
	if all-rest >= floor {
		return all - rest
	}
	if rest > 0.9*all {
		return all - 2
	}
	return max(floor, 0.5*all)
}

// view is a panel with what its pages say of it.
type view struct {
	*Panel
	m           *model.Panel
	names       names
	numbers     []string
	front, rear []face.Widths // of each strip, as jointed
}

func (b *builder) viewOf(p *Panel, m *model.Panel) *view {
	v := &view{Panel: p, m: m, names: namesOf(m.Role)}
	for i := range p.Panel.Strips {
		s := &p.Panel.Strips[i]
		v.numbers = append(v.numbers, b.in.number(p.Panel.ID, s.ID))
		f, r := ownWidths(s)
		v.front, v.rear = append(v.front, f), append(v.rear, r)
	}
	return v
}

func (b *builder) panelHeader(v *view) header {
	p := v.Panel.Panel
	h := header{title: "Panel " + p.ID, boxes: []string{"MC %", "RH %"}}
	h.facts = append(h.facts, "Finished "+b.say.size(p.Length, p.Width, p.Thickness))
	if n := len(p.Strips); n > 0 {
		l, w := gluedSize(p)
		rough := "glued up " + b.say.size(l, w, p.Thickness+b.in.Project.Allowances.AfterGlue)
		h.facts = append(h.facts, rough, plural(n, "strip"))
	}
	ids, species := sources(p)
	if len(ids) > 0 {
		h.facts = append(h.facts, "from "+boards(ids), strings.Join(speciesNames(species), ", "))
		h.facts = append(h.facts, "sapwood on the show face "+b.shareText(v.Reading.Show.Light))
	}
	if b.say.sys == unit.Inch {
		return withFact(h, "lengths in inches")
	}
	return withFact(h, "lengths in mm")
}

func withFact(h header, s string) header {
	h.facts = append(h.facts, s)
	return h
}

// shareText writes a share, with its range where not all is seen.
func (b *builder) shareText(s face.Share) string {
	if s.Lo != s.Hi {
		return unit.FormatPercent(s.Lo) + " to " + unit.FormatPercent(s.Hi)
	}
	return unit.FormatPercent(s.Value)
}

// gluedSize is the panel before trimming.
func gluedSize(p *face.Panel) (l, w float64) {
	lo, hi := p.Length, 0.0
	for i := range p.Strips {
		r := gluedRect(p, i)
		lo, hi = min(lo, r.Min.X), max(hi, r.Max.X)
	}
	return hi - lo, p.StripsWidth()
}

// sources returns the boards and species a panel is made from, sorted.
func sources(p *face.Panel) (ids, species []string) {
	for i := range p.Strips {
		if bd := p.Strips[i].Board; bd != nil {
			ids, species = append(ids, bd.ID), append(species, bd.Species)
		}
	}
	return unique(ids), unique(species)
}

func unique(list []string) []string {
	sort.Strings(list)
	out := list[:0]
	for i, s := range list {
		if i == 0 || s != list[i-1] {
			out = append(out, s)
		}
	}
	return out
}

func boards(ids []string) string {
	if len(ids) == 1 {
		return "board " + ids[0]
	}
	return "boards " + strings.Join(ids[:len(ids)-1], ", ") + " and " + ids[len(ids)-1]
}

// tables are the strips and joints of a panel in rows.
func (v *view) tables(b *builder) []*table {
	p := v.Panel.Panel
	if len(p.Strips) == 0 {
		return nil
	}
	n := v.names
	st := &table{
		name: fmt.Sprintf("Strips, from the %s", n.front),
		head: []string{"Strip", "Side up", "Marked|end", "Planes", "Saw", "Joint to", "Finished", "Sapwood at|" + n.front + " edge", "Sapwood at|" + n.back + " edge"},
		left: []bool{true, true, false, false, false, false, false, false, false},
	}
	for i := range p.Strips {
		st.rows = append(st.rows, v.stripRow(b, i))
	}
	out := []*table{st}
	jt := &table{
		name: "Joints, from the " + n.front,
		head: []string{"Joint", "Kind", "Edge|face in", "its|sapwood", "Edge|face out", "its|sapwood", "Differs|along"},
	}
	for _, j := range v.Reading.Joints {
		jt.rows = append(jt.rows, v.jointRow(b, j))
	}
	if len(jt.rows) > 0 {
		out = append(out, jt)
	}
	return out
}

func (v *view) stripRow(b *builder, i int) []string {
	p := v.Panel.Panel
	s := &p.Strips[i]
	bl, bw := blankSize(b.in.Project.Allowances, s)
	fl, fw := finishedSize(p, i)
	row := []string{v.numbers[i], "empty place", "–", "–", b.say.cell(bl, bw), b.say.cell(s.L, s.W), b.say.cell(fl, fw), "–", "–"}
	if s.Board == nil {
		return row
	}
	row[1], row[2] = sideUp(s), v.names.left
	if s.Turned {
		row[2] = v.names.right
	}
	row[3] = planesText(s, v.names)
	row[7], row[8] = b.say.three(v.front[i]), b.say.three(v.rear[i])
	return row
}

func (v *view) jointRow(b *builder, j face.Joint) []string {
	a, c := v.numbers[j.I], v.numbers[j.I+1]
	if j.Kind == face.Unjudged {
		return []string{fmt.Sprint(j.I + 1), jointKind(j.Kind), a, "–", c, "–", "–"}
	}
	return []string{
		fmt.Sprint(j.I + 1), string(j.Kind),
		a, b.say.three(v.rear[j.I]), c, b.say.three(v.front[j.I+1]),
		unit.FormatPercent(j.Mismatch),
	}
}

// jointKind names what meets at a joint.
func jointKind(k face.JointKind) string {
	if k == face.Unjudged {
		return "open"
	}
	return string(k)
}
