package snapshot

import (
	"math"
)

// cases are the ways sapwood lies on a board, with how often.
var cases = [...]struct {
	name string
	cut  string
	odds int
}{
	{"one edge", "", 8},
	{"both edges", "flat", 5},
	{"heart strip", "flat", 2},
	{"mid-face", "flat", 3},
	{"wide sap", "", 4},
	{"none", "", 3},
	{"all sap", "", 1},
	{"tapering", "", 4},
	{"boxed", "quarter", 1},
}

// Plan makes up a board for a level from 1, easy, to 5, hard. The same seed
// and level always give the same board.
func Plan(seed uint64, level int) *Board {
	level = min(max(level, 1), 5)
	r := newDice(seed, 1)
	kinds := Kinds()
	b := &Board{Seed: seed, Level: level, Kind: kinds[r.IntN(len(kinds))]}
	b.n = newNoise(seed)
	b.vary(r)
	b.Length, b.Width, b.Thickness = math.Round(r.in(420, 1500)), math.Round(r.in(85, 300)), math.Round(r.in(19, 58))
	if b.Length < 2.2*b.Width {
		b.Length = math.Round(2.2*b.Width + 100*r.Float64())
	}
	total := 0
	for _, c := range cases {
		total += c.odds
	}
	pick := r.IntN(total)
	for _, c := range cases {
		if pick -= c.odds; pick < 0 {
			b.Case, b.Cut = c.name, c.cut
			break
		}
	}
	if b.Cut == "" {
		b.Cut = []string{"flat", "flat", "rift", "quarter"}[r.IntN(4)]
	}
	l := &b.Log
	l.Rag = []float64{0, r.in(0.3, 1), r.in(0.6, 2), r.in(1, 4), r.in(1.5, 6), r.in(2, 8)}[level]
	l.Band = []float64{0, r.in(0.6, 1.5), r.in(1, 3), r.in(2, 5), r.in(3, 8), r.in(4, 12)}[level]
	b.place(r)
	l.Wander, l.Vary = r.in(1, 9), r.in(1, 6)
	l.Lean = [2]float64{r.in(-10, 10), r.in(-10, 10)}
	l.Oval, l.Turn = [3]float64{r.in(0, 0.03), r.in(0, 0.015), r.in(0, 0.008)}, [3]float64{r.in(0, 6.3), r.in(0, 6.3), r.in(0, 6.3)}
	l.grow(b.Kind.Ring*r.in(0.6, 1.5), b.Length, b.n.sub(90), r)
	b.knots(r)
	b.rind(r)
	b.Faces = [2]Surface{planSurface(r, level, b.Length, b.Width), planSurface(r, level, b.Length, b.Width)}
	b.ready()
	return b
}

// vary makes the board's own colours.
func (b *Board) vary(r dice) {
	k := &b.Kind
	l, a, c := r.in(-4, 4), r.in(-2, 2), r.in(-3, 3)
	k.Heart.L, k.Heart.A, k.Heart.B = k.Heart.L+l+r.in(-3, 3), k.Heart.A+a+r.in(-1.5, 1.5), k.Heart.B+c+r.in(-2, 2)
	k.Sap.L, k.Sap.A, k.Sap.B = k.Sap.L+l+r.in(-2, 2), k.Sap.A+a+r.in(-1, 1), k.Sap.B+c+r.in(-2, 2)
	// Boards of one kind differ in contrast.
	f := r.in(0.6, 1.05)
	k.Sap.L, k.Sap.A, k.Sap.B = k.Heart.L+f*(k.Sap.L-k.Heart.L), k.Heart.A+f*(k.Sap.A-k.Heart.A), k.Heart.B+f*(k.Sap.B-k.Heart.B)
	*k = k.apart([6]float64{0, 16, 14, 12, 11, 9.5}[b.Level])
	k.Rings *= r.in(0.6, 1.3)
	k.Streaks *= r.in(0.4, 1.5)
	k.Edge *= r.in(0, 1.5)
	if b.Level < 3 {
		k.Pale *= 0.5
	}
}

