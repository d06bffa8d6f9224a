package sheet

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// panel writes the pages of one panel.
func (b *builder) panel(p *Panel) {
	v := b.viewOf(p, b.in.Project.Panel(p.Panel.ID))
	ext := extent(p.Panel)
	tables := v.tables(b)
	text := b.panelText(v)
	both := p.Panel.BothShow && len(p.Panel.Strips) > 0
	lying, h := ext.W() >= ext.H(), b.panelHeader(v)
	wish := func() float64 { return min(b.panelHeight(v), max(b.floor(v), 0.5*b.left())) }
	lowest := func() float64 {
		if b.page.W > b.page.H != lying && b.panelScale(v)*minStrip(p.Panel) < strip8 {
			return math.Inf(1) // too small to read at arm's length: rather two pages
		}
		return b.floor(v)
	}
	wide := func() float64 { return max(wish(), lowest()) }
	rows := func() float64 { return b.heightsOf(tables...) }
	whole := func() float64 { return rows() + b.textHeight(text) }
	need := whole
	if both {
		need = rows // the text goes with the back
	}
	end := func() float64 { return need() + highOf(b.flatEnd(v)) }
	ended := false // the end has room on the page
	if !both && v.Flat != nil {
		if ended = b.openFitting(lying, h, b.panelMarks(), end, wide, lowest); !ended {
			b.drop()
		}
	}
	switch {
	case ended:
		b.drawPanel(v, b.left()-end(), false)
	case b.openFitting(lying, h, b.panelMarks(), need, wide, lowest):
		b.drawPanel(v, b.left()-need(), false)
	case b.largest(rows, b.left()-max(b.floor(v), 0.5*b.left())) || rows() <= b.left()-b.floor(v):
		b.drawPanel(v, b.left()-rows(), false)
	default:
		b.drawPanel(v, b.drawingHeight(v, whole()), false)
	}
	b.tables(tables...)
	if ended {
		b.drawFlat(v)
	}
	if both {
		b.backOf(v, text)
	} else {
		b.paragraphs(text)
	}
	if !ended {
		b.drawFlat(v)
	}
	if v.crowded || b.long(v) {
		b.panelParts(v)
	}
}

// backOf draws the back on a further page, with the text under it where both
// go on one.
func (b *builder) backOf(v *view, text []paragraph) {
	b.more()
	need := func() float64 { return b.textHeight(text) + lineH }
	wish := min(b.panelHeight(v), max(b.floor(v), 0.5*b.left()))
	high := b.left() - lineH - 2
	if b.largest(need, b.left()-wish) {
		high = b.left() - need()
	}
	st := boldStyle(body)
	b.k().text(b.area.Min.X, b.area.Min.Y+b.f.CapHeight(st), say.F("The back, after rolling the panel over: %s stays at the left, %s comes to the top", v.names.left.The, v.names.front.The), st)
	b.area.Min.Y += lineH
	b.drawPanel(v, high, true)
	b.paragraphs(text)
}

// drawingHeight is what the drawing may take of the page: what the rest
// leaves, but no less than lets the strips hold their numbers; all of the page
// where the rest goes on to the next one anyway.
func (b *builder) drawingHeight(v *view, rest float64) float64 {
	all, floor := b.left(), b.floor(v)
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
	m        *model.Panel
	fin      *face.Panel // its strips on their boards as planed
	names    names
	numbers  []string
	sap      []sapRead // of each strip, as jointed
	finished []float64 // widths after trimming, as printed
	crowded  bool      // its drawing had no room for the widths along the strips' edges
}

func (b *builder) viewOf(p *Panel, m *model.Panel) *view {
	v := &view{Panel: p, m: m, fin: p.finished(), names: namesOf(m.Role)}
	for i := range p.Panel.Strips {
		v.numbers = append(v.numbers, b.in.number(p.Panel.ID, p.Panel.Strips[i].ID))
		v.sap = append(v.sap, readSap(&v.fin.Strips[i]))
	}
	v.finished = finishedWidths(p.Panel, b.say)
	return v
}

func (b *builder) panelHeader(v *view) header {
	p := v.Panel.Panel
	h := header{title: say.F("Panel %s", p.ID), boxes: []string{say.T("MC %"), say.T("RH %")}}
	h.facts = append(h.facts, say.F("Finished %s", b.say.size(p.Length, p.Width, p.Thickness)))
	if n := len(p.Strips); n > 0 {
		l, w := gluedSize(p, b.say)
		rough := say.F("glued up %s", b.say.size(l, w, p.Thickness+b.in.Project.Allowances.AfterGlue))
		h.facts = append(h.facts, rough, say.Count(n, say.T("strip"), say.T("strips")))
	}
	ids, species := sources(p)
	if len(ids) > 0 {
		h.facts = append(h.facts, say.F("from %s", boards(ids)), strings.Join(speciesNames(species), ", "))
		h.facts = append(h.facts, say.F("sapwood on the show face %s", b.shareText(v.Reading.Show.Light)))
	}
	for e, side := range v.m.Role.Sides() {
		if text := session.ProfileWords(v.m, v.Reading, e, b.say.len); text != "" {
			h.facts = append(h.facts, side.Name+": "+text)
		}
	}
	for _, set := range b.in.Project.Sets {
		if slices.Contains(set.Panels, p.ID) {
			others := slices.DeleteFunc(slices.Clone(set.Panels), func(id string) bool { return id == p.ID })
			h.facts = append(h.facts, say.F("seen together with %s (%s)", say.List(others), set.Name))
		}
	}
	if b.say.sys == unit.Inch {
		return withFact(h, say.T("lengths in inches"))
	}
	return withFact(h, say.T("lengths in mm"))
}

