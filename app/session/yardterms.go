package session

import (
	"fmt"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/terms"
	"heartside/model/say"
	"heartside/model/unit"
)

// TermsRow is how a board, or a strip of one, stands to the terms of an order.
type TermsRow struct {
	Name, Better, Other, Verdict string
	Keeps                        terms.Keeps
}

// TermsRead is how boards stand to the terms of an order, in words.
type TermsRead struct {
	Lead string
	Rows []TermsRow
}

// OrderTerms holds the boards of the rack, and boards on offer where some are
// given, against the terms of an order. After ripping, strips count in the place
// of boards, each as it is cut.
func (s *Session) OrderTerms(t terms.Terms, offers []Offer) (TermsRead, error) {
	v := s.view()
	var boards []*face.Board
	for _, b := range v.project.Boards {
		boards = append(boards, v.boards[b.ID])
	}
	if t.When != terms.AfterRipping {
		for i := range offers {
			b := offers[i].board()
			fb := b.AsTaped()
			if s.Project().Board(fb.ID) != nil {
				fb.ID += say.T(" on offer")
			}
			boards = append(boards, fb)
		}
	}
	var strips []face.Strip
	names := map[string]string{}
	for _, n := range v.project.Panels {
		for _, st := range laidOnBoards(v.panels[n.ID].Strips) {
			strips = append(strips, st)
			names[st.ID] = s.Number(n.ID, st.ID)
		}
	}
	strips = append(strips, laidOnBoards(v.beside())...)
	for i := range strips {
		if name, ok := cuttingName(v.project, strips[i].ID); ok {
			names[strips[i].ID] = name
		}
	}
	lot, err := terms.Rack(boards, strips, t)
	if err != nil {
		return TermsRead{}, err
	}
	out := TermsRead{Lead: termsLead(&lot, t, len(boards))}
	for i := range lot.Pieces {
		f := &lot.Pieces[i]
		r := TermsRow{Name: say.F("Board %s", f.ID), Keeps: f.Keeps}
		if t.When == terms.AfterRipping {
			name := names[f.ID]
			if name == "" {
				name = f.ID
			}
			r.Name = say.F("Strip %s of board %s", name, f.Board)
		}
		r.Better = say.F("%s (face %d)", shareWords(f, 0), f.Better)
		r.Other = shareWords(f, 1)
		r.Verdict = keepsWords(f, t, v.project.Units)
		out.Rows = append(out.Rows, r)
	}
	return out, nil
}

// tenths prints a share of the faces: whole per cents would call one kept that is
// not.
func tenths(share float64) string {
	return say.Decimal(strings.TrimSuffix(fmt.Sprintf("%.1f", 100*share), ".0"))
}

func shareWords(f *terms.Finding, k int) string {
	lo, hi := tenths(f.Lo[k]), tenths(f.Hi[k])
	switch {
	case lo == hi:
		return lo + " %"
	case f.Lo[k] == 0 && f.Hi[k] == 1:
		return say.T("not looked at")
	}
	return say.F("%s to %s %%", lo, hi)
}

func keepsWords(f *terms.Finding, t terms.Terms, sys unit.System) string {
	switch f.Keeps {
	case terms.Yes:
		return say.T("keeps")
	case terms.Unsure:
		return say.T("not certain: look at all of both faces")
	}
	other := say.T("sapwood")
	if t.Wood == face.Sap {
		other = say.T("heartwood")
	}
	var out []string
	for k, side := range [2]string{say.T("better face"), say.T("other face")} {
		if f.Short[k] > 0 {
			out = append(out, say.F("%s on the %s, by %s %% of it", unit.Format(f.WideBy[k], sys), side, tenths(f.Short[k])))
		}
	}
	if len(out) == 0 {
		return say.T("does not keep")
	}
	return say.F("does not keep: too much %s, %s", other, say.List(out))
}

func termsLead(lot *terms.Lot, t terms.Terms, boards int) string {
	what := say.T("boards as bought")
	if t.When == terms.AfterRipping {
		what = say.T("strips as ripped")
	}
	switch {
	case boards == 0:
		return say.T("There are no boards yet.")
	case len(lot.Pieces) == 0:
		return say.T("No strips lie on the boards yet: after ripping there is nothing to look at.")
	}
	kept := 0
	for _, f := range lot.Pieces {
		if f.Keeps == terms.Yes {
			kept++
		}
	}
	text := say.F("%d of %d %s keep %s for certain", kept, len(lot.Pieces), what, t)
	if t.By != terms.ByCount {
		text += say.F(": %s %% of their area", tenths(lot.Kept))
	}
	wanted := say.F("%s %% of the lot is asked for", tenths(lot.Wanted))
	if lot.Wanted == 1 {
		wanted = say.T("all of the lot is asked for")
	}
	verdict := map[terms.Keeps]string{terms.Yes: say.T("The order keeps its terms"), terms.No: say.T("The order does not keep its terms"), terms.Unsure: say.T("Whether the order keeps its terms is not certain")}[lot.Keeps]
	return fmt.Sprintf("%s: %s. %s.", verdict, wanted, text)
}

// TermsOf reads what is asked about the terms of an order: the seller's form, what
// it is of, and how much of the lot must keep it.
func TermsOf(form string, when terms.When, by terms.Count, of float64, sap bool) (terms.Terms, error) {
	t, err := terms.Parse(form)
	if err != nil {
		return t, err
	}
	if !slices.Contains([]terms.When{terms.BeforeRipping, terms.AfterRipping}, when) {
		return t, say.Errorf("say whether the per cent hold before or after ripping: they mean different things")
	}
	t.When, t.By, t.Of = when, by, of
	if sap {
		t.Wood = face.Sap
	}
	return t, nil
}
