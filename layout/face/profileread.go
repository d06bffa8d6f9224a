package face

import (
	"cmp"
	"slices"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// levelBoards are the boards whose show face is the wood at each level under the
// profiles; nil where that is not known.
type levelBoards [profileLevels]*Board

// levelsOf returns them for a strip that comes to a thickness.
func (k *worked) levelsOf(s *Strip, thickness float64) (out levelBoards) {
	if s.Board.Deep == nil {
		return out
	}
	for l := range out {
		off := s.Taken(thickness)
		off[s.UpFace()-1] += k.depth(l)
		out[l] = s.Board.Deep.Finished(off)
	}
	return out
}

// spares reports whether a strip that begins at (left, at) is not worked at all.
func (k *worked) spares(s *Strip, left, at float64) bool {
	return s.Board == nil || k.still.Contains(geom.Pt(left, at)) && k.still.Contains(geom.Pt(left+s.L, at+s.W))
}

// mostLevels is how many sets of level boards are told apart at one time.
const mostLevels = 4096

// levelsID returns a number that is another for other level boards.
func (f *finished) levelsID(s *Strip, thickness float64) uint64 {
	key := f.worked.levelsOf(s, thickness)
	id, ok := f.levels[key]
	if !ok {
		if f.levels == nil || len(f.levels) >= mostLevels {
			f.levels = map[levelBoards]uint64{}
		}
		f.levelsMade++
		id = f.levelsMade
		f.levels[key] = id
	}
	return id
}

// levelShift keeps the level of a piece beside its kind while pieces are sorted.
const levelShift = 8

// cutWorked cuts the show face of a strip as it is seen from above once the
// panel's edges are worked: its flat part, whose layers are laid, and under each
// profile the wood that lies open there.
func (st *stripData) cutWorked(w *work, f *finished, sawn, s *Strip, left, at float64) (deeper [profileLevels]*colour.Field) {
	fd := &st.faces[Show]
	place := geom.Translate(-left, -at)
	w.layers.add(Blank, f.worked.flat, place, true)
	w.region = append(w.region[:0], st.key.clip.Polygon()...)
	fd.pieces = dropBlank(w.cutter.Decompose(fd.pieces, w.region, int(Blank), w.layers.list))
	boards := f.worked.levelsOf(sawn, st.key.thickness)
	for l, b := range boards {
		if b == nil {
			b = s.Board
		}
		deeper[l] = b.Faces[st.key.up-1].Field
	}
	shift := geom.Pt(-left, -at)
	for i := range f.worked.parts {
		part := &f.worked.parts[i]
		box := st.key.clip.Intersect(geom.Rect{Min: part.box.Min.Add(shift), Max: part.box.Max.Add(shift)})
		if box.Empty() {
			continue
		}
		on := *s
		if b := boards[part.level]; b != nil {
			on.Board, on.Planed = b, nil
		}
		w.lay(&on, Show, st.key.up)
		w.layers.finish(f, left, at, true)
		w.layers.add(Blank, part.polygon, place, true)
		w.region = append(w.region[:0], box.Polygon()...)
		from := len(fd.pieces)
		fd.pieces = w.cutter.Decompose(fd.pieces, w.region, int(Blank), w.layers.list)
		fd.pieces = fd.pieces[:from+len(dropBlank(fd.pieces[from:]))]
		for k := from; k < len(fd.pieces); k++ {
			t := &fd.pieces[k]
			t.Label += (part.level + 1) << levelShift
		}
	}
	slices.SortStableFunc(fd.pieces, func(a, b geom.Trapezoid) int {
		return cmp.Or(cmp.Compare(a.X0, b.X0), cmp.Compare(a.Lo0, b.Lo0))
	})
	for i := range fd.pieces {
		t := &fd.pieces[i]
		fd.level = append(fd.level, uint8(t.Label>>levelShift))
		t.Label &= 1<<levelShift - 1
	}
	st.walkProfiles(w, f, s, &boards, left, at)
	return deeper
}

// readProfiles sums the profiles over the strips.
func (r *Reader) readProfiles() {
	unwanted, judged := r.wanted.Unwanted()
	for e, q := range r.fin.worked.profiles {
		out := &r.reading.Profiles[e]
		*out = Profiled{}
		if r.fin.worked.deep == 0 || q.Down == 0 {
			continue
		}
		out.Worked = true
		var sum surfacePart
		for _, st := range r.strips {
			if st != nil {
				part := &st.profiles[e]
				sum.sap, sum.heart, sum.unseen = sum.sap+part.sap, sum.heart+part.heart, sum.unseen+part.unseen
				out.Guessed = out.Guessed || part.guessed
			}
		}
		out.Area = sum.sap + sum.heart + sum.unseen
		out.Light = shareOf(sum.sap, sum.heart, sum.unseen)
		out.Width = out.Light.Value * q.arc(0, q.Down)
		switch {
		case judged && unwanted == Sap:
			out.Unwanted = out.Light
		case judged:
			out.Unwanted = shareOf(sum.heart, sum.sap, sum.unseen)
		}
	}
}
