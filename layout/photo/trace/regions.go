package trace

import (
	"cmp"
	"fmt"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// mostCells bounds a mask, as a squared picture is bounded.
const mostCells = 64 << 20

// check says what is wrong with a mask.
func check(m *photo.Mask) error {
	switch {
	case m == nil || m.W < 1 || m.H < 1 || m.W > mostCells || m.H > mostCells:
		return fmt.Errorf("the mask has no cells: split the face first")
	case m.W*m.H > mostCells:
		return fmt.Errorf("the mask of %d x %d cells is too large: make it coarser", m.W, m.H)
	case len(m.Pix) != m.W*m.H:
		return fmt.Errorf("the mask holds %d cells, want %d x %d", len(m.Pix), m.W, m.H)
	case !(m.Length > 0 && m.Width > 0 && m.Length < farthest && m.Width < farthest):
		return fmt.Errorf("the mask covers %g x %g mm: give the face's length and width", m.Length, m.Width)
	}
	for k, l := range m.Pix {
		if l > photo.Unseen {
			return fmt.Errorf("the mask's cell in column %d, row %d holds %d, which is no kind of wood", k%m.W, k/m.W, l)
		}
	}
	return nil
}

// farthest is more mm than any board has.
const farthest = 1e6

// copyOf returns a mask with cells of its own.
func copyOf(m *photo.Mask) *photo.Mask {
	out := *m
	out.Pix = slices.Clone(m.Pix)
	return &out
}

// Component is one 4-connected region of a mask.
type Component struct {
	Kind   photo.Label
	Cells  int
	Area   float64   // mm2
	Bounds geom.Rect // face mm
	Column int       // of its first cell, counted from the left
	Row    int       // of its first cell, counted from the top
}

// Components returns the regions of a mask in the order in which reading row
// by row from the top meets them, Outside ones too.
func Components(m *photo.Mask) ([]Component, error) {
	if err := check(m); err != nil {
		return nil, fmt.Errorf("components of a mask: %w", err)
	}
	r := label(m)
	out := make([]Component, len(r.kind))
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	for j := range m.H {
		row := r.id[(j+1)*r.stride+1:][:m.W]
		for i := 0; i < m.W; {
			k, from := row[i], i
			for i < m.W && row[i] == k {
				i++
			}
			box := geom.R(float64(from)*dx, m.Width-float64(j+1)*dy, float64(i)*dx, m.Width-float64(j)*dy)
			c := &out[k]
			if c.Cells == 0 {
				*c = Component{Kind: r.kind[k], Bounds: box, Column: from, Row: j}
			}
			c.Cells += i - from
			c.Bounds.Min.X, c.Bounds.Min.Y = min(c.Bounds.Min.X, box.Min.X), min(c.Bounds.Min.Y, box.Min.Y)
			c.Bounds.Max.X, c.Bounds.Max.Y = max(c.Bounds.Max.X, box.Max.X), max(c.Bounds.Max.Y, box.Max.Y)
		}
	}
	for i := range out {
		out[i].Area = float64(out[i].Cells) * dx * dy
	}
	return out, nil
}

// regions numbers the 4-connected regions of a mask, from 0 in reading order.
type regions struct {
	w, h, stride int
	id           []int32 // with a rim of -1 one cell wide all round
	kind         []photo.Label
	cells        []int
}

// label finds the regions of a mask.
func label(m *photo.Mask) *regions {
	r := &regions{w: m.W, h: m.H, stride: m.W + 2}
	r.id = make([]int32, r.stride*(m.H+2))
	for i := range r.id[:r.stride] {
		r.id[i], r.id[len(r.id)-1-i] = -1, -1
	}
	var up union
	for j := range m.H {
		row, above := m.Pix[j*m.W:][:m.W], m.Pix[max(j-1, 0)*m.W:][:m.W]
		base := (j + 1) * r.stride
		ids, over := r.id[base+1:][:m.W], r.id[base-r.stride+1:][:m.W]
		r.id[base], r.id[base+m.W+1] = -1, -1
		last, lastID := photo.Label(255), int32(-1)
		for i, l := range row {
			if l != last {
				last, lastID = l, -1
			}
			if j > 0 && above[i] == l {
				switch o := over[i]; {
				case lastID < 0:
					lastID = o
				case o != lastID:
					up.join(lastID, o)
				}
			}
			if lastID < 0 {
				// A run that meets its region further right is joined there.
				lastID = up.add()
			}
			ids[i] = lastID
		}
	}
	// Number the roots in reading order.
	number := make([]int32, len(up))
	for i := range number {
		number[i] = -1
	}
	for j := range m.H {
		ids := r.id[(j+1)*r.stride+1:][:m.W]
		was, now := int32(-1), int32(-1)
		for i, k := range ids {
			if k != was {
				root := up.find(k)
				if number[root] < 0 {
					number[root] = int32(len(r.kind))
					r.kind = append(r.kind, m.Pix[j*m.W+i])
					r.cells = append(r.cells, 0)
				}
				was, now = k, number[root]
			}
			ids[i] = now
			r.cells[now]++
		}
	}
	return r
}

// union is a forest of sets (Tarjan 1975).
type union []int32

func (u *union) add() int32 {
	*u = append(*u, int32(len(*u)))
	return int32(len(*u) - 1)
}

func (u union) find(a int32) int32 {
	for u[a] != a {
		u[a] = u[u[a]]
		a = u[a]
	}
	return a
}

// join makes two sets one, named by the lower root.
func (u union) join(a, b int32) {
	a, b = u.find(a), u.find(b)
	if a > b {
		a, b = b, a
	}
	u[b] = a
}

// absorb returns m without regions of fewer than least cells: each, the
// smallest first, becomes what most of its border touches.
func absorb(m *photo.Mask, r *regions, least float64) *photo.Mask {
	small := []int32{}
	for k, n := range r.cells {
		if float64(n) < least {
			small = append(small, int32(k))
		}
	}
	if len(small) == 0 || len(r.kind) == 1 {
		return m
	}
	near := r.borders(least)
	slices.SortStableFunc(small, func(a, b int32) int { return cmp.Compare(r.cells[a], r.cells[b]) })
	set := make(union, len(r.kind))
	for i := range set {
		set[i] = int32(i)
	}
	kind, cells := slices.Clone(r.kind), slices.Clone(r.cells)
	take := func(a, b int32) { // a becomes part of b
		set[a] = b
		cells[b] += cells[a]
		for n, l := range near[a] {
			if near[b] == nil {
				near[b] = map[int32]int{}
			}
			near[b][n] += l
		}
		near[a] = nil
	}
	for _, s := range small {
		a := set.find(s)
		if float64(cells[a]) >= least {
			continue
		}
		length := map[int32]int{}
		for n, l := range near[a] {
			if n = set.find(n); n != a {
				length[n] += l
			}
		}
		to := int32(-1)
		for n, l := range length {
			if to < 0 || l > length[to] || l == length[to] && n < to {
				to = n
			}
		}
		if to < 0 {
			continue // all there is
		}
		take(a, to)
		for n := range length {
			if n != to && kind[n] == kind[to] {
				take(n, to)
			}
		}
	}
	out := copyOf(m)
	for j := range m.H {
		for i, k := range r.id[(j+1)*r.stride+1:][:m.W] {
			if float64(r.cells[k]) < least {
				out.Pix[j*m.W+i] = kind[set.find(k)]
			}
		}
	}
	return out
}

// borders returns, for regions of fewer than least cells, how many cell sides
// they share with each neighbour.
func (r *regions) borders(least float64) []map[int32]int {
	near := make([]map[int32]int, len(r.kind))
	meet := func(a, b int32) {
		if a == b || a < 0 || b < 0 || float64(r.cells[a]) >= least && float64(r.cells[b]) >= least {
			return
		}
		for _, p := range [2][2]int32{{a, b}, {b, a}} {
			if near[p[0]] == nil {
				near[p[0]] = map[int32]int{}
			}
			near[p[0]][p[1]]++
		}
	}
	for j := range r.h {
		for i := range r.w {
			k := (j+1)*r.stride + i + 1
			meet(r.id[k], r.id[k+1])
			meet(r.id[k], r.id[k+r.stride])
		}
	}
	return near
}
