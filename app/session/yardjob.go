package session

import (
	"fmt"
	"math"
	"slices"

	looks "heartside/layout/arrange/look"
	"heartside/layout/buy"
	"heartside/layout/cost"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// YardJob is what the boards of a yard are to make, ready to be looked through on
// a goroutine of its own.
type YardJob struct {
	Needs []string // what is to be made, in words
	Notes []string // what does not count, and why

	boards   []buy.Board
	needs    []buy.Need
	work     buy.Work
	sys      unit.System
	currency string
	rack     []string // of boards: those in the rack
	kept     []string // those that are bought in any case
	free     []string // those that may be bought
	names    map[string]string
	money    bool // least money counts; else, where a price is not known, least wood
	cost     map[string]float64
	known    bool // what the kept boards cost is known
}

// AtYard prepares to choose among the boards on offer for all panels and solid
// parts of the project. Boards in the rack count as paid, and likewise those that
// are kept in any case.
func (s *Session) AtYard(y *Yard) *YardJob {
	p := s.Project()
	j := &YardJob{sys: p.Units, currency: p.Currency, names: map[string]string{}, cost: map[string]float64{}, money: true, known: true,
		work: buy.Work{Allowances: AllowancesOf(p.Allowances), Machines: machinesOf(p), Plane: p.Allowances.AfterGlue}}
	wanted := y.Wanted
	if wanted == model.WantDefault {
		wanted = model.WantHeart
	}
	if !y.NoRack {
		s.rackAtYard(j, y, wantedOf(wanted))
	}
	for i := range y.Offers {
		o := &y.Offers[i]
		if o.Say == model.OfferLeave {
			continue
		}
		b := o.board()
		if o.pictured() { // a sap line that a tape would miss between its places
			b = rackBoard(o.model(y.Species, y.Wanted), wantedOf(wanted))
		}
		if _, twice := j.names[b.ID]; twice {
			j.Notes = append(j.Notes, say.F("There are two boards %s, one in the rack and one on offer: give one of them another letter, on the wood too.", o.ID))
			b.ID += say.T(" on offer")
		}
		j.names[b.ID] = o.ID
		v, ok := o.Cost()
		j.cost[b.ID] = v
		if o.Say == model.OfferKeep {
			j.kept = append(j.kept, b.ID)
			j.known = j.known && ok
		} else {
			j.free = append(j.free, b.ID)
			j.money = j.money && ok
			b.Price = v
		}
		j.boards = append(j.boards, b)
	}
	if !j.money {
		for i := range j.boards {
			b := &j.boards[i]
			if b.Price = 0; slices.Contains(j.free, b.ID) {
				b.Price = b.Length * b.Width * b.Thickness
			}
		}
	}
	for _, n := range p.Panels {
		if other := s.otherWood(lieOn(n.Strips, func(st model.Strip) string { return st.Board }), y.Species); other != "" {
			j.Notes = append(j.Notes, say.F("%s does not count: it lies on boards of another wood (%s).", n.ID, other))
			continue
		}
		j.panel(p, n, wanted)
	}
	for _, n := range p.Parts {
		if n.Kind == model.TestPiece {
			continue
		}
		if other := s.otherWood(lieOn(n.Places, func(k model.PartPlace) string { return k.Board }), y.Species); other != "" {
			j.Notes = append(j.Notes, say.F("%s does not count: it lies on boards of another wood (%s).", n.ID, other))
			continue
		}
		j.part(n, wanted)
	}
	return j
}

// rackAtYard lets the boards in the rack count, as paid.
func (s *Session) rackAtYard(j *YardJob, y *Yard, wanted face.Wanted) {
	var waney, flawed []string
	for _, b := range s.Project().Boards {
		switch {
		case b.Spoiled || y.Species != "" && b.Species != y.Species:
			continue
		case b.Waney():
			waney = append(waney, b.ID)
			continue
		}
		for f := range b.Faces {
			if slices.ContainsFunc(b.Faces[f].Zones, func(z model.Zone) bool { return z.Kind == model.Flaw }) && !slices.Contains(flawed, b.ID) {
				flawed = append(flawed, b.ID)
			}
		}
		rb := rackBoard(b, wanted)
		j.boards, j.rack = append(j.boards, rb), append(j.rack, b.ID)
		j.names[b.ID] = b.ID
	}
	if len(waney) > 0 {
		j.Notes = append(j.Notes, say.F("In the rack, %s with waney edges: not counted here.", boardsOfWords(waney)))
	}
	if len(flawed) > 0 {
		j.Notes = append(j.Notes, say.F("In the rack, %s with knots, splits or wane drawn in: these are not cut round here, so the wood may not go as far.", boardsOfWords(flawed)))
	}
}

// otherWood names the wood that all of some boards are of, where that is another;
// "" where it is not, or they are none.
func (s *Session) otherWood(boards []string, species string) string {
	other := ""
	for _, id := range boards {
		b := s.Project().Board(id)
		if b == nil || species == "" || b.Species == species {
			return ""
		}
		other = b.Species
	}
	return other
}

// panel adds a panel to what is needed.
func (j *YardJob) panel(p *model.Project, n *model.Panel, usual model.Wanted) {
	want := usual
	if n.Wanted != model.WantDefault || len(lieOn(n.Strips, func(st model.Strip) string { return st.Board })) > 0 {
		want = model.DefaultWanted(p, n)
		if want == model.WantDefault { // its boards want different wood: none is unwanted
			want = model.WantBoth
		}
	}
	d := buy.Need{ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness, PanelEdge: p.Allowances.PanelEdge,
		Wanted: wantedOf(want), Most: n.UnwantedLimit}
	// A look without any unwanted wood is a limit where none is given.
	if looks.Name(n.Look) == looks.HeartOnly {
		for f := range d.Most {
			if d.Most[f] == 1 && (f == 0 || n.BothShow) {
				d.Most[f] = 0
			}
		}
	}
	j.needs = append(j.needs, d)
	j.Needs = append(j.Needs, fmt.Sprintf("%s: %s × %s × %s%s", n.ID, j.len(n.Length), j.len(n.Width), j.len(n.Thickness), limitWords(&d)))
}

// limitWords tells how much unwanted wood may show.
func limitWords(d *buy.Need) string {
	wood := map[face.Wanted]string{face.WantHeart: say.T("sapwood"), face.WantSap: say.T("heartwood")}[d.Wanted]
	if wood == "" {
		return ""
	}
	var out []string
	for f, side := range [2]string{say.T("face"), say.T("back")} {
		switch m := d.Most[f]; {
		case m == 0:
			out = append(out, say.F("no %s on the %s", wood, side))
		case m < 1:
			out = append(out, say.F("at most %s %s on the %s", Percent(m), wood, side))
		}
	}
	if len(out) == 0 {
		return say.T(", any wood")
	}
	return ", " + say.List(out)
}

// part adds a solid part to what is needed, in layers where no board is as thick.
// Of solid parts the project gives no limit.
func (j *YardJob) part(n model.Part, usual model.Wanted) {
	var fb []*face.Board
	for i := range j.boards {
		fb = append(fb, &face.Board{Thickness: j.boards[i].Thickness})
	}
	layers := layersOf(n, fb)
	want := n.Wanted
	if want == model.WantDefault {
		want = usual
	}
	j.needs = append(j.needs, buy.Need{ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness / float64(layers),
		Count: n.Count * layers, Wanted: wantedOf(want), Most: [2]float64{1, 1}})
	text := say.F("%s: %d of %s × %s × %s", n.ID, n.Count, j.len(n.Length), j.len(n.Width), j.len(n.Thickness))
	if layers > 1 {
		text += say.F(", each of %d layers", layers)
	}
	j.Needs = append(j.Needs, say.F("%s, any wood", text))
}

func (j *YardJob) price(v float64) string { return unit.FormatMoney(v, j.currency) }

func (j *YardJob) len(mm float64) string { return unit.Format(mm, j.sys) }

// sum adds up what boards cost.
func (j *YardJob) sum(ids []string) float64 {
	v := 0.0
	for _, id := range ids {
		v += j.cost[id]
	}
	return v
}

func (j *YardJob) named(ids []string) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = j.names[id]
	}
	return out
}

