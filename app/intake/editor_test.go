package intake

import (
	"context"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// squared draws a face of 400 x 100 mm: dark with a light band along the far
// edge, 30 wide, and a little noise.
func squared() *photo.Squared {
	s := &photo.Squared{Pix: image.NewRGBA(image.Rect(0, 0, 400, 100)), PxPerMM: 1, Length: 400, Width: 100}
	r := rand.New(rand.NewPCG(5, 6))
	for j := range 100 {
		for i := range 400 {
			c := [3]float64{110, 75, 55}
			if j < 30 {
				c = [3]float64{205, 175, 140}
			}
			n := 3 * r.NormFloat64()
			px := s.Pix.Pix[s.Pix.PixOffset(i, j):]
			for k := range c {
				px[k] = uint8(math.Max(0, math.Min(255, c[k]+n)))
			}
			px[3] = 255
		}
	}
	return s
}

func newEditor(t *testing.T, mask *photo.Mask) *Editor {
	t.Helper()
	e, err := NewEditor(context.Background(), squared(), mask)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func sapShare(e *Editor) float64 { return e.Mask().Shares()[photo.Sap] }

func TestEditorBeginsWithWhatIsFound(t *testing.T) {
	e := newEditor(t, nil)
	if s := sapShare(e); math.Abs(s-0.3) > 0.02 || e.Touched() || e.CanRedo() {
		t.Errorf("sapwood %.3f of the face, want 0.3; touched %v", s, e.Touched())
	}
}

func TestEditorActsAndTakesBack(t *testing.T) {
	e := newEditor(t, nil)
	was := e.Mask()
	ring := geom.Polygon{{X: 100, Y: 10}, {X: 200, Y: 10}, {X: 200, Y: 50}, {X: 100, Y: 50}}
	if err := e.Fill(photo.Sap, ring); err != nil {
		t.Fatal(err)
	}
	// Row 0 lies at y = 100: y from 10 to 50 is rows 50 to 89.
	if m := e.Mask(); m.At(150, 70) != photo.Sap || m.At(150, 92) != photo.Heart || m.At(99, 70) != photo.Heart {
		t.Error("the polygon lies elsewhere")
	}
	if c := e.Changed(); c.Share != 0.1 || c.Far != 0 {
		t.Errorf("changed %+v, want a tenth", c)
	}
	filled := e.Mask()
	if err := e.Brush(photo.Flaw, []geom.Point{{X: 150, Y: 30}}, 10); err != nil {
		t.Fatal(err)
	}
	if e.UndoLabel() != "Paint flaw" || e.Mask().At(150, 70) != photo.Flaw || filled.At(150, 70) != photo.Sap {
		t.Errorf("undo %q, or a mask given out was changed", e.UndoLabel())
	}
	if !e.Undo() || e.Mask() != filled || !e.Undo() || e.Mask() != was || e.Undo() {
		t.Error("two acts are not taken back by two steps")
	}
	first, second, third := e.Redo(), e.Redo(), e.Redo()
	if !first || !second || third {
		t.Error("two acts are not done again by two steps")
	}
	e.Undo()
	if err := e.Fill(photo.Sap, ring); err != nil || e.CanRedo() != true {
		t.Errorf("an act that changes nothing (%v) dropped what can be done again", err)
	}
	if err := e.Smooth(2); err != nil {
		t.Fatal(err)
	}
	if err := e.All(photo.Heart); err != nil || sapShare(e) != 0 {
		t.Errorf("all heart: %v, %g sapwood", err, sapShare(e))
	}
	if e.CanRedo() {
		t.Error("an act leaves what was taken back to be done again")
	}
}

// What the hand set stays when a stroke lets the rest follow, but not under
// the stroke itself.
func TestEditorHandIsAbsolute(t *testing.T) {
	e := newEditor(t, nil)
	if err := e.Fill(photo.Sap, geom.Polygon{{X: 100, Y: 10}, {X: 200, Y: 10}, {X: 200, Y: 50}, {X: 100, Y: 50}}); err != nil {
		t.Fatal(err)
	}
	if err := e.Stroke(context.Background(), photo.Heart, []geom.Point{{X: 180, Y: 20}, {X: 300, Y: 20}}, 4); err != nil {
		t.Fatal(err)
	}
	if m := e.Mask(); m.At(120, 70) != photo.Sap || m.At(190, 79) != photo.Heart || m.At(250, 79) != photo.Heart || m.At(250, 10) != photo.Sap {
		t.Errorf("after the stroke: %v %v %v %v", m.At(120, 70), m.At(190, 79), m.At(250, 79), m.At(250, 10))
	}
	if err := e.Stroke(context.Background(), photo.Heart, nil, 4); err == nil {
		t.Error("a stroke without points is taken")
	}
	if err := e.Afresh(context.Background()); err != nil || math.Abs(sapShare(e)-0.3) > 0.02 {
		t.Errorf("afresh: %v, %g", err, sapShare(e))
	}
}

func TestEditorOpensWhatWasKept(t *testing.T) {
	m := photo.NewMask(400, 100, 1)
	for k := range m.Pix {
		m.Pix[k] = photo.Heart
	}
	for _, k := range [...]int{16, 17, 18} { // a knot of 3 x 3
		m.Pix[k], m.Pix[400+k], m.Pix[800+k] = photo.Flaw, photo.Flaw, photo.Flaw
	}
	e := newEditor(t, m)
	if e.Mask() != m || e.Touched() {
		t.Error("the face opens otherwise than it was kept")
	}
	if err := e.Stroke(context.Background(), photo.Heart, []geom.Point{{X: 100, Y: 50}, {X: 200, Y: 50}}, 4); err != nil {
		t.Fatal(err)
	}
	if sapShare(e) != 0 || e.Mask().At(17, 0) != photo.Flaw {
		t.Errorf("what was kept follows a stroke: %g sapwood", sapShare(e))
	}
	// A border drawn a millimetre off is nobody's doing.
	drawn := photo.NewMask(400, 100, 1)
	for k := range drawn.Pix {
		drawn.Pix[k] = photo.Heart
		if k/400 < 31 {
			drawn.Pix[k] = photo.Sap
		}
	}
	e = newEditor(t, drawn)
	if err := e.Stroke(context.Background(), photo.Heart, []geom.Point{{X: 100, Y: 50}, {X: 200, Y: 50}}, 4); err != nil {
		t.Fatal(err)
	}
	if e.Mask().At(300, 30) != photo.Heart {
		t.Error("a sliver along the border is held as set by hand")
	}
	if _, err := NewEditor(context.Background(), squared(), photo.NewMask(20, 20, 1)); err == nil {
		t.Error("a mask of another size is taken")
	}
}

// A change is far where no path of changed cells leads to the stroke.
func TestReached(t *testing.T) {
	was, now := photo.NewMask(200, 40, 1), photo.NewMask(200, 40, 1)
	for k := range was.Pix {
		was.Pix[k], now.Pix[k] = photo.Heart, photo.Heart
	}
	set := func(i0, i1, j0, j1 int) {
		for j := j0; j < j1; j++ {
			for i := i0; i < i1; i++ {
				now.Pix[j*200+i] = photo.Sap
			}
		}
	}
	set(0, 60, 0, 10)     // under the stroke, and on from it
	set(150, 190, 20, 30) // apart
	c := changeOf(was, now, []geom.Point{{X: 5, Y: 35}, {X: 20, Y: 35}})
	if c.Share != 1000./8000 || c.Far != 400./8000 {
		t.Errorf("%+v, want 0.125 changed and 0.05 of it far", c)
	}
	near := reached(was, now, []geom.Point{{X: 5, Y: 35}})
	if !near[5*200+59] || near[25*200+160] || near[20*200+100] {
		t.Error("what is reached lies elsewhere")
	}
}
