package session

import (
	"context"
	"errors"
	"strings"
	"testing"

	"heartside/app/intake"
	"heartside/layout/buy"
	"heartside/model"
)

// A reading of a board of 1000 x 200 whose sap runs 10, 20, 30 wide along y = 0 of
// the face: the marked edge on face 1, the other edge on face 2.
func TestOfferMeasuredInPhotographs(t *testing.T) {
	var asked []intake.Job
	s := New(model.NewProject(), Options{Read: func(_ context.Context, j intake.Job, _ func(intake.Step)) (*intake.Reading, error) {
		asked = append(asked, j)
		if j.Name == "bad.jpg" {
			return nil, errors.New("it is cut short")
		}
		return &intake.Reading{Zones: model.ZonesFromTape(1000, 200, model.Tape{10, 20, 30}, model.Tape{}), Base: model.Heart, Doubts: []string{"a corner is not sure"}}, nil
	}})
	t.Cleanup(s.Close)
	o := Offer{ID: "A", Length: 1000, Width: 200, Unseen: [2]bool{true, true}}
	if _, err := s.MeasureOffer(Offer{ID: "A"}, []string{"a.jpg"}); err == nil {
		t.Error("without a size: no error")
	}
	if _, err := s.MeasureOffer(o, []string{"a", "b", "c"}); err == nil || !strings.Contains(err.Error(), "these are 3") {
		t.Error(err)
	}
	read, err := s.MeasureOffer(o, []string{"a1.jpg", "a2.jpg"})
	if err != nil {
		t.Fatal(err)
	}
	got, doubts, err := read(context.Background())
	if err != nil || len(doubts) != 2 || !strings.HasPrefix(doubts[1], "face 2: ") {
		t.Fatal(doubts, err)
	}
	if len(asked) != 2 || asked[1].Length != 1000 || asked[1].Width != 200 || asked[1].Place.Part != intake.Face2 {
		t.Errorf("%+v", asked)
	}
	wide := buy.Widths{10, 20, 30}
	if got.Sap[0] != [2]buy.Widths{wide, {}} || got.Sap[1] != [2]buy.Widths{{}, wide} || got.Unseen != [2]bool{} || got.Faces[1].Photo != "a2.jpg" {
		t.Errorf("%+v", got)
	}
	read, _ = s.MeasureOffer(o, []string{"bad.jpg"})
	if _, _, err := read(context.Background()); err == nil || !strings.Contains(err.Error(), "face 1, bad.jpg: it is cut short") {
		t.Error(err)
	}
}
