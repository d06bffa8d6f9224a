package photo

import "math"

// Label says what a place of a face is.
type Label uint8

// Labels, with the grey values they have in a mask that is written down.
const (
	Outside Label = iota // not on the board
	Heart
	Sap
	Flaw   // knot, split, wane, bark
	Unseen // not sure
)

// Mask is what each place of a squared face is: W x H cells over Length x
// Width mm, rows tight, row 0 at y = Width (the top as seen), column 0 at
// x = 0.
type Mask struct {
	W, H          int
	Length, Width float64 // mm
	Pix           []Label
}

// NewMask returns a mask of length x width mm, all Outside, with cells mm to
// a millimetre, whole cells.
func NewMask(length, width, perMM float64) *Mask {
	m := &Mask{
		W: int(math.Max(1, math.Round(length*perMM))), H: int(math.Max(1, math.Round(width*perMM))),
		Length: length, Width: width,
	}
	m.Pix = make([]Label, m.W*m.H)
	return m
}

// At returns the label of the cell in column i, row j from the top.
func (m *Mask) At(i, j int) Label { return m.Pix[j*m.W+i] }

// Shares returns how much of the face each label covers, 0 to 1 of what is not
// Outside.
func (m *Mask) Shares() (s [Unseen + 1]float64) {
	on := 0
	for _, l := range m.Pix {
		if l == Outside || l > Unseen {
			continue
		}
		s[l]++
		on++
	}
	for i := range s {
		if on > 0 {
			s[i] /= float64(on)
		}
	}
	return s
}
