package split

import "math"

// verdict is how well a guess explains a face.
type verdict struct {
	region float64 // evidence a cell, of the zone that has least
	step   float64 // evidence of the step, mean along the curves, at most 3
	hue    float64 // how far the step leans from a mere change of light
	sides  float64 // curves a column
	share  float64 // of the face
	width  float64 // mm, mean of the sapwood where it lies
	heart  float64 // the same of the heartwood
	fit    float64 // what it explains of the colours, log likelihood a cell
	score  float64
}

// mostStep keeps the evidence of one place of a curve.
const mostStep = 3.0

// leastSap is the least mean width that counts as a zone, mm: less is the edge
// of the board or of its neighbour. An engineering choice.
const leastSap = 2.0

// leastHeart is the least mean width of heartwood beside sapwood, mm: it is the
// core of the tree, and a dark line in sapwood is not it. An engineering choice.
const leastHeart = 6.0

// leastHue is how far a step must lean in hue where its line is straight, as the
// edge of a shadow may be; a line that wanders with the grain needs less. An
// engineering choice.
const (
	leastHue    = .06
	leastWander = .7 // mm
)

// A line needs no hue where it wanders by ragged, mm, its step has evidence of
// leastSharp and is of leastStep, log light: the blurred edge of a shadow and
// that of a patch of light among leaves wander too, for they are ill defined.
// mostLight is the step of lightness that shadows on one board reach, a ratio of
// 3.6 of all three lights. Engineering choices.
const (
	ragged     = 1.2
	leastSharp = 1.4
	leastStep  = 1.5 * lightVaries
	noHue      = .035
	mostLight  = 2.2
)

// mostly is the share from which a face counts as mostly sapwood. An
// engineering choice.
const mostly = .6

// rareWide is what a face with mostly sapwood must bring more: it is rarer than
// one with mostly heartwood. How much of it is sapwood says no more of which
// answer is right, but a dark line or two in heartwood looks like a face all but
// covered in sapwood: whether there is any is asked with a cost that rises with
// the share. An engineering choice.
const rareWide = 1.0

// leastInner is the least mean width of sapwood in mid-face, mm: chalk lines
// and pale streaks are narrower. An engineering choice.
const leastInner = 9.0

// rareInner is what sapwood in mid-face must bring more: it is rare, and pale
// streaks in heartwood look like it. An engineering choice.
const rareInner = 1.0

// fitWeight is what explaining the colours counts beside region and step: it
// tells the whole sapwood from a part of it. An engineering choice.
const fitWeight = 2.0

// lightVaries is how far light may change across any edge of the face, in log
// light: shadows and lamps. An engineering choice.
const lightVaries = 0.4

// judge weighs a guess drawn as curves.
func judge(g *grid, null *mat3, st *steps, q *guess, l *lines, above, below []float64) verdict {
	var v verdict
	nx, ny := g.nx, g.ny
	n := 0.0
	if l.inner {
		above, below = below, above
	}
	ok := 0.0
	var d vec3 // the mean step, sapwood less heartwood
	for i := range nx {
		for k, y := range [2][]int{l.top, l.bottom} {
			j := y[i]
			if j <= 0 || j >= ny || l.top[i] >= l.bottom[i] {
				continue
			}
			at := j*nx + i
			sign := 1.0
			if (k == 0) == l.inner {
				sign = -1
			}
			if k == 0 {
				v.step += above[at]
			} else {
				v.step += below[at]
			}
			n++
			for c := range d {
				d[c] += sign * st.ok[at] * st.d[c][at]
			}
			ok += st.ok[at]
		}
	}
	v.sides = n / float64(nx)
	if n > 0 {
		v.step /= n
	}
	var sum, w [2]float64
	var cols [2]float64 // in which a zone lies
	for i := range nx {
		var any [2]bool
		for j := range ny {
			at := j*nx + i
			z := 0
			if l.sap(i, j) {
				z = 1
			}
			any[z] = true
			sum[z] += q.llr[at] * float64(2*z-1)
			w[z] += g.w[at]
		}
		for z, in := range any {
			if in {
				cols[z]++
			}
		}
	}
	v.share = w[1] / (w[0] + w[1] + 1e-9)
	v.width, v.heart = math.Inf(1), math.Inf(1)
	if cols[0] > 0 {
		v.heart = w[0] / cols[0] * g.dy
	}
	if cols[1] > 0 {
		v.width = w[1] / cols[1] * g.dy
	}
	one, two := *null, q.m.cov
	one[0][0] += lightVaries * lightVaries
	two[0][0] += lightVaries * lightVaries
	v.fit = .5 * math.Log(one.det()/two.det())
	if w[0] > 0 && w[1] > 0 {
		v.region = math.Min(sum[0]/w[0], sum[1]/w[1])
	}
	v.hue = hueOf(d)
	if n == 0 || v.region <= 0 {
		v.score = -1
		return v
	}
	v.score = v.region + v.step + fitWeight*math.Max(v.fit, 0)
	v.score *= notLight(v.hue, l.wander(g), v.step, d.norm()/(ok+1e-9)) * soft(v.width, leastSap, .3) * soft(v.heart, leastHeart, 1)
	v.score -= rareWide * soft(v.share, mostly, .05)
	if l.inner {
		v.score = v.score*soft(v.width, leastInner, 1) - rareInner
	}
	return v
}

// notLight is how far the step across a line speaks of wood, 0 to 1, and not of
// the edge of a shadow: by its hue, by a sharp line that wanders with the grain,
// or by being more than light does on one board.
func notLight(hue, wander, sharp, step float64) float64 {
	need := leastHue - (leastHue-.015)*soft(wander, leastWander, .12) - noHue*soft(wander, ragged, .15)*soft(sharp, leastSharp, .12)*soft(step, leastStep, .08)
	return 1 - (1-soft(hue, need, .015))*(1-soft(step, mostLight, .15))
}

// hueOf is how far a step leans towards what sapwood has beyond a change of
// light, of its length. Light itself changes along the line from warm to cool,
// red against blue, and its bright side is the warm one; sapwood is cooler
// (less red) or greener (yellow, less magenta) than heartwood.
func hueOf(step vec3) float64 {
	n := step.norm()
	if n == 0 {
		return 0
	}
	warm := turn(vec3{1, 0, -1}.scale(1 / math.Sqrt2))
	cooler := math.Max(-step[1]*warm[1]-step[2]*warm[2], 0)
	greener := math.Max(step[1]*-warm[2]+step[2]*warm[1], 0)
	return math.Hypot(cooler, greener) * math.Sqrt(1.5) / n
}

// soft rises from 0 to 1 about at, within a few widths.
func soft(x, at, width float64) float64 {
	return 1 / (1 + math.Exp(-(x-at)/width))
}
