package model

import (
	"math"
	"slices"

	"heartside/layout/geom"
)

// Edges says how the long edges of a board came about.
type Edges string

// Edges of boards. Those of waney boards are as the tree grew: Width is their
// greatest width, and each face has its Outline within that.
const (
	EdgesSawn     Edges = ""
	EdgesWaney    Edges = "waney"
	EdgesMeasured Edges = "waney-measured" // Width is as the photographs have it, a guess until one is read
)

// Waney reports whether the long edges are as the tree grew.
func (b *Board) Waney() bool { return b.Edges == EdgesWaney || b.Edges == EdgesMeasured }

// ReadWaney is Read for a face with waney edges that was found to be width mm
// wide at its widest, and lies in the middle of a board of that width. Where
// the board is as wide as its photographs have it, it takes the width of its
// widest face read so far: what lies on it stays where it is on the wood.
func ReadWaney(board string, face int, name string, value Face, width float64) func(*Project) *Project {
	reads := map[float64]func(*Project) *Project{}
	return func(p *Project) *Project {
		b := p.Board(board)
		if b == nil || face < 1 || face > 2 || !(width > 0) || !b.Faces[face-1].Open() || b.Faces[face-1].Photo != name {
			return p
		}
		wide := b.Width
		if b.Edges == EdgesMeasured {
			wide = width
			if other := &b.Faces[2-face]; len(other.Outline) > 0 && !other.Open() {
				wide = math.Max(wide, b.Width)
			}
		}
		read := reads[wide]
		if read == nil {
			read = Read(board, face, name, value.inWidth(b.Length, width, wide))
			reads[wide] = read
		}
		return read(p.inWidth(b, wide))
	}
}

// inWidth returns the project with a board made wider or less wide evenly at
// both edges.
func (p *Project) inWidth(b *Board, width float64) *Project {
	by := (width - b.Width) / 2
	if by == 0 {
		return p
	}
	c := cloneBoard(b)
	c.Width = width
	for i := range c.Faces {
		c.Faces[i] = b.Faces[i].inWidth(b.Length, b.Width, width)
	}
	for i := range c.Pith {
		c.Pith[i].Across += by
	}
	q := p.with(func(q *Project) {
		q.Boards = slices.Clone(q.Boards)
		q.Boards[slices.Index(q.Boards, b)] = c
	})
	return q.onBoard(b.ID, func(s *Strip) { s.Y += by }).onPlaces(b.ID, func(k *PartPlace) bool { k.Y += by; return true })
}

// inWidth returns a face as it lies in the middle of a board that is wider or
// less wide than the one it was drawn on. The bow of the lens, which is nothing
// over so little, is left out of where the corners come to lie.
func (f Face) inWidth(length, from, to float64) Face {
	by := (to - from) / 2
	f = cloneFace(f)
	if by == 0 {
		return f
	}
	shift := func(p []geom.Point) {
		for i := range p {
			p[i].Y += by
		}
	}
	shift(f.Outline)
	for i := range f.Zones {
		shift(f.Zones[i].Polygon)
	}
	for _, line := range f.Grain {
		shift(line)
	}
	if f.Corners != nil {
		ring := func(low, high float64) [4]geom.Point {
			return [4]geom.Point{{Y: low}, {X: length, Y: low}, {X: length, Y: high}, {Y: high}}
		}
		if m, err := geom.QuadToQuad(ring(0, from), *f.Corners); err == nil {
			q := ring(-by, from+by)
			for i := range q {
				q[i] = m.Apply(q[i])
			}
			f.Corners = &q
		}
	}
	return f
}
