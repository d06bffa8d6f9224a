package buy

import "fmt"

// problem is a choice to be made.
type problem struct {
	boards []Board
	jobs   []job
	work   *Work
	need   []float64 // by dim of every job
	ways   [][]way   // of every board
}

// setup checks what was asked and finds the ways to cut every board.
func setup(boards []Board, needs []Need, work *Work) (*problem, error) {
	if err := work.check(); err != nil {
		return nil, err
	}
	p := &problem{boards: boards, work: work}
	ids := map[string]bool{}
	for i := range boards {
		if err := boards[i].check(); err != nil {
			return nil, err
		}
		if ids[boards[i].ID] {
			return nil, fmt.Errorf("board %s is on offer twice; give each its own letter", boards[i].ID)
		}
		ids[boards[i].ID] = true
	}
	parts := map[string]bool{}
	for i := range needs {
		if parts[needs[i].ID] {
			return nil, fmt.Errorf("part %s is wanted twice; give each its own name and solid parts a count", needs[i].ID)
		}
		parts[needs[i].ID] = true
		j, err := jobOf(&needs[i], work)
		if err != nil {
			return nil, err
		}
		j.at = len(p.need)
		for _, d := range j.dims {
			p.need = append(p.need, j.wants(d))
		}
		p.jobs = append(p.jobs, j)
	}
	for i := range boards {
		p.ways = append(p.ways, ways(&boards[i], p.jobs, work, len(p.need)))
	}
	return p, nil
}

// instead reports whether board a does whatever board b does.
func (p *problem) instead(a, b int) bool {
	for i := range p.ways[b] {
		ok := false
		for k := range p.ways[a] {
			if ok = covers(p.ways[a][k].gives, p.ways[b][i].gives); ok {
				break
			}
		}
		if !ok {
			return false
		}
	}
	return true
}

// sums returns weights under which the dims of all jobs are added up: each dim
// alone, and the widths, and what is wanted on the faces, of all jobs by their
// area. Whatever boards are chosen, their greatest sums under any of them come to
// that of what is needed.
func (p *problem) sums() [][]float64 {
	var out [][]float64
	n := len(p.need)
	wide, show, clear := make([]float64, n), make([]float64, n), make([]float64, n)
	for q := range p.jobs {
		j := &p.jobs[q]
		area := j.long
		if j.solid {
			area *= j.least
		}
		for k, d := range j.dims {
			at := j.at + k
			one := make([]float64, n)
			one[at] = 1
			switch d {
			case dAsIs, dAsIsBk:
				continue
			case dWidth:
				wide[at] = area
			}
			out = append(out, one)
		}
		pick := func(list []float64, liked ...dim) {
			for _, l := range liked {
				for k, d := range j.dims {
					if d == l {
						list[j.at+k] = area
						return
					}
				}
			}
		}
		pick(show, dShow, dBack, dWidth)
		pick(clear, dClear, dShow, dBack, dWidth)
	}
	return append(out, wide, show, clear)
}

// dot returns the sum of what is given under weights.
func dot(weights, gives []float64) (s float64) {
	for i, v := range weights {
		s += v * gives[i]
	}
	return s
}
