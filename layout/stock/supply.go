package stock

import (
	"fmt"
	"math"

	"heartside/layout/arrange/look"
	"heartside/layout/cutting"
	"heartside/layout/face"
)

// Price is what a board costs, in any one currency. The zero value is a price
// that is not known and counts as nothing.
type Price struct {
	PerArea float64 // for the wood that is used up, per mm2 of face
	Whole   float64 // for the whole board, due once anything is cut from it
}

// Stock is a board at hand. What a board is already cut for is paid: its whole
// price counts no more.
type Stock struct {
	Board *face.Board
	Price Price
}

// Supply is the wood at hand and what working it takes.
type Supply struct {
	Boards     []Stock
	Taken      []face.Strip // what already lies on the boards, of other parts and spares
	Allowances cutting.Allowances
	Machines   cutting.Machines
	Plane      float64 // least thickness that planing takes off a board, mm

	tables *tableBook
}

// tableBook keeps tables of boards for plans that are made one after another;
// nil keeps none.
type tableBook struct{ got map[tableKey]*Table }

type tableKey struct {
	board       *face.Board
	angle, cell float64
}

func (k *tableBook) table(b *face.Board, angle, cell float64) (*Table, error) {
	if k == nil {
		return NewTable(b, angle, cell, 0)
	}
	key := tableKey{b, angle, cell}
	if t := k.got[key]; t != nil {
		return t, nil
	}
	t, err := NewTable(b, angle, cell, 0)
	if err == nil {
		k.got[key] = t
	}
	return t, err
}

// Demand is a panel or a number of alike solid parts. Sizes are finished, mm.
type Demand struct {
	ID                       string
	Length, Width, Thickness float64 // Thickness 0: any board will do
	Count                    int     // of solid parts, each in one piece; 0: a panel
	PanelEdge                float64 // least excess at each long edge of a panel

	Wanted   face.Wanted
	Look     look.Name  // says how much unwanted wood is welcome; "" as heart-only
	Most     [2]float64 // most unwanted share on show face and back, 1 = any
	BothShow bool       // the back is seen too

	Boards []string // ids of the boards it may come from; nil: any
}

// Shares of unwanted wood that a look is content with. Engineering choices
// with no published source; the share of an even mix is face.DefaultLimits'.
var sapLooks = [2]float64{0, 0.25}

// Welcome returns between which shares unwanted wood is neither missed nor too
// much for a look, strip by strip. It is a hint for choosing wood: how strips are
// best laid is judged elsewhere.
func Welcome(name look.Name) (lo, hi float64) {
	switch name {
	case look.SapOut, look.SapIn, look.SapToSap:
		return sapLooks[0], sapLooks[1]
	case look.EvenMix:
		return face.DefaultLimits.Mix[0], face.DefaultLimits.Mix[1]
	case look.AsLaid:
		return 0, 1
	}
	return 0, 0
}

// Objective is what a plan is to be best at. Whatever it is, as little as can
// be is left unmade, then limits of unwanted wood are kept where they can be.
type Objective string

// Objectives, with what decides between plans that are alike in it.
const (
	LeastWood    Objective = "least-wood"    // least used up; then cost, look, strips
	LeastCost    Objective = "least-cost"    // then least wood
	BestLook     Objective = "best-look"     // least wood that the look does not welcome; then strips, wood
	FewestJoints Objective = "fewest-joints" // fewest strips; then look, wood
	WholeBoards  Objective = "whole-boards"  // fewest boards cut into; then wood
)

// Options of a plan; the zero value has defaults for all. All defaults are
// engineering choices with no published source.
type Options struct {
	OverLength float64    // mm that panel strips are longer than the panel, where boards give it; 0: 30, under 0: none
	Grid       float64    // sizes of panel strips are whole multiples, mm; 1
	Narrowest  float64    // narrowest panel strip as glued, mm; 0: 50, what the machines need, a third of the widest
	Widest     float64    // widest panel strip as glued, mm; 0: what the machines take
	Offcut     [2]float64 // length and width of a blank from which what is left of a board is of use, mm; 300 x 50
	Cell       float64    // of tables, mm; 2
	Straight   bool       // no strips at an angle
	Nodes      int        // bundles tried in the full search; 3000
	Rounds     int        // parts of a plan taken out and laid anew; 40
	Seed       uint64

	Progress func(Progress) // called from the same goroutine
}

// Progress tells how far a plan has come.
type Progress struct {
	Done, Of int     // steps of work
	Missing  float64 // area that the best plan so far lacks, mm2
	Used     float64 // wood that it uses up, mm2
	Cost     float64
	Strips   int
}

func (o Options) filled() Options {
	pos := func(v *float64, def float64) {
		if !(*v > 0) || math.IsInf(*v, 0) {
			*v = def
		}
	}
	if o.OverLength = math.Max(o.OverLength, -1); o.OverLength < 0 {
		o.OverLength = 0
	} else {
		pos(&o.OverLength, 30)
	}
	pos(&o.Grid, 1)
	pos(&o.Offcut[0], 300)
	pos(&o.Offcut[1], 50)
	pos(&o.Cell, 2)
	if o.Nodes <= 0 {
		o.Nodes = 3000
	}
	if o.Rounds <= 0 {
		o.Rounds = 40
	}
	return o
}

// sane reports whether numbers are finite and not negative.
func sane(list ...float64) bool {
	for _, v := range list {
		if !(v >= 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// check returns an error that tells what of the supply or the demands makes no
// sense.
func check(s *Supply, demands []Demand) error {
	a, m := s.Allowances, s.Machines
	if !sane(a.Kerf, a.Rest, a.Joint, a.Ends, a.FlawMargin, a.Snipe, m.Flatten, m.Thickness, m.Shortest, m.Narrowest, s.Plane) {
		return fmt.Errorf("allowances and machine limits must be numbers not under 0")
	}
	ids := map[string]bool{}
	for i, k := range s.Boards {
		b := k.Board
		switch {
		case b == nil:
			return fmt.Errorf("board %d of the supply is missing", i+1)
		case ids[b.ID]:
			return fmt.Errorf("board %s is in the supply twice; give each its own letter", b.ID)
		case !(b.Length > 0) || !(b.Width > 0) || !sane(b.Length, b.Width, b.Thickness):
			return fmt.Errorf("board %s: a length of %g mm, a width of %g mm and a thickness of %g mm are no board", b.ID, b.Length, b.Width, b.Thickness)
		case !sane(k.Price.PerArea, k.Price.Whole):
			return fmt.Errorf("board %s: its price must be a number not under 0", b.ID)
		}
		ids[b.ID] = true
	}
	parts := map[string]bool{}
	for i := range demands {
		d := &demands[i]
		switch {
		case parts[d.ID]:
			return fmt.Errorf("part %q is wanted twice; give each its own name and solid parts a count", d.ID)
		case !(d.Length > 0) || !(d.Width > 0) || !sane(d.Length, d.Width, d.Thickness, d.PanelEdge):
			return fmt.Errorf("part %s: a length of %g mm, a width of %g mm and a thickness of %g mm are no part", d.ID, d.Length, d.Width, d.Thickness)
		case d.Count < 0:
			return fmt.Errorf("part %s: %d of them; give how many, or 0 for a panel", d.ID, d.Count)
		case !sane(d.Most[0], d.Most[1]):
			return fmt.Errorf("part %s: its limits of unwanted wood must be shares from 0 to 1", d.ID)
		}
		parts[d.ID] = true
	}
	return nil
}
