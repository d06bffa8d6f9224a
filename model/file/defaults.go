package file

import "heartside/model"

// What a file does not say.

func (p *projectV1) defaults() {
	c, l, a, m := model.DefaultClimate(), model.DefaultLimits(), model.DefaultAllowances(), model.DefaultMachines()
	p.Units = "mm"
	p.Climate = climateV1{airV1(c.Now), airV1(c.Dry), airV1(c.Wet)}
	p.Limits = limitsV1(l)
	p.Allowances = allowancesV1(a)
	p.Machines = machinesV1(m)
	p.Behaviour = behaviourV1(model.DefaultBehaviour())
}

func (p *panelV1) defaults() {
	p.Role, p.Shape, p.Look, p.Show = "other", "rectangle", "as-laid", "face"
	p.UnwantedLimit = sidesV1{1, 1}
}

func (f *fittingV1) defaults() { f.Held, f.Line = "free", "middle" }

func (s *stripV1) defaults() { s.Up, s.Stage = 1, "planned" }

func (s *setV1) defaults() {
	d := model.NewSet("")
	s.Gap, s.Way, s.Match = d.Gap, string(d.Way), string(d.Match)
}

func (p *partV1) defaults() { p.Kind, p.Count = "other", 1 }

func (p *partPlaceV1) defaults() { p.Stage = "planned" }
