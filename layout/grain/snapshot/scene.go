package snapshot

import (
	"math"

	"heartside/layout/geom"
)

// Scene is a board lying somewhere, ready to be photographed.
type Scene struct {
	Camera  Camera
	Ground  string
	Beside  string // what lies beside the board
	Quality int    // of the JPEG
	Finish  Finish

	length, width, deep float64
	boxes               []*box // the board first
	ground              ground
	lamp                lamp
}

// Face lays a board with a face up, 2 or else 1, and plans a photograph of
// w x h pixels. The same seed gives the same scene.
func (b *Board) Face(face int, seed uint64, w, h int) *Scene {
	if face != 2 {
		face = 1
	}
	r, level := newDice(seed, 2), b.level()
	s := &Scene{length: b.Length, width: b.Width, deep: b.Thickness}
	s.Camera = planCamera(r, level, w, h, b.Length, b.Width, false)
	n := newNoise(seed ^ 0xabcdef)
	s.lamp = planLamp(r, n.sub(3), level, b.Length, b.Width)
	s.boxes = []*box{{cos: 1, l: b.Length / 2, w: b.Width / 2, bottom: -b.Thickness, skin: &sawn{b, face, s.sides(r)}}}
	s.Ground = Grounds()[r.IntN(len(Grounds()))]
	s.ground = planGround(r, n, s.Ground)
	if level >= 4 && r.yes(0.4) {
		s.ground.like([]rgb{b.paint.heart, b.paint.sap}[r.IntN(2)])
	}
	if level > 1 && r.yes(0.12) {
		s.trestle(r, n)
	} else {
		s.litter(r, n, b)
		if r.yes(0.06 * float64(level)) {
			s.clutter(r, n)
		}
	}
	s.finish(r, level)
	return s
}

// End plans a photograph of the end at x = 0 or at the board's length, drawn
// as seen through the board from the marked end.
func (b *Board) End(other bool, seed uint64, w, h int) *Scene {
	r := newDice(seed, 3)
	x := 0.0
	if other {
		x = b.Length
	}
	s := &Scene{length: b.Width, width: b.Thickness, deep: 60}
	level := min(b.level(), 3)
	s.Camera = planCamera(r, level, w, h, b.Width, b.Thickness, true)
	n := newNoise(seed ^ 0xabcdef)
	s.lamp = planLamp(r, n.sub(3), level, b.Width, b.Thickness)
	worn := planSurface(r, b.level(), b.Width, b.Thickness)
	worn.Checks, worn.Marks, worn.Stickers = nil, nil, 0
	s.boxes = []*box{{cos: 1, l: b.Width / 2, w: b.Thickness / 2, bottom: -s.deep, skin: &section{b, x, worn}}}
	s.Ground = []string{"concrete", "earth", "blanket", "cardboard"}[r.IntN(4)]
	s.ground = planGround(r, n, s.Ground)
	s.finish(r, level)
	return s
}

// Corners returns where the picture shows the corners of what is
// photographed: lower left, lower right, upper right, upper left of the board.
func (s *Scene) Corners() [4]geom.Point {
	v := s.Camera.view()
	var out [4]geom.Point
	for i, q := range [4]geom.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}} {
		out[i] = v.project(vec{q.X * s.length / 2, q.Y * s.width / 2, 0})
	}
	return out
}

// sides says how light falls on a board's sides.
func (s *Scene) sides(r dice) [5]float64 {
	side := func(x, y float64) float64 {
		k := math.Hypot(s.lamp.sun.X, s.lamp.sun.Y)
		return clamp(0.62-0.35*(x*s.lamp.sun.X+y*s.lamp.sun.Y)/math.Max(k, 0.01)+r.in(-0.05, 0.05), 0.22, 1.05)
	}
	return [5]float64{topSide: 1, lowSide: side(0, -1), highSide: side(0, 1), leftSide: side(-1, 0), rightSide: side(1, 0)}
}

// lay puts a box on the ground.
func (s *Scene) lay(mid geom.Point, turn, long, wide, high float64, k skin) {
	sin, cos := math.Sincos(turn)
	s.boxes = append(s.boxes, &box{mid: mid, sin: sin, cos: cos, l: long / 2, w: wide / 2, top: high - s.deep, bottom: -s.deep, skin: k})
}

// trestle lifts the board off the ground on two beams.
func (s *Scene) trestle(r dice, n noise) {
	s.Beside = "trestles"
	thick := s.deep
	drop := r.in(250, 800)
	s.deep += drop
	c := []rgb{lab(68, 7, 26), lab(45, 8, 20), lab(30, 0, -3), lab(50, 40, 25)}[r.IntN(4)]
	for _, side := range [2]float64{-1, 1} {
		s.lay(geom.Pt(side*s.length*r.in(0.2, 0.42), r.in(-60, 60)), math.Pi/2+r.in(-0.06, 0.06), r.in(500, 900), r.in(45, 110), drop, &plain{c, n.sub(11), 0.12})
		b := s.boxes[len(s.boxes)-1]
		b.top, b.bottom = -thick, -thick-r.in(40, 120)
	}
}

