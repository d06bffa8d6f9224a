package snapshot

import (
	"math"

	"heartside/layout/photo"
)

// Board is a box sawn from a log.
type Board struct {
	Seed                     uint64
	Level                    int
	Kind                     Kind
	Cut                      string // flat, rift, quarter
	Case                     string // how the sap lies
	Length, Width, Thickness float64
	Log                      Log
	Faces                    [2]Surface

	n     noise
	paint palette
}

// Station is the pith and the radii at one place along a board, mm; radii are
// means round the pith, with the least and the greatest of the heart.
type Station struct {
	X, Across, Depth, Heart, Wood float64
	Least, Greatest               float64
}

// At returns the station at x.
func (b *Board) At(x float64) Station {
	l := &b.Log
	s := Station{X: x, Least: math.Inf(1)}
	s.Across, s.Depth = l.Pith(x)
	const n = 180
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		o := l.oval(cos, sin)
		h := math.Max(l.heartAt(x, cos, sin), 0) * o
		s.Heart += h / n
		s.Wood += (l.Wood - l.Taper*(x-l.length/2)/1000) * o / n
		s.Least, s.Greatest = math.Min(s.Least, h), math.Max(s.Greatest, h)
	}
	return s
}

// Stations returns n of them, from end to end.
func (b *Board) Stations(n int) []Station {
	out := make([]Station, max(n, 2))
	for i := range out {
		out[i] = b.At(b.Length * float64(i) / float64(len(out)-1))
	}
	return out
}

// level returns the board's level, brought into range.
func (b *Board) level() int { return min(max(b.Level, 1), 5) }

// onFace returns the place of the solid at a place of a face.
func (b *Board) onFace(face int, x, y float64) (float64, float64, float64) {
	if face == 2 {
		return x, b.Width - y, b.Thickness
	}
	return x, y, 0
}

// Mask returns the truth of a face, below mm under it: perMM cells a
// millimetre, each told by its middle.
func (b *Board) Mask(face int, perMM, below float64) *photo.Mask {
	m := photo.NewMask(b.Length, b.Width, perMM)
	for j := range m.H {
		y := b.Width - (float64(j)+0.5)*b.Width/float64(m.H)
		for i := range m.W {
			x, v, d := b.onFace(face, (float64(i)+0.5)*b.Length/float64(m.W), y)
			if face == 2 {
				d -= below
			} else {
				d += below
			}
			m.Pix[j*m.W+i] = b.Log.look(x, v, d).label
		}
	}
	return m
}
