package tool

import (
	"fmt"
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// A1 is 930 x 90 at (40, 10): its middle is (505, 55), and its handle, 20
// units off its end, stands at (1010, 55), which is (605, 372.5) on face 1
// and, with y2 = 155, (605, 440.5) on face 2.
const handleReach = 505 // from the middle

// onFace returns the place on the surface of a face-1 point of board A.
func onFace(face int, p geom.Point) geom.Point {
	if face == 2 {
		return geom.Pt(100+p.X/2, 518-(210-p.Y)/2)
	}
	return geom.Pt(100+p.X/2, 400-p.Y/2)
}

// turned is where A1 lies when turned to an angle about its middle.
func turned(degrees float64) lies {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return lies{"A", 505 - (465*c - 45*s), 55 - (465*s + 45*c), degrees}
}

func TestTurnAStripByItsHandle(t *testing.T) {
	// The closed form above, worked once by hand: cos 30 = 0.8660254.
	if w := turned(30); math.Abs(w.x-124.7982) > 1e-4 || math.Abs(w.y+216.4711) > 1e-4 {
		t.Fatalf("the reference is wrong: %v", w)
	}
	for _, c := range []struct {
		to   float64 // direction the handle is drawn to, degrees
		held func(Event) Event
		want float64
	}{
		{30, nil, 30}, {-12.5, nil, -12.5}, {12.6, shift, 13}, {-12.4, shift, -12},
		{0.8, nil, 0}, {-0.8, nil, 0}, {0.8, control, 0.8}, {1.2, nil, 1.2},
		{120, nil, -60}, {-120, nil, 60}, {179.5, nil, 0}, {90, nil, 90}, {-90, nil, 90}, {89.7, shift, 90},
	} {
		for face := 1; face <= 2; face++ {
			t.Run(fmt.Sprintf("%g on face %d", c.to, face), func(t *testing.T) {
				var first []model.Edit
				if face == 2 {
					first = append(first, model.FlipStrip{Panel: "top", Strip: "A1"})
				}
				b := newBench(t, first...)
				start := b.Project()
				sin, cos := math.Sincos(c.to * math.Pi / 180)
				at := onFace(face, geom.Pt(505+handleReach*cos, 55+handleReach*sin))
				grab := onFace(face, geom.Pt(1010, 55))
				mid := onFace(face, geom.Pt(505, 55))
				s := b.play(Arrange{}, press(mid.X, mid.Y), release(mid.X, mid.Y)) // the handle shows on what is picked
				s = b.play(s, gesture(grab, at, c.held)...)
				if c.want == 0 {
					if b.still(start); s.Busy() {
						t.Errorf("still %T", s)
					}
					return
				}
				b.wantOne(s, start)
				b.wantLies("A1", turned(c.want))
			})
		}
	}
}

// Taken off its middle, the handle keeps the distance to the pointer: 10 mm
// above it is where the strip is straight.
func TestTurnBeginsWhereTheHandleWasTaken(t *testing.T) {
	b := newBench(t)
	s := b.play(Arrange{}, press(300, 370), release(300, 370), press(605, 367.5), drag(605, 300), drag(605, 367.5))
	if m, _ := b.shown().Panel("top").Strip("A1"); m.Angle != 0 || !near(m.X, 40) || !near(m.Y, 10) {
		t.Errorf("back at the start it lies at %+v", m)
	}
	s = b.play(s, release(605, 367.5))
	if s.Busy() || b.preview != nil {
		t.Errorf("still %T", s)
	}
}

func TestTurnEscape(t *testing.T) {
	b := newBench(t)
	start := b.Project()
	s := b.play(Arrange{}, press(300, 370), release(300, 370), press(605, 372.5), drag(605, 300))
	if b.preview == nil || !s.Busy() {
		t.Fatalf("not turning: %T", s)
	}
	b.play(s, typed(Escape), drag(605, 250), release(605, 250))
	b.still(start)
}

// Turned keeps the middle: (40, 10) and 930 x 90 at 30 degrees as above, and
// an angle past a right angle is the same line told the other way.
func TestTurned(t *testing.T) {
	s := model.Strip{X: 40, Y: 10, L: 930, W: 90}
	for in, want := range map[float64]float64{30: 30, 150: -30, -150: 30, 180: 0, 270: 90, -90: 90, 90: 90, 360: 0, 725: 5} {
		m, w := Turned(s, in), turned(want)
		if !near(m.X, w.x) || !near(m.Y, w.y) || !near(m.Angle, want) {
			t.Errorf("%v degrees: %v, %v, %v", in, m.X, m.Y, m.Angle)
		}
		if back := Turned(m, 0); !near(back.X, 40) || !near(back.Y, 10) || back.Angle != 0 {
			t.Errorf("%v degrees and back: %+v", in, back)
		}
	}
}
