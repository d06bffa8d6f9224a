package ui

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
)

// aims are what a plan may be best at.
func aims() []stock.Objective {
	return []stock.Objective{stock.LeastWood, stock.LeastCost, stock.BestLook, stock.FewestJoints, stock.WholeBoards}
}

// canPlan reports whether there is anything to plan.
func (w *Window) canPlan() bool {
	p := w.ses.Project()
	return len(p.Panels)+len(p.Parts) > 0
}

// planForm is the dialog that asks what is planned, and to what end.
type planForm struct {
	w       *Window
	aim     *pick
	wood    *pick // nil where there is one species
	species []string
	panels  map[string]*tick
	parts   map[string]*tick // pieces that lie nowhere yet
	again   map[string]*tick // those that lie on boards
}

// planAsk asks which panels and parts are cut anew from the boards, and to what
// end. Plans found before are offered while nothing else has changed since.
func (w *Window) planAsk() {
	panels, parts := w.ses.Plannable(), w.ses.PartsToPlan()
	if len(panels)+len(parts) == 0 {
		w.say(say.T("Nothing can be planned: there is no panel or part, or what there is is pinned or sawn."))
		return
	}
	f := &planForm{w: w, panels: map[string]*tick{}, parts: map[string]*tick{}, again: map[string]*tick{}}
	f.aim = choice(w, aims(), session.AimWords, stock.LeastWood)
	asked := []fyne.CanvasObject{named(say.T("Best at")), f.aim}
	if f.species = speciesOf(w.ses.Project()); len(f.species) > 1 {
		first := f.species[0]
		f.species = append(f.species, "")
		f.wood = choice(w, f.species, func(id string) string {
			if id == "" {
				return say.T("Any")
			}
			return speciesName(id)
		}, first)
		asked = append(asked, named(say.T("Wood for what lies on no board yet")), f.wood)
	}
	body := container.NewVBox(pairs(asked...))
	f.addPanels(body, panels)
	f.addParts(body, parts)
	body.Add(wrapped(say.T("What is ticked is cut anew; everything else keeps its place, also strips that are pinned or sawn. Nothing changes before you choose a plan."), widget.LowImportance))
	q := question{title: say.T("Strips and parts from the boards"), yes: say.T("Plan"), body: body, focus: f.aim, size: fyne.NewSize(560, 520), do: f.plan}
	if old := w.plans; old != nil && old.current() && len(old.plans) > 0 {
		q.other, q.also = say.T("Plans found before"), func() { w.post(old.again) }
	}
	w.ask(q)
	w.trace.asking("plan")
}

// speciesOf lists the species of the boards that are sound, that of most boards
// first.
func speciesOf(p *model.Project) []string {
	many := map[string]int{}
	var out []string
	for _, b := range p.Boards {
		if b.Spoiled {
			continue
		}
		if many[b.Species]++; many[b.Species] == 1 {
			out = append(out, b.Species)
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(many[b], many[a]) })
	return out
}

func (f *planForm) addPanels(body *fyne.Container, ids []string) {
	if len(ids) == 0 {
		return
	}
	body.Add(bold(say.T("Panels")))
	shown := f.w.ses.Selected().Panel
	for _, id := range ids {
		n := f.w.ses.Project().Panel(id)
		f.panels[id] = newTick(f.w, headline(n), id == shown || f.open(n), nil)
		body.Add(f.panels[id])
	}
}

// open reports whether a strip of a panel lies on no board that is sound.
func (f *planForm) open(n *model.Panel) bool {
	for i := range n.Strips {
		if b := f.w.ses.Project().Board(n.Strips[i].Board); b == nil || b.Spoiled {
			return true
		}
	}
	return len(n.Strips) == 0
}

func (f *planForm) addParts(body *fyne.Container, list []session.PartToPlan) {
	if len(list) == 0 {
		return
	}
	body.Add(bold(say.T("Solid parts")))
	for _, x := range list {
		n, _ := f.w.ses.Project().Part(x.ID)
		size := f.w.ses.Len(n.Length) + " × " + f.w.ses.Len(n.Width) + " × " + f.w.ses.Len(n.Thickness)
		if x.Layers > 1 {
			size += say.F(", each glued up of %s", itoa(x.Layers))
		}
		if x.Missing > 0 {
			f.parts[x.ID] = newTick(f.w, say.F("%s: %s not laid yet, %s", title(x.ID), say.Count(x.Missing, say.T("piece"), say.T("pieces")), size), true, nil)
			body.Add(f.parts[x.ID])
		}
		if x.Lie > 0 {
			text := title(x.ID) + ": " + say.Count(x.Lie, say.T("piece that lies on a board, again"), say.T("pieces that lie on boards, again"))
			if x.Missing == 0 {
				text += ", " + size
			}
			f.again[x.ID] = newTick(f.w, text, false, nil)
			body.Add(f.again[x.ID])
		}
	}
}

// ticked lists the ids that are ticked, in the order of their names.
func ticked(list map[string]*tick) []string {
	var out []string
	for id, t := range list {
		if t.Checked {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

// plan begins to look for plans.
func (f *planForm) plan() error {
	wish := session.PlanWish{Aim: chosen(f.aim, aims()), Panels: ticked(f.panels), Parts: ticked(f.parts), Again: ticked(f.again)}
	if f.wood != nil {
		wish.Species = chosen(f.wood, f.species)
	}
	q, err := f.w.ses.Plan(wish)
	if err != nil {
		return err
	}
	f.w.post(func() { f.w.showPlans(q, wish) }) // once this dialog is gone
	return nil
}
