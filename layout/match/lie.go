package match

import (
	"math"

	"heartside/layout/face"
)

// Lie is one of the four ways a strip may lie in a panel.
type Lie struct {
	Up     int // the board face that shows, 1 or 2
	Turned bool
}

// Lies lists the four ways.
var Lies = [...]Lie{{1, false}, {1, true}, {2, false}, {2, true}}

// round returns the lie after the whole panel is turned half round.
func (l Lie) round() Lie { return Lie{l.Up, !l.Turned} }

// of returns the strip as it lies that way.
func (l Lie) of(s face.Strip) face.Strip {
	s.Up, s.Turned = l.Up, l.Turned
	return s
}

// Edge names a long edge of a strip by its own coordinates.
type Edge uint8

// Edges of a strip: Near at t = 0, towards the marked edge of its board, and
// Far at t = W.
const (
	Near Edge = iota
	Far
)

// String returns "near" or "far".
func (e Edge) String() string {
	if e == Far {
		return "far"
	}
	return "near"
}

// front returns which edge is the front one of a strip that lies that way;
// its rear edge is the other.
func (l Lie) front() Edge {
	if l.Turned != (l.Up == 2) {
		return Far
	}
	return Near
}

func (l Lie) rear() Edge { return Far - l.front() }

// lieOf returns how a strip lies.
func lieOf(s *face.Strip) Lie { return Lie{s.UpFace(), s.Turned} }

// sound reports whether a strip lies on a board and has a size.
func sound(s *face.Strip) bool {
	if s.Board == nil {
		return false
	}
	for _, v := range [...]float64{s.L, s.W, s.Board.Length, s.Board.Width} {
		if !(v > 0) || v > most {
			return false
		}
	}
	for _, v := range [...]float64{s.X, s.Y, s.Angle, s.Shift} {
		if !(math.Abs(v) <= most) {
			return false
		}
	}
	return true
}

// most is the greatest length that is taken for one, mm: a hundred metres.
const most = 1e5
