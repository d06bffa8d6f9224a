//go:build !race

package depth

import "heartside/layout/photo"

func cachedOf(w *truth) cached {
	c := cached{Name: w.name, Cut: w.cut, Board: w.board, Pith: w.pith, Heart: w.heart, W: w.sawn[0].W, H: w.sawn[0].H}
	b := func(m *photo.Mask) []uint8 {
		out := make([]uint8, len(m.Pix))
		for i, p := range m.Pix {
			out[i] = uint8(p)
		}
		return out
	}
	for k := range 2 {
		c.Sawn[k] = b(w.sawn[k])
		for j, d := range []float64{2, 4, 6} {
			c.Below[k][j] = b(w.below[k][d])
		}
	}
	return c
}

func (c cached) truth() *truth {
	w := &truth{name: c.Name, cut: c.Cut, board: c.Board, pith: c.Pith, heart: c.Heart}
	b := func(p []uint8) *photo.Mask {
		m := &photo.Mask{W: c.W, H: c.H, Length: c.Board.Length, Width: c.Board.Width}
		for _, v := range p {
			m.Pix = append(m.Pix, photo.Label(v))
		}
		return m
	}
	for k := range 2 {
		w.sawn[k] = b(c.Sawn[k])
		w.below[k] = map[float64]*photo.Mask{}
		for j, d := range []float64{2, 4, 6} {
			w.below[k][d] = b(c.Below[k][j])
		}
	}
	return w
}
