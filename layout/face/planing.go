package face

// Deep knows a board below its sawn faces.
type Deep interface {
	// Finished returns the board with off mm planed from face 1 and face 2:
	// the same length and width, its faces as they then lie open, its
	// thickness less. The same off gives the same pointer. It returns nil
	// where nothing is known but the sawn faces.
	Finished(off [2]float64) *Board
}

// Off is the stock a maker takes from the faces of a strip's board before
// glue-up.
type Off struct {
	Set  bool       // false: half of it from each face
	Face [2]float64 // mm off face 1 and face 2
}

// Taken returns what comes off face 1 and face 2 of a strip's board, mm, until
// a panel of a thickness is finished. What the maker has not given to a face,
// such as what flattening takes after glue-up, comes off both alike. A board no
// thicker than the panel is not planed.
func (s *Strip) Taken(thickness float64) [2]float64 {
	if s.Board == nil || !(thickness > 0) {
		return [2]float64{}
	}
	all := s.Board.Thickness - thickness
	if !(all > 0) {
		return [2]float64{}
	}
	if !s.Off.Set {
		return [2]float64{all / 2, all / 2}
	}
	out := s.Off.Face
	if given := out[0] + out[1]; given > all { // more than there is to take: what shows keeps its share
		return [2]float64{out[0] * all / given, out[1] * all / given}
	}
	rest := (all - out[0] - out[1]) / 2
	return [2]float64{out[0] + rest, out[1] + rest}
}

// Wood returns the board whose faces are read for a strip of p: planed as far
// as the panel is.
func (s *Strip) Wood(p *Panel) *Board {
	if s.Board == nil || s.Board.Deep == nil || p.ToPlane >= 1 {
		return s.Board
	}
	off := s.Taken(p.Thickness)
	if left := p.ToPlane; left > 0 {
		off[0], off[1] = off[0]*(1-left), off[1]*(1-left)
	}
	if off == [2]float64{} {
		return s.Board
	}
	if b := s.Board.Deep.Finished(off); b != nil {
		return b
	}
	return s.Board
}

// Finished returns p with every strip on its board as planed, for what reads
// boards as they lie. Where nothing changes it is p itself.
func (p *Panel) Finished() *Panel {
	out := p
	for i := range p.Strips {
		b := p.Strips[i].Wood(p)
		if b == p.Strips[i].Board {
			continue
		}
		if out == p {
			c := *p
			c.Strips = append([]Strip(nil), p.Strips...)
			out = &c
		}
		out.Strips[i].Board = b
	}
	return out
}
