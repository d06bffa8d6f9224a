package session

import (
	"context"

	"heartside/app/intake"
	"heartside/layout/buy"
	"heartside/model"
	"heartside/model/say"
)

// MostPictures is how many photographs a board on offer is measured by: one of
// each face.
const MostPictures = 2

// MeasureOffer prepares to measure the sapwood of a board on offer in photographs
// of face 1 and of face 2, by the names the project is to know them by. What it
// returns may run on another goroutine: it gives the board with the faces that
// were read, and what the maker should look at.
func (s *Session) MeasureOffer(o Offer, names []string) (func(context.Context) (Offer, []string, error), error) {
	switch {
	case !(o.Length > 0 && o.Width > 0):
		return nil, say.Errorf("length and width of the board give the photographs their scale: write them first")
	case len(names) == 0 || len(names) > MostPictures:
		return nil, say.Errorf("choose one photograph of face 1, and one of face 2 where there is one; these are %d", len(names))
	}
	read := s.readFunc()
	return func(ctx context.Context) (Offer, []string, error) {
		var doubts []string
		b := model.NewBoard(o.ID, "", o.Length, o.Width, o.Thickness)
		for f, name := range names {
			job := intake.Job{Place: intake.Place{Board: o.ID, Part: intake.Part(f + 1)}, Name: name, Length: o.Length, Width: o.Width}
			got, err := read(ctx, job, func(intake.Step) {})
			if err != nil {
				return o, nil, say.Errorf("face %d, %s: %w", f+1, name, err)
			}
			b.Faces[f] = got.Face(model.Face{}, name)
			o.Faces[f], o.Unseen[f] = b.Faces[f], false
			marked, other := model.FaceTape(b, f+1)
			o.Sap[f] = [2]buy.Widths{buy.Widths(marked), buy.Widths(other)}
			for _, d := range got.Doubts {
				doubts = append(doubts, say.F("face %d: %s", f+1, d))
			}
		}
		return o, doubts, nil
	}, nil
}
