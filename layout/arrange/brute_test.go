package arrange

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"heartside/layout/face"
)

// about tells a warning from others by kind, side and strips in any order.
func about(w face.Warning) string {
	ids := slices.Clone(w.Strips)
	slices.Sort(ids)
	return fmt.Sprint(w.Kind, w.Side, ids)
}

// rule judges a change the slow way, from two full readings: w is gone, and
// whatever is new is milder. clean: no kind has more warnings than before.
func rule(w face.Warning, before, after []face.Warning) (ok, clean bool) {
	count := func(list []face.Warning, is func(face.Warning) bool) (n int) {
		for _, x := range list {
			if is(x) {
				n++
			}
		}
		return n
	}
	same := func(x face.Warning) bool { return about(x) == about(w) }
	near := func(x face.Warning) bool {
		if x.Kind != w.Kind || x.Side != w.Side {
			return false
		}
		if len(w.Strips) == 0 {
			return len(x.Strips) == 0
		}
		return slices.ContainsFunc(x.Strips, func(id string) bool { return slices.Contains(w.Strips, id) })
	}
	if count(after, same) >= count(before, same) || count(after, near) >= count(before, near) {
		return false, false
	}
	clean = true
	for _, x := range after {
		key := func(y face.Warning) bool { return about(y) == about(x) }
		kind := func(y face.Warning) bool { return y.Kind == x.Kind && y.Side == x.Side }
		fresh := count(after, key) > count(before, key)
		grew := false
		for _, y := range before {
			if key(y) && (x.Weight > y.Weight+heavier || x.Kind == face.OverLimit && x.Measure > y.Measure+moreWood) {
				grew = true
			}
		}
		if (fresh || grew) && (x.Weight >= w.Weight-kindStep || x.Kind == w.Kind || forbidden(x.Kind)) {
			return false, false
		}
		if grew || fresh && count(after, kind) > count(before, kind) {
			clean = false
		}
	}
	return true, clean
}

// singles are all single changes of how strips lie, each with its size.
func singles(p *face.Panel) (out []*face.Panel, sizes []float64) {
	add := func(size float64, f func([]face.Strip)) {
		q := *p
		q.Strips = slices.Clone(p.Strips)
		f(q.Strips)
		out, sizes = append(out, &q), append(sizes, size)
	}
	for i := range p.Strips {
		add(1, func(s []face.Strip) { s[i].Turned = !s[i].Turned })
		add(1, func(s []face.Strip) { s[i].Up = 3 - s[i].Up })
		add(2, func(s []face.Strip) { s[i].Up, s[i].Turned = 3-s[i].Up, !s[i].Turned })
		for k := i + 1; k < len(p.Strips); k++ {
			add(2, func(s []face.Strip) { s[i], s[k] = s[k], s[i] })
		}
	}
	return out, sizes
}

// The looks: what these are about, any strip may mend.
func look(k face.WarningKind) bool { return k == face.LoneStreak || k == face.Lopsided }

// Four strips: every single change is tried the slow way. Where one of them
// helps, the first fix is as small; where none does, no single change is
// offered.
func TestAgainstBruteForce(t *testing.T) {
	judged, mended := 0, 0
	for seed := uint64(0); seed < 40; seed++ {
		p := random(4, seed)
		before := allOf(p, nil)
		for _, w := range face.ReadFull(p).Warnings {
			if !look(w.Kind) {
				continue
			}
			judged++
			best := [2]float64{99, 99} // mild, clean
			list, sizes := singles(p)
			for i, q := range list {
				ok, clean := rule(w, before, allOf(q, nil))
				if ok {
					best[0] = min(best[0], sizes[i])
				}
				if clean {
					best[1] = min(best[1], sizes[i])
				}
			}
			opt := options
			opt.Tries = 2000
			got := Fixes(context.Background(), nil, p, nil, w, opt)
			switch {
			case best[1] < 99:
				mended++
				if len(got) == 0 || len(got[0].Makes) > 0 || got[0].Cost != Free || int(got[0].Size) > int(best[1]) {
					t.Errorf("seed %d, %s %v: first fix %v, a clean change of size %g exists", seed, w.Kind, w.Strips, got, best[1])
				}
			case best[0] < 99:
				if len(got) == 0 {
					t.Errorf("seed %d, %s %v: no fix, a change of size %g exists", seed, w.Kind, w.Strips, best[0])
				}
			default:
				for _, x := range got {
					if x.Cost == Free && len(x.Steps) == 1 && x.Kind != MoveToEdge {
						t.Errorf("seed %d, %s %v: %v should not help", seed, w.Kind, w.Strips, x.Steps)
					}
				}
			}
		}
	}
	if judged < 30 || mended < 10 {
		t.Fatalf("drawn badly: %d warnings, %d mended by one change", judged, mended)
	}
}

// Every fix offered, applied and judged again from scratch.
func TestFixesHoldWhenJudgedAgain(t *testing.T) {
	kinds := map[face.WarningKind]int{}
	costs := map[Cost]int{}
	for seed := uint64(100); seed < 130; seed++ {
		p := random(3+int(seed%5), seed)
		spare := random(1, seed+1000).Strips[0]
		spare.ID, spare.Board.ID = "x", "X"
		spares := []face.Strip{spare}
		before := allOf(p, spares)
		for _, f := range All(context.Background(), nil, p, spares, options) {
			last := Cost(0)
			for _, x := range f.Fixes {
				kinds[f.Warning.Kind]++
				costs[x.Cost]++
				left := spares
				if x.Spares != nil {
					left = x.Spares
				}
				after := allOf(applied(p, x), left)
				ok, clean := rule(f.Warning, before, after)
				if !ok || clean != (len(x.Makes) == 0) {
					t.Errorf("seed %d, %s %v: %v ends it: %v, clean: %v, makes %v\nbefore %v\nafter %v",
						seed, f.Warning.Kind, f.Warning.Strips, x.Steps, ok, clean, x.Makes, kindsOf(before), kindsOf(after))
				}
				r := face.ReadFull(applied(p, x))
				if d := r.Show.Light.Value - x.After.Light; d > 1e-9 || d < -1e-9 {
					t.Errorf("seed %d: %v promises a light share of %g, gives %g", seed, x.Steps, x.After.Light, r.Show.Light.Value)
				}
				if d := r.Show.Coverage - x.After.Coverage; d > 1e-9 || d < -1e-9 {
					t.Errorf("seed %d: %v promises a coverage of %g, gives %g", seed, x.Steps, x.After.Coverage, r.Show.Coverage)
				}
				if x.Cost < last {
					t.Errorf("seed %d: %v comes after a dearer one", seed, x.Steps)
				}
				last = x.Cost
				if len(x.Panel) != len(p.Strips) {
					t.Errorf("seed %d: %v leaves %d strips", seed, x.Steps, len(x.Panel))
				}
			}
		}
	}
	if len(kinds) < 5 || costs[Free] == 0 || costs[ReCut] == 0 {
		t.Fatalf("drawn badly: kinds %v, costs %v", kinds, costs)
	}
}
