package session

import (
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/model"
)

// panelReader keeps the live reading of one panel.
type panelReader struct {
	reader  face.Reader
	read    *face.Panel // what reading was made from
	reading *face.Reading
}

func (r *panelReader) of(p *face.Panel) *face.Reading {
	if r.read != p || r.reading == nil {
		r.reading = r.reader.Read(p)
		r.read = p
	}
	return r.reading
}

// Reading returns the live reading of a panel as it is on screen, nil where
// there is no such panel. It holds until the next change.
func (s *Session) Reading(panel string) *face.Reading {
	p := s.Panel(panel)
	if p == nil {
		return nil
	}
	r := s.readers[panel]
	if r == nil {
		r = &panelReader{}
		r.reader.Hold(s.preview != nil)
		s.readers[panel] = r
	}
	return r.of(p)
}

// BeforeReading returns the reading of a panel before the last change.
func (s *Session) BeforeReading(panel string) *face.Reading {
	p := s.BeforePanel(panel)
	if p == nil {
		return nil
	}
	r := s.before[panel]
	if r == nil {
		r = &panelReader{}
		s.before[panel] = r
	}
	return r.of(p)
}

// hold keeps the colour the wanted wood is measured by, and warnings near
// their limits, still while a gesture runs.
func (s *Session) hold(on bool) {
	for _, r := range s.readers {
		r.hold(on)
	}
	for _, r := range s.sets {
		r.read.hold(on)
	}
}

func (r *panelReader) hold(on bool) {
	r.reader.Hold(on)
	if !on {
		r.reading = nil
	}
}

// AllowancesOf returns allowances as the cutting rules take them.
func AllowancesOf(a model.Allowances) cutting.Allowances {
	return cutting.Allowances{
		Kerf: a.Kerf, Rest: a.Rest, Joint: a.Joint, Ends: a.Ends,
		FlawMargin: a.FlawMargin, Snipe: a.Snipe,
	}
}

func machinesOf(p *model.Project) cutting.Machines {
	m := p.Machines
	return cutting.Machines{
		Flatten: m.Flatten, Thickness: m.Thickness,
		Shortest: m.Shortest, Narrowest: m.Narrowest,
	}
}

// Allowances returns the project's allowances as the cutting rules take them.
func (s *Session) Allowances() cutting.Allowances { return AllowancesOf(s.Project().Allowances) }

// Machines returns the machine limits as the cutting rules take them.
func (s *Session) Machines() cutting.Machines { return machinesOf(s.Project()) }
