package trace

import "heartside/layout/photo"

// spreadOver returns m where each cell that gone names has become what the
// nearest other cell is, by steps to the four sides. Where there is no other,
// m comes back.
func spreadOver(m *photo.Mask, gone func(photo.Label) bool) *photo.Mask {
	out, any := m, false
	var todo []int32
	empty := make([]bool, len(m.Pix))
	for k, l := range m.Pix {
		if gone(l) {
			empty[k], any = true, true
		}
	}
	if !any {
		return m
	}
	for k := range m.Pix {
		i, j := k%m.W, k/m.W
		if !empty[k] && (i > 0 && empty[k-1] || i+1 < m.W && empty[k+1] || j > 0 && empty[k-m.W] || j+1 < m.H && empty[k+m.W]) {
			todo = append(todo, int32(k))
		}
	}
	if len(todo) == 0 {
		return m
	}
	out = copyOf(m)
	for len(todo) > 0 {
		var next []int32
		for _, k32 := range todo {
			k := int(k32)
			i, j := k%m.W, k/m.W
			for _, n := range [4]struct {
				on bool
				k  int
			}{{i > 0, k - 1}, {i+1 < m.W, k + 1}, {j > 0, k - m.W}, {j+1 < m.H, k + m.W}} {
				if n.on && empty[n.k] {
					empty[n.k] = false
					out.Pix[n.k] = out.Pix[k]
					next = append(next, int32(n.k))
				}
			}
		}
		todo = next
	}
	return out
}
