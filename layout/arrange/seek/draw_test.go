package seek

import (
	"fmt"
	"math"
	"math/rand/v2"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// wood is a board drawn by lot, with sapwood of some width along its edges on
// both faces, here and there a streak within and a knot.
func wood(rnd *rand.Rand, id string, length, width float64) *face.Board {
	b := &face.Board{
		ID: id, Length: length, Width: width, Thickness: 26, Planes: face.Planes(rnd.IntN(4)),
		AssumedHeart: colour.Lab{L: 35, A: 8, B: 14}, AssumedSap: colour.Lab{L: 70, A: 4, B: 20},
	}
	for f := range b.Faces {
		zone := func(kind face.Kind, pts ...geom.Point) {
			b.Faces[f].Zones = append(b.Faces[f].Zones, face.Zone{Kind: kind, Polygon: pts})
		}
		if rnd.IntN(3) > 0 {
			w0, w1 := 5+40*rnd.Float64(), 5+40*rnd.Float64()
			zone(face.Sap, geom.Pt(0, 0), geom.Pt(length, 0), geom.Pt(length, w1), geom.Pt(0, w0))
		}
		if rnd.IntN(3) == 0 {
			w0, w1 := 5+40*rnd.Float64(), 5+40*rnd.Float64()
			zone(face.Sap, geom.Pt(0, width), geom.Pt(0, width-w0), geom.Pt(length, width-w1), geom.Pt(length, width))
		}
		if rnd.IntN(5) == 0 {
			y := width * (0.3 + 0.4*rnd.Float64())
			zone(face.Sap, geom.Pt(100, y), geom.Pt(length-200, y), geom.Pt(length-200, y+12), geom.Pt(100, y+12))
		}
		if rnd.IntN(5) == 0 {
			x, y := length*rnd.Float64(), width*rnd.Float64()
			zone(face.Flaw, geom.Pt(x, y), geom.Pt(x+15, y), geom.Pt(x+15, y+10), geom.Pt(x, y+10))
		}
	}
	return b
}

// drawn is a panel of n strips of different widths, each from a board of its
// own, with some spares.
func drawn(seed uint64, n, spares int) (*face.Panel, []face.Strip) {
	rnd := rand.New(rand.NewPCG(seed, uint64(n)))
	p := &face.Panel{
		ID: "top", Length: 900, Thickness: 20, PanelEdge: 5, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits,
	}
	var all []face.Strip
	for i := range n + spares {
		w := 60 + math.Round(50*rnd.Float64())
		all = append(all, face.Strip{
			ID: fmt.Sprintf("s%02d", i), Board: wood(rnd, fmt.Sprintf("B%02d", i), 980, w+10),
			X: 25, Y: 5, L: 930, W: w, Up: 1 + rnd.IntN(2), Turned: rnd.IntN(2) == 1,
		})
	}
	p.Strips = all[:n:n]
	p.Width = p.StripsWidth() - 10
	return p, all[n:]
}

// swapped is the same panel in wood with heart and sap changed, the other kind
// wanted.
func swapped(list []face.Strip) []face.Strip {
	other := func(k face.Kind) face.Kind {
		if k <= face.Sap {
			return face.Sap - k
		}
		return k
	}
	var out []face.Strip
	for _, s := range list {
		b := *s.Board
		b.AssumedHeart, b.AssumedSap = b.AssumedSap, b.AssumedHeart
		for f := range b.Faces {
			bf := &b.Faces[f]
			bf.Base = other(bf.Base)
			zones := bf.Zones
			bf.Zones = nil
			for _, z := range zones {
				bf.Zones = append(bf.Zones, face.Zone{Kind: other(z.Kind), Polygon: z.Polygon})
			}
		}
		s.Board = &b
		out = append(out, s)
	}
	return out
}

// plain is a judge of a few lines, which knows nothing of looks: neighbours
// should show as much unwanted wood at their joint, the outside edges much of
// it, and the reading be balanced and without lone streaks. It samples edges at
// five places.
type plain struct{ wanted face.Wanted }

// edge returns the unwanted width along the front (0) or back (1) edge of s as
// it lies, mean of five places, up to 60 mm.
func (j plain) edge(s *face.Strip, back bool) float64 {
	bad, ok := j.wanted.Unwanted()
	if !ok || s.Board == nil {
		return 0
	}
	f, to := &s.Board.Faces[s.UpFace()-1], s.PlaceToFace(s.UpFace())
	sum := 0.0
	for k := range 5 {
		u := s.L * (0.1 + 0.2*float64(k))
		for v := 0.5; v < 60; v++ {
			at := v
			if back {
				at = s.W - v
			}
			if f.At(to.Apply(geom.Pt(u, at)), s.Board) != bad {
				break
			}
			sum += 0.2
		}
	}
	return sum
}

func (j plain) Single(s *face.Strip, place, places int) float64 {
	x := 0.0
	if place == 0 {
		x += (60 - j.edge(s, false)) / 20
	}
	if place == places-1 {
		x += (60 - j.edge(s, true)) / 20
	}
	return x
}

func (j plain) Pair(front, rear *face.Strip) float64 {
	return math.Abs(j.edge(front, true)-j.edge(rear, false)) / 5
}

func (j plain) Points(p *face.Panel, r *face.Reading) float64 {
	sum := 0.0
	for i := range p.Strips {
		if i > 0 {
			sum += j.Pair(&p.Strips[i-1], &p.Strips[i])
		}
		sum += j.Single(&p.Strips[i], i, len(p.Strips))
	}
	for i := range r.Warnings {
		switch r.Warnings[i].Kind {
		case face.LoneStreak:
			sum += 4
		case face.FlawOnShow:
			sum++
		}
	}
	return sum + 30*math.Abs(r.Show.Balance) + 10*r.Show.Unwanted.Value
}
