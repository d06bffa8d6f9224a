package seek

import (
	"math"
	"slices"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/together"
)

// setOf draws panels of some strips each, named apart, and lays them to a face.
func setOf(t testing.TB, seed uint64, way together.Way, sizes ...int) *together.Face {
	t.Helper()
	var panels []*face.Panel
	for k, n := range sizes {
		p, _ := drawn(100*seed+uint64(k), n, 0)
		small(p, nil)
		p.ID = string(rune('l' + k))
		for i := range p.Strips {
			p.Strips[i].ID = p.ID + "/" + p.Strips[i].ID
		}
		panels = append(panels, p)
	}
	return faceOf(t, way, panels...)
}

func faceOf(t testing.TB, way together.Way, panels ...*face.Panel) *together.Face {
	t.Helper()
	f, err := together.Of(panels, together.Layout{Way: way, Gap: 3, KeepIDs: true})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// sameWidths draws panels all of whose strips are of one width.
func sameWidths(t testing.TB, seed uint64, way together.Way, width float64, sizes ...int) *together.Face {
	f := setOf(t, seed, way, sizes...)
	var panels []*face.Panel
	for k := range f.Len() {
		p := *f.Part(k)
		p.Strips = slices.Clone(p.Strips)
		for i := range p.Strips {
			b := *p.Strips[i].Board
			b.Width = width + 10
			p.Strips[i].Board, p.Strips[i].W = &b, width
		}
		p.Width = p.StripsWidth() - 10
		panels = append(panels, &p)
	}
	return faceOf(t, way, panels...)
}

// pointsOf are the points against panels laid so, by judges and readers of
// their own.
type pointsOf struct {
	f      *together.Face
	own    []*look.Judge
	reads  []*face.Reader
	whole  *look.Judge
	reader together.Reader
}

func newPointsOf(f *together.Face, name look.Name) *pointsOf {
	p := &pointsOf{f: f.Fork(), whole: look.NewJudge(f.Panel, name, look.DefaultRules)}
	p.reader.SkipCoverage(true)
	for k := range f.Len() {
		frame := *f.Part(k)
		p.own = append(p.own, look.NewJudge(&frame, name, look.DefaultRules))
		r := face.NewReader()
		r.SkipCoverage(true)
		p.reads = append(p.reads, r)
	}
	return p
}

func (p *pointsOf) panel(k int, strips []face.Strip) float64 {
	q := *p.f.Part(k)
	q.Strips = strips
	return p.own[k].Own(&q, p.reads[k].Read(&q))
}

func (p *pointsOf) seen(strips [][]face.Strip) float64 {
	p.f.LayAll(strips)
	return p.whole.Together(p.f.Panel, p.reader.Read(p.f))
}

func (p *pointsOf) of(strips [][]face.Strip) float64 {
	sum := p.seen(strips)
	for k := range strips {
		sum += p.panel(k, strips[k])
	}
	return sum
}

// lie is one way to lay the strips of a panel, with what speaks against it by
// itself.
type lie struct {
	strips []face.Strip
	own    float64
}

// everyLie lists all ways to lay given strips in panel k, pinned ones held.
func (p *pointsOf) everyLie(k int, strips []face.Strip) (out []lie) {
	n := len(strips)
	now := make([]face.Strip, n)
	used := make([]bool, n)
	var lay func(place int)
	lay = func(place int) {
		if place == n {
			list := slices.Clone(now)
			out = append(out, lie{list, p.panel(k, list)})
			return
		}
		for i := range strips {
			if used[i] || (strips[i].Pinned || strips[place].Pinned) && i != place {
				continue
			}
			used[i] = true
			for up := 1; up <= 2; up++ {
				for _, turned := range []bool{false, true} {
					s := strips[i]
					if s.Pinned && (s.UpFace() != up || s.Turned != turned) {
						continue
					}
					s.Up, s.Turned = up, turned
					now[place] = s
					lay(place + 1)
				}
			}
			used[i] = false
		}
	}
	lay(0)
	return out
}

// everySet reads every way to lay two panels and returns the least points.
// Nothing is left out but where the panels by themselves are worse already,
// which what is seen of both cannot mend, as it is never below 0.
func everySet(p *pointsOf, a, b []lie) float64 {
	best := math.Inf(1)
	by := func(x, y lie) int {
		switch {
		case x.own < y.own:
			return -1
		case x.own > y.own:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(a, by)
	slices.SortStableFunc(b, by)
	for _, x := range a {
		for _, y := range b {
			if x.own+y.own >= best {
				break
			}
			best = min(best, x.own+y.own+p.seen([][]face.Strip{x.strips, y.strips}))
		}
	}
	return best
}
