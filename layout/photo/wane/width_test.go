package wane

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// A rectangle of 2000 x 500 mm, its middle 2500 mm before a camera of focal
// length 1000 pixels, that leans away about its length by an angle of sine 0.6
// and cosine 0.8. Its lower side lies 200 mm below the axis at a depth of 2350
// mm, its upper side 200 mm above at 2650 mm: by hand, pixels of a picture of
// 1600 x 1200 with its middle at (800, 600):
//
//	lower: x 800 -+ 1000*1000/2350 = 374.468, 1225.532; y 600 + 1000*200/2350 = 685.106
//	upper: x 800 -+ 1000*1000/2650 = 422.642, 1177.358; y 600 - 1000*200/2650 = 524.528
//
// The short sides meet, the long ones never do, so that the corners alone tell
// no focal length: with the true one the width is 500.
func TestWidthByHand(t *testing.T) {
	v := photo.View{Corners: [4]geom.Point{{X: 374.468, Y: 685.106}, {X: 1225.532, Y: 685.106}, {X: 1177.358, Y: 524.528}, {X: 422.642, Y: 524.528}}}
	w, off, err := Width(v, 1600, 1200, 2000, Camera{Focal: 1000, Spread: 0.01})
	if err != nil || math.Abs(w-500) > 0.5 {
		t.Errorf("width %.2f off %.4f, %v; want 500", w, off, err)
	}
	// A camera that is not known may make it wider or less wide: that is said.
	w, off, err = Width(v, 1600, 1200, 2000, Camera{})
	if err != nil || off < 0.01 || math.Abs(w-500) > 3*off*500 {
		t.Errorf("width %.2f off %.4f, %v; want 500 within three times that", w, off, err)
	}
	// Seen from square above nothing but the sides counts.
	flat := photo.View{Corners: [4]geom.Point{{X: 200, Y: 800}, {X: 1400, Y: 800}, {X: 1400, Y: 500}, {X: 200, Y: 500}}}
	for _, c := range []Camera{{}, {Focal: 3000, Spread: 0.1}} {
		if w, off, err = Width(flat, 1600, 1200, 2000, c); err != nil || math.Abs(w-500) > 1e-6 || off > 1e-6 {
			t.Errorf("width %g off %g, %v; want 500 and nothing", w, off, err)
		}
	}
}

// Leaning both ways at once the corners tell the focal length themselves.
func TestWidthFindsTheFocalLength(t *testing.T) {
	for _, focal := range []float64{1000, 1300, 1700} {
		c := camera{w: 1600, h: 1200, focal: focal, away: focal * 2.2, pitch: 0.5, yaw: 0.4, turn: 0.2}
		w, off, err := Width(photo.View{Corners: c.corners(2000, 500)}, c.w, c.h, 2000, Camera{})
		if err != nil || math.Abs(w-500) > 10 {
			t.Errorf("focal length %g: width %.1f off %.3f, %v; want 500", focal, w, off, err)
		}
	}
}

// A lens of 26 mm as of a film camera, on a picture of 4000 x 3000 pixels:
// the diagonal of 5000 pixels stands for 43.267 mm, so 3004.6 pixels.
func TestCameraOfFilm(t *testing.T) {
	if c := CameraOf(4000, 3000, 26); math.Abs(c.Focal-3004.6) > 0.5 {
		t.Errorf("focal length %g pixels, want 3004.6", c.Focal)
	}
	if c := CameraOf(4000, 3000, 0); c != (Camera{}) {
		t.Errorf("nothing told: %v", c)
	}
}

func TestWidthRefuses(t *testing.T) {
	ok := photo.View{Corners: [4]geom.Point{{X: 200, Y: 800}, {X: 1400, Y: 800}, {X: 1400, Y: 500}, {X: 200, Y: 500}}}
	if _, _, err := Width(ok, 1600, 1200, 0, Camera{}); err == nil {
		t.Error("no length")
	}
	if _, _, err := Width(photo.View{}, 1600, 1200, 100, Camera{}); err == nil {
		t.Error("no corners")
	}
}
