package colour

// Field is the colour of a board face sampled from its photograph: cell
// (i, j) covers x from i*Step to (i+1)*Step and y likewise, mm in the face's
// own coordinates. NaN in L marks a cell with no picture.
type Field struct {
	Step   float64
	NX, NY int
	Lab    []Lab // row j, column i at j*NX + i
}
