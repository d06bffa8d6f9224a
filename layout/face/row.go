package face

// Row tells that a strip was laid in a row with others of its board, to be cut
// in one go: between two neighbours there is one saw cut and no allowance. It
// holds while the strip lies where it was laid.
type Row struct {
	Name        string
	X, Y, Angle float64 // where the strip was laid, in face-1 coordinates
	L, W        float64
	// Gap is the wood to the neighbour beyond s = 0, s = L, t = 0 and t = W,
	// mm: below 0 where the two overlap, +Inf where there is none.
	Gap [4]float64
}

// RowGaps returns the wood to the strip's neighbours in its row, as Row.Gap;
// false where it lies in none.
func (s *Strip) RowGaps() ([4]float64, bool) {
	r := s.Row
	if r == nil || s.X != r.X || s.Y != r.Y || s.Angle != r.Angle {
		return [4]float64{}, false
	}
	gap := r.Gap
	gap[1] += r.L - s.L // its own corner stays where the size is another
	gap[3] += r.W - s.W
	return gap, true
}
