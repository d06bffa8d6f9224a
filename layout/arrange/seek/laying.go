package seek

import (
	"slices"

	"heartside/layout/arrange/order"
	"heartside/layout/face"
)

// laying says for each place, front to back, which strip lies there and how:
// strip*States + state.
type laying []uint8

func (l laying) strip(place int) int   { return int(l[place]) / order.States }
func (l laying) state(place int) uint8 { return l[place] % order.States }

func wayOf(strip int, state uint8) uint8 { return uint8(strip*order.States) + state }

// Bits of a state.
const (
	turnedBit = 1 // end for end
	otherBit  = 2 // face 2 up
)

// stateOf returns the state a strip lies in.
func stateOf(s *face.Strip) uint8 {
	state := uint8(0)
	if s.Turned {
		state |= turnedBit
	}
	if s.UpFace() == 2 {
		state |= otherBit
	}
	return state
}

// laid returns s in a state. What was measured on the planed face is no more
// what shows once the strip is rolled over.
func laid(s face.Strip, state uint8) face.Strip {
	up := 1
	if state&otherBit != 0 {
		up = 2
	}
	if s.UpFace() != up {
		s.Planed = nil
	}
	s.Up, s.Turned = up, state&turnedBit != 0
	return s
}

// round returns the same panel turned round by half a turn: the order
// reversed, every strip turned.
func (l laying) round() laying {
	out := slices.Clone(l)
	slices.Reverse(out)
	for k := range out {
		out[k] ^= turnedBit
	}
	return out
}

// used returns the set of strips in l.
func (l laying) used() uint64 {
	var set uint64
	for k := range l {
		set |= 1 << l.strip(k)
	}
	return set
}
