package outline

import (
	"math"
	"slices"
)

// ranked returns the numbers below n by falling score; of equals the lower
// number comes first.
func ranked(n int, score func(i int) float64) []int {
	type rank struct {
		score float64
		i     int
	}
	all := make([]rank, n)
	for i := range all {
		all[i] = rank{score(i), i}
	}
	slices.SortFunc(all, func(x, y rank) int {
		if c := compare(y.score, x.score); c != 0 {
			return c
		}
		return x.i - y.i
	})
	out := make([]int, n)
	for k, r := range all {
		out[k] = r.i
	}
	return out
}

// running holds, for each offset of a profile, the sums of its steps of colour
// and of their squares from the start of each stretch: one row more than
// places for every stretch.
type running struct {
	wide, per int
	sum       [][4]float32
}

func (f *profile) running() *running {
	r := &running{wide: 2*f.reach + 1, per: len(f.t) / chunks}
	r.sum = make([][4]float32, (len(f.t)+chunks)*r.wide)
	for i := range f.t {
		at := (i + i/r.per) * r.wide
		from, to := r.sum[at:at+r.wide], r.sum[at+r.wide:at+2*r.wide]
		for o := range to {
			v, s := &f.d[i*r.wide+o], &from[o]
			to[o] = [4]float32{s[0] + v[0], s[1] + v[1], s[2] + v[2], s[3] + v[0]*v[0] + v[1]*v[1] + v[2]*v[2]}
		}
	}
	return r
}

// piece is a part of a stretch over which a line keeps its offset: from and to
// are rows of the sums.
type piece struct{ from, to, off int }

// pieces cuts every stretch where a line that leans by lean steps changes its
// offset.
func (f *profile) pieces(lean int, out []piece) (all []piece, of [chunks]int) {
	per := len(f.t) / chunks
	for c := range of {
		at := c * (per + 1)
		last := math.MinInt
		for i := range per {
			o := int(math.Floor(float64(lean)*f.t[c*per+i] + 0.5))
			if o != last {
				out = append(out, piece{at + i, at + i, o})
				last = o
			}
			out[len(out)-1].to++
		}
		of[c] = len(out)
	}
	return out, of
}

// scores judges every line whose ends lie whole steps within reach of the
// profile's own and which leans at most lean steps: wide x wide, 0 for others.
func (f *profile) scores(reach, lean int) []float64 {
	r := f.running()
	wide := 2*reach + 1
	grid := make([]float64, wide*wide)
	var cut []piece
	for d := -min(lean, 2*reach); d <= min(lean, 2*reach); d++ {
		all, of := f.pieces(d, cut[:0])
		cut = all
		for a := max(-reach, -reach-d); a <= min(reach, reach-d); a++ {
			score, k := 0.0, 0
			for _, end := range of {
				var s0, s1, s2, sq float32
				for ; k < end; k++ {
					p := &all[k]
					o := a + p.off + f.reach
					u, v := &r.sum[p.from*r.wide+o], &r.sum[p.to*r.wide+o]
					s0 += v[0] - u[0]
					s1 += v[1] - u[1]
					s2 += v[2] - u[2]
					sq += v[3] - u[3]
				}
				edge, _ := judged(s0*s0+s1*s1+s2*s2, sq, float64(r.per))
				score += edge / chunks
			}
			grid[(a+reach)*wide+a+d+reach] = score
		}
	}
	return grid
}

// tracks returns the best lines through the profile, best first: those better
// than all that lie a step from them, within reach steps of the profile's
// line, leaning at most lean steps and apart steps from each other.
func (f *profile) tracks(reach, lean, most int, apart float64) []track {
	wide := 2*reach + 1
	grid := f.scores(reach, lean)
	var peaks []int
	for i, v := range grid {
		peak := v > 0
		for _, d := range steps {
			a, b := i/wide+d[0], i%wide+d[1]
			if a >= 0 && b >= 0 && a < wide && b < wide && grid[a*wide+b] > v {
				peak = false
				break
			}
		}
		if peak {
			peaks = append(peaks, i)
		}
	}
	kept := make([]track, 0, most)
next:
	for _, k := range ranked(len(peaks), func(k int) float64 { return grid[peaks[k]] }) {
		if len(kept) >= most {
			break
		}
		a, b := float64(peaks[k]/wide-reach), float64(peaks[k]%wide-reach)
		for i := range kept {
			k := &kept[i]
			if math.Abs(a+b-k.a-k.b)/2 < apart && math.Abs(a-k.a) < 2*apart && math.Abs(b-k.b) < 2*apart {
				continue next
			}
		}
		kept = append(kept, f.along(a, b))
	}
	return kept
}
