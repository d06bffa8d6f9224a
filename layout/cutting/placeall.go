package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// PlaceAll lays the empty places of a panel on boards, one after another, each
// where it shows the least unwanted wood, clear of flaws where that can be,
// beside the panel's strips that lie already and what else is used. Where not
// all find room that way they are packed as tightly as they come. It returns
// the panel's strips, front to back; those without room stay empty.
func PlaceAll(p *face.Panel, boards []*face.Board, used []face.Strip, a Allowances) []face.Strip {
	taken := append([]face.Strip{}, used...)
	for i := range p.Strips {
		if p.Strips[i].Board != nil {
			taken = append(taken, p.Strips[i])
		}
	}
	fair := lay(p.Strips, boards, taken, a, func(s *face.Strip) float64 { return faultOf(s, p.Wanted) })
	if countEmpty(fair) == 0 {
		return fair
	}
	if packed := tight(p.Strips, boards, taken, a); countEmpty(packed) < countEmpty(fair) {
		return packed
	}
	return fair
}

func countEmpty(list []face.Strip) int {
	n := 0
	for i := range list {
		if list[i].Board == nil {
			n++
		}
	}
	return n
}

// tight lays empty strips on the first board with room, nearest its corner.
func tight(strips []face.Strip, boards []*face.Board, taken []face.Strip, a Allowances) []face.Strip {
	return lay(strips, boards, taken, a, nil)
}

// lay lays the empty strips of a list on boards. fault judges a strip in its
// place, smaller being better; without it the first place does.
func lay(strips []face.Strip, boards []*face.Board, taken []face.Strip, a Allowances, fault func(*face.Strip) float64) []face.Strip {
	out := append([]face.Strip{}, strips...)
	taken = append([]face.Strip{}, taken...)
	full := make([]Place, len(boards)) // a size that found no room on each board
	for i := range out {
		s := &out[i]
		if s.Board != nil || !(s.L > 0) || !(s.W > 0) {
			continue
		}
		best, found := face.Strip{}, false
		least := math.Inf(1)
		for k, b := range boards {
			if found && fault == nil {
				break
			}
			if full[k].L > 0 && s.L >= full[k].L && s.W >= full[k].W {
				continue
			}
			spots := Spots(b, *s, taken, a)
			if len(spots) == 0 {
				full[k] = Place{s.L, s.W}
			}
			for _, c := range spots {
				if fault == nil {
					best, found = c, true
					break
				}
				for c.Up = 1; c.Up <= 2; c.Up++ {
					if f := fault(&c); f < least-1e-6 {
						best, found, least = c, true, f
					}
				}
			}
		}
		if found {
			*s = best
			taken = append(taken, best)
		}
	}
	return out
}

// Spots returns where a strip may lie on a board beside what is taken, square
// to it with face 1 up: in the corners of the clear rectangles. Where some keep
// clear of flaws and of the board's ends only those are given. They come from
// the marked end and at one X from the marked edge.
func Spots(b *face.Board, s face.Strip, taken []face.Strip, a Allowances) []face.Strip {
	l, w := BlankSize(s.L, s.W, a)
	if l > b.Length+slack || w > b.Width+slack {
		return nil
	}
	blanks := obstaclesOf(b, taken, a)
	ends := math.Max(0, a.Snipe-a.Ends)
	for _, careful := range [...]bool{true, false} {
		obstacles := blanks
		if careful {
			// A flaw may lie in what is cut off a blank, not in the strip.
			obstacles = append(append([]geom.Polygon{}, blanks...), flawsAsObstacles(b, a.FlawMargin)...)
			if from, to := b.Left(); to-from-2*ends >= l {
				obstacles = append(obstacles, geom.R(-1, -1, from+ends, b.Width+1).Polygon(), geom.R(to-ends, -1, b.Length+1, b.Width+1).Polygon())
			}
		}
		var out []face.Strip
		for _, r := range clearRects(b, obstacles, l-slack, w-slack) {
			for _, x := range [...]float64{r.Min.X, r.Max.X - l} {
				for _, y := range [...]float64{r.Min.Y, r.Max.Y - w} {
					c := s
					c.Board, c.Angle, c.Up, c.Turned = b, 0, 1, false
					c.X, c.Y = x+a.Ends, y+a.edge()
					out = addPlace(out, c)
				}
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// addPlace keeps the list in the order of X, then Y, each place once.
func addPlace(list []face.Strip, s face.Strip) []face.Strip {
	at := len(list)
	for i := range list {
		o := &list[i]
		if math.Abs(o.X-s.X) < slack && math.Abs(o.Y-s.Y) < slack {
			return list
		}
		if at == len(list) && (s.X < o.X-slack || math.Abs(s.X-o.X) <= slack && s.Y < o.Y) {
			at = i
		}
	}
	list = append(list, face.Strip{})
	copy(list[at+1:], list[at:])
	list[at] = s
	return list
}

// faultOf says how ill a strip suits a panel that wants the given wood: the
// area of the other wood on the face that shows, flaws counted ten times and
// what was not seen half. The back counts a hundredth, to choose between
// faces that show alike. mm2.
func faultOf(s *face.Strip, wanted face.Wanted) float64 {
	show, back := woodOf(s, s.Up), woodOf(s, 3-s.Up)
	sum := 0.0
	for k, area := range [...][face.Blank + 1]float64{show, back} {
		fault := 10*area[face.Flaw] + area[face.Unseen]/2
		if kind, ok := wanted.Unwanted(); ok {
			fault += area[kind]
		}
		if k == 1 {
			fault /= 100
		}
		sum += fault
	}
	return sum
}

// woodOf returns the area of each kind of wood in a strip on face n, mm2.
func woodOf(s *face.Strip, n int) [face.Blank + 1]float64 {
	var out [face.Blank + 1]float64
	m := s.ToBoard()
	if n == 2 {
		m = m.Then(s.Board.Other())
	}
	region := m.ApplyTo(geom.R(0, 0, s.L, s.W).Polygon())
	bf := &s.Board.Faces[n-1]
	var layers []geom.Layer
	for _, z := range bf.Zones {
		if len(z.Polygon) >= 3 {
			layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: z.Polygon})
		}
	}
	for _, t := range geom.Decompose(nil, region, int(bf.Base), layers) {
		if t.Label >= 0 && t.Label < len(out) {
			out[t.Label] += t.Area()
		}
	}
	return out
}
