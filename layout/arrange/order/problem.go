package order

import (
	"errors"
	"fmt"
	"math"
)

// States is how many ways a strip may lie: bit 0 turned end for end, bit 1 the
// other face up.
const States = 4

// mostStrips is how many strips a set of 64 bits holds.
const mostStrips = 64

// Problem asks for orders of strips with the least sum of costs.
type Problem struct {
	Strips, Places int // strips in the pool, and how many of them are placed, at most all

	// Allowed holds for each strip the set of states it may lie in, bit by bit;
	// nil allows all.
	Allowed []uint8

	// Single is the cost of strip i in state s at place p, at index
	// (p*Strips+i)*States+s. +Inf forbids. It may be negative.
	Single []float64

	// Pair is the cost of strip i in state s directly in front of strip j in
	// state t, at index (i*States+s)*Strips*States + j*States+t. +Inf forbids.
	// At least 0; the cost of a strip before itself is not looked at.
	Pair []float64

	// Fixed strips keep place and state; Allowed is not asked about them, the
	// prices are.
	Fixed []Fixed

	// Enough, where not nil, says whether a full set of strips will do, bit i
	// standing for strip i. It must give the same answer every time.
	Enough func(used uint64) bool
}

// Fixed is a strip that stays at a place in a state.
type Fixed struct {
	Place, Strip int
	State        uint8
}

// Answer is one complete order, front to back.
type Answer struct {
	Cost   float64 // the sum, place by place: the joint in front, then the strip
	Strips []int
	States []uint8
}

// ErrTooLarge says that a problem has too many sets of strips for the exact
// table. Bound still works.
var ErrTooLarge = errors.New("too many strips to try every set of them; place fewer, pin some, or search without proof")

// Cost returns the cost of an order of p, +Inf where the prices forbid it.
// Enough is not asked.
func (p *Problem) Cost(strips []int, states []uint8) float64 {
	sum := 0.0
	for k, i := range strips {
		if k > 0 {
			sum += p.pair(strips[k-1], states[k-1], i, states[k])
		}
		sum += p.single(k, i, states[k])
	}
	return sum
}

func (p *Problem) single(place, strip int, state uint8) float64 {
	return p.Single[(place*p.Strips+strip)*States+int(state)]
}

func (p *Problem) pair(i int, s uint8, j int, t uint8) float64 {
	return p.Pair[(i*States+int(s))*p.Strips*States+j*States+int(t)]
}

// allowed returns the set of states of a strip.
func (p *Problem) allowed(strip int) uint8 {
	if p.Allowed == nil {
		return 1<<States - 1
	}
	return p.Allowed[strip]
}

// check reports what is wrong with p.
func (p *Problem) check() error {
	m, n := p.Strips, p.Places
	switch {
	case m < 1 || m > mostStrips:
		return fmt.Errorf("order: %d strips; 1 to %d can be ordered", m, mostStrips)
	case n < 1 || n > m:
		return fmt.Errorf("order: %d places for %d strips; at least one place and no more places than strips are needed", n, m)
	case p.Allowed != nil && len(p.Allowed) != m:
		return fmt.Errorf("order: states allowed for %d of %d strips; give them for all, or none", len(p.Allowed), m)
	case len(p.Single) != n*m*States:
		return fmt.Errorf("order: %d costs of strips at places, want places x strips x states = %d", len(p.Single), n*m*States)
	case len(p.Pair) != m*States*m*States:
		return fmt.Errorf("order: %d costs of pairs, want (strips x states) squared = %d", len(p.Pair), m*States*m*States)
	}
	for k, c := range p.Single {
		if math.IsNaN(c) || math.IsInf(c, -1) {
			return fmt.Errorf("order: strip %d at place %d costs %v; a number or +Inf is needed", k/States%m, k/States/m, c)
		}
	}
	for k, c := range p.Pair {
		if i, j := k/(m*States)/States, k%(m*States)/States; i != j && !(c >= 0) {
			return fmt.Errorf("order: strip %d in front of strip %d costs %v; 0 or more is needed", i, j, c)
		}
	}
	return p.checkFixed()
}

func (p *Problem) checkFixed() error {
	places, strips := uint64(0), uint64(0)
	for _, f := range p.Fixed {
		if f.Place < 0 || f.Place >= p.Places || f.Strip < 0 || f.Strip >= p.Strips || f.State >= States {
			return fmt.Errorf("order: strip %d cannot be pinned at place %d in state %d: there are %d strips, %d places and %d states", f.Strip, f.Place, f.State, p.Strips, p.Places, States)
		}
		if places>>f.Place&1 == 1 || strips>>f.Strip&1 == 1 {
			return fmt.Errorf("order: strip %d at place %d: strip or place is pinned twice", f.Strip, f.Place)
		}
		places |= 1 << f.Place
		strips |= 1 << f.Strip
	}
	return nil
}
