package cutting

import (
	"math"

	"heartside/layout/face"
)

// What a first list of strips keeps to. Common practice, no source.
const (
	overLength  = 30.0  // mm longer than the panel until it is trimmed
	thinnest    = 50.0  // mm, no strip is narrower
	likedLeast  = 70.0  // mm, strips are liked from here
	likedMost   = 130.0 // mm, up to here
	likedMiddle = 100.0
	mostStrips  = 200 // a panel is proposed at most
	eitherWay   = 4   // counts tried either side of that of strips of likedMiddle
)

// Place is the size of an empty place, as glued, mm.
type Place struct{ L, W float64 }

// Why a list of strips came out as it did.
const (
	ReasonEven      = "even"           // A strips of B mm
	ReasonLength    = "over-length"    // A mm long for a panel of B mm
	ReasonShort     = "boards-short"   // the longest board gives A mm; B was wished for
	ReasonTooShort  = "boards-shorter" // the longest board gives A mm, less than the panel's B mm
	ReasonMachine   = "machine-width"  // strips of at most A mm, for a machine of B mm
	ReasonBoards    = "boards"         // they come out of A boards
	ReasonNotEnough = "not-enough"     // only A of B strips can be cut from the boards
	ReasonNarrow    = "narrowest"      // strips of at least A mm, for the machine's B mm
)

// Reason is one reason for a proposal, with its two figures.
type Reason struct {
	Key  string
	A, B float64
}

// Proposal is a first list of strips for a panel.
type Proposal struct {
	Places  []Place
	Reasons []Reason
}

// Propose returns a first list of strips for a panel of p's finished size, cut
// from the boards beside what is used on them already: of one length, of even
// widths that together make the panel with the excess wanted at its edges, no
// wider than the machines take, preferably 70 to 130 mm and such that few
// boards are needed. Lengths and widths are whole multiples of grid, mm, so
// that they are read on a rule and add up as printed; what that adds is excess.
// A grid that is not over 0 counts as 0.1 mm. A panel without a size gives an
// empty proposal.
func Propose(p *face.Panel, boards []*face.Board, used []face.Strip, a Allowances, m Machines, grid float64) Proposal {
	var out Proposal
	if !(grid > 0) || math.IsInf(grid, 0) {
		grid = 0.1
	}
	need := p.Width + 2*math.Max(0, p.PanelEdge)
	if !(p.Length > 0) || !(need > 0) || math.IsInf(p.Length, 0) || math.IsInf(need, 0) {
		return out
	}
	need = up(need, grid)
	because := func(key string, a, b float64) { out.Reasons = append(out.Reasons, Reason{key, a, b}) }
	length := lengthFor(p.Length, boards, a, grid, because)
	least, most := widthsFor(boards, a, m, grid, because)
	n, fits, from := countFor(length, need, least, most, boards, used, a, grid)
	out.Places = Evenly(n, length, need, grid)
	because(ReasonEven, float64(n), out.Places[0].W)
	switch {
	case fits < n:
		because(ReasonNotEnough, float64(fits), float64(n))
	case len(boards) > 0:
		because(ReasonBoards, float64(from), 0)
	}
	return out
}

// lengthFor returns the length of the strips as glued.
func lengthFor(panel float64, boards []*face.Board, a Allowances, grid float64, because func(string, float64, float64)) float64 {
	wish := up(panel+overLength, grid)
	longest := 0.0
	for _, b := range boards {
		from, to := b.Left()
		longest = math.Max(longest, to-from-2*a.Ends)
	}
	switch {
	case len(boards) == 0 || longest >= wish:
		because(ReasonLength, wish, panel)
		return wish
	case longest >= panel:
		longest = math.Max(panel, math.Floor(longest/grid+1e-6)*grid)
		because(ReasonShort, longest, wish)
		return longest
	}
	because(ReasonTooShort, longest, panel)
	return panel
}

