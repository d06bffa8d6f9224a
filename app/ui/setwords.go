package ui

import (
	"math"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// setWayWords says how the panels of a set stand.
func setWayWords(w model.SetWay) string {
	if w == model.Along {
		return say.T("End to end along the grain, as fronts in a row")
	}
	return say.T("Beside each other across the grain, as doors")
}

// setMatchWords says how the grain of a set is to go on.
func setMatchWords(m model.SetMatch) string {
	switch m {
	case model.MatchMirrored:
		return say.T("mirrored")
	case model.MatchSlipped:
		return say.T("slipped (repeated)")
	case model.MatchInOrder:
		return say.T("in order from one board")
	}
	return say.T("as it comes")
}

// setText is a set in one line.
func (w *Window) setText(s model.Set) string {
	way := say.T("beside each other")
	if s.Way == model.Along {
		way = say.T("end to end")
	}
	text := say.F("%s, %s, %s apart", sentence(say.List(s.Panels)), way, w.ses.Len(s.Gap))
	if s.Match != model.MatchNone {
		text += say.F(", grain %s", setMatchWords(s.Match))
	}
	return text + "."
}

// setLine says with which panels one is seen.
func setLine(panel string, s model.Set) string {
	var others []string
	for _, id := range s.Panels {
		if id != panel {
			others = append(others, id)
		}
	}
	return say.F("Seen together with %s: %s", say.List(others), s.Name)
}

// setRows are the figures of a set.
func (w *Window) setRows(r session.SetReading) []figure {
	if r.Placed == 0 {
		return nil
	}
	rows := []figure{
		{name: say.T("Sapwood of all"), show: shareText(r.Light)},
		{name: say.T("Contrast coverage of all"), show: session.Percent(r.Coverage)},
		{name: say.T("Balance, off the middle"), show: w.balanceText(r)},
	}
	if len(r.Gaps) > 0 {
		rows = append(rows, figure{name: say.T("Sap lines at the gap"), show: say.T("apart, at most"), head: true})
	}
	for i := range r.Gaps {
		g := &r.Gaps[i]
		f := figure{name: say.F("%s to %s", g.First, g.Second), show: say.T("none go on")}
		if n := len(g.Borders) - g.Ending; n > 0 {
			f.show = w.ses.Len(g.Mean) + ", " + w.ses.Len(g.Greatest)
		}
		rows = append(rows, f)
		if g.Ending > 0 {
			rows = append(rows, figure{name: say.F("%s at this gap", say.Count(g.Ending, say.T("sap line ends"), say.T("sap lines end"))), quiet: true})
		}
		switch r.Set.Match {
		case model.MatchMirrored:
			rows = append(rows, figure{name: say.T("Off the mirror image"), show: w.ses.Len(g.Mirrored)})
		case model.MatchSlipped:
			rows = append(rows, figure{name: say.T("Off the same again"), show: w.ses.Len(g.Slipped)})
		}
		if g.Mismatch >= 0.005 {
			rows = append(rows, figure{name: say.T("Sapwood meets heartwood"), show: session.Percent(g.Mismatch)})
		}
	}
	if r.Apart != "" {
		rows = append(rows, figure{name: say.F("Judged apart: %s", r.Apart), quiet: true})
	}
	return rows
}

// balanceText says how far the balance point lies off the middle, and to which
// side.
func (w *Window) balanceText(r session.SetReading) string {
	if math.Abs(r.Balance) < 0.005 {
		return say.T("even")
	}
	to := r.Set.Panels[0]
	if r.Balance > 0 {
		to = r.Set.Panels[len(r.Set.Panels)-1]
	}
	if n := w.ses.Project().Panel(r.Set.Panels[0]); n != nil && r.Set.Way == model.Along {
		sides := n.Role.Sides()
		to = sides[0].Word
		if r.Balance > 0 {
			to = sides[1].Word
		}
	}
	return say.F("%s to %s", session.Percent(math.Abs(r.Balance)), to)
}
