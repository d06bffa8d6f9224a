package ui

import (
	"math"
	"strings"

	"heartside/app/session"
	"heartside/model"
)

// setWayWords says how the panels of a set stand.
func setWayWords(w model.SetWay) string {
	if w == model.Along {
		return "End to end along the grain, as fronts in a row"
	}
	return "Beside each other across the grain, as doors"
}

// setMatchWords says how the grain of a set is to go on.
func setMatchWords(m model.SetMatch) string {
	switch m {
	case model.MatchMirrored:
		return "mirrored"
	case model.MatchSlipped:
		return "slipped (repeated)"
	case model.MatchInOrder:
		return "in order from one board"
	}
	return "as it comes"
}

// setText is a set in one line.
func (w *Window) setText(s model.Set) string {
	way := "beside each other"
	if s.Way == model.Along {
		way = "end to end"
	}
	text := sentence(listed(s.Panels)) + ", " + way + ", " + w.ses.Len(s.Gap) + " apart"
	if s.Match != model.MatchNone {
		text += ", grain " + setMatchWords(s.Match)
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
	return "Seen together with " + listed(others) + ": " + s.Name
}

// setRows are the figures of a set.
func (w *Window) setRows(r session.SetReading) []figure {
	if r.Placed == 0 {
		return nil
	}
	rows := []figure{
		{name: "Sapwood of all", show: shareText(r.Light)},
		{name: "Contrast coverage of all", show: session.Percent(r.Coverage)},
		{name: "Balance, off the middle", show: w.balanceText(r)},
	}
	if len(r.Gaps) > 0 {
		rows = append(rows, figure{name: "Sap lines at the gap", show: "apart, at most", head: true})
	}
	for i := range r.Gaps {
		g := &r.Gaps[i]
		f := figure{name: g.First + " to " + g.Second, show: "none go on"}
		if n := len(g.Borders) - g.Ending; n > 0 {
			f.show = w.ses.Len(g.Mean) + ", " + w.ses.Len(g.Greatest)
		}
		rows = append(rows, f)
		if g.Ending > 0 {
			rows = append(rows, figure{name: count(g.Ending, "sap line ends", "sap lines end") + " at this gap", quiet: true})
		}
		switch r.Set.Match {
		case model.MatchMirrored:
			rows = append(rows, figure{name: "Off the mirror image", show: w.ses.Len(g.Mirrored)})
		case model.MatchSlipped:
			rows = append(rows, figure{name: "Off the same again", show: w.ses.Len(g.Slipped)})
		}
		if g.Mismatch >= 0.005 {
			rows = append(rows, figure{name: "Sapwood meets heartwood", show: session.Percent(g.Mismatch)})
		}
	}
	if r.Apart != "" {
		rows = append(rows, figure{name: "Judged apart: " + r.Apart, quiet: true})
	}
	return rows
}

// balanceText says how far the balance point lies off the middle, and to which
// side.
func (w *Window) balanceText(r session.SetReading) string {
	if math.Abs(r.Balance) < 0.005 {
		return "even"
	}
	to := r.Set.Panels[0]
	if r.Balance > 0 {
		to = r.Set.Panels[len(r.Set.Panels)-1]
	}
	if n := w.ses.Project().Panel(r.Set.Panels[0]); n != nil && r.Set.Way == model.Along {
		front, back, _, _ := n.Role.EdgeNames()
		to = front
		if r.Balance > 0 {
			to = strings.TrimSuffix(back, " edge")
		}
	}
	return session.Percent(math.Abs(r.Balance)) + " to " + to
}
