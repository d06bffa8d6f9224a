package colour

import (
	"math"
	"slices"
)

// Field is the colour of a board face sampled from its photograph: cell
// (i, j) covers x from i*Step to (i+1)*Step and y likewise, mm in the face's
// own coordinates. NaN in L marks a cell with no picture.
type Field struct {
	Step   float64
	NX, NY int
	Lab    []Lab   // row j, column i at j*NX + i; empty where they are coded
	Coded  []Coded // likewise
}

// Full reports whether there is a colour for every cell.
func (f *Field) Full() bool {
	return f != nil && f.NX > 0 && f.NY > 0 && max(len(f.Lab), len(f.Coded)) >= f.NX*f.NY
}

// Of returns the colour of cell k, counted along the rows; its L is NaN where
// there is none. The field must be full.
func (f *Field) Of(k int) Lab {
	if len(f.Lab) > 0 {
		return f.Lab[k]
	}
	return f.Coded[k].Lab()
}

// Copy returns a field that may be changed.
func (f *Field) Copy() *Field {
	c := *f
	c.Lab, c.Coded = slices.Clone(f.Lab), slices.Clone(f.Coded)
	return &c
}

// Set changes the colour of cell k of a full field.
func (f *Field) Set(k int, c Lab) {
	if len(f.Lab) > 0 {
		f.Lab[k] = c
		return
	}
	f.Coded[k] = c.Code()
}

// Cell returns the colour of cell (i, j), and false where there is none.
func (f *Field) Cell(i, j int) (Lab, bool) {
	if f == nil || i < 0 || j < 0 || i >= f.NX || j >= f.NY || j*f.NX+i >= max(len(f.Lab), len(f.Coded)) {
		return Lab{}, false
	}
	c := f.Of(j*f.NX + i)
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
	for k := range min(max(len(f.Lab), len(f.Coded)), max(f.NX*f.NY, 0)) {
		m.Add(f.Of(k), 1)
	}
	return m.Lab()
}
