package arrange

import (
	"strconv"
	"strings"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// change is a candidate: the steps and what comes of them.
type change struct {
	steps  []Step
	strips []face.Strip
	spares []face.Strip // nil: as they were
	cost   Cost
	size   float64
}

// key tells changes with the same outcome from others.
func (c *change) key() string {
	var b strings.Builder
	num := func(v float64) {
		b.WriteString(strconv.FormatFloat(v, 'f', 3, 64))
		b.WriteByte(' ')
	}
	for i := range c.strips {
		s := &c.strips[i]
		b.WriteString(s.ID)
		b.WriteByte(' ')
		if s.Board != nil {
			b.WriteString(s.Board.ID)
		}
		b.WriteByte(byte('0' + s.Up))
		if s.Turned {
			b.WriteByte('t')
		}
		for _, v := range [...]float64{s.X, s.Y, s.L, s.W, s.Angle, s.Shift} {
			num(v)
		}
		if s.Off.Set {
			num(s.Off.Face[0])
			num(s.Off.Face[1])
		}
	}
	if c.spares != nil {
		b.WriteByte('|')
		for i := range c.spares {
			b.WriteString(c.spares[i].ID)
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// lying is how a strip is laid otherwise.
type lying struct {
	kind       Kind
	roll, turn bool
	size       float64
}

// lyings are the ways to lay a strip otherwise, the smallest first.
func lyings() [3]lying {
	return [3]lying{
		{Turn, false, true, 1},
		{RollOver, true, false, 1},
		{RollAndTurn, true, true, 2},
	}
}

// lay lays a strip otherwise. What was measured on the planed face holds for
// the face that showed, so rolling over leaves it behind.
func lay(s *face.Strip, l lying) {
	if l.roll {
		s.Up = 3 - s.UpFace()
		s.Planed = nil
	}
	if l.turn {
		s.Turned = !s.Turned
	}
}

// moved returns a strip moved on its board by (ds, dt) of its own axes.
func moved(s face.Strip, ds, dt float64) face.Strip {
	d := geom.Rotate(s.Angle).Apply(geom.Pt(ds, dt))
	s.X, s.Y = s.X+d.X, s.Y+d.Y
	return s
}

// trimmed returns a strip with its near or far long edge moved in by d, or out
// where d is negative. What was measured on it stays where it was.
func trimmed(s face.Strip, d float64, near bool) face.Strip {
	if near {
		s = moved(s, 0, d)
		if s.Planed != nil {
			p := &face.PlanedFace{Base: s.Planed.Base}
			up := geom.Translate(0, -d)
			for _, z := range s.Planed.Zones {
				p.Zones = append(p.Zones, face.Zone{Kind: z.Kind, Polygon: up.ApplyTo(z.Polygon)})
			}
			s.Planed = p
		}
	}
	s.W -= d
	return s
}

// may reports whether a strip may be touched at all.
func may(s *face.Strip) bool { return !s.Pinned && s.Stage < face.Glued }

// layable reports whether a strip lies on a board and may be laid otherwise.
func layable(s *face.Strip) bool { return s.Board != nil && may(s) }

// cuttable reports whether where a strip is cut from is still open.
func cuttable(s *face.Strip) bool { return layable(s) && s.Stage == face.Planned }

// layCost is what laying strips otherwise costs.
func layCost(strips ...*face.Strip) Cost {
	for _, s := range strips {
		if s.Stage >= face.Jointed {
			return ReJoint
		}
	}
	return Free
}
