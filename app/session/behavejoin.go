package session

import (
	"math"
	"strings"

	"heartside/layout/wood/movement"
	"heartside/model"
	"heartside/model/say"
)

// of is what the same project knows of another of its panels.
func (b *behaving) of(panel string) *behaving {
	return b.s.behaving(panel)
}

// joinedTo returns the panel that a pair joins to this one, and whether this one
// is of the pair.
func (b *behaving) joinedTo(j model.Joined) (other string, mine bool) {
	switch b.n.ID {
	case j.Panels[0]:
		return j.Panels[1], true
	case j.Panels[1]:
		return j.Panels[0], true
	}
	return "", false
}

// meeting compares the two panels of a pair.
func (b *behaving) meeting(j model.Joined) (*movement.Meeting, [2]*movement.Panel, error) {
	var members [2]movement.Member
	var panels [2]*movement.Panel
	for k, id := range j.Panels {
		o := b.of(id)
		if o == nil {
			return nil, panels, say.Errorf("there is no panel %s", id)
		}
		m, _, err := o.movement()
		if err != nil {
			return nil, panels, err
		}
		panels[k] = m
		members[k] = movement.Member{Name: id, Panel: m, Length: o.n.Length}
		side, named := o.n.Role.Side(j.Edges[k])
		members[k].Grain = named && side < 2 // an edge runs along the grain, an end across it
	}
	m, err := movement.Join(members[0], members[1], j.How != "free", movement.DefaultJoinLimits())
	return m, panels, err
}

// joinSection compares the panel with those it is joined to.
func (b *behaving) joinSection() (Section, bool) {
	out := Section{ID: "joined", Title: say.T("Joined to other panels")}
	for _, j := range b.p.Joined {
		other, mine := b.joinedTo(j)
		if !mine {
			continue
		}
		m, panels, err := b.meeting(j)
		if err != nil {
			out.Rows = append(out.Rows, Row{Name: say.Upper(other), Values: []string{""}, Head: true})
			out.Notes = append(out.Notes, say.Upper(other)+": "+err.Error()+".")
			continue
		}
		how := say.T("fixed")
		if j.How == "free" {
			how = say.T("free")
		}
		out.Rows = append(out.Rows,
			Row{Name: say.Upper(other) + ", " + how, Values: []string{say.T("driest"), say.T("dampest")}, Head: true},
			Row{Name: say.F("%s along the joint", m.A.Name), Values: []string{b.s.signed(m.Dry.A.Value), b.s.signed(m.Wet.A.Value)}},
			Row{Name: say.F("%s along the joint", m.B.Name), Values: []string{b.s.signed(m.Dry.B.Value), b.s.signed(m.Wet.B.Value)}},
			Row{Name: say.T("Part by"), Values: []string{b.s.Fine(m.Dry.Most), b.s.Fine(m.Wet.Most)}})
		out.Notes = append(out.Notes, say.F("%s and %s: %s Held fast, the wood must give %.2f %% of its width.", say.Upper(m.A.Name), m.B.Name, say.Of(m.Text), 100*m.Strain))
		if m.Class == movement.WillSplit && m.Held {
			out.Strong = true
		}
		if len(m.LetMove) > 0 && m.Class != movement.MovesAlike {
			out.Notes = append(out.Notes, say.F("What lets it move: %s.", saidOf(m.LetMove)))
		}
		out.Notes = append(out.Notes, b.why(m, panels)...)
		out.How = append(out.How, m.Working()...)
		if d, err := movement.Differ(panels[0], panels[1], m.Length); err == nil {
			out.How = append(out.How, d.Working()...)
		}
	}
	if len(out.Rows) == 0 {
		return out, false
	}
	return out, true
}

// why says what part of a difference sapwood and rings have.
func (b *behaving) why(m *movement.Meeting, panels [2]*movement.Panel) []string {
	if m.A.Grain != m.B.Grain {
		return nil
	}
	d, err := movement.Differ(panels[0], panels[1], m.Length)
	if err != nil {
		return nil
	}
	greater := func(e movement.Effect) float64 {
		if e.Dry*e.Dry > e.Wet*e.Wet {
			return e.Dry
		}
		return e.Wet
	}
	var out []string
	if apart := d.ShareA - d.ShareB; apart > 0.05 || apart < -0.05 {
		out = append(out, say.F("%s holds %s of sapwood, %s %s: that makes %s of the difference; were sapwood to move a tenth more than heartwood, %s.",
			say.Upper(m.A.Name), Percent(d.ShareA), m.B.Name, Percent(d.ShareB), b.s.Fine(math.Abs(greater(d.Sap))), b.s.Fine(math.Abs(greater(d.IfOneTenth)))))
	}
	if math.Abs(greater(d.Rings)) >= 0.1 {
		out = append(out, say.F("How the rings lie makes %s of it.", b.s.Fine(math.Abs(greater(d.Rings)))))
	}
	return out
}

// saidOf lists texts of the computations in the language in use.
func saidOf(list []string) string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = say.Of(x)
	}
	return strings.Join(out, "; ")
}
