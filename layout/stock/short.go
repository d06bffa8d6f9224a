package stock

import (
	"math"
	"slices"

	"heartside/layout/cutting"
)

// Why a board gives no more strips of a size.
const (
	TooShort  = "too-short"  // by By mm, ends counted
	TooNarrow = "too-narrow" // by By mm, joint and rest counted
	TooThin   = "too-thin"   // by By mm
	Flawed    = "flawed"     // wide and long enough, but flaws or wane leave no room
	InUse     = "in-use"     // what was taken before leaves no room
	UsedUp    = "used-up"    // by the parts of this plan
	NotMeant  = "not-meant"  // the demand names other boards
)

// Near is why one board gives no more.
type Near struct {
	Board string
	Why   string
	By    float64  // mm; 0 where Why speaks of none
	For   []string // what has the room: ids of strips taken before, or of demands of this plan
}

// Short is what of a demand could not be made: so many more strips of a size,
// as glued.
type Short struct {
	Strips    int
	L, W      float64
	Width     float64 // lacking of a panel, mm
	OverWidth float64 // by how much a solid part is wider than the machines take, mm; 0 not
	Boards    []Near  // of every board, in the order of the supply
}

// likedMiddle is how wide strips are said to be wanted where none is there to
// go by, mm. As cutting proposes them; common practice, no source.
const likedMiddle = 100.0

// lacking tells what is missing of a job and why.
func (p *problem) lacking(k int, st *state) *Short {
	j, q := &p.jobs[k], &st.parts[k]
	out := &Short{L: j.short}
	if j.solid {
		out.Strips, out.W = int(math.Round(q.left)), j.width
		out.OverWidth = math.Max(0, j.width-j.most0)
	} else {
		out.Width = q.left
		w, n := likedMiddle, 0
		for _, b := range st.laid {
			if b.job == k {
				n += len(b.rects)
			}
		}
		if n > 0 {
			w = (j.need - q.left) / float64(n)
		}
		w = math.Max(j.least, math.Min(w, j.most0))
		out.Strips = max(1, int(math.Ceil(q.left/w-tiny)))
		out.W = math.Max(j.least, up(q.left/float64(out.Strips), p.opt.Grid))
	}
	_, w := cutting.BlankSize(0, math.Min(out.W, j.least), p.supply.Allowances)
	out.Boards = p.near(k, st, w)
	return out
}

// near tells of every board why it gives no more blanks of a width for a job.
func (p *problem) near(k int, st *state, w float64) []Near {
	j := &p.jobs[k]
	l, _ := cutting.BlankSize(j.short, 0, p.supply.Allowances)
	var out []Near
	for i := range p.lots {
		b := p.lots[i].Board
		n := Near{Board: b.ID}
		from, to := b.Left()
		switch {
		case !j.named(b.ID):
			n.Why = NotMeant
		case j.thick > 0 && b.Thickness > 0 && b.Thickness < j.thick-0.01:
			n.Why, n.By = TooThin, j.thick-b.Thickness
		case to-from < l-tiny:
			n.Why, n.By = TooShort, l-(to-from)
		case b.Width < w-tiny:
			n.Why, n.By = TooNarrow, w-b.Width
		case !p.gives(j, i) && p.emptied(j, i):
			n.Why, n.For = InUse, p.takenOn(i)
		case !p.gives(j, i) || st.shelves[i].site < 0:
			n.Why = Flawed
		default:
			n.Why, n.For = UsedUp, p.laidOn(i, st)
		}
		out = append(out, n)
	}
	return out
}

// emptied reports whether a board would give a strip of a job if nothing had
// been taken of it.
func (p *problem) emptied(j *job, i int) bool {
	l := p.lots[i]
	if !l.opened {
		return false
	}
	q := *p
	q.snipe = false
	l.sites = nil
	for _, s := range p.lots[i].sites {
		l.sites = append(l.sites, site{Table: s.Table, rooms: q.roomsOf(&s.frame, nil)})
	}
	q.lots = []lot{l}
	one := *j
	one.most = j.most0
	return q.gives(&one, 0)
}

// takenOn lists what was taken of a board before.
func (p *problem) takenOn(i int) []string {
	var out []string
	for _, s := range p.supply.Taken {
		if s.Board != nil && s.Board.ID == p.lots[i].Board.ID {
			out = append(out, s.ID)
		}
	}
	return out
}

// laidOn lists the demands that take wood of a board, in their order.
func (p *problem) laidOn(i int, st *state) []string {
	var out []string
	for k := range p.jobs {
		if slices.ContainsFunc(st.laid, func(b *bundle) bool { return b.job == k && b.lot == i }) {
			out = append(out, p.jobs[k].id)
		}
	}
	return out
}
