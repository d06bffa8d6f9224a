package face

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// A strip 100 x 90 of the panel with sapwood along its rear edge, 20 wide at
// the left and 40 at the right, meets one with sapwood along its front edge,
// 30 wide, for the left 60 %; joint at 90 of a panel 900 x 180.
func jointDrawing() drawing {
	return drawing{length: 900, width: 180, strips: []float64{0.5, 0.5}, show: zones(Sap,
		geom.Polygon{{X: 0, Y: 70}, {X: 900, Y: 50}, {X: 900, Y: 90}, {X: 0, Y: 90}}, rect(0, 90, 540, 120))}
}

func TestJointByHand(t *testing.T) {
	for states := range 4 {
		d := jointDrawing()
		d.states, d.over = states, 0
		j := ReadFull(d.panel()).Joints[0]
		if j.Kind != SapSap {
			t.Errorf("kind %s", j.Kind)
		}
		layouttest.Near(t, "mismatch", j.Mismatch, 0.4, 1e-6)
		for k, want := range [3]float64{20, 30, 40} {
			layouttest.Near(t, "front strip", j.FrontW[k], want, 1e-3)
		}
		for k, want := range [3]float64{30, 30, 0} {
			layouttest.Near(t, "rear strip", j.RearW[k], want, 1e-3)
		}
		// Mean step: |20 + 20 x/900 - 30| over the left 540, the width of the front
		// band over the rest. Zero at 450: (10 x 450/2 + 2 x 90/2) + (32 + 40)/2 x 360.
		layouttest.Near(t, "step", j.Step, (2250+90+36*360)/900, 0.05)
	}
}

func TestJointKinds(t *testing.T) {
	cases := []struct {
		name     string
		zones    []Zone
		kind     JointKind
		mismatch float64
		warned   int
	}{
		{"heart to heart", nil, HeartHeart, 0, 0},
		{"sap to sap", zones(Sap, rect(0, 60, 900, 120)), SapSap, 0, 0},
		{"sap to heart", zones(Sap, rect(0, 60, 900, 90)), SapHeart, 1, 1},
		{"sap to heart along 51 %", zones(Sap, rect(0, 60, 459, 90)), SapHeart, 0.51, 1},
		{"sap to heart along 49 %", zones(Sap, rect(0, 60, 441, 90)), HeartHeart, 0.49, 0},
		{"a flaw is not judged", append(zones(Sap, rect(0, 60, 900, 90)), zones(Flaw, rect(0, 40, 300, 89.99), rect(0, 90, 600, 130))...), SapHeart, 1, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d := drawing{length: 900, width: 180, strips: []float64{0.5, 0.5}, show: c.zones}
			everyWay(t, d, func(t *testing.T, d drawing) {
				r := ReadFull(d.panel())
				kind := c.kind
				if d.base == Sap { // the kinds are changed over
					kind = map[JointKind]JointKind{HeartHeart: SapSap, SapSap: HeartHeart, SapHeart: SapHeart}[kind]
				}
				if j := r.Joints[0]; j.Kind != kind || math.Abs(j.Mismatch-c.mismatch) > 1e-6 {
					t.Errorf("%s with mismatch %g, want %s with %g", j.Kind, j.Mismatch, kind, c.mismatch)
				}
				if got := anywhere(r.Warnings, OneSidedJoint); got != c.warned {
					t.Errorf("%d one-sided-joint, want %d\n%s", got, c.warned, describe(r))
				}
			})
		})
	}
}

// Strips shifted along one another meet where both are.
func TestShiftedJoint(t *testing.T) {
	d := drawing{length: 900, width: 180, strips: []float64{0.5, 0.5}, over: 100}
	p := d.panel()
	for i := range p.Strips {
		p.Strips[i].Board.Faces[0].Zones = nil
	}
	// Sapwood along the left half of each strip (1100 long, its middle at 450).
	p.Strips[0].Board.Faces[0].Zones = zones(Sap, rect(0, 0, 30+550, 500))
	p.Strips[1].Board.Faces[0].Zones = zones(Sap, rect(0, 0, 30+550, 500))
	p.Strips[1].Shift = 90
	j := ReadFull(p).Joints[0]
	layouttest.Near(t, "mismatch", j.Mismatch, 0.1, 1e-6)
}

// Sap widths by hand on a strip as it lies, all four states: L 930, W 95 from
// (40, 8); face 1 has sapwood along the marked edge up to y = 28 + x/100 and
// along the far edge from y = 90.
func TestSapWidthsAsTheStripLies(t *testing.T) {
	for _, c := range states {
		p := markedPanel(c.up, c.turned, 0)
		b := p.Strips[0].Board
		b.Faces[0].Zones = zones(Sap, geom.Polygon{{X: 0, Y: -5}, {X: 2400, Y: -5}, {X: 2400, Y: 52}, {X: 0, Y: 28}}, rect(0, 90, 2400, 220))
		// Finished ends lie 15 inside the strip: at s = 15, 465 and 915, board x
		// 55, 505 and 955. From the strip's own marked edge at y = 8:
		marked := Widths{20 + 0.55, 20 + 5.05, 20 + 9.55}
		far := Widths{13, 13, 13} // 8 + 95 - 90
		if c.turned {
			marked[0], marked[2] = marked[2], marked[0]
		}
		r := ReadFull(p).Strips[0]
		front, rear := r.Front, r.Rear
		if c.up == 2 { // face 1 is the back, above the same edges
			front, rear = r.BackFront, r.BackRear
		}
		if c.turned != (c.up == 2) { // the marked edge lies behind
			front, rear = rear, front
		}
		for k := range marked {
			layouttest.Near(t, "marked edge", front[k], marked[k], 1e-3)
			layouttest.Near(t, "far edge", rear[k], far[k], 1e-3)
		}
	}
}