// place puts the pith and the heart's radius where they make the case.
func (b *Board) place(r dice) {
	l, w, t := &b.Log, b.Width, b.Thickness
	// The pith's height over the nearer face, and where across.
	high, across := r.in(35, 110), w*r.in(0.35, 0.65)
	switch b.Cut {
	case "rift":
		high, across = r.in(60, 160), w*0.5+r.sign()*w*r.in(0.45, 0.8)
	case "quarter":
		high, across = r.in(-t, 8), w*0.5+r.sign()*w*r.in(0.6, 1.4)
	}
	l.Across = across
	face1 := r.yes(0.5) // the pith lies below, so that face 1 is the bark side
	l.Depth = -high
	far := high + t // of the bark face
	if face1 {
		l.Depth = t + high
	}
	edge := math.Max(math.Abs(across), math.Abs(w-across)) // to the farther edge
	near := math.Min(math.Abs(across), math.Abs(w-across))
	to := func(across, depth float64) float64 { return math.Hypot(across, depth) }
	// The case is made at one depth of the board, mostly that of a face.
	mid := high + t*math.Min(1, r.in(0, 1.5))
	switch b.Case {
	case "one edge", "boxed":
		if b.Case == "boxed" {
			l.Across, l.Depth = w*r.in(0.2, 0.8), t*r.in(0.2, 0.8)
			edge, mid = math.Max(l.Across, w-l.Across), 0
		}
		l.Heart = to(edge-w*r.in(0.06, 0.42), mid)
	case "both edges":
		l.Heart = to(near-w*r.in(0.05, 0.22), mid)
	case "heart strip":
		l.Heart = to(w*r.in(0.06, 0.2), far)
	case "mid-face":
		l.Heart = far + r.in(3, 9)
		y, d := (w*r.in(0.4, 0.6)-across)/far, 1.0
		if face1 {
			d = -1
		}
		k := math.Hypot(y, d)
		e := Dent{Y: y / k, D: d / k, Wide: r.in(0.08, 0.2), Deep: r.in(14, 26), From: -200, Upto: b.Length + 200}
		if r.yes(0.5) {
			e.From, e.Upto = b.Length*r.in(-0.2, 0.4), b.Length*r.in(0.6, 1.2)
		}
		l.Heart += e.Deep * 0.1
		l.Heart = math.Max(l.Heart, to(w*0.42, far)*0.99)
		e.Deep += l.Heart - far
		l.Dents = append(l.Dents, e)
	case "wide sap":
		l.Heart = to(edge-w*r.in(0.6, 0.9), mid)
	case "none":
		l.Heart = to(edge, far) + r.in(12, 40)
	case "all sap":
		l.Heart = math.Max(math.Min(high, far)-r.in(8, 20), 4)
		if b.Cut == "quarter" {
			l.Heart = math.Max(math.Abs(near)-10, 4)
			if across > 0 && across < w {
				l.Heart = 4
			}
		}
	case "tapering":
		l.Heart = to(edge-w*r.in(0, 0.1), mid)
		l.Taper = r.sign() * math.Min(w*r.in(0.15, 0.4)/(b.Length/1000), 90)
	}
	if l.Taper == 0 {
		l.Taper = r.in(-12, 12)
	}
}

// knots grows branches that come through the board.
func (b *Board) knots(r dice) {
	n := 0
	switch {
	case b.Level == 2 && r.yes(0.5):
		n = 1
	case b.Level > 2:
		n = r.IntN(b.Level)
	}
	for range n {
		// The branch goes through a place of the face away from the pith.
		a, d := b.Log.Across, b.Log.Depth
		y, z := b.Width*r.in(0.1, 0.9)-a, 0-d
		if d < 0 {
			z = b.Thickness - d
		}
		out := math.Hypot(y, z)
		k := Knot{X: b.Length * r.in(0.08, 0.92), Y: y / out, D: z / out, Rise: r.in(-0.1, 0.45), Size: r.in(3, 11), Ends: out + r.in(-10, 120)}
		k.X -= k.Rise * out
		b.Log.Knots = append(b.Log.Knots, k)
	}
}

// rind says how far the wood reaches: beyond the board, or just short of one
// of its corners, so that bark is left.
func (b *Board) rind(r dice) {
	l := &b.Log
	reach := 0.0
	for _, y := range [2]float64{0, b.Width} {
		for _, d := range [2]float64{0, b.Thickness} {
			reach = math.Max(reach, math.Hypot(y-l.Across, d-l.Depth))
		}
	}
	swell := reach * (1 + math.Abs(l.Oval[0]) + math.Abs(l.Oval[1]) + math.Abs(l.Oval[2]))
	l.Wood = math.Max(swell*1.03+l.Wander*2+20, l.Heart+12)
	if b.Level >= 3 && b.Case != "none" && b.Cut != "quarter" && r.yes(0.35) {
		if w := reach - r.in(2, 9); w > l.Heart+12 {
			l.Wood = w
		}
	}
}
