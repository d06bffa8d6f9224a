package wane

import "math"

// Engineering choices. A colour seen neither in the middle of the board nor
// on the ground is more likely wood: ground is seen all round, sapwood only at
// the edges. What is darker than all wood of the middle is not: bark, the
// sloping edge below it, the board's own shadow.
const (
	strangeWood   = 0.20
	strangeGround = 0.02
	mostLean      = 3.0 // what one cell can say at most
	darkSpreads   = 3.0 // how many spreads below the mean of a wood is darker than it
	leastDark     = 0.6 // and at least, in lightness as cells have it
	darkShare     = 0.1 // of the wood that a part must have to count
)

// shade is ground in shadow: by how much darker, as a factor of light, how far
// that varies, in lightness as cells have it, and its share of the ground.
// Engineering choices.
type shade struct{ factor, spread, share float64 }

var shades = [...]shade{{0.6, 0.4, 0.1}, {0.25, 0.7, 0.1}}

const woodParts, groundParts = 3, 4

// likeness tells wood from ground.
type likeness struct {
	wood, ground mixture
	any          bell    // wide enough for all there is
	strange      float64 // how far what is like neither leans to wood
	dark         float64 // lightness below which nothing is wood
}

// likenessOf learns from samples of both; ok is false where there are too few.
func likenessOf(wood, ground []feature) (l likeness, ok bool) {
	l.wood, l.ground = learn(wood, woodParts), learn(ground, groundParts)
	if len(l.wood) == 0 || len(l.ground) == 0 {
		return l, false
	}
	all := append(append([]feature(nil), thinnedOut(wood)...), thinnedOut(ground)...)
	p := make([]float64, len(all))
	for i := range p {
		p[i] = 1
	}
	b, ok := bellOf(all, p, 0, 1)
	if !ok {
		return l, false
	}
	for i := range b.cov { // twice as wide as what there is
		for j := range b.cov[i] {
			b.cov[i][j] *= 4
		}
	}
	if !b.shape(1) {
		return l, false
	}
	l.any, l.strange = b, math.Log(strangeWood/strangeGround)
	l.dark = math.Inf(1)
	for _, w := range l.wood {
		if w.share >= darkShare {
			l.dark = math.Min(l.dark, w.mean[0]-math.Max(darkSpreads*math.Sqrt(w.cov[0][0]), leastDark))
		}
	}
	n := len(l.ground)
	for _, s := range shades {
		for _, g := range l.ground[:n:n] {
			g.mean[0] += math.Sqrt(3) * math.Log(s.factor)
			g.cov[0][0] += s.spread * s.spread
			if g.shape(s.share * g.share) {
				l.ground = append(l.ground, g)
			}
		}
	}
	return l, true
}

// lean is the logarithm of how much likelier a cell is wood than ground, kept
// within mostLean.
func (l *likeness) lean(v *feature) float64 {
	any := l.any.log(v) + math.Log(strangeWood)
	w, g := l.wood.log(v), l.ground.log(v)
	if v[0] < l.dark {
		g, w = math.Max(g, any), math.Max(w, any-math.Log(strangeWood/strangeGround))
	} else {
		w, g = math.Max(w, any), math.Max(g, any-l.strange)
	}
	return math.Min(math.Max(w-g, -mostLean), mostLean)
}
