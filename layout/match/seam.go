package match

import (
	"math"

	"heartside/layout/face"
)

// Seam is what a joint of two strips would be, read every Step mm.
type Seam struct {
	From        float64   // u of the front strip where the joint begins
	Front, Rear []float64 // width of the unwanted wood before and behind the joint, every Step mm from From
	FrontW      face.Widths
	RearW       face.Widths // the same at the left end, the middle and the right end

	Mean, Greatest float64 // difference of the two widths, mm
	Within         float64 // share of the joint along which they agree
	Both           float64 // share along which both carry it
	Width          float64 // mean width of the joined band, where both carry it
	Unseen         float64 // share along which either is not seen yet; it counts as not unwanted
}

// Between returns the seam of two strips as they lie, and false where there is
// none: a strip lies on no board, they do not lie beside one another, or there
// is no unwanted wood to speak of.
func Between(front, rear *face.Strip, o Options) (Seam, bool) {
	kind, ok := o.Wanted.Unwanted()
	if !ok || !sound(front) || !sound(rear) {
		return Seam{}, false
	}
	o = o.filled()
	a, b := lieOf(front), lieOf(rear)
	ta := trackOf(front, a.Up, 0, 0, kind)
	tb := trackOf(rear, b.Up, 0, 0, kind)
	j, ok := jointOf(front, rear, o.Length)
	if !ok {
		return Seam{}, false
	}
	sa := side{&ta, a.rear(), a.Turned, front.L}
	sb := side{&tb, b.front(), b.Turned, rear.L}
	s := seamOf(j, sa, sb, 0, 0, o)
	return s, sa.widest() > 0 || sb.widest() > 0
}

// joint is the stretch along which two strips meet.
type joint struct {
	from, to float64 // u of the front strip
	shift    float64 // added to that for the u of the rear strip
	first    float64 // u of the first place read
	n        int     // places read, Step apart
}

// jointOf returns where two strips meet that are centred over one another but
// for their shifts, in a panel of a length (0: not trimmed).
func jointOf(front, rear *face.Strip, length float64) (joint, bool) {
	j := joint{shift: (rear.L-front.L)/2 + front.Shift - rear.Shift}
	j.from, j.to = max(0, -j.shift), min(front.L, rear.L-j.shift)
	if length > 0 {
		middle := front.L/2 - front.Shift
		j.from, j.to = max(j.from, middle-length/2), min(j.to, middle+length/2)
	}
	if !(j.to > j.from) {
		return j, false
	}
	steps := math.Floor((j.to-j.from)/Step + 1e-9)
	j.n = int(steps) + 1
	j.first = j.from + (j.to-j.from-steps*Step)/2
	return j, true
}

// side is one edge of a joint.
type side struct {
	t      *track
	edge   Edge
	turned bool
	length float64
}

// s returns the strip's own s at u.
func (x side) s(u float64) float64 {
	if x.turned {
		return x.length - u
	}
	return u
}

func (x side) at(u float64) float64 { return x.t.at(x.edge, x.s(u)) }

func (x side) widest() float64 { return x.t.widest[x.edge] }

// seamOf reads the joint where the front strip has slid by da and the rear one
// by db along their boards.
func seamOf(j joint, a, b side, da, db float64, o Options) Seam {
	da, db = a.along(da), b.along(db)
	s := Seam{From: j.first, Front: make([]float64, j.n), Rear: make([]float64, j.n)}
	both := 0.0
	for k := range s.Front {
		u := j.first + Step*float64(k)
		p, q := a.at(u+da), b.at(u+j.shift+db)
		s.Front[k], s.Rear[k] = p, q
		d := math.Abs(p - q)
		s.Mean += d
		s.Greatest = max(s.Greatest, d)
		if d <= o.Tolerance+1e-9 {
			s.Within++
		}
		if p >= o.Least && q >= o.Least {
			both++
			s.Width += p + q
		}
		if a.t.unseenAt(a.edge, a.s(u+da)) || b.t.unseenAt(b.edge, b.s(u+j.shift+db)) {
			s.Unseen++
		}
	}
	n := float64(j.n)
	if both > 0 {
		s.Width /= both
	}
	s.Mean, s.Within, s.Both, s.Unseen = s.Mean/n, s.Within/n, both/n, s.Unseen/n
	for i, u := range [3]float64{j.from, (j.from + j.to) / 2, j.to} {
		s.FrontW[i], s.RearW[i] = a.at(u+da), b.at(u+j.shift+db)
	}
	return s
}

// along turns a slide along the board into one along u, and back.
func (x side) along(d float64) float64 {
	if x.turned {
		return -d
	}
	return d
}
