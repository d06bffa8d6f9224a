package command

import "heartside/app/session"

type setJSON struct {
	Name     string    `json:"name"`
	Panels   []string  `json:"panels"`
	Together bool      `json:"judged_as_one"`
	Light    float64   `json:"light_share"`
	Unwanted float64   `json:"unwanted_share"`
	Coverage float64   `json:"contrast_coverage"`
	Balance  float64   `json:"balance"`
	Gaps     []gapJSON `json:"gaps"`
}

type gapJSON struct {
	Panels   [2]string `json:"panels"`
	Lines    int       `json:"sap_lines"`
	Ending   int       `json:"ending"`
	Mean     float64   `json:"mean_step_mm"`
	Greatest float64   `json:"greatest_step_mm"`
	Mismatch float64   `json:"mismatch"`
	Mirrored float64   `json:"off_mirrored_mm"`
	Slipped  float64   `json:"off_slipped_mm"`
}

func setReport(r session.SetReading) setJSON {
	out := setJSON{
		Name: r.Set.Name, Panels: r.Set.Panels, Together: r.Apart == "",
		Light: round(r.Light.Value, 6), Unwanted: round(r.Unwanted.Value, 6),
		Coverage: round(r.Coverage, 6), Balance: round(r.Balance, 6), Gaps: []gapJSON{},
	}
	for i := range r.Gaps {
		g := &r.Gaps[i]
		out.Gaps = append(out.Gaps, gapJSON{
			Panels: [2]string{g.First, g.Second}, Lines: len(g.Borders) - g.Ending, Ending: g.Ending,
			Mean: round(g.Mean, 3), Greatest: round(g.Greatest, 3), Mismatch: round(g.Mismatch, 6),
			Mirrored: round(g.Mirrored, 3), Slipped: round(g.Slipped, 3),
		})
	}
	return out
}

// set writes what is read of panels that are seen together.
func (w *lines) set(s *session.Session, r setJSON) {
	w.printf("\n%s, seen together: ", r.Name)
	for i, id := range r.Panels {
		if i > 0 {
			w.printf(", ")
		}
		w.printf("%s", id)
	}
	w.printf("\n  %s light, contrast coverage %s, balance point %s of the width off the middle\n", share(r.Light), share(r.Coverage), share(abs(r.Balance)))
	for _, g := range r.Gaps {
		w.printf("  from %s to %s: ", g.Panels[0], g.Panels[1])
		if g.Lines == 0 {
			w.printf("no sap lines go on")
		} else {
			w.printf("%s %s apart on the mean, %s at most", count(g.Lines, "sap line"), s.Len(g.Mean), s.Len(g.Greatest))
		}
		if g.Ending > 0 {
			w.printf(", %d end there", g.Ending)
		}
		w.printf("\n")
	}
}

func abs(v float64) float64 { return max(v, -v) }
