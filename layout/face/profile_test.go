package face

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// slope is a panel of one strip, 900 x 60 x 20, cut 35 from the marked edge of
// the wedge board. By hand: 3 mm come off each face of 26, and at depth z below
// face 1 as sawn the sap line lies 5 + 20 z/26 from the strip's edge; so at depth
// z below the show face it lies c + m z from it.
func slope(up int) (p *Panel, c, m float64) {
	p, _ = wedgePanel()
	p.Width = 60
	p.Strips[0].Y, p.Strips[0].W, p.Strips[0].Up = 35, 60, up
	if up == 1 {
		return p, 5 + 20*3.0/26, 20.0 / 26
	}
	return p, 5 + 20*23.0/26, -20.0 / 26
}

// marked is which edge of the slope's panel the marked edge of its board is.
func marked(up int) int { return map[int]int{1: 0, 2: 1}[up] }

// A bevel of a across and d down: at v from the edge it lies d (1 - v/a) deep, so
// sapwood reaches to v = c + m d (1 - v/a), of a.
func TestBevelByHand(t *testing.T) {
	const a, d = 24.0, 8.0
	for up := 1; up <= 2; up++ {
		p, c, m := slope(up)
		p.Profiles[marked(up)] = Profile{Across: a, Down: d}
		want := (c + m*d) / (1 + m*d/a)
		r := ReadFull(p)
		got := r.Profiles[marked(up)]
		if !got.Worked || got.Guessed || r.Profiles[1-marked(up)].Worked {
			t.Errorf("up %d: %+v", up, r.Profiles)
		}
		layouttest.Near(t, "share", got.Light.Value, want/a, 1e-3)
		layouttest.Near(t, "unwanted", got.Unwanted.Value, want/a, 1e-3)
		layouttest.Near(t, "width", got.Width, want/a*math.Hypot(a, d), 0.05)
		layouttest.Near(t, "area", got.Area, 900*math.Hypot(a, d), 1)
		// Seen from above the bevel is a part of the face; its wood is cut at
		// five depths, so the line lies off by as much as it moves in d/10.
		layouttest.Near(t, "face", r.Show.Light.Value*60, want, math.Abs(m)*d/10+1e-6)
		layouttest.Near(t, "whole face", r.Show.Area, 900*60, 1e-6)
		p.Wanted = WantSap
		layouttest.Near(t, "swapped", ReadFull(p).Profiles[marked(up)].Unwanted.Value, 1-want/a, 1e-3)
	}
}

// A round-over is the quarter of the ellipse ((a - v)/a)^2 + ((d - z)/d)^2 = 1.
// Walked in small steps of its own, it gives how much of it is sapwood.
func TestRoundOverByHand(t *testing.T) {
	const a, d = 24.0, 8.0
	for up := 1; up <= 2; up++ {
		p, c, m := slope(up)
		p.Profiles[marked(up)] = Profile{Round: true, Across: a, Down: d}
		var sap, all float64
		const n = 20000
		for i := range n {
			at := func(k float64) (v, z float64) {
				w := math.Pi / 2 * k / n
				return a - a*math.Sin(w), d - d*math.Cos(w)
			}
			v0, z0 := at(float64(i))
			v1, z1 := at(float64(i) + 1)
			l := math.Hypot(v1-v0, z1-z0)
			all += l
			if (v0+v1)/2 < c+m*(z0+z1)/2 {
				sap += l
			}
		}
		got := ReadFull(p).Profiles[marked(up)]
		layouttest.Near(t, "share", got.Light.Value, sap/all, 3e-3)
		layouttest.Near(t, "area", got.Area, 900*all, 900*all*1e-4)
	}
}

// Over an end the sap line lies c + m z from the edge at every depth, evenly
// spread over a bevel: c + m d/2 in the mean.
func TestBevelOfAnEnd(t *testing.T) {
	p, c, m := slope(1)
	p.Profiles[2], p.Profiles[3] = Profile{Across: 10, Down: 6}, Profile{Across: 12, Down: 9}
	r := ReadFull(p)
	layouttest.Near(t, "left", r.Profiles[2].Light.Value, (c+m*3)/60, 0.01)
	layouttest.Near(t, "right", r.Profiles[3].Light.Value, (c+m*4.5)/60, 0.01)
	layouttest.Near(t, "area", r.Profiles[2].Area, 60*math.Hypot(10, 6), 0.1)
}

// Two bevels meet in a mitre: each loses half a square of the corner.
func TestBevelsAreMitred(t *testing.T) {
	p, _, _ := slope(1)
	p.Profiles[0], p.Profiles[2] = Profile{Across: 12, Down: 8}, Profile{Across: 12, Down: 8}
	r := ReadFull(p)
	k := math.Hypot(12, 8) / 12
	layouttest.Near(t, "front", r.Profiles[0].Area, (900*12-72)*k, 20)
	layouttest.Near(t, "left", r.Profiles[2].Area, (60*12-72)*k, 10)
	layouttest.Near(t, "whole face", r.Show.Area, 900*60, 1e-6)
}

