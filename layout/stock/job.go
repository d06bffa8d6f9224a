package stock

import (
	"math"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
)

// Strips of a panel are not made narrower than this, as cutting proposes them,
// nor than a share of the widest of their panel. Common practice, no source.
const (
	thinnest = 50.0
	oneThird = 3
)

// job is a demand as the search sees it. Sizes are as glued.
type job struct {
	id          string
	solid       bool
	need        float64 // width of a panel, or number of solid parts
	short, long float64 // a strip's length, at least and as wished
	width       float64 // of a solid part
	least, most float64 // a panel strip's width
	thirds      bool    // no strip under a third of the widest
	thick       float64 // of the board, at least

	wanted face.Wanted
	lo, hi float64 // share of unwanted wood that is welcome
	limit  [2]float64
	both   bool

	narrow, wide float64 // strips that the panel has already; 0: none

	size   [2]float64 // finished length and width
	most0  float64    // what the machines take, boards not considered
	allow  []string   // ids of boards; nil: any
	boards []int      // that may give a strip: thick enough, allowed, with a room
}

// step returns what two blanks take over the strips between them: along and
// across.
func step(a cutting.Allowances) (along, across float64) {
	return 2*a.Ends + a.Kerf, 2*(a.Joint+a.Rest) + a.Kerf
}

// jobOf makes a job of a demand. boards are found later.
func jobOf(d *Demand, s *Supply, o Options) job {
	a, m := s.Allowances, s.Machines
	_, edges := cutting.BlankSize(0, 0, a)
	ends, _ := cutting.BlankSize(0, 0, a)
	j := job{
		id: d.ID, solid: d.Count > 0, thick: d.Thickness, wanted: d.Wanted,
		limit: d.Most, both: d.BothShow, size: [2]float64{d.Length, d.Width}, allow: d.Boards,
	}
	if j.thick > 0 {
		j.thick += s.Plane
	}
	j.lo, j.hi = Welcome(d.Look)
	j.short, j.long = d.Length, d.Length
	if !j.solid {
		j.long += o.OverLength
	}
	j.short = math.Max(j.short, m.Shortest-ends)
	j.long = math.Max(j.long, j.short)
	j.most = math.Inf(1)
	for _, w := range [...]float64{m.Flatten, m.Thickness} {
		if w > 0 {
			j.most = math.Min(j.most, w-edges)
		}
	}
	j.most0 = j.most
	if j.solid {
		j.need = float64(d.Count)
		j.width = math.Max(d.Width, m.Narrowest-edges)
		j.least = j.width
		return j
	}
	j.least = math.Max(thinnest, m.Narrowest-edges)
	j.thirds = true
	if o.Narrowest > 0 {
		j.least, j.thirds = math.Max(o.Narrowest, m.Narrowest-edges), false
	}
	if o.Widest > 0 {
		j.most = math.Min(j.most, o.Widest)
	}
	j.least = up(j.least, o.Grid)
	j.most = down(j.most, o.Grid)
	j.most0 = j.most
	j.need = math.Max(j.least, up(d.Width+2*d.PanelEdge, o.Grid))
	return j
}

// may reports whether a board is thick enough and allowed for a job.
func (j *job) may(b *face.Board) bool {
	return !(j.thick > 0 && b.Thickness > 0 && b.Thickness < j.thick-0.01) && j.named(b.ID)
}

// named reports whether the demand may come from the board.
func (j *job) named(board string) bool { return j.allow == nil || slices.Contains(j.allow, board) }

// blankArea returns the least area that what is still wanted of a job takes.
func (j *job) blankArea(left float64, a cutting.Allowances) float64 {
	if left <= 0 {
		return 0
	}
	if j.solid {
		l, w := cutting.BlankSize(j.short, j.width, a)
		return left * l * w
	}
	l, w := cutting.BlankSize(j.short, left, a)
	_, more := cutting.BlankSize(0, 0, a)
	return l * (w + more*(j.strips(left)-1))
}

// strips returns the least number of strips for what is still wanted.
func (j *job) strips(left float64) float64 {
	if j.solid {
		return left
	}
	if math.IsInf(j.most, 1) || !(j.most > 0) {
		return math.Min(1, math.Ceil(left))
	}
	return math.Ceil(left/j.most - tiny)
}

// missing returns the area of finished wood that is lacking.
func (j *job) missing(left float64) float64 {
	if j.solid {
		return left * j.short * j.width
	}
	return left * j.short
}

// up and down round a length to a multiple of grid.
func up(mm, grid float64) float64 { return math.Ceil(mm/grid-1e-6) * grid }

func down(mm, grid float64) float64 { return math.Floor(mm/grid+1e-6) * grid }
