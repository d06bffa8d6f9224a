package face

import (
	"math"
	"slices"

	"heartside/layout/geom"
)

// finished is the outline of a panel, what is hidden of it and what is worked
// off its edges, with a number that changes when they do.
type finished struct {
	outline geom.Polygon // as read; a rectangle where shaped is false
	shaped  bool
	length  float64
	width   float64
	hidden  []geom.Polygon
	worked  worked
	version uint64

	levels     map[levelBoards]uint64
	levelsMade uint64
}

// take looks whether the panel's outline is another one than before. Polygons
// are compared by their points, as a panel may be built anew for every edit.
func (f *finished) take(p *Panel) {
	shaped := len(p.Shape) > 2
	same := f.version > 0 && f.shaped == shaped && f.length == p.Length && f.width == p.Width &&
		len(f.hidden) == len(p.Hidden) && (!shaped || slices.Equal(f.outline, p.Shape))
	for i := 0; same && i < len(p.Hidden); i++ {
		same = slices.Equal(f.hidden[i], p.Hidden[i])
	}
	profiles := profilesOf(p)
	same = same && f.worked.profiles == profiles
	if same {
		return
	}
	f.version++
	f.shaped, f.length, f.width = shaped, p.Length, p.Width
	if shaped {
		f.outline = slices.Clone(p.Shape)
	} else {
		f.outline = geom.R(0, 0, p.Length, p.Width).Polygon()
	}
	f.hidden = f.hidden[:0]
	for _, h := range p.Hidden {
		f.hidden = append(f.hidden, slices.Clone(h))
	}
	f.worked.take(f.outline, profiles)
}

// extent returns the least and greatest X of the outline between two Y, and
// false where it does not reach there.
func (f *finished) extent(y0, y1 float64) (x0, x1 float64, ok bool) {
	x0, x1 = math.Inf(1), math.Inf(-1)
	for i, a := range f.outline {
		b := f.outline[(i+1)%len(f.outline)]
		if a.Y > b.Y {
			a, b = b, a
		}
		if b.Y < y0 || a.Y > y1 {
			continue
		}
		for _, y := range [2]float64{max(a.Y, y0), min(b.Y, y1)} {
			at := [2]float64{a.X, b.X}
			if b.Y > a.Y {
				x := a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
				at = [2]float64{x, x}
			}
			x0, x1 = min(x0, at[0], at[1]), max(x1, at[0], at[1])
		}
	}
	return x0, x1, x1 > x0
}

// stripKey is all that the reading of one strip by itself depends on. Boards
// and planed faces are known by their pointer.
type stripKey struct {
	board      *Board
	planed     *PlanedFace
	x, y, l, w float64
	angle      float64
	up         int
	turned     bool
	clip       geom.Rect // the panel's rectangle within the strip, place coordinates
	reach      uint8     // sides of the panel that cut the strip or all but touch it, a bit for each
	left, at   float64   // where the strip lies, only where the outline or the hidden matter
	outline    uint64
	levels     uint64 // of the wood under the profiles, 0 where none reaches the strip
	thickness  float64
	wanted     Wanted
}

func (f *finished) key(p *Panel, i int, y float64) stripKey {
	s := &p.Strips[i]
	left := p.Left(i)
	k := stripKey{
		board: s.Wood(p), planed: s.Planed, x: s.X, y: s.Y, l: s.L, w: s.W, angle: s.Angle,
		up: s.UpFace(), turned: s.Turned, thickness: p.Thickness, wanted: p.Wanted,
	}
	own := geom.Rect{Max: geom.Pt(s.L, s.W)}
	k.clip = own.Intersect(geom.Rect{Min: geom.Pt(-left, -y), Max: geom.Pt(p.Length-left, p.Width-y)})
	// A panel that its strips do not quite fill ends with their own edges.
	const eps = gapAcross
	for side, reaches := range [...]bool{
		Front: -y > -eps && -y < s.W, Rear: p.Width-y < s.W+eps && p.Width-y > 0,
		Left: -left > -eps && -left < s.L, Right: p.Length-left < s.L+eps && p.Length-left > 0,
	} {
		if reaches {
			k.reach |= 1 << side
		}
	}
	if f.worked.deep > 0 && !f.worked.spares(s, left, y) {
		k.levels = f.levelsID(s, p.Thickness)
	}
	if f.shaped || len(f.hidden) > 0 || k.levels > 0 {
		k.left, k.at, k.outline = left, y, f.version
	}
	return k
}

// sound reports whether the numbers of a strip can be read at all.
func (k *stripKey) sound() bool {
	for _, v := range [...]float64{k.x, k.y, k.l, k.w, k.angle, k.clip.Min.X, k.clip.Min.Y, k.clip.Max.X, k.clip.Max.Y} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return k.l > 0 && k.w > 0 && k.board != nil
}

// column returns the least and greatest Y of the outline at x.
func (f *finished) column(x float64) (y0, y1 float64, ok bool) {
	y0, y1 = math.Inf(1), math.Inf(-1)
	for i, a := range f.outline {
		b := f.outline[(i+1)%len(f.outline)]
		if (a.X > x) != (b.X > x) {
			y := a.Y + (x-a.X)/(b.X-a.X)*(b.Y-a.Y)
			y0, y1 = min(y0, y), max(y1, y)
		}
	}
	return y0, y1, y1 > y0
}
