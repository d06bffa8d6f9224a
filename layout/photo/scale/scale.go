package scale

import (
	"fmt"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Stretch is a piece of a tape between two marks, or any other known distance.
type Stretch struct {
	A, B     geom.Point // pixels, as the picture shows them
	Distance float64    // between them, mm
	Ground   bool       // it lies on the ground, the board's thickness below the face
}

// Ratio tells where the ratio of the board's length to its width is from.
type Ratio int

// Sources of the ratio.
const (
	FromStretches Ratio = iota // stretches in different directions
	FromPicture                // the perspective of the four corners
	FromEntered                // the sizes entered for the board
)

// Result is the size of a board. What is told as give or take holds 19 times
// of 20: two standard deviations.
type Result struct {
	Length, Width       float64 // mm
	LengthOff, WidthOff float64 // give or take, mm
	Ratio               Ratio

	// Picture is the ratio of length to width by the picture alone, and
	// PictureOff its give or take as a share of it.
	Picture, PictureOff float64

	// Camera is how far the camera stands from the plane of the face, mm, and
	// CameraOff its give or take.
	Camera, CameraOff float64

	// Strain is how much worse corners, marks and distances go together than
	// clicks explain: 1 or less is well, above 3 one of them is wrong.
	Strain float64
}

const (
	// Click is how far a corner or a mark may lie from its true place, pixels
	// either way. An engineering choice, for a click with a magnifier.
	Click = 1.5

	nearPixels = 50   // marks nearer to one another are refused, pixels
	nearShare  = 0.05 // likewise, of the board's side that the stretch runs along
	mostSize   = 20000.0
	leastSize  = 5.0
	apartness  = 0.15 // how different the directions of two stretches must be, see different
	ratioGood  = 0.03 // a ratio the picture tells within this share is taken from it
)

// Size returns the size of the board at view from stretches in a picture of
// wide x high pixels. thickness is the board's, mm, 0 where it is not known;
// length and width are the sizes entered, mm, 0 for none. They serve only
// where neither stretches nor the picture tell the ratio of the two.
func Size(view photo.View, wide, high int, thickness float64, stretches []Stretch, length, width float64) (*Result, error) {
	if err := check(view, wide, high, thickness, stretches); err != nil {
		return nil, err
	}
	m := newModel(view, wide, high, thickness, stretches)
	if err := m.near(); err != nil {
		return nil, err
	}
	s, err := m.solve()
	if err != nil {
		return nil, err
	}
	r := &Result{Ratio: FromPicture}
	alone := s
	switch {
	case m.different(s):
		r.Ratio = FromStretches
	case 2*s.ratioOff() > ratioGood && length > 0 && width > 0:
		m.ratio = math.Log(length / width)
		m.entered = true
		if s, err = m.solve(); err != nil {
			return nil, err
		}
		r.Ratio = FromEntered
	}
	r.Picture, r.PictureOff = math.Exp(alone.p[atLength]-alone.p[atWidth]), 2*alone.ratioOff()
	r.Strain = s.strain()
	worse := 2 * max(r.Strain, 1)
	r.Length, r.Width = math.Exp(s.p[atLength]), math.Exp(s.p[atWidth])
	r.LengthOff = worse * s.off(atLength) * r.Length
	r.WidthOff = worse * s.off(atWidth) * r.Width
	r.Camera, r.CameraOff = s.camera()
	r.CameraOff *= worse
	for _, v := range []float64{r.Length, r.Width} {
		if !(v > leastSize && v < mostSize) {
			return nil, fmt.Errorf("with these distances the board would be %.3g x %.3g mm; look at the marks and what was typed", r.Length, r.Width)
		}
	}
	return r, nil
}

// Marks says what is wrong with two marks, before anything is known of the
// distance between them: nil where they will do.
func Marks(view photo.View, wide, high int, a, b geom.Point) error {
	list := []Stretch{{A: a, B: b, Distance: 1}}
	if err := check(view, wide, high, 0, list); err != nil {
		return err
	}
	return newModel(view, wide, high, 0, list).near()
}

// check says what is wrong with what was given.
func check(view photo.View, wide, high int, thickness float64, stretches []Stretch) error {
	switch {
	case wide <= 0 || high <= 0:
		return fmt.Errorf("there is no picture")
	case view.Corners == [4]geom.Point{}:
		return fmt.Errorf("there are no corners yet; set the four corners of the board first")
	case !(thickness >= 0) || thickness > mostSize:
		return fmt.Errorf("a thickness of %g mm is none", thickness)
	case len(stretches) == 0:
		return fmt.Errorf("there is no stretch yet; click two marks on the tape")
	case len(stretches) > 16:
		return fmt.Errorf("%d stretches are too many; two in different directions will do", len(stretches))
	}
	if _, _, err := view.FromFace(wide, high, 1, 1); err != nil {
		return err
	}
	for i, s := range stretches {
		name := (&model{stretches: stretches}).name(i)
		for k, q := range [2]geom.Point{s.A, s.B} {
			if !(q.X >= 0 && q.Y >= 0 && q.X <= float64(wide) && q.Y <= float64(high)) {
				return fmt.Errorf("%smark %d at (%.0f, %.0f) lies outside the picture of %d x %d pixels", name, k+1, q.X, q.Y, wide, high)
			}
		}
		switch d := s.A.Dist(s.B); {
		case d < nearPixels:
			return fmt.Errorf("%sthe marks are only %.0f pixels from one another; take marks at least %d pixels apart, better as far apart as the tape allows", name, d, nearPixels)
		case s.Distance == 0 || s.Distance != s.Distance:
			return fmt.Errorf("%sthe distance between the marks is missing", name)
		case s.Distance < 0 || s.Distance >= mostSize:
			return fmt.Errorf("%sa distance of %g mm between the marks is impossible; give it above 0 and below 20 m", name, s.Distance)
		}
	}
	return nil
}
