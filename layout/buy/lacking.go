package buy

import (
	"context"
	"math"
	"slices"

	"heartside/layout/face"
)

// Lack is what boards do not give of a need, told as boards that would do: so
// many more, each at least so long, wide and thick, with so much unwanted wood
// at most.
type Lack struct {
	Need                     string
	Boards                   int
	Length, Width, Thickness float64

	// Sap is how wide unwanted wood may be along one edge of each such board, on
	// the face that shows and on the other, mm, the other edge being clear;
	// +Inf where any will do. Where sapwood is wanted the board is to be
	// sapwood all over, and Sap is 0 on each face that is limited.
	Sap [2]float64

	Panel float64 // mm of a panel's width that are lacking, as glued; 0 of solid parts
	Exact bool    // no narrower or shorter board would do; else they may ask for a little more than is needed
}

// widestBoard is how wide a board may be asked for where none on offer is
// wider, mm: wider ones are seldom to be had. An engineering choice.
const widestBoard = 250.0

// Lacking returns what the boards lack for the needs when all of them are cut as
// well as is known, by need, and nothing where they make them. The boards that
// it names are enough, by the cuts described above.
func Lacking(ctx context.Context, boards []Board, needs []Need, work Work, o Options) ([]Lack, error) {
	p, err := setup(boards, needs, &work)
	if err != nil {
		return nil, err
	}
	left, exact := p.fill(ctx, o.filled().Nodes)
	wide := widestBoard
	for i := range boards {
		wide = math.Max(wide, boards[i].Width)
	}
	short := 0
	for q := range p.jobs {
		if p.jobs[q].short(left) > tiny {
			short++
		}
	}
	var out []Lack
	for q := range p.jobs {
		j := &p.jobs[q]
		if j.short(left) <= tiny {
			continue
		}
		l := j.lack(left, &work, wide)
		l.Exact = exact && short == 1 && l.Boards == 1
		out = append(out, l)
	}
	return out, ctx.Err()
}

// short returns how many mm of width, or parts, are lacking of a job.
func (j *job) short(left []float64) float64 {
	most := 0.0
	for k, d := range j.dims {
		if d != dAsIs && d != dAsIsBk {
			most = math.Max(most, left[j.at+k])
		}
	}
	return most
}

// fill cuts all boards so that as little wood as can be is lacking, and returns
// what is still needed. exact is false where it gave up looking for less.
func (p *problem) fill(ctx context.Context, nodes int) (left []float64, exact bool) {
	n := len(p.need)
	rest := make([][]float64, len(p.boards)+1)
	rest[len(p.boards)] = make([]float64, n)
	for i := len(p.boards) - 1; i >= 0; i-- {
		rest[i] = slices.Clone(rest[i+1])
		for d := range n {
			most := math.Inf(-1)
			for _, y := range p.ways[i] {
				most = math.Max(most, y.gives[d])
			}
			if len(p.ways[i]) > 0 {
				rest[i][d] += most
			}
		}
	}
	// What is lacking, mm2, where from boards i on come so much more.
	lacking := func(now, more []float64) (sum float64) {
		for q := range p.jobs {
			j := &p.jobs[q]
			most := 0.0
			for k, d := range j.dims {
				v := now[j.at+k] - more[j.at+k]
				if d == dAsIs || d == dAsIsBk {
					if v > tiny { // more unwanted wood than may be
						return math.Inf(1)
					}
					continue
				}
				most = math.Max(most, v)
			}
			if j.solid {
				most *= j.least
			}
			sum += most * j.long
		}
		return sum
	}
	now := slices.Clone(p.need)
	best, zero := math.Inf(1), make([]float64, n)
	tried := 0
	exact = true
	var next func(i int)
	next = func(i int) {
		if lacking(now, rest[i]) >= best-1e-3 {
			return
		}
		if i == len(p.boards) {
			best, left = lacking(now, zero), slices.Clone(now)
			return
		}
		if tried++; left != nil && (tried > nodes || tried%256 == 0 && ctx.Err() != nil) {
			tried, exact = nodes+1, false
			return
		}
		list := p.ways[i]
		if len(list) == 0 {
			next(i + 1)
			return
		}
		order := make([]int, len(list))
		worth := make([]float64, len(list))
		for k := range list {
			order[k], worth[k] = k, lacking(now, list[k].gives)
		}
		slices.SortStableFunc(order, func(a, b int) int {
			switch {
			case worth[a] < worth[b]:
				return -1
			case worth[a] > worth[b]:
				return 1
			}
			return 0
		})
		for _, k := range order {
			for d, v := range list[k].gives {
				now[d] -= v
			}
			next(i + 1)
			for d, v := range list[k].gives {
				now[d] += v
			}
		}
	}
	next(0)
	return left, exact
}

// lack tells what is lacking of a job as boards.
func (j *job) lack(left []float64, w *Work, wide float64) Lack {
	a := w.Allowances
	e := a.Joint + a.Rest
	between := 2*e + a.Kerf
	out := Lack{Need: j.ID, Boards: 1, Length: j.long + 2*math.Max(a.Ends, a.Snipe), Thickness: j.thick}
	for f := range out.Sap {
		if out.Sap[f] = math.Inf(1); j.limited[f] {
			out.Sap[f] = 0
		}
	}
	if j.solid {
		out.Boards = int(math.Ceil(j.short(left) - tiny))
		out.Width = j.least + 2*e
		if j.Wanted != face.WantSap {
			for f := range out.Sap {
				if j.limited[f] {
					out.Sap[f] = e + j.may[f]
				}
			}
		}
		return out
	}
	out.Panel = j.short(left)
	// Narrower than the narrowest strip no board is.
	for ; ; out.Boards++ {
		glued := math.Max(j.least, out.Panel/float64(out.Boards))
		n := math.Max(1, math.Ceil(glued/j.most-tiny))
		if n*j.least > glued {
			glued = n * j.least
		}
		out.Width = glued + 2*e + (n-1)*between
		if out.Width <= wide || glued <= j.least+tiny {
			if j.Wanted == face.WantSap {
				return out
			}
			j.spared(&out, left, glued, e)
			return out
		}
	}
}

// spared sets how much unwanted wood each of the boards may have along an edge,
// when each gives so much glued width.
func (j *job) spared(out *Lack, left []float64, glued, e float64) {
	n := float64(out.Boards)
	clear := math.Inf(1) // mm that may be unwanted on one face or the other
	for k, d := range j.dims {
		v := n*glued - math.Max(0, left[j.at+k])
		switch d {
		case dShow:
			out.Sap[0] = v
		case dBack:
			out.Sap[1] = v
		case dClear:
			clear = v
		}
	}
	for f := range out.Sap {
		if !j.limited[f] {
			continue
		}
		// Of sapwood that cannot be ripped off nothing is said, so a strip must be
		// left beside it.
		v := math.Min(math.Min(out.Sap[f], clear)/n, glued-j.least)
		if j.most < 2*j.least-tiny {
			v = 0
		}
		out.Sap[f] = e + math.Max(0, v)
	}
}
