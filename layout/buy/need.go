package buy

import (
	"fmt"
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
)

// Strips of panels are not made narrower than this where a need does not say,
// mm. Common practice, no source.
const narrowest = 50.0

// Need is a panel, or a number of alike solid parts. Sizes are finished, mm.
type Need struct {
	ID                       string
	Length, Width, Thickness float64
	Count                    int     // of solid parts, each in one piece; 0: a panel
	PanelEdge                float64 // least excess at each long edge of a panel

	Wanted face.Wanted
	Most   [2]float64 // most unwanted share on show face and back; 1 = any

	Narrowest, Widest float64 // of a panel's strips as glued; 0: 50, and what the machines take
}

// job is a need as it is cut. Sizes are as glued.
type job struct {
	*Need
	solid       bool
	long        float64    // of a strip
	least, most float64    // width of a strip; of a solid part least is its width
	glued       float64    // width of the panel
	thick       float64    // of the board
	limited     [2]bool    // show, back
	may         [2]float64 // mm of width that may be unwanted on show and back
	dims        []dim      // what is counted of it
	at          int        // where they begin among those of all jobs
}

// dim is one thing that the boards together must give of a job.
type dim uint8

const (
	dWidth  dim = iota // mm, or solid parts
	dShow              // mm that are wanted on the show face
	dBack              // on the back
	dClear             // on both
	dAsIs              // less the mm that are unwanted on show and cannot be ripped off
	dAsIsBk            // on the back
)

// jobOf checks a need and makes a job of it.
func jobOf(n *Need, w *Work) (job, error) {
	fail := func(format string, v ...any) (job, error) {
		return job{}, fmt.Errorf("part %s: "+format, append([]any{n.ID}, v...)...)
	}
	for _, v := range [...]float64{n.Length, n.Width} {
		if !(v > 0) || math.IsInf(v, 0) {
			return fail("%g x %g mm is no size; give length and width over 0", n.Length, n.Width)
		}
	}
	for _, v := range [...]float64{n.Thickness, n.PanelEdge, n.Most[0], n.Most[1], n.Narrowest, n.Widest} {
		if !number(v) {
			return fail("its thickness, excess, limits and strip widths must be numbers not under 0; one is %g", v)
		}
	}
	if n.Count < 0 {
		return fail("%d of them; give how many, or 0 for a panel", n.Count)
	}
	ends, edges := cutting.BlankSize(0, 0, w.Allowances)
	j := job{Need: n, solid: n.Count > 0, glued: n.Width + 2*n.PanelEdge, most: math.Inf(1)}
	if j.thick = n.Thickness; j.thick > 0 {
		j.thick += w.Plane
	}
	j.long = math.Max(n.Length, w.Machines.Shortest-ends)
	for _, v := range [...]float64{w.Machines.Flatten, w.Machines.Thickness} {
		if v > 0 {
			j.most = math.Min(j.most, v-edges)
		}
	}
	if j.least = n.Narrowest; j.solid {
		j.least = n.Width
	} else {
		if n.Narrowest == 0 {
			j.least = narrowest
			if n.Widest > 0 {
				j.least = math.Min(j.least, n.Widest)
			}
		}
		if n.Widest > 0 {
			j.most = math.Min(j.most, n.Widest)
		}
	}
	j.least = math.Max(j.least, w.Machines.Narrowest-edges)
	if j.least > j.most+tiny {
		return fail("strips must be at least %g mm wide and at most %g; nothing can be both", j.least, j.most)
	}
	j.dims = []dim{dWidth}
	_, minds := n.Wanted.Unwanted()
	for f := range j.limited {
		j.limited[f] = minds && n.Most[f] < 1
		j.may[f] = n.Most[f] * n.Width
	}
	if j.solid {
		return j, nil
	}
	for f, d := range [2][2]dim{{dShow, dAsIs}, {dBack, dAsIsBk}} {
		if j.limited[f] {
			j.dims = append(j.dims, d[0], d[1])
		}
	}
	if j.limited[0] && j.limited[1] {
		j.dims = append(j.dims, dClear)
	}
	return j, nil
}

// wants returns how much of a dim is needed.
func (j *job) wants(d dim) float64 {
	switch {
	case j.solid:
		return float64(j.Count)
	case d == dShow:
		return j.glued - j.may[0]
	case d == dBack:
		return j.glued - j.may[1]
	case d == dClear:
		return j.glued - j.may[0] - j.may[1]
	case d == dAsIs:
		return -j.may[0]
	case d == dAsIsBk:
		return -j.may[1]
	}
	return j.glued
}

// tiny is how far a width may be off and still do, mm.
const tiny = 1e-6