// A bevel of 12 mm runs over the glue line behind a front strip of 5 mm.
func TestBevelOverAGlueLine(t *testing.T) {
	front := &Board{ID: "A", Length: 900, Width: 5, Thickness: 20}
	front.Faces[0].Base, front.Faces[1].Base = Sap, Sap
	rear := &Board{ID: "B", Length: 900, Width: 55, Thickness: 20}
	p := &Panel{ID: "p", Length: 900, Width: 60, Thickness: 20, Limit: [2]float64{1, 1}, Limits: DefaultLimits,
		Profiles: [4]Profile{{Across: 12, Down: 8}},
		Strips:   []Strip{{ID: "a", Board: front, L: 900, W: 5, Up: 1}, {ID: "b", Board: rear, L: 900, W: 55, Up: 1}}}
	r := ReadFull(p)
	layouttest.Near(t, "share", r.Profiles[0].Light.Value, 5.0/12, 1e-9)
	if !r.Profiles[0].Guessed {
		t.Error("nothing is known below these faces, and it is not said")
	}
}

// Under a bevel the edge is what stays upright: of 20 mm with sapwood from the
// middle down (d1 = -10, d2 = 10) a bevel of 8 leaves 2 of heartwood.
func TestEdgeUnderABevel(t *testing.T) {
	for up, want := range map[int]float64{1: 10.0 / 12, 2: 2.0 / 12} {
		p := block(30, 50)
		p.Width = 60
		p.Strips[0].Y, p.Strips[0].W, p.Strips[0].Up = 40, 60, up
		p.Profiles[marked(up)] = Profile{Across: 4, Down: 8}
		layouttest.Near(t, "edge", ReadFull(p).Edges[marked(up)].Light.Value, want, 1e-6)
	}
}

// Every part of an outline that bends is read once: an ellipse worked all round
// keeps its area, all of it sapwood.
func TestRoundOverOfAnEllipse(t *testing.T) {
	b := &Board{ID: "A", Length: 600, Width: 400, Thickness: 20}
	b.Faces[0].Base, b.Faces[1].Base = Sap, Sap
	q := Profile{Round: true, Across: 10, Down: 10}
	for _, other := range []Profile{q, {}} {
		p := &Panel{ID: "p", Length: 600, Width: 400, Thickness: 20, Limit: [2]float64{1, 1}, Limits: DefaultLimits,
			Profiles: [4]Profile{q, other, q, other}, Shape: geom.Ellipse(geom.R(0, 0, 600, 400), 360)}
		for range 4 {
			p.Strips = append(p.Strips, Strip{ID: "s", Board: b, L: 600, W: 100, Up: 1})
		}
		r := ReadFull(p)
		layouttest.Near(t, "area", r.Show.Area, p.Shape.Area(), 1)
		layouttest.Near(t, "face", r.Show.Light.Value, 1, 1e-9)
		var round, edge float64
		for e := range r.Profiles {
			round += r.Profiles[e].Area
		}
		for i, a := range p.Shape {
			c := p.Shape[(i+1)%len(p.Shape)]
			if s := sideOf(inwardOf(a, c, 1)); p.Profiles[s-Front].Down > 0 {
				edge += c.Sub(a).Len()
			}
		}
		layouttest.Near(t, "surface", round, edge*10*math.Pi/2, edge*0.1)
	}
}

// What cannot be worked, and what is not worked yet, leaves the edge square.
func TestProfilesThatAreNotWorked(t *testing.T) {
	for name, q := range map[string]Profile{
		"through the panel": {Across: 10, Down: 20}, "past the middle": {Across: 30, Down: 5}, "nothing across": {Down: 5},
		"no number": {Across: math.NaN(), Down: 5}, "below nothing": {Across: 5, Down: -1},
	} {
		p, _, _ := slope(1)
		want := ReadFull(p).Clone()
		p.Profiles[0] = q
		if got := ReadFull(p); !same(got, want) {
			t.Errorf("%s: %s", name, difference(got, want))
		}
	}
	p, _, _ := slope(1)
	p.ToPlane, p.Profiles[0] = 0.5, Profile{Across: 10, Down: 5}
	if ReadFull(p).Profiles[0].Worked {
		t.Error("worked before the panel is planed")
	}
}

// A knot under the bevel that reaches the face beside it is one knot.
func TestKnotOverABevelIsOne(t *testing.T) {
	p := block(0, 0)
	p.Strips[0].Board.Faces[0].Zones = zones(Flaw, rect(400, 2, 420, 30))
	p.Profiles[0] = Profile{Across: 12, Down: 8}
	if got := len(ReadFull(p).Show.Flaws); got != 1 {
		t.Errorf("%d flaws", got)
	}
}

// A reader that keeps strips reads worked edges as one from nothing.
func TestProfilesAreSeenByAReader(t *testing.T) {
	p, _, _ := slope(1)
	r := NewReader()
	for i, change := range []func(*Panel){
		func(q *Panel) { q.Profiles[0] = Profile{Across: 10, Down: 5} },
		func(q *Panel) { q.Profiles[0].Round = true },
		func(q *Panel) { q.Strips[0].Off = Off{true, [2]float64{6, 0}} },
		func(q *Panel) { q.Strips[0].X += 12 },
		func(q *Panel) { q.Profiles[1], q.Profiles[3] = q.Profiles[0], Profile{Across: 3, Down: 9} },
		func(q *Panel) { q.Strips[0].Up = 2 },
		func(q *Panel) { q.Profiles = [4]Profile{} },
	} {
		q := *p
		q.Strips = append([]Strip(nil), p.Strips...)
		change(&q)
		if got, want := r.Read(&q), ReadFull(&q); !same(got, want) {
			t.Errorf("change %d: %s", i, difference(got, want))
		}
		p = &q
	}
}
