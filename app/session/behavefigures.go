package session

import (
	"heartside/layout/colour/ageing"
	"heartside/layout/wood/flatten"
)

// Figures are a panel's behaviour as numbers. What cannot be told is nil.
type Figures struct {
	Moisture *[3]float64 // of settled wood now, in the driest and the dampest season, per cent
	Movement *WidthFigures
	Cup      *CupFigures
	Weight   float64 // kg; 0 not known
	Joined   []JoinedFigures
	Ages     []AgeFigures
	CleanUp  []CleanFigures
}

// WidthFigures are the widths of a panel, mm; the ranges are what single
// boards may make of them.
type WidthFigures struct {
	Now, Dry, Wet      float64
	DryRange, WetRange [2]float64
}

// CupFigures are the bow of a panel that nothing holds, mm, positive where the
// show face is hollow. Dry and Wet carry the slope on from strip to strip; with
// glue lines that stay planes it is GluedDry and GluedWet.
type CupFigures struct{ Dry, Wet, GluedDry, GluedWet float64 }

// JoinedFigures are the difference in movement along a joint.
type JoinedFigures struct {
	Other    string
	Fixed    bool
	Dry, Wet float64 // mm
	Class    string  // alike, small or split
}

// AgeFigures are readings at an age.
type AgeFigures struct {
	Years       float64
	Contrast    float64 // of the show face, CIEDE2000; 0 where it holds one kind
	LoneStreaks int
	Basis       string // the weakest of the woods'
}

// CleanFigures are what is left of a strip's blank when it is flat, mm.
type CleanFigures struct {
	Strip                  string
	Sure, Likely, Straight float64
	CleansUp, MayCleanUp   bool
}

// Figures works out a panel's behaviour as numbers; ok is false where there is
// no such panel.
func (s *Session) Figures(panel string) (out Figures, ok bool) {
	b := s.behaving(panel)
	if b == nil {
		return out, false
	}
	if b.trouble == nil {
		out.Moisture = &[3]float64{b.span.Now.MC, b.span.Dry.MC, b.span.Wet.MC}
	}
	if m, _, err := b.movement(); err == nil {
		out.Movement = &WidthFigures{Now: m.Now, Dry: m.Dry.Value, Wet: m.Wet.Value,
			DryRange: [2]float64{m.Dry.Lo, m.Dry.Hi}, WetRange: [2]float64{m.Wet.Lo, m.Wet.Hi}}
	}
	if c, err := b.cups(); err == nil {
		l := c.Layups[0]
		out.Cup = &CupFigures{Dry: l.Dry.Smooth.Sagitta, Wet: l.Wet.Smooth.Sagitta, GluedDry: l.Dry.Glued.Sagitta, GluedWet: l.Wet.Glued.Sagitta}
	}
	if kg, _, err := b.weight(); err == nil {
		out.Weight = kg.Value
	}
	for _, j := range b.p.Joined {
		if j.Panels[0] != b.n.ID && j.Panels[1] != b.n.ID {
			continue
		}
		other := j.Panels[0]
		if other == b.n.ID {
			other = j.Panels[1]
		}
		if m, _, err := b.meeting(j); err == nil {
			out.Joined = append(out.Joined, JoinedFigures{Other: other, Fixed: j.How != "free", Dry: m.Dry.Most, Wet: m.Wet.Most, Class: string(m.Class)})
		}
	}
	out.Ages = b.ageFigures()
	for _, c := range b.cleanings() {
		l := c.answer.Left
		out.CleanUp = append(out.CleanUp, CleanFigures{Strip: c.strip.strip.ID, Sure: l.Sure, Likely: l.Likely, Straight: l.Straight,
			CleansUp: c.answer.Verdict == flatten.CleansUp, MayCleanUp: c.answer.Verdict != flatten.WillNot})
	}
	return out, true
}

func (b *behaving) ageFigures() []AgeFigures {
	if b.read.Placed == 0 {
		return nil
	}
	tones, err := b.tones()
	if err != nil {
		return nil
	}
	reads, err := b.agedReadings()
	if err != nil {
		return nil
	}
	var out []AgeFigures
	for i, r := range reads {
		a := AgeFigures{Years: ageYears[i], LoneStreaks: r.Show.Lone()}
		if r.Show.Contrast.Known {
			a.Contrast = r.Show.Contrast.DE
		}
		weakest := ageing.Measured
		for _, t := range tones {
			weakest = min(weakest, t.heart.Basis(), t.sap.Basis())
		}
		a.Basis = weakest.String()
		out = append(out, a)
	}
	return out
}
