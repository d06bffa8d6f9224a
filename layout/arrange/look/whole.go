package look

import (
	"math"

	"heartside/layout/face"
)

// bins is how finely the panel is looked at across.
const bins = 60

// sight is how a panel is seen.
type sight uint8

const (
	alone    sight = iota
	part           // as one of several: without what the eye sees of all
	together       // as all of them: only that
)

// seenOfAll reports whether a warning is about a face as it is seen, so that
// panels seen together are warned as one.
func seenOfAll(w *face.Warning) bool {
	return w.Side == face.Show && (w.Kind == face.LoneStreak || w.Kind == face.Lopsided || w.Kind == face.OneSidedEdge)
}

// whole says what speaks against the face as a whole. Every term is at least 0.
func (j *Judge) whole(p *face.Panel, r *face.Reading, of sight, say func(k TermKind, points, measure, limit float64, w *face.Warning, who whose)) {
	for i := range r.Warnings {
		j.warned(&r.Warnings[i], of, 1, say)
	}
	if !j.judges || !j.sound || !(p.Width > 0) {
		return
	}
	if of == part {
		j.seen(p, r, say)
		return
	}
	share := j.spread(p)
	q := &j.rules
	if j.name == EvenMix {
		// A range where wood is unseen is taken at its best.
		lo, hi := r.Show.Unwanted.Lo, r.Show.Unwanted.Hi
		if off := math.Max(j.mix[0]-hi, lo-j.mix[1]); off > 0 {
			say(OffMix, q.OffMix*off, r.Show.Unwanted.Value, j.mix[0], nil, carriers)
		}
	}
	if j.name == SapIn {
		if d := 1 - j.middle()/q.Few; d > 0 {
			say(MiddleBare, 2*q.Bare*d, d, 0, nil, inMiddle)
		}
	}
	if of == alone {
		j.seen(p, r, say)
	}
	if share <= 0 {
		return
	}
	few := math.Min(share/q.Few, 1)
	switch j.name {
	case SapOut, SapIn:
		if d := j.away(); d > 0 {
			say(Away, q.Away*few*d, d, 0, nil, carriers)
		}
	case EvenMix:
		if d := j.uneven(); d > 0.01 {
			say(Uneven, q.Uneven*2*few*d, d, 0, nil, carriers)
		}
	}
	if k := mirrorWeight(j.name); k > 0 {
		if d := j.lopsided(); d > 0 {
			say(Mirror, q.Mirror*k*few*d, d, 0, nil, carriers)
		}
	}
	if j.name != EvenMix && j.name != SapToSap { // these ask for many bands
		if n := stripes(r.Show.Bands, p.Length, p.Width); n > 0 {
			say(Stripes, q.Stripes, float64(n), 0, nil, carriers)
		}
	}
}

// seen says what trimming, the panel's shape and what is hidden of it add to the
// terms of single strips, which do not know of them.
func (j *Judge) seen(p *face.Panel, r *face.Reading, say func(k TermKind, points, measure, limit float64, w *face.Warning, who whose)) {
	q := &j.rules
	switch {
	case j.name == HeartOnly && j.view.cut:
		more := r.Show.Unwanted.Value
		for i := range p.Strips {
			more -= j.sheetOf(&p.Strips[i]).sure * p.Strips[i].W / j.width
		}
		if more > 0 {
			say(OnShow, q.OnShow*more, more, 0, nil, carriers)
		}
	case j.name == SapOut && len(p.Strips) > 0:
		for e, i := range [2]int{0, len(p.Strips) - 1} {
			if more := j.trimmed(p, e) - j.sheetOf(&p.Strips[i]).bare[e]; more > 1e-9 {
				say(EdgeBare, q.Bare*more, more, 0, nil, [2]whose{atFront, atRear}[e])
			}
		}
	}
}

// mirrorWeight is how much a look rests on the two halves being alike.
func mirrorWeight(n Name) float64 {
	switch n {
	case SapOut, SapIn:
		return 1
	case SapToSap:
		return 0.5
	case EvenMix:
		return 0.2
	}
	return 0
}