// rackBoard is a board of the rack as a tape would have it, of what is left
// between the ends cut off. Where the sap line bulges between the places where a
// tape is laid, the widths are those that are on the safe side.
func rackBoard(b *model.Board, wanted face.Wanted) buy.Board {
	from, to := b.Left()
	out := buy.Board{ID: b.ID, Length: to - from, Width: b.Width, Thickness: b.Thickness}
	for f := range b.Faces {
		if out.Unseen[f] = !looked(&b.Faces[f]); out.Unseen[f] {
			continue
		}
		at := func(x float64) (w [2]float64) {
			near, far := model.TapeFromZones(2*x, b.Width, b.Faces[f].Base, b.Faces[f].Zones)
			w = [2]float64{near[1], far[1]}
			if f == 1 { // on face 2 the marked edge lies at the top
				w[0], w[1] = w[1], w[0]
			}
			return w
		}
		const inside, samples = 1e-3, 24
		x := func(i int) float64 {
			u := float64(i) / samples
			return math.Min(math.Max(from+u*(to-from), from+inside), to-inside)
		}
		var w [2]buy.Widths
		for k := range w[0] {
			v := at(x(k * samples / 2))
			w[0][k], w[1][k] = v[0], v[1]
		}
		var off [2]float64
		for i := range samples + 1 {
			v := at(x(i))
			for e := range w {
				u := 2 * float64(i) / samples
				k := min(int(u), 1)
				line := w[e][k] + (w[e][k+1]-w[e][k])*(u-float64(k))
				if wanted == face.WantSap {
					off[e] = math.Min(off[e], v[e]-line)
				} else {
					off[e] = math.Max(off[e], v[e]-line)
				}
			}
		}
		for e := range w {
			for k := range w[e] {
				out.Sap[f][e][k] = math.Max(0, math.Min(b.Width, w[e][k]+off[e]))
			}
		}
	}
	return out
}

// RateOf is a price per a unit that a project file knows.
func RateOf(amount float64, per string) *cost.Rate {
	return &cost.Rate{Amount: amount, Per: cost.Per(per)}
}
