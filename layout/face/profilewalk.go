package face

import (
	"math"

	"heartside/layout/geom"
)

// Along a profile the wood is read where the cut through an edge is; over its
// surface in so many pieces, each of which one sap line may cross.
const surfacePieces = 6

// walker walks over the surface of a profile within one strip.
type walker struct {
	lines  [profileLevels + 1]*sapLine // of the show face and of the levels under it
	depths [profileLevels + 1]float64
	at     geom.Affine // from the place to the face, the same at every depth
	q      Profile
	edge   int
	box    *geom.Rect // of a panel that is a rectangle, place coordinates; nil: another shape
	all    *[4]Profile
}

// surfacePart is what one strip adds to the surface of a profile, mm2.
type surfacePart struct {
	sap, heart, unseen float64
	guessed            bool
}

// walkProfiles reads the surfaces of the profiles that reach the strip.
func (st *stripData) walkProfiles(w *work, f *finished, s *Strip, boards *levelBoards, left, at float64) {
	k := &walker{at: s.PlaceToFace(st.key.up), all: &f.worked.profiles}
	guessed := s.Planed != nil || s.Board.Faces[st.key.up-1].Guessed
	k.lines[0] = w.noteOf(s.Board, st.key.up).line
	for l, b := range boards {
		if b == nil {
			b, guessed = s.Board, true
		}
		k.lines[l+1], k.depths[l+1] = w.noteOf(b, st.key.up).line, f.worked.depth(l)
	}
	from := geom.Pt(left, at)
	if !f.shaped {
		k.box = &geom.Rect{Min: geom.Point{}.Sub(from), Max: geom.Pt(f.length, f.width).Sub(from)}
	}
	turn := 1.0
	if f.outline.SignedArea() < 0 {
		turn = -1
	}
	for i, a := range f.outline {
		k.edge = f.worked.sides[i]
		if k.q = k.all[k.edge]; k.q.Down == 0 {
			continue
		}
		a, b := a.Sub(from), f.outline[(i+1)%len(f.outline)].Sub(from)
		in := inwardOf(a, b, turn).Mul(k.q.Across)
		t0, t1, ok := clipLine(st.key.clip.Inset(-k.q.Across), a, b)
		if !ok {
			continue
		}
		step := edgeStep
		if k.edge > 1 {
			step = endStep
		}
		length := b.Sub(a).Len() * (t1 - t0)
		m := max(1, math.Ceil(length/step))
		part := &st.profiles[k.edge]
		before := *part
		for n := 0.0; n < m; n++ {
			p := a.Lerp(b, t0+(t1-t0)*(n+0.5)/m)
			if s0, s1, ok := clipLine(st.key.clip, p, p.Add(in)); ok {
				k.walk(part, p, in, s0, s1, length/m)
			}
		}
		part.guessed = part.guessed || guessed && *part != before
	}
}

// walk goes from the share s0 of the way in from the edge to s1.
func (k *walker) walk(part *surfacePart, p, in geom.Point, s0, s1, along float64) {
	t0, t1 := k.turned(s0), k.turned(s1)
	var was float64
	var kind Kind
	for i := 0; i <= surfacePieces; i++ {
		t := t0 + (t1-t0)*float64(i)/surfacePieces
		now, d := k.read(p, in, t)
		if i > 0 {
			before := t - (t1-t0)/surfacePieces
			if k.owns(p, in, (before+t)/2) {
				_, z0 := k.place(before)
				_, z1 := k.place(t)
				k.add(part, p, in, [2]float64{before, t}, [2]Kind{kind, now}, [2]float64{was, d}, along*k.q.arc(z1, z0))
			}
		}
		kind, was = now, d
	}
}

// add adds a piece of the surface of a given area.
func (k *walker) add(part *surfacePart, p, in geom.Point, t [2]float64, kinds [2]Kind, d [2]float64, area float64) {
	switch {
	case kinds[0] == Blank && kinds[1] == Blank:
		return
	case kinds[0] == Unseen || kinds[1] == Unseen:
		part.unseen += area
		return
	case kinds[0] == Blank:
		d[0] = d[1]
	case kinds[1] == Blank:
		d[1] = d[0]
	}
	sap := positive(d[0], d[1])
	if kinds[0] <= Sap && kinds[1] <= Sap && (d[0] > 0) != (d[1] > 0) {
		lo, hi := t[0], t[1]
		for range 6 {
			mid := (lo + hi) / 2
			if _, v := k.read(p, in, mid); (v > 0) == (d[0] > 0) {
				lo = mid
			} else {
				hi = mid
			}
		}
		_, z0 := k.place(t[0])
		_, z1 := k.place(t[1])
		_, z := k.place((lo + hi) / 2)
		sap = k.q.arc(z, z0) / k.q.arc(z1, z0)
		if d[0] <= 0 {
			sap = 1 - sap
		}
	}
	part.sap += area * sap
	part.heart += area * (1 - sap)
}

// A place on the surface is told by t: 0 at its lower edge, 1 where it meets the
// face. place returns how far in it lies, as a share of Across, and how deep.
func (k *walker) place(t float64) (s, z float64) {
	if k.q.Round {
		a := math.Pi / 2 * (1 - t)
		return 1 - math.Sin(a), k.q.Down * (1 - math.Cos(a))
	}
	return t, k.q.Down * (1 - t)
}

// turned returns t for a share of Across.
func (k *walker) turned(s float64) float64 {
	if k.q.Round {
		return 1 - math.Asin(min(1, max(0, 1-s)))*2/math.Pi
	}
	return s
}

// read returns the kind of wood at a place of the surface and how far it lies
// within sapwood: between two levels as far as it lies between them.
func (k *walker) read(p, in geom.Point, t float64) (Kind, float64) {
	s, z := k.place(t)
	on := k.at.Apply(p.Add(in.Mul(s)))
	l := 1
	for l < profileLevels && k.depths[l] < z {
		l++
	}
	ka, a := k.lines[l-1].at(on)
	kb, b := k.lines[l].at(on)
	switch {
	case ka == Unseen || kb == Unseen:
		return Unseen, 0
	case ka == Blank:
		return kb, b
	case kb == Blank:
		return ka, a
	}
	d := a + (b-a)*(z-k.depths[l-1])/(k.depths[l]-k.depths[l-1])
	if d > 0 {
		return Sap, d
	}
	return Heart, d
}

// owns reports whether no other profile takes away the wood at a place of the
// surface: where two meet they are mitred.
func (k *walker) owns(p, in geom.Point, t float64) bool {
	if k.box == nil {
		return true
	}
	s, z := k.place(t)
	on := p.Add(in.Mul(s))
	for e, d := range [4]float64{on.Y - k.box.Min.Y, k.box.Max.Y - on.Y, on.X - k.box.Min.X, k.box.Max.X - on.X} {
		if e != k.edge && k.all[e].Down > 0 && d < k.all[e].in(z) {
			return false
		}
	}
	return true
}
