package session

import (
	"fmt"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// setEdit lays all panels of a set as an answer does, in one step.
func (q *Search) setEdit(strips [][]face.Strip) model.Edit {
	known := map[string]model.Strip{}
	for _, id := range q.set.set.Panels {
		for _, st := range q.project.Panel(id).Strips {
			known[id+"/"+st.ID] = st
		}
	}
	e := model.SetPlan{Verb: say.F("Arrange %s", q.set.set.Name)}
	for k, id := range q.set.set.Panels {
		list := laid(known, strips[k])
		taken := map[string]bool{}
		for i := range list { // those that stay keep their ids
			if panelOfName(strips[k][i].ID) == id {
				taken[list[i].ID] = true
			}
		}
		for i := range list {
			if panelOfName(strips[k][i].ID) == id {
				continue
			}
			if taken[list[i].ID] {
				list[i].ID = freeIDIn(taken, list[i].ID)
			}
			taken[list[i].ID] = true
		}
		e.Panels = append(e.Panels, model.PlanPanel{Panel: id, Strips: list})
	}
	return e
}

// freeIDIn is an id like one that is taken.
func freeIDIn(taken map[string]bool, id string) string {
	for n := 2; ; n++ {
		if try := fmt.Sprintf("%s-%d", id, n); !taken[try] {
			return try
		}
	}
}

// setChange says what is done to lay the panels of a set so, "" where nothing is.
func (q *Search) setChange(now [][]face.Strip) string {
	f := q.set.req.Face
	type lies struct {
		panel, place int
		strip        face.Strip
	}
	was := map[string]lies{}
	for k := range f.Len() {
		for i, st := range f.Part(k).Strips {
			was[st.ID] = lies{k, i, st}
		}
	}
	over := map[string][]string{} // by the panel they go to
	var moved, rolled, turned []string
	for k := range now {
		for i := range now[k] {
			st := &now[k][i]
			o, ok := was[st.ID]
			switch {
			case !ok:
				continue
			case o.panel != k:
				to := q.set.set.Panels[k]
				over[to] = append(over[to], st.ID)
			case o.place != i:
				moved = append(moved, st.ID)
			}
			if st.UpFace() != o.strip.UpFace() {
				rolled = append(rolled, st.ID)
			}
			if st.Turned != o.strip.Turned {
				turned = append(turned, st.ID)
			}
		}
	}
	var out []string
	tell := func(list []string, what, after string) {
		switch n := len(list); {
		case n == 0:
		case n <= 3:
			out = append(out, what+" "+q.words.numbersOf(list)+after)
		default:
			out = append(out, say.F("%s %d strips%s", what, n, after))
		}
	}
	for _, id := range q.set.set.Panels {
		tell(over[id], say.T("bring"), say.F(" over to %s", id))
	}
	tell(moved, say.T("move"), "")
	tell(rolled, say.T("roll over"), "")
	tell(turned, say.T("turn end for end"), "")
	return strings.Join(out, "; ")
}

// KeptOfSet names the arrangements that are kept for every panel of a set, in
// the order of the first panel's.
func KeptOfSet(p *model.Project, set model.Set) (names []string) {
	has := func(panel, name string) bool {
		return slices.ContainsFunc(p.Kept, func(k model.Kept) bool { return k.Panel == panel && k.Name == name })
	}
	for _, k := range p.Kept {
		if len(set.Panels) > 0 && k.Panel == set.Panels[0] &&
			!slices.ContainsFunc(set.Panels, func(id string) bool { return !has(id, k.Name) }) {
			names = append(names, k.Name)
		}
	}
	return names
}

// UseKeptOfSet is the edit that lays all panels of a set as they were kept under
// a name, in one step.
func UseKeptOfSet(p *model.Project, set model.Set, name string) (model.Edit, error) {
	q, err := p, error(nil)
	for _, id := range set.Panels {
		if q, err = model.Apply(q, model.UseKept{Panel: id, Name: name}); err != nil {
			return nil, err
		}
	}
	e := model.SetPlan{Verb: say.F("Use arrangement %s", name), Spares: append([]model.Strip{}, q.Spares...)}
	for _, id := range set.Panels {
		e.Panels = append(e.Panels, model.PlanPanel{Panel: id, Strips: q.Panel(id).Strips})
	}
	return e, nil
}

// KeepSet keeps an arrangement of all panels of a set under a name; nil keeps
// how they lie now.
func KeepSet(set model.Set, name string, lay model.Edit) model.Edit {
	var out model.KeepAll
	plan, _ := lay.(model.SetPlan)
	for _, id := range set.Panels {
		k := model.Keep{Panel: id, Name: name}
		if i := slices.IndexFunc(plan.Panels, func(p model.PlanPanel) bool { return p.Panel == id }); i >= 0 {
			k.Strips = plan.Panels[i].Strips
		}
		out = append(out, k)
	}
	return out
}
