package match

import (
	"errors"
	"fmt"
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// Kind says how two strips from sibling boards are laid beside one another.
type Kind string

// Kinds of match.
const (
	// Book: opened like a book. The two faces that touched show, one the mirror
	// image of the other about the joint.
	Book Kind = "book"
	// Slip: one slid off the other. Faces that looked the same way in the log
	// show, one repeating the other.
	Slip Kind = "slip"
)

// Leaf is the strip of the other board that makes a match.
type Leaf struct {
	Kind  Kind
	Strip face.Strip // on the other board, as it is to lie; no ID
	// Outside is by how many mm it leaves the board, 0 where it lies within.
	Outside float64

	// Off is how far the sap lines are from level, read every Step mm along the
	// strip as it lies: the width in which one has heartwood where its mirror
	// image, or its repeat, has sapwood, mm. Flaws and what is not seen yet
	// count for nothing.
	Off            []float64
	Mean, Greatest float64
	// Compared is the share of the strip that could be held against the other.
	Compared float64

	// Behind and Before are the seams where the new strip lies behind or in
	// front of the given one, if there is unwanted wood.
	Behind, Before Seam
}

// Match returns the strip on the other board of a pair that makes a match with
// s, a strip of one of them as it lies: the wood that lay on s in the log. In a
// book match either may lie in front: about whichever edge it is opened, it is
// the same strip. A slipped one repeats s on either side of it likewise.
func Match(sib Sibling, s *face.Strip, kind Kind, o Options) (Leaf, error) {
	if err := sib.check(); err != nil {
		return Leaf{}, err
	}
	if !sound(s) {
		return Leaf{}, errors.New("the strip to be matched needs a place on a board and a size")
	}
	if s.Board.ID != sib.A.ID {
		if s.Board.ID != sib.B.ID {
			return Leaf{}, fmt.Errorf("strip %s lies on board %s, not on %s or %s: choose a strip of one of them", s.ID, s.Board.ID, sib.A.ID, sib.B.ID)
		}
		sib = sib.Swapped()
	}
	up := sib.FaceB
	switch {
	case kind == Book && s.UpFace() != sib.FaceA:
		return Leaf{}, fmt.Errorf("strip %s shows face %d; a book match opens at face %d, which touched board %s: roll it over", s.ID, s.UpFace(), sib.FaceA, sib.B.ID)
	case kind == Slip && s.UpFace() == sib.FaceA:
		up = 3 - sib.FaceB
	case kind != Book && kind != Slip:
		return Leaf{}, fmt.Errorf("a match is %q or %q, not %q", Book, Slip, kind)
	}
	l := Leaf{Kind: kind, Strip: sib.over(s)}
	l.Strip.Up = up
	l.Strip.Turned = sib.turned(s, &l.Strip, kind)
	l.Outside, _ = cutting.Outside(&l.Strip, cutting.Allowances{})
	l.level(s)
	l.Behind, _ = Between(s, &l.Strip, o)
	l.Before, _ = Between(&l.Strip, s, o)
	return l, nil
}

// over returns the strip of B whose rectangle lay on that of s, a strip of A.
func (s *Sibling) over(a *face.Strip) face.Strip {
	m := a.ToBoard().Then(s.faceOne())
	at := m.Apply(geom.Point{})
	d := m.Apply(geom.Pt(1, 0)).Sub(at)
	angle := math.Atan2(d.Y, d.X) * 180 / math.Pi
	for angle <= -90+1e-9 {
		angle += 180
	}
	for angle > 90+1e-9 {
		angle -= 180
	}
	if math.Abs(angle) < 1e-9 {
		angle = 0 // no minus nothing
	}
	box := m.Then(geom.Rotate(-angle)).ApplyTo(geom.R(0, 0, a.L, a.W).Polygon()).Bounds()
	corner := geom.Rotate(angle).Apply(box.Min)
	return face.Strip{Board: s.B, X: corner.X, Y: corner.Y, L: a.L, W: a.W, Angle: angle, Up: 1}
}

// faceOne maps face-1 coordinates of A to those of B, over the cut.
func (s *Sibling) faceOne() geom.Affine {
	m := geom.Identity
	if s.FaceA == 2 {
		m = s.A.Other()
	}
	m = m.Then(s.touch())
	if s.FaceB == 2 {
		m = m.Then(s.B.Other())
	}
	return m
}

// turned returns whether the strip b lies end for end so that at its place
// (u, v) is the wood that lay on (u, W - v) of a, or on (u, v) for a slip.
func (s *Sibling) turned(a, b *face.Strip, kind Kind) bool {
	p := geom.Pt(0.25*a.L, 0.25*a.W)
	q := p
	if kind == Book {
		q.Y = a.W - p.Y
	}
	want := a.FromPlace().Then(a.ToBoard()).Then(s.faceOne()).Apply(q)
	miss := func(turned bool) float64 {
		c := *b
		c.Turned = turned
		return c.FromPlace().Then(c.ToBoard()).Apply(p).Dist(want)
	}
	return miss(true) < miss(false)
}

// level compares the sap lines of the leaf with those of s.
func (l *Leaf) level(s *face.Strip) {
	a, b := strakes(s), strakes(&l.Strip)
	seen := 0.0
	for k := range a {
		if l.Kind == Book {
			b[k] = mirrored(b[k], s.W)
		}
		off, both := apart(a[k], b[k])
		l.Off = append(l.Off, off)
		l.Mean += off
		l.Greatest = max(l.Greatest, off)
		seen += both
	}
	if n := float64(len(a)); n > 0 {
		l.Mean /= n
		l.Compared = seen / n / s.W
	}
}

// strakes returns what lies across a strip as it lies, front to back, at the
// middle of every Step along it from the left.
func strakes(s *face.Strip) [][]piece {
	n := max(1, int(s.L/Step))
	at := make([]float64, n)
	for k := range at {
		at[k] = (s.L-Step*float64(n-1))/2 + Step*float64(k)
	}
	out := columnsOf(s, s.UpFace(), at)
	if s.Turned {
		for i, k := 0, n-1; i < k; i, k = i+1, k-1 {
			out[i], out[k] = out[k], out[i]
		}
	}
	if lieOf(s).front() == Far {
		for k := range out {
			out[k] = mirrored(out[k], s.W)
		}
	}
	return out
}

// mirrored returns a column seen from its other end.
func mirrored(c []piece, w float64) []piece {
	out := make([]piece, len(c))
	for i, p := range c {
		out[len(c)-1-i] = piece{w - p.to, w - p.from, p.kind}
	}
	return out
}

// apart returns how much of two columns is heartwood in one and sapwood in the
// other, and how much is either in both, mm.
func apart(a, b []piece) (off, both float64) {
	for i, k := 0, 0; i < len(a) && k < len(b); {
		p, q := a[i], b[k]
		if d := min(p.to, q.to) - max(p.from, q.from); d > 0 && p.kind <= face.Sap && q.kind <= face.Sap {
			both += d
			if p.kind != q.kind {
				off += d
			}
		}
		if p.to < q.to {
			i++
		} else {
			k++
		}
	}
	return off, both
}
