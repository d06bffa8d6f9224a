package colour

import "math"

// Field is the colour of a board face sampled from its photograph: cell
// (i, j) covers x from i*Step to (i+1)*Step and y likewise, mm in the face's
// own coordinates. NaN in L marks a cell with no picture.
type Field struct {
	Step   float64
	NX, NY int
	Lab    []Lab // row j, column i at j*NX + i
}

// Cell returns the colour of cell (i, j), and false where there is none.
func (f *Field) Cell(i, j int) (Lab, bool) {
	if f == nil || i < 0 || j < 0 || i >= f.NX || j >= f.NY || j*f.NX+i >= len(f.Lab) {
		return Lab{}, false
	}
	c := f.Lab[j*f.NX+i]
	if !c.Known() {
		return Lab{}, false
	}
	return c, true
}

// At returns the colour of the cell that holds (x, y), mm, and false where
// there is none. The far borders belong to the last cells.
func (f *Field) At(x, y float64) (Lab, bool) {
	if !f.holds(x, y) {
		return Lab{}, false
	}
	return f.Cell(min(int(x/f.Step), f.NX-1), min(int(y/f.Step), f.NY-1))
}

// holds reports whether (x, y) lies on the field, borders included.
func (f *Field) holds(x, y float64) bool {
	return f != nil && f.Step > 0 && x >= 0 && y >= 0 && x <= float64(f.NX)*f.Step && y <= float64(f.NY)*f.Step
}

// Smooth returns the colour at (x, y), mm, drawn evenly between the middles of
// the four cells around it; cells without a picture are left out of it. False
// outside the field and where none of the four has a picture.
func (f *Field) Smooth(x, y float64) (Lab, bool) {
	if !f.holds(x, y) {
		return Lab{}, false
	}
	u, v := x/f.Step-0.5, y/f.Step-0.5
	i, j := int(math.Floor(u)), int(math.Floor(v))
	u, v = u-float64(i), v-float64(j)
	var m Mean
	for k, w := range [4]float64{(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v} {
		// Beyond the border the last cell carries on.
		at, up := min(max(i+k%2, 0), f.NX-1), min(max(j+k/2, 0), f.NY-1)
		if c, ok := f.Cell(at, up); ok {
			m.Add(c, w)
		}
	}
	return m.Lab()
}

// Mean returns the mean colour of all cells that have one, and false where
// none has.
func (f *Field) Mean() (Lab, bool) {
	if f == nil {
		return Lab{}, false
	}
	var m Mean
	for _, c := range f.Lab[:min(len(f.Lab), max(f.NX*f.NY, 0))] {
		m.Add(c, 1)
	}
	return m.Lab()
}
