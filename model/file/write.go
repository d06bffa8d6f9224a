package file

import (
	"cmp"
	"strconv"

	"heartside/model"
)

// Marshal returns the text of a project's file. Lengths are trimmed to
// 0.001 mm, shares, angles and prices to six decimals; where a project would
// break a rule by that (a region thinner than that, say), every digit is
// kept. Equal projects give equal text.
func Marshal(p *model.Project) []byte {
	e := &emitter{}
	e.project(p)
	text := []byte(e.b.String())
	if _, _, err := Read(text, ""); err != nil {
		e = &emitter{exact: true}
		e.project(p)
		text = []byte(e.b.String())
	}
	return text
}

// Exact is Marshal with every digit kept: reading it gives the same project
// again.
func Exact(p *model.Project) []byte {
	e := &emitter{exact: true}
	e.project(p)
	return []byte(e.b.String())
}

func (e *emitter) project(p *model.Project) {
	e.line(0, "heartside: %d", Version)
	e.line(0, "name: %s", word(p.Name))
	units := string(p.Units)
	if units == "" {
		units = "mm"
	}
	e.line(0, "units: %s", word(units))
	if p.Currency != "" {
		e.line(0, "currency: %s", word(p.Currency))
	}
	air := func(a model.Air) string {
		pairs := []string{"rh", e.mm(a.RH), "temp", e.mm(a.Temp)}
		if a.MC != 0 {
			pairs = append(pairs, "mc", e.mm(a.MC))
		}
		return flow(pairs...)
	}
	e.line(0, "climate: %s", flow("now", air(p.Climate.Now), "dry", air(p.Climate.Dry), "wet", air(p.Climate.Wet)))
	limits := []string{"streak", e.fine(p.Limits.Streak), "mix", "[" + e.fine(p.Limits.Mix[0]) + ", " + e.fine(p.Limits.Mix[1]) + "]"}
	if p.Limits.Cup != 0 {
		limits = append(limits, "cup", e.mm(p.Limits.Cup))
	}
	if p.Limits.Apart != 0 {
		limits = append(limits, "apart", e.mm(p.Limits.Apart))
	}
	if p.Limits.Planed != 0 {
		limits = append(limits, "planed", e.mm(p.Limits.Planed))
	}
	if p.Limits.Turns != 0 {
		limits = append(limits, "turns", strconv.Itoa(p.Limits.Turns))
	}
	e.line(0, "limits: %s", flow(limits...))
	a, m := p.Allowances, p.Machines
	e.line(0, "allowances: %s", flow("kerf", e.mm(a.Kerf), "rest", e.mm(a.Rest), "joint", e.mm(a.Joint), "ends", e.mm(a.Ends),
		"panel-edge", e.mm(a.PanelEdge), "after-glue", e.mm(a.AfterGlue), "snipe", e.mm(a.Snipe), "flaw-margin", e.mm(a.FlawMargin)))
	e.line(0, "machines: %s", flow("flatten", e.mm(m.Flatten), "thickness", e.mm(m.Thickness),
		"shortest", e.mm(m.Shortest), "narrowest", e.mm(m.Narrowest)))
	if b := p.Behaviour; b != model.DefaultBehaviour() && b != (model.Behaviour{}) {
		e.line(0, "behaviour: %s", flow("sap-factor", e.fine(b.SapFactor), "face-difference", e.fine(b.FaceDifference)))
	}
	if e.head(0, "boards", len(p.Boards)) {
		for _, b := range p.Boards {
			e.board(b)
		}
	}
	if e.head(0, "panels", len(p.Panels)) {
		for _, n := range p.Panels {
			e.panel(n)
		}
	}
	e.sets(p.Sets)
	e.parts(p.Parts)
	e.strips(0, "spares", p.Spares)
	if e.head(0, "joined", len(p.Joined)) {
		for _, j := range p.Joined {
			pairs := []string{"panels", pair(j.Panels), "how", word(j.How)}
			if j.Edges != [2]string{} {
				pairs = append(pairs, "edges", pair(j.Edges))
			}
			e.line(2, "- %s", flow(pairs...))
		}
	}
	if e.head(0, "kept", len(p.Kept)) {
		for _, k := range p.Kept {
			e.line(2, "- panel: %s", word(k.Panel))
			e.line(4, "name: %s", word(k.Name))
			e.strips(4, "strips", k.Strips)
		}
	}
	if len(p.Colours) > 0 {
		e.head(0, "colours", len(p.Colours))
		for _, c := range p.Colours {
			pairs := []string{"species", word(c.Species), "years", e.mm(c.Years)}
			if c.Heart != nil {
				pairs = append(pairs, "heart", e.mms(c.Heart.L, c.Heart.A, c.Heart.B))
			}
			if c.Sap != nil {
				pairs = append(pairs, "sap", e.mms(c.Sap.L, c.Sap.A, c.Sap.B))
			}
			e.line(2, "- %s", flow(pairs...))
		}
	}
	e.record(p.Record)
	e.yard(p.Yard)
	e.clear(p.Clear)
	for i, k := range p.Printed {
		if i == 0 {
			e.line(0, "printed:")
		}
		pairs := []string{"page", word(k.Page)}
		if k.Of != "" {
			pairs = append(pairs, "of", word(k.Of))
		}
		if k.Part != 0 {
			pairs = append(pairs, "part", strconv.Itoa(k.Part))
		}
		if k.Paper != "" {
			pairs = append(pairs, "paper", word(k.Paper))
		}
		if k.Sheet != "" {
			pairs = append(pairs, "sheet", word(k.Sheet))
		}
		e.line(2, "- %s", flow(append(pairs, "mark", word(k.Mark))...))
	}
}