func withFact(h header, s string) header {
	h.facts = append(h.facts, s)
	return h
}

// shareText writes a share, with its range where not all is seen.
func (b *builder) shareText(s face.Share) string {
	if s.Lo != s.Hi {
		return say.F("%s to %s", unit.FormatPercent(s.Lo), unit.FormatPercent(s.Hi))
	}
	return unit.FormatPercent(s.Value)
}

// gluedSize is the panel before trimming, its width the sum of the strips'
// widths as they are printed.
func gluedSize(p *face.Panel, in words) (l, w float64) {
	lo, hi := p.Length, 0.0
	for i := range p.Strips {
		r := gluedRect(p, i)
		lo, hi = min(lo, r.Min.X), max(hi, r.Max.X)
		w += in.round(p.Strips[i].W)
	}
	return hi - lo, w
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
		return say.F("board %s", ids[0])
	}
	return say.F("boards %s and %s", strings.Join(ids[:len(ids)-1], ", "), ids[len(ids)-1])
}

// tables are the strips and joints of a panel in rows.
func (v *view) tables(b *builder) []*table {
	p := v.Panel.Panel
	if len(p.Strips) == 0 {
		return nil
	}
	n := v.names
	name, saw := say.F("Strips, from %s", n.front.The), say.T("Saw")
	one := v.oneLength(b.say)
	if one {
		s, f := &p.Strips[0], b.say
		bl, _ := blankSize(b.in.Project.Allowances, s)
		fl, _ := finishedSize(p, 0)
		name += say.F(": saw %s long, joint to %s, finished %s", f.bare(bl), f.bare(s.L), f.bare(fl))
		saw = say.T("Saw|width")
	}
	st := &table{
		name: name,
		head: []string{say.T("Strip"), say.T("Side up"), say.T("Marked|end"), say.T("Planes"), saw, say.T("Joint to"), say.T("Finished"), say.T("Nicks"),
			say.F("Sapwood, face up|%s", n.front.Name), n.back.Name, say.F("Sapwood, face down|%s", n.front.Name), n.back.Name},
		left: []bool{true, true, false, false, false, false, false, false, false, false, false, false},
	}
	nicks := false
	for i := range p.Strips {
		st.rows = append(st.rows, v.stripRow(b, i, one))
		nicks = nicks || b.nicks[&p.Strips[i]] > 0
	}
	if !nicks {
		st.drop(7)
	}
	out := []*table{st}
	jt := &table{
		name: say.F("Joints, from %s", n.front.The),
		head: []string{say.T("Joint"), say.T("Kind"), say.T("Edge|face in"), say.T("Edge|face out"), say.T("Differs|along")},
	}
	for _, j := range v.Reading.Joints {
		jt.rows = append(jt.rows, v.jointRow(j))
	}
	if len(jt.rows) > 0 {
		out = append(out, jt)
	}
	return out
}

// oneLength reports whether all strips are of one length, as printed.
func (v *view) oneLength(in words) bool {
	p := v.Panel.Panel
	f0, _ := finishedSize(p, 0)
	for i := range p.Strips {
		f, _ := finishedSize(p, i)
		if in.bare(p.Strips[i].L) != in.bare(p.Strips[0].L) || in.bare(f) != in.bare(f0) {
			return false
		}
	}
	return true
}

// stripRow is one row of the strips' table, with widths alone where all are of
// one length.
func (v *view) stripRow(b *builder, i int, one bool) []string {
	p := v.Panel.Panel
	s := &p.Strips[i]
	bl, bw := blankSize(b.in.Project.Allowances, s)
	fl, _ := finishedSize(p, i)
	saw, joint, fin := b.say.cell(bl, bw), b.say.cell(s.L, s.W), b.say.cell(fl, v.finished[i])
	if one {
		saw, joint, fin = b.say.bare(bw), b.say.bare(s.W), b.say.bare(v.finished[i])
	}
	row := []string{v.numbers[i], say.T("empty place"), "–", "–", saw, joint, fin, "–", "–", "–", "–", "–"}
	if s.Board == nil {
		return row
	}
	row[1], row[2] = side(s), v.names.left.Word
	if s.Turned {
		row[2] = v.names.right.Word
	}
	row[3] = planesText(s, v.names)
	row[7] = nickText(b.nicks[s])
	r := &v.sap[i]
	row[8], row[9], row[10], row[11] = b.say.three(r.front), b.say.three(r.rear), b.say.three(r.belowFront), b.say.three(r.belowRear)
	return row
}

func (v *view) jointRow(j face.Joint) []string {
	a, c := v.numbers[j.I], v.numbers[j.I+1]
	if j.Kind == face.Unjudged {
		return []string{fmt.Sprint(j.I + 1), jointKind(j.Kind), a, c, "–"}
	}
	return []string{fmt.Sprint(j.I + 1), jointKind(j.Kind), a, c, unit.FormatPercent(j.Mismatch)}
}

// jointKind names what meets at a joint.
func jointKind(k face.JointKind) string {
	switch k {
	case face.Unjudged:
		return say.T("open")
	case face.HeartHeart:
		return say.T("heart-heart")
	case face.SapSap:
		return say.T("sap-sap")
	case face.SapHeart:
		return say.T("sap-heart")
	}
	return string(k)
}