// warned counts a warning with those under it, which are the same wood again,
// at half; under one that is told of all panels seen together, in full.
func (j *Judge) warned(w *face.Warning, of sight, k float64, say func(k TermKind, points, measure, limit float64, w *face.Warning, who whose)) {
	q, kind, points := &j.rules, Warned, 0.0
	switch w.Kind {
	case face.LoneStreak:
		kind, points = LoneStreak, q.Streak
	case face.SliverKind:
		points = q.Sliver
	case face.OneSidedJoint:
		points = q.OneSidedJoint
	case face.OneSidedEdge:
		points = q.OneSidedEdge
	case face.Lopsided:
		points = q.Lopsided
	case face.OverLimit:
		points = q.Over + q.OverShare*math.Max(w.Measure-w.Limit, 0)
	case face.FlawOnShow:
		points = q.FlawOnShow
	case face.FlawInEdge:
		points = q.FlawInEdge
	case face.PanelTooSmall:
		points = q.TooSmall
	}
	mine := of == alone || (of == together) == seenOfAll(w)
	if points > 0 && mine {
		say(kind, k*points, w.Measure, w.Limit, w, carriers)
	}
	if mine {
		k /= 2
	}
	for i := range w.Under {
		j.warned(&w.Under[i], of, k, say)
	}
}

// spread fills the profile, unwanted wood by place across the panel as shares
// of the face, and returns their sum.
func (j *Judge) spread(p *face.Panel) float64 {
	clear(j.profile[:])
	bin := p.Width / bins
	y := p.Y0()
	sum := 0.0
	for i := range p.Strips {
		sh := j.sheetOf(&p.Strips[i])
		if sh.cells != nil {
			rows := len(sh.across)
			for n := range len(j.view.open) / bins {
				sum += j.lay(sh.cells[n*rows:(n+1)*rows], y, sh.row, bin, j.view.open[n*bins:(n+1)*bins])
			}
		} else {
			sum += j.lay(sh.across, y, sh.row, bin, nil)
		}
		y += p.Strips[i].W
	}
	return sum
}

// lay adds rows of a strip that begins at y to the profile, what is seen of
// them, and returns their sum.
func (j *Judge) lay(rows []float32, y, row, bin float64, open []float32) float64 {
	sum := 0.0
	width := bin * bins
	for k, v := range rows {
		a, b := math.Max(y+float64(k)*row, 0), math.Min(y+float64(k+1)*row, width)
		if v == 0 || !(b > a) {
			continue
		}
		for c := int(a / bin); c < bins && float64(c)*bin < b; c++ {
			part := float64(v) * (math.Min(b, float64(c+1)*bin) - math.Max(a, float64(c)*bin)) / width
			if open != nil {
				part *= float64(open[c])
			}
			if part > 0 {
				j.profile[c] += part
				sum += part
			}
		}
	}
	return sum
}

// away is the mean distance of the unwanted wood from where the look wants it,
// 0 to 1 for half the panel's width.
func (j *Judge) away() float64 {
	sum, d := 0.0, 0.0
	for c, v := range j.profile {
		x := math.Abs(2*(float64(c)+0.5)/bins - 1) // 0 in the middle, 1 at the edges
		if j.name == SapOut {
			x = 1 - x
		}
		sum += v
		d += v * x
	}
	return d / sum
}

// middle is the unwanted wood in the middle third, as a share of the face.
func (j *Judge) middle() float64 {
	sum := 0.0
	for _, v := range j.profile[bins/3 : bins-bins/3] {
		sum += v
	}
	return sum
}

// lopsided is the share of the unwanted wood that has nothing mirroring it, 0
// to 1.
func (j *Judge) lopsided() float64 {
	sum, d := 0.0, 0.0
	for c, v := range j.profile {
		sum += v
		d += math.Abs(v-j.profile[bins-1-c]) / 2
	}
	return d / sum
}

// uneven is how far the unwanted wood would have to be moved across the panel
// to lie evenly, as a share of the width: half where all lies at one edge (the
// distance of distributions on a line, Vallender 1974).
func (j *Judge) uneven() float64 {
	sum := 0.0
	for _, v := range j.profile {
		sum += v
	}
	got, d := 0.0, 0.0
	for c, v := range j.profile {
		d += math.Abs(got+v/sum/2-(float64(c)+0.5)/bins) / bins
		got += v / sum
	}
	return d
}
