package intake

import (
	"context"
	"image"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/split"
)

// plain draws a face of one brown all over, with a little noise.
func plain() *photo.Squared {
	s := &photo.Squared{Pix: image.NewRGBA(image.Rect(0, 0, 400, 100)), PxPerMM: 1, Length: 400, Width: 100}
	r := rand.New(rand.NewPCG(7, 8))
	for k := 0; k < len(s.Pix.Pix); k += 4 {
		n := 3 * r.NormFloat64()
		for c, v := range [3]float64{190, 150, 110} {
			s.Pix.Pix[k+c] = uint8(math.Max(0, math.Min(255, v+n)))
		}
		s.Pix.Pix[k+3] = 255
	}
	return s
}

func asksWhich(e *Editor) bool { return slices.Contains(e.Result().Doubts, split.OneColour) }

// One picture of one colour cannot say whether it is all heart or all sap. The
// maker's word ends that doubt, also where no cell changes by it.
func TestEditorIsToldWhatAFaceOfOneColourIs(t *testing.T) {
	for _, c := range []struct {
		kind  photo.Label
		share float64
	}{{photo.Heart, 0}, {photo.Sap, 1}} {
		e, err := NewEditor(context.Background(), plain(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if !asksWhich(e) {
			t.Fatal("a face of one colour is not asked about")
		}
		if err := e.All(c.kind); err != nil {
			t.Fatal(err)
		}
		if asksWhich(e) || e.Result().Confidence != 1 || sapShare(e) != c.share || !e.Touched() {
			t.Errorf("all %s: asked still %v, %g sure, sapwood %g, touched %v", word(c.kind), asksWhich(e), e.Result().Confidence, sapShare(e), e.Touched())
		}
		if err := e.All(c.kind); err != nil || !e.Undo() || e.Touched() || !asksWhich(e) {
			t.Errorf("all %s, said twice and taken back once: %v, touched %v, asked %v", word(c.kind), err, e.Touched(), asksWhich(e))
		}
	}
	e := newEditor(t, nil)
	if e.All(photo.Flaw) == nil {
		t.Error("a whole face can be called a flaw")
	}
}

// What is suggested as not sure becomes so by one act: wood in the stretch,
// not its flaws, and nothing beyond it.
func TestEditorTakesWhatIsSuggested(t *testing.T) {
	e := newEditor(t, nil)
	if e.Suggested() != 0 {
		t.Fatalf("two clear woods, yet %g of the face is suggested", e.Suggested())
	}
	if err := e.TakeSuggested(); err != nil || e.Touched() {
		t.Errorf("taking nothing: %v, touched %v", err, e.Touched())
	}
	if err := e.Fill(photo.Flaw, geom.Polygon{{X: 110, Y: 10}, {X: 120, Y: 10}, {X: 120, Y: 20}, {X: 110, Y: 20}}); err != nil {
		t.Fatal(err)
	}
	r := *e.now().result
	r.Suggest = []geom.Rect{geom.R(100, 0, 200, 100)}
	e.now().result = &r
	// 100 x 100 mm of 400 x 100, less the flaw of 10 x 10: 9900 of 40000.
	if got := e.Suggested(); got != 9900./40000 {
		t.Errorf("%g of the face is suggested, want 0.2475", got)
	}
	was := e.Mask()
	if err := e.TakeSuggested(); err != nil {
		t.Fatal(err)
	}
	if s := e.Mask().Shares(); s[photo.Unseen] != 9900./40000 || s[photo.Flaw] != 100./40000 || e.Mask().At(99, 50) == photo.Unseen || e.Mask().At(200, 50) == photo.Unseen {
		t.Errorf("shares %v", s)
	}
	if e.Suggested() != 0 {
		t.Error("it is suggested still")
	}
	if !e.Undo() || e.Mask() != was || e.Suggested() == 0 {
		t.Error("one step does not take it back")
	}
}
