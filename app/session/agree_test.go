package session

import (
	"image"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"heartside/app/intake"
	"heartside/layout/layouttest"
	"heartside/layout/photo"
	"heartside/layout/wood"
	"heartside/model"
)

// trueFace draws the zones of a face of a modelled board from its true mask.
func trueFace(t *testing.T, name string, length, width float64) model.Face {
	t.Helper()
	r, err := os.Open(filepath.Join(layouttest.Root(t), "testdata", "boards", name))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	img, _, err := image.Decode(r)
	if err != nil {
		t.Fatal(err)
	}
	m := photo.NewMask(length, width, 1)
	for k := range m.Pix {
		m.Pix[k] = photo.Label(img.(*image.Gray).GrayAt(k%m.W, k/m.W).Y)
	}
	zones, base, err := intake.ZonesOf(m)
	if err != nil {
		t.Fatal(err)
	}
	return model.Face{Known: true, Base: base, Zones: zones}
}

// agreeing is c01-walnut-L1, by its true masks: sapwood along one edge on both
// faces, wavy along the board.
func agreeing(t *testing.T) *Session {
	t.Helper()
	b := model.NewBoard("C", "walnut-black", 835, 237, 30)
	b.Faces = [2]model.Face{trueFace(t, "c01-walnut-L1-1-mask.png", 835, 237), trueFace(t, "c01-walnut-L1-2-mask.png", 835, 237)}
	p, err := model.Apply(Blank(), model.AddBoard{Board: b})
	if err != nil {
		t.Fatal(err)
	}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	return s
}

func TestAgreementOfFaces(t *testing.T) {
	s := agreeing(t)
	a, ok := s.Agreement("C")
	if !ok || a.Fit.Verdict != wood.Fits {
		t.Fatalf("%v: %+v", ok, a.Fit)
	}
	e, err := s.TurnFace("C", 2)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Commit(e); err != nil {
		t.Fatal(err)
	}
	if a, _ = s.Agreement("C"); a.Fit.Verdict != wood.LooksTurned {
		t.Errorf("half a turn is called %v (%s)", a.Fit.Verdict, a.Fit.Why)
	}
	if e, err = s.TurnFace("C", 2); err != nil || s.Commit(e) != nil {
		t.Fatal("it cannot be turned back")
	}
	if a, _ = s.Agreement("C"); a.Fit.Verdict != wood.Fits {
		t.Errorf("turned back it is called %v", a.Fit.Verdict)
	}
}

func TestTakeLogKeepsToTheRules(t *testing.T) {
	s := agreeing(t)
	e, err := s.TakeLog("C")
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Commit(e); err != nil {
		t.Fatal(err)
	}
	b := s.Committed().Board("C")
	a, ok := s.Agreement("C")
	if !ok || len(b.Pith) != 1 || math.Abs(b.Pith[0].Across-a.Log.Across.Best) > 0.5 || b.Heart <= 0 || string(b.Bark) != string(a.Log.Bark) {
		t.Errorf("the board keeps pith %v, radius %g, bark %q", b.Pith, b.Heart, b.Bark)
	}
	if s.UndoLabel() != "Take the pith of board C from its faces" || !s.Undo() || len(s.Committed().Board("C").Pith) != 0 {
		t.Error("it is not taken back in one step")
	}
}

func TestAgreementWantsBothFaces(t *testing.T) {
	s := agreeing(t)
	f := s.Committed().Board("C").Faces[1]
	f.Photo, f.Split = "x.jpg", &model.Split{By: model.SplitOpen}
	if err := s.Commit(model.SetFace{Board: "C", Face: 2, Value: f}); err != nil {
		t.Fatal(err)
	}
	if _, ok := s.Agreement("C"); ok {
		t.Error("a face that waits to be split agrees")
	}
	if _, err := s.TakeLog("C"); err == nil {
		t.Error("a log is taken from one face")
	}
	if _, err := s.TurnFace("C", 3); err == nil {
		t.Error("a third face is turned")
	}
	if _, ok := s.Agreement("Z"); ok {
		t.Error("no board agrees")
	}
}