// widthsFor returns between which widths strips may be.
func widthsFor(boards []*face.Board, a Allowances, m Machines, grid float64, because func(string, float64, float64)) (least, most float64) {
	over := 2 * a.edge()
	least, most = thinnest, math.Inf(1)
	if w := m.Narrowest - over; w > least {
		least = w
		because(ReasonNarrow, w, m.Narrowest)
	}
	widest := 0.0
	for _, b := range boards {
		widest = math.Max(widest, b.Width-over)
	}
	if len(boards) > 0 && widest > 0 {
		most = widest
	}
	machine := math.Inf(1)
	for _, w := range [...]float64{m.Flatten, m.Thickness} {
		if w > 0 {
			machine = math.Min(machine, w)
		}
	}
	if machine-over < most {
		most = machine - over
		because(ReasonMachine, most, machine)
	}
	if !math.IsInf(most, 1) {
		most = math.Floor(most/grid+1e-6) * grid
	}
	return least, math.Max(most, least)
}

// countFor returns how many strips to cut, how many of them the boards give
// and from how many boards.
func countFor(length, need, least, most float64, boards []*face.Board, used []face.Strip, a Allowances, grid float64) (n, fits, from int) {
	lo := int(math.Min(mostStrips, math.Max(1, math.Ceil(need/most-1e-9))))
	hi := int(math.Min(mostStrips, math.Max(float64(lo), math.Floor(need/least+1e-9))))
	ideal := int(math.Round(math.Min(mostStrips, need/likedMiddle)))
	lo, hi = max(lo, min(ideal-eitherWay, hi)), min(hi, max(ideal+eitherWay, lo))
	liked := func(k int) bool { w := need / float64(k); return w >= likedLeast && w <= likedMost }
	some := false
	for k := lo; k <= hi; k++ {
		some = some || liked(k)
	}
	best := math.Inf(1)
	for k := lo; k <= hi; k++ {
		if some && !liked(k) {
			continue
		}
		got, boardsUsed := k, 0
		if len(boards) > 0 {
			got, boardsUsed = yield(Evenly(k, length, need, grid), boards, used, a)
		}
		w := need / float64(k)
		// Strips that cannot be cut weigh most, then boards, then the width.
		cost := float64(k-got)*need/float64(k)*1e3 + float64(boardsUsed)*100 + math.Abs(w-likedMiddle)
		if cost < best-1e-9 {
			best, n, fits, from = cost, k, got, boardsUsed
		}
	}
	return n, fits, from
}

// yield returns how many of the places can be cut, and from how many boards.
func yield(places []Place, boards []*face.Board, used []face.Strip, a Allowances) (fits, from int) {
	strips := make([]face.Strip, len(places))
	for i, q := range places {
		strips[i] = face.Strip{L: q.L, W: q.W, Up: 1}
	}
	seen := map[string]bool{}
	for _, s := range tight(strips, boards, used, a) {
		if s.Board != nil {
			fits++
			if !seen[s.Board.ID] {
				seen[s.Board.ID] = true
				from++
			}
		}
	}
	return fits, from
}

// oddShare is how much narrower the odd strip may be than the others, as a
// share of their width.
const oddShare = 0.1

// Evenly returns n places of one length, mm, that together are need wide: alike
// in width but for the last, all whole multiples of grid where need is one.
// Where the last would be much narrower, single steps of the grid are shared
// out among the others instead. n under 1 gives none.
func Evenly(n int, length, need, grid float64) []Place {
	if n < 1 {
		return nil
	}
	out := make([]Place, n)
	w := up(need/float64(n), grid)
	odd, wide := need-w*float64(n-1), n-1
	if odd < (1-oddShare)*w {
		low := w - grid
		wide = max(0, min(n-1, int(math.Floor((need-low*float64(n))/grid+1e-6))))
		odd = need - low*float64(n-1) - grid*float64(wide)
	}
	for i := range out {
		out[i] = Place{length, w}
		if i >= wide {
			out[i].W = w - grid
		}
	}
	out[n-1].W = odd
	return out
}

// up rounds a length up to a multiple of grid.
func up(mm, grid float64) float64 { return math.Ceil(mm/grid-1e-6) * grid }
