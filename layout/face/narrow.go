package face

import (
	"math"

	"heartside/layout/geom"
)

// narrowPart is what one strip adds to an edge or an end of the panel: mm
// along it, weighted by the share of the thickness.
type narrowPart struct {
	sap, heart, unseen float64
}

// Along an edge or an end the cut through the wood is read at points this far
// apart at most, mm; through the thickness it is exact. Each sap line that
// crosses a side moves its length of sapwood by half a step at most.
const (
	endStep  = 1.0
	edgeStep = 4.0
)

// readNarrow reads where the outline of the panel cuts the strip.
func (st *stripData) readNarrow(w *work, f *finished, s *Strip, left, at float64) {
	cut := newSolid(w, s, st.key.up, st.key.thickness)
	if st.key.levels > 0 {
		cut.profiles = &f.worked.profiles
	}
	if !f.shaped {
		c := st.key.clip
		for side, line := range [...][2]geom.Point{
			Front: {c.Min, {X: c.Max.X, Y: c.Min.Y}}, Right: {{X: c.Max.X, Y: c.Min.Y}, c.Max},
			Rear: {c.Max, {X: c.Min.X, Y: c.Max.Y}}, Left: {{X: c.Min.X, Y: c.Max.Y}, c.Min},
		} {
			if st.key.reach&(1<<side) != 0 {
				st.readCut(&cut, s, line[0], line[1], 1)
			}
		}
		return
	}
	turn := 1.0
	if f.outline.SignedArea() < 0 {
		turn = -1
	}
	from := geom.Pt(left, at)
	for i, a := range f.outline {
		st.readCut(&cut, s, a.Sub(from), f.outline[(i+1)%len(f.outline)].Sub(from), turn)
	}
}

// readCut reads the cut from a to b, in place coordinates; turn is 1 where the
// panel lies to the left of it and -1 where to the right.
func (st *stripData) readCut(cut *solid, s *Strip, a, b geom.Point, turn float64) {
	d := b.Sub(a)
	n := d.Len()
	if n == 0 {
		return
	}
	inward := geom.Pt(-d.Y, d.X).Mul(turn / n)
	side := sideOf(inward)
	hair := inward.Mul(1e-6)
	a, b = a.Add(hair), b.Add(hair)
	t0, t1, ok := clipLine(geom.Rect{Max: geom.Pt(s.L, s.W)}, a, b)
	if !ok {
		return
	}
	st.markFlaws(side, a, b)
	under := cut.under(side, st.key.up, st.key.thickness)
	step := edgeStep
	if side == Left || side == Right {
		step = endStep
	}
	length := n * (t1 - t0)
	m := max(1, math.Ceil(length/step))
	part := &st.narrow[side-Front]
	for k := 0.0; k < m; k++ {
		under.add(part, a.Lerp(b, t0+(t1-t0)*(k+0.5)/m), length/m)
	}
}

// sideOf returns the side of the panel that a piece of outline belongs to,
// from its inward normal.
func sideOf(inward geom.Point) Side {
	switch {
	case math.Abs(inward.Y) >= math.Abs(inward.X) && inward.Y > 0:
		return Front
	case math.Abs(inward.Y) >= math.Abs(inward.X):
		return Rear
	case inward.X > 0:
		return Left
	}
	return Right
}

// clipLine returns the part of the line from a to b inside r, as shares.
func clipLine(r geom.Rect, a, b geom.Point) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	d := b.Sub(a)
	for _, q := range [4][2]float64{
		{-d.X, a.X - r.Min.X}, {d.X, r.Max.X - a.X}, {-d.Y, a.Y - r.Min.Y}, {d.Y, r.Max.Y - a.Y},
	} {
		switch {
		case q[0] == 0:
			if q[1] < 0 {
				return 0, 0, false
			}
		case q[0] < 0:
			t0 = max(t0, q[1]/q[0])
		default:
			t1 = min(t1, q[1]/q[0])
		}
	}
	return t0, t1, t1 > t0
}

// solid is the wood of a strip between its two faces.
type solid struct {
	lines  [2]*sapLine // face 1 and face 2 of the board
	maps   [2]geom.Affine
	z0, z1 float64 // the finished thickness as shares of the sawn one, from face 1

	profiles *[4]Profile // worked off the show face; nil: none
}

// under returns the wood that a profile leaves upright at a side.
func (c solid) under(side Side, up int, thickness float64) solid {
	if c.profiles == nil || side < Front || !(thickness > 0) {
		return c
	}
	down := (c.z1 - c.z0) * c.profiles[side-Front].Down / thickness
	if up == 1 {
		c.z0 += down
	} else {
		c.z1 -= down
	}
	return c
}

func newSolid(w *work, s *Strip, up int, thickness float64) solid {
	c := solid{z1: 1}
	for k := range c.lines {
		c.lines[k], c.maps[k] = w.noteOf(s.Board, k+1).line, s.PlaceToFace(k+1)
	}
	if s.Planed != nil {
		c.lines[up-1], c.maps[up-1] = w.planedNote(s).line, s.FromPlace()
	}
	if t := s.Board.Thickness; thickness > 0 && t > thickness {
		c.z0 = (t - thickness) / 2 / t // half comes off each face
		c.z1 = 1 - c.z0
	}
	return c
}

// add reads the cut at one place and adds it with its length.
func (c *solid) add(part *narrowPart, p geom.Point, length float64) {
	k1, d1 := c.lines[0].at(c.maps[0].Apply(p))
	k2, d2 := c.lines[1].at(c.maps[1].Apply(p))
	switch {
	case k1 == Blank && k2 == Blank:
		return
	case k1 == Unseen || k2 == Unseen:
		part.unseen += length
		return
	case k1 == Blank:
		d1 = d2
	case k2 == Blank:
		d2 = d1
	}
	sap := positive((1-c.z0)*d1+c.z0*d2, (1-c.z1)*d1+c.z1*d2)
	part.sap += length * sap
	part.heart += length * (1 - sap)
}

// positive returns the share of a line from a to b that is above 0.
func positive(a, b float64) float64 {
	switch {
	case a > 0 && b > 0:
		return 1
	case a <= 0 && b <= 0:
		return 0
	case a > 0:
		return a / (a - b)
	}
	return b / (b - a)
}

// markFlaws notes which flaws, of either face, reach the line from a to b.
func (st *stripData) markFlaws(side Side, a, b geom.Point) {
	const close2 = 0.01 * 0.01
	for k := range st.faces {
		f := &st.faces[k]
		for i := range f.flaws {
			f.flaws[i].sides |= f.reaches(&f.flaws[i], [2]geom.Point{a, b}, close2) << side
		}
	}
}

// reaches returns 1 where a piece of the flaw has a corner on the line.
func (f *faceData) reaches(fl *flaw, line [2]geom.Point, close2 float64) uint8 {
	for i := range f.pieces {
		t := &f.pieces[i]
		if Kind(t.Label) != Flaw || !fl.box.Contains(geom.Pt(t.X0, t.Lo0)) {
			continue
		}
		for _, p := range [4]geom.Point{{X: t.X0, Y: t.Lo0}, {X: t.X0, Y: t.Hi0}, {X: t.X1, Y: t.Lo1}, {X: t.X1, Y: t.Hi1}} {
			if distance2(p, line) <= close2 {
				return 1
			}
		}
	}
	return 0
}
