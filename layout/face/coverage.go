package face

import (
	"math"

	"heartside/layout/colour"
)

// coverFactor times the spread of the wanted wood is what a cell must differ
// by, but coverLeast at least. Engineering choices with no published source.
const (
	coverFactor = 2.0
	coverLeast  = 6.0 // CIEDE2000
)

// tonePer is the step in which the median colour of the wanted wood is found,
// per CIELAB unit.
const tonePer = 10

// tones counts the wanted wood of a face by lightness, a and b, in whole
// sixteenths of a square millimetre, so that taking a strip out and putting it
// in leaves no trace.
type tones struct {
	counts [3][]int64
	total  int64
}

// toneRange are the least value of each of L, a, b and how many steps there are.
var toneRange = [3]struct{ from, steps int }{{0, 100*tonePer + 1}, {-128, 256*tonePer + 1}, {-128, 256*tonePer + 1}}

func (t *tones) clear() {
	for k := range t.counts {
		if t.counts[k] == nil {
			t.counts[k] = make([]int64, toneRange[k].steps)
		}
		clear(t.counts[k])
	}
	t.total = 0
}

// add counts the cells, sign times.
func (t *tones) add(c *cells, sign int64) {
	for i := range c.list {
		q := &c.list[i]
		n := sign * int64(math.Round(float64(q.wood)*16))
		if n == 0 {
			continue
		}
		t.total += n
		for k, v := range q.wanted {
			r := &toneRange[k]
			b := int(math.Round((float64(v) - float64(r.from)) * tonePer))
			t.counts[k][min(max(b, 0), r.steps-1)] += n
		}
	}
}

// median returns the median of L, a and b by area, to a tenth of a unit.
func (t *tones) median() (colour.Lab, bool) {
	if t.total <= 0 {
		return colour.Lab{}, false
	}
	var out [3]float64
	for k := range t.counts {
		var sum int64
		for b, n := range t.counts[k] {
			if sum += n; 2*sum >= t.total {
				out[k] = float64(toneRange[k].from) + float64(b)/tonePer
				break
			}
		}
	}
	return colour.Lab{L: out[0], A: out[1], B: out[2]}, true
}

// spreadFrom returns the integral of CIEDE2000 from ref over the wanted wood.
func (c *cells) spreadFrom(ref colour.Lab) float64 {
	if c.spread >= 0 && c.spreadRef == ref {
		return c.spread
	}
	c.spreadRef, c.spread = ref, 0
	m := memo{ref: ref}
	for i := range c.list {
		if q := &c.list[i]; q.wood > 0 {
			c.spread += float64(q.wood) * m.of(q.wanted)
		}
	}
	return c.spread
}

// memo remembers differences from ref: without a photograph most cells are
// one of a few colours.
type memo struct {
	ref     colour.Lab
	entries [64]struct {
		lab [3]float32
		d   float64
		set bool
	}
}

func (m *memo) of(lab [3]float32) float64 {
	h := math.Float32bits(lab[0])*2654435761 ^ math.Float32bits(lab[1])*2246822519 ^ math.Float32bits(lab[2])*3266489917
	e := &m.entries[h>>26]
	if !e.set || e.lab != lab {
		e.set, e.lab, e.d = true, lab, colour.DeltaE(unpack(lab), m.ref)
	}
	return e.d
}

// count returns the area of the cells that differ from ref by limit or more.
func (c *cells) count(ref colour.Lab, limit float64) float64 {
	if c.differs >= 0 && c.ref == ref && c.limit == limit {
		return c.differs
	}
	c.ref, c.limit, c.differs = ref, limit, 0
	m := memo{ref: ref}
	for i := range c.list {
		q := &c.list[i]
		if q.area > 0 && m.reaches(q.lab, limit-1e-4) { // cells are kept in single precision
			c.differs += float64(q.area)
		}
	}
	return c.differs
}

// reaches reports whether lab differs from ref by limit or more. Most cells
// are settled by bounds. From below, CIEDE2000 is at least its lightness term:
// the other terms are a quadratic form that is positive, as the size of its
// rotation factor R_T is under 2. From above, its weights S are at least 1,
// chroma and hue differences together are the difference in (a', b), a' is at
// most 1.5 a apart, and R_T, at most 2 sin 60 deg, adds under 0.87 of them.
func (m *memo) reaches(lab [3]float32, limit float64) bool {
	c := unpack(lab)
	dl, da, db := c.L-m.ref.L, c.A-m.ref.A, c.B-m.ref.B
	if most := dl*dl + 1.87*(2.25*da*da+db*db); most < limit*limit {
		return false
	}
	mid := (c.L+m.ref.L)/2 - 50
	if least := math.Abs(dl) / (1 + 0.015*mid*mid/math.Sqrt(20+mid*mid)); least > limit+1e-9 {
		return true
	}
	return m.of(lab) >= limit
}

// standard is what the cells of a face are held against. While a strip is
// dragged it stays as it was when the drag began.
type standard struct {
	set   bool
	ref   colour.Lab
	limit float64
	split bool
}

// cover reads the contrast coverage of one face over the strips that are
// placed. Where photographs share no reference every strip is held against the
// mean of its own wanted wood. The spread of the wanted wood is the mean
// CIEDE2000, by area, of its cells from the median. Where both kinds are
// welcome all wood is wanted.
func (r *Reader) cover(side Side, split bool) float64 {
	s := &r.held[side]
	if !r.holding || !s.set || s.split != split {
		*s = r.standardOf(side, split)
	}
	var differs, area float64
	for _, st := range r.strips {
		if st == nil {
			continue
		}
		f := &st.faces[side]
		if ref, ok := r.refOf(f, s); ok {
			differs += f.cells.count(ref, s.limit)
			area += f.cells.area
		}
	}
	if area <= 0 {
		return 0
	}
	return min(1, differs/area)
}

func (r *Reader) standardOf(side Side, split bool) standard {
	s := standard{split: split, set: true, limit: coverLeast}
	var ok bool
	if s.ref, ok = r.tones[side].median(); !ok {
		var all tint
		for _, st := range r.strips {
			if st != nil {
				w := &st.faces[side].woods
				if k := r.wanted.Wood(); w.known[k] {
					all.add(w.lab[k], st.faces[side].wooded())
				}
			}
		}
		if s.ref, ok = all.mean(); !ok {
			return standard{}
		}
	}
	var spread, wood float64
	for _, st := range r.strips {
		if st == nil {
			continue
		}
		f := &st.faces[side]
		ref, ok := r.refOf(f, &s)
		if !ok {
			continue
		}
		spread += f.cells.spreadFrom(ref)
		wood += f.cells.wood
	}
	if wood > 0 {
		s.limit = max(coverLeast, coverFactor*spread/wood)
	}
	return s
}

// refOf returns what the cells of f are held against.
func (r *Reader) refOf(f *faceData, s *standard) (colour.Lab, bool) {
	if !s.split {
		return s.ref, s.set
	}
	k := r.wanted.Wood()
	if c, ok := f.seen[k].mean(); ok {
		return c, true
	}
	return f.woods.lab[k], f.woods.known[k]
}