// clutter leaves things about, far enough from the board not to touch it.
func (s *Scene) clutter(r dice, n noise) {
	s.Beside += ", clutter"
	for k := range 1 + r.IntN(4) {
		side := r.sign()
		long, wide := r.in(60, 400), r.in(40, 300)
		reach := math.Hypot(long, wide) / 2
		at := geom.Pt(s.length*r.in(-0.6, 0.6), side*(s.width/2+reach+r.in(100, 350)))
		c := lab(r.in(15, 85), r.in(-25, 40), r.in(-35, 45))
		if k%2 == 0 {
			c = lab(r.in(15, 90), r.in(-3, 5), r.in(-4, 14))
		}
		s.lay(at, r.in(0, 3), long, wide, r.in(3, 120), &plain{c, n.sub(13 + k), 0.1})
	}
}

// litter puts things beside the board.
func (s *Scene) litter(r dice, n noise, b *Board) {
	long, wide := s.length, s.width
	side := r.sign()
	chance := 0.35 + 0.12*float64(b.Level)
	if !r.yes(chance) {
		s.Beside = "nothing"
		return
	}
	// A place beside the board, clear by gap of a thing so deep.
	beside := func(half, gap float64) geom.Point {
		return geom.Pt(long*r.in(-0.35, 0.35), side*(wide/2+half+gap))
	}
	switch k := r.IntN(12); k {
	case 0, 1, 2: // a tape or rule along the board
		c, w := lab(84, 2, 74), r.in(16, 27)
		s.Beside = "yellow tape"
		if k == 1 {
			s.Beside, c, w = "white tape", lab(91, 0, 4), r.in(12, 20)
		}
		length := math.Min(long*r.in(0.6, 1.4), 2500)
		s.lay(geom.Pt(r.in(-0.1, 0.1)*long, side*(wide/2+w/2+r.in(1, 60))), r.in(-0.05, 0.05), length, w, 0.4, &rule{c, w})
	case 3, 4: // a sheet of A4
		s.Beside = "sheet"
		gap, turn := r.in(20, 90), r.in(-0.5, 0.5)
		if k == 4 {
			s.Beside, gap = "sheet under", r.in(-190, -60)
		}
		if r.yes(0.4) {
			turn += math.Pi / 2
		}
		s.lay(beside(150, gap), turn, 297, 210, 0.15, &plain{lab(94, 0, -1), n.sub(7), 0.015})
	case 5: // a grey card
		s.Beside = "card"
		s.lay(beside(30, r.in(15, 50)), r.in(-0.2, 0.2), 120, 60, 0.5, &card{120})
	case 6, 7, 8, 9: // other boards
		s.Beside = "boards"
		s.boards(r, b, k >= 8)
	default:
		s.Beside = "tools"
		s.tools(r, n, side)
	}
}

// boards lays one or two other boards against the board.
func (s *Scene) boards(r dice, b *Board, end bool) {
	for k, side := 0, r.sign(); k < 1+r.IntN(2); k, side = k+1, -side {
		o := Plan(b.Seed*31+uint64(k)+7, b.Level)
		if r.yes(0.6) { // of the same wood
			o.Kind = b.Kind
			o.ready()
		}
		if r.yes(0.6) {
			o.Thickness = b.Thickness
		}
		gap := r.in(0.1, 1.5)
		if r.yes(0.4) {
			gap = r.in(3, 60)
		}
		at := geom.Pt(long(r, s.length, o.Length), side*(s.width/2+o.Width/2+gap))
		turn := 0.0
		if gap > 3 {
			turn = r.in(-0.04, 0.04)
			at.Y += side * math.Abs(turn) * o.Length / 2
		}
		if end && k == 0 {
			at = geom.Pt(side*(s.length/2+o.Length/2+gap), r.in(-0.3, 0.3)*s.width)
			turn = 0
		}
		s.lay(at, turn, o.Length, o.Width, o.Thickness, &sawn{o, 1 + r.IntN(2), s.sides(r)})
	}
}

// long shifts a board along another so that they lie side by side.
func long(r dice, a, b float64) float64 { return r.in(-0.3, 0.3) * math.Max(math.Abs(a-b), 0.2*a) }

// tools lays one to three dark things about.
func (s *Scene) tools(r dice, n noise, side float64) {
	for range 1 + r.IntN(3) {
		length, w := r.in(90, 320), r.in(14, 60)
		at := geom.Pt(s.length*r.in(-0.45, 0.45), side*(s.width/2+w/2+length*0.3+r.in(15, 90)))
		turn := r.in(-0.6, 0.6)
		switch r.IntN(3) {
		case 0:
			s.lay(at, turn, length, w*0.5, r.in(6, 22), &chisel{lab(r.in(15, 55), r.in(0, 30), r.in(0, 25)), lab(62, 0, 1), length})
		case 1:
			s.lay(at, turn, length, w, r.in(5, 40), &plain{lab(r.in(10, 30), r.in(-4, 4), r.in(-8, 8)), n.sub(9), 0.1})
		default: // a pencil
			s.lay(at, turn, 170, 7, 7, &plain{lab(r.in(30, 70), r.in(-30, 50), r.in(-30, 50)), n.sub(9), 0.05})
		}
		side = -side
	}
}
