package face

import (
	"math"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// Sizes of the cells and samples. Engineering choices with no published
// source.
const (
	cellSize  = 10.0               // mm, a cell of contrast coverage
	perCell   = 3                  // samples of a photograph along each side of a cell
	sampleGap = cellSize / perCell // mm
	nearby    = 20.0               // mm: wanted wood a band is held against
)

// cell is one cell of 10 mm of a strip, laid from the strip's corner as it
// lies. Colours are CIELAB.
type cell struct {
	lab    [3]float32
	area   float32    // mm2 of wood of a known colour
	wanted [3]float32 // mean colour of the wanted wood in it
	wood   float32    // mm2 of wanted wood of a known colour
}

// cells are the cells of one face of a strip, column by column, and what they
// were found to be against a reference.
type cells struct {
	nu, nv int
	list   []cell

	spreadRef colour.Lab // what spread was taken from
	spread    float64    // integral of CIEDE2000 over the wanted wood; under 0: not taken
	ref       colour.Lab // what differs was counted against
	limit     float64
	differs   float64 // mm2 of cells that differ by limit or more; under 0: not counted
	area      float64 // mm2 of cells of known colour
	wood      float64 // mm2 of wanted wood of known colour
}

func (c *cells) reset() {
	*c = cells{list: c.list[:0], spread: -1, differs: -1}
}

// cellSum gathers what lies in a cell.
type cellSum struct {
	area        [kinds]float64
	all, wanted tint // by samples
}

// colour finds the colours of the cells, of the fragments and of the kinds.
// Without a photograph a cell is the mix of its heartwood and sapwood. What lies
// under a profile has the field of its level.
func (f *faceData) colour(w *work, s *Strip, field *colour.Field, deeper *[profileLevels]*colour.Field, up int, wanted Wanted) {
	c := &f.cells
	c.nu, c.nv = int(math.Ceil(s.L/cellSize-1e-9)), int(math.Ceil(s.W/cellSize-1e-9))
	n := c.nu * c.nv
	if cap(w.sums) < n {
		w.sums = make([]cellSum, n)
	}
	w.sums = w.sums[:n]
	clear(w.sums)
	for i := range f.pieces {
		f.spreadArea(w.sums, &f.pieces[i])
	}
	var kindSeen [2]tint
	if field.Full() && field.Step > 0 {
		look := lens{s.PlaceToFace(up), field, 1 / field.Step}
		for i := range f.pieces {
			if len(f.level) > 0 && f.level[i] > 0 {
				if d := deeper[f.level[i]-1]; d.Full() && d.Step > 0 {
					f.sample(w.sums, i, &lens{look.m, d, 1 / d.Step}, wanted, &kindSeen)
				}
				continue
			}
			f.sample(w.sums, i, &look, wanted, &kindSeen)
		}
	}
	for k := range f.seen {
		if m, ok := kindSeen[k].mean(); ok {
			f.seen[k].add(m, f.area[k])
		} else if f.woods.known[k] {
			f.seen[k].add(f.woods.lab[k], f.area[k])
			f.assumed[k] = f.woods.assumed[k]
		}
	}
	for i := range w.sums {
		c.list = append(c.list, f.cellOf(&w.sums[i], wanted))
		c.area += float64(c.list[i].area)
		c.wood += float64(c.list[i].wood)
	}
	unwanted, _ := wanted.Unwanted()
	for i := range f.frags {
		fr := &f.frags[i]
		if fr.area <= 0 {
			continue
		}
		if m, ok := fr.own.mean(); ok {
			fr.own = tint{}
			fr.own.add(m, fr.area)
		} else if unwanted <= Sap && f.woods.known[unwanted] {
			fr.own.add(f.woods.lab[unwanted], fr.area)
		}
		fr.near = c.near(fr, f.tens, 0, 0)
	}
}

// spreadArea adds the area of t to the cells it lies in, exactly.
func (f *faceData) spreadArea(sums []cellSum, t *geom.Trapezoid) {
	nv := f.cells.nv
	eachColumn(t, cellSize, func(i int, x0, x1, lo0, lo1, hi0, hi1 float64) {
		r0, r1 := int(min(lo0, lo1)/cellSize), int(max(hi0, hi1)/cellSize)
		for r := max(r0, 0); r <= min(r1, nv-1); r++ {
			a, b := float64(r)*cellSize, float64(r+1)*cellSize
			if i >= f.cells.nu {
				continue
			}
			if d := meanClamp(hi0, hi1, a, b) - meanClamp(lo0, lo1, a, b); d > 0 {
				sums[i*nv+r].area[t.Label] += d * (x1 - x0)
			}
		}
	})
}

// lens looks up the photograph of a face from place coordinates.
type lens struct {
	m     geom.Affine
	field *colour.Field
	per   float64
}

func (l *lens) at(u, v float64) (colour.Lab, bool) {
	x := (l.m.A*u + l.m.B*v + l.m.C) * l.per
	y := (l.m.D*u + l.m.E*v + l.m.F) * l.per
	if !(x >= 0 && y >= 0 && x < float64(l.field.NX) && y < float64(l.field.NY)) {
		return colour.Lab{}, false
	}
	c := l.field.Of(int(y)*l.field.NX + int(x))
	return c, !math.IsNaN(c.L)
}

// sample reads the photograph under piece i at the sample points it covers, or
// at its middle where it covers none.
func (f *faceData) sample(sums []cellSum, i int, look *lens, wanted Wanted, seen *[2]tint) {
	t := &f.pieces[i]
	kind := Kind(t.Label)
	isWanted := kind <= Sap && (wanted == WantBoth || kind == wanted.Wood())
	var own *tint
	if k := f.owner[i]; k >= 0 && kind != Flaw {
		own = &f.frags[k].own
	}
	hit := false
	i1 := int(math.Ceil(t.X1/sampleGap - 0.5))
	for i := int(math.Ceil(t.X0/sampleGap - 0.5)); i < i1; i++ {
		u := (float64(i) + 0.5) * sampleGap
		lo, hi := columnOf(t, u)
		j1 := int(math.Ceil(hi/sampleGap - 0.5))
		for j := int(math.Ceil(lo/sampleGap - 0.5)); j < j1; j++ {
			c, ok := look.at(u, (float64(j)+0.5)*sampleGap)
			if !ok {
				continue
			}
			hit = true
			if k := i/perCell*f.cells.nv + j/perCell; k < len(sums) {
				sums[k].all.add(c, 1)
				if isWanted {
					sums[k].wanted.add(c, 1)
				}
			}
			if kind <= Sap {
				seen[kind].add(c, 1)
			}
			if own != nil {
				own.add(c, 1)
			}
		}
	}
	if !hit && own != nil && t.Area() > 0 {
		x := (t.X0 + t.X1) / 2
		lo, hi := columnOf(t, x)
		if c, ok := look.at(x, (lo+hi)/2); ok {
			own.add(c, t.Area()/(sampleGap*sampleGap))
		}
	}
}

func (f *faceData) cellOf(s *cellSum, wanted Wanted) cell {
	var out cell
	var wood, mix tint
	for k := Heart; k <= Sap; k++ {
		if s.area[k] <= 0 || !f.woods.known[k] {
			continue
		}
		mix.add(f.woods.lab[k], s.area[k])
		if wanted == WantBoth || k == wanted.Wood() {
			wood.add(f.woods.lab[k], s.area[k])
		}
	}
	if s.all.area > 0 {
		mix = s.all
	}
	if c, ok := mix.mean(); ok {
		out.lab = pack(c)
		out.area = float32(s.area[Heart] + s.area[Sap] + s.area[Flaw] + s.area[Unseen])
	}
	area := wood.area
	if s.wanted.area > 0 {
		wood = s.wanted
		area = s.area[Heart] + s.area[Sap]
		if wanted != WantBoth {
			area = s.area[wanted.Wood()]
		}
	}
	if c, ok := wood.mean(); ok {
		out.wanted, out.wood = pack(c), float32(area)
	}
	return out
}

// near gathers the wanted wood of the cells within nearby of a fragment. The
// fragment's columns of 10 mm lie shift columns and dv mm away in these cells.
func (c *cells) near(fr *fragment, tens [][2]float32, shift int, dv float64) tint {
	var out tint
	own := tens[fr.tens.from:fr.tens.to]
	const reach = int(nearby / cellSize)
	for k := -reach; k < len(own)+reach; k++ {
		i := int(fr.firstTen) + k + shift
		if i < 0 || i >= c.nu {
			continue
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for m := max(0, k-reach); m <= min(len(own)-1, k+reach); m++ {
			lo, hi = min(lo, float64(own[m][0])), max(hi, float64(own[m][1]))
		}
		if lo > hi {
			continue
		}
		r0 := int(math.Ceil((lo+dv-nearby)/cellSize - 0.5))
		r1 := int(math.Floor((hi+dv+nearby)/cellSize - 0.5))
		for r := max(0, r0); r <= min(c.nv-1, r1); r++ {
			if q := &c.list[i*c.nv+r]; q.wood > 0 {
				out.add(unpack(q.wanted), float64(q.wood))
			}
		}
	}
	return out
}

func pack(c colour.Lab) [3]float32 { return [3]float32{float32(c.L), float32(c.A), float32(c.B)} }

func unpack(c [3]float32) colour.Lab {
	return colour.Lab{L: float64(c[0]), A: float64(c[1]), B: float64(c[2])}
}