// head begins a list of n entries and reports whether any follow.
func (e *emitter) head(indent int, key string, n int) bool {
	if n == 0 {
		e.line(indent, "%s: []", key)
		return false
	}
	e.line(indent, "%s:", key)
	return true
}

func pair(p [2]string) string { return "[" + word(p[0]) + ", " + word(p[1]) + "]" }

func (e *emitter) panel(n *model.Panel) {
	e.line(2, "- id: %s", word(n.ID))
	e.line(4, "role: %s", cmp.Or(string(n.Role), "other"))
	e.line(4, "length: %s", e.mm(n.Length))
	e.line(4, "width: %s", e.mm(n.Width))
	e.line(4, "thickness: %s", e.mm(n.Thickness))
	e.line(4, "shape: %s", cmp.Or(string(n.Shape), "rectangle"))
	if len(n.Points) > 0 {
		e.line(4, "points: %s", e.points(n.Points, 6, 12))
	}
	if len(n.Hidden) > 0 {
		e.line(4, "hidden:")
		for _, h := range n.Hidden {
			e.line(6, "- %s", e.points(h, 8, 8))
		}
	}
	show := "face"
	if n.BothShow {
		show = "both"
	}
	e.line(4, "show: %s", show)
	e.line(4, "look: %s", cmp.Or(string(n.Look), "as-laid"))
	if n.Rings != model.RingsAny {
		e.line(4, "rings: %s", n.Rings)
	}
	if n.Wanted != model.WantDefault {
		e.line(4, "wanted: %s", n.Wanted)
	}
	e.line(4, "unwanted-limit: %s", flow("face", e.fine(n.UnwantedLimit[0]), "back", e.fine(n.UnwantedLimit[1])))
	if n.FrontNamed {
		e.line(4, "front-named: true")
	}
	e.fitting(n)
	e.strips(4, "strips", n.Strips)
}

// fitting writes how a panel is built in and how its edges are worked.
func (e *emitter) fitting(n *model.Panel) {
	if f := n.Fitting; f != nil {
		pairs := []string{"held", cmp.Or(string(f.Held), "free"), "line", cmp.Or(string(f.Line), "middle")}
		if len(f.Rows) > 0 {
			pairs = append(pairs, "rows", e.mms(f.Rows...))
		}
		if f.Groove != 0 {
			pairs = append(pairs, "groove", e.mm(f.Groove))
		}
		e.line(4, "fitting: %s", flow(pairs...))
	}
	if !n.Profiles.Any() {
		return
	}
	var pairs []string
	for i, name := range [4]string{"front", "back", "left", "right"} {
		if p := n.Profiles[i]; p != (model.Profile{}) {
			pairs = append(pairs, name, flow("kind", string(p.Kind), "across", e.mm(p.Across), "down", e.mm(p.Down)))
		}
	}
	e.line(4, "profiles: %s", flow(pairs...))
}

func (e *emitter) strips(indent int, key string, list []model.Strip) {
	if !e.head(indent, key, len(list)) {
		return
	}
	for _, s := range list {
		e.line(indent+2, "- %s", e.strip(s))
	}
}

func (e *emitter) strip(s model.Strip) string {
	pairs := []string{"id", word(s.ID)}
	place := s.Board != "" || !isZero(s.X, s.Y, s.Angle)
	if s.Board != "" {
		pairs = append(pairs, "board", word(s.Board))
	}
	if place {
		pairs = append(pairs, "x", e.mm(s.X), "y", e.mm(s.Y))
	}
	pairs = append(pairs, "length", e.mm(s.L), "width", e.mm(s.W))
	if place {
		pairs = append(pairs, "angle", e.fine(s.Angle))
	}
	pairs = append(pairs, "up", strconv.Itoa(s.Up), "turned", strconv.FormatBool(s.Turned), "shift", e.mm(s.Shift),
		"pinned", strconv.FormatBool(s.Pinned), "stage", cmp.Or(string(s.Stage), "planned"))
	if s.Mark != "" {
		pairs = append(pairs, "mark", word(s.Mark))
	}
	if s.Row != "" {
		pairs = append(pairs, "row", word(s.Row))
	}
	if s.Off != nil {
		pairs = append(pairs, "off", flow("1", e.mm(s.Off[0]), "2", e.mm(s.Off[1])))
	}
	if m := s.Planed; m != nil {
		var planed []string
		if m.Face != 0 {
			planed = append(planed, "face", strconv.Itoa(m.Face))
		}
		pairs = append(pairs, "planed", flow(append(planed, "near", e.mms(m.Near[:]...), "far", e.mms(m.Far[:]...))...))
	}
	return flow(pairs...)
}
