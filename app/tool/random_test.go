package tool

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// hand makes events. It knows where things are, so that gestures are hit.
type hand struct {
	*rand.Rand
	at    geom.Point
	down  Button
	faces bool // keep to the faces of the board
}

func (h *hand) somewhere() geom.Point {
	x := 60 + h.Float64()*1300
	switch n := h.IntN(10); {
	case h.faces && n < 5:
		return geom.Pt(x, 290+h.Float64()*110)
	case h.faces:
		return geom.Pt(x, 413+h.Float64()*110)
	case n < 4:
		return geom.Pt(80+h.Float64()*500, h.Float64()*255)
	case n < 6:
		return geom.Pt(x, 340+h.Float64()*60)
	case n < 8:
		return geom.Pt(x, 280+h.Float64()*260)
	case n < 9:
		return geom.Pt(x, 600+h.Float64()*20)
	}
	return geom.Pt(x, h.Float64()*700)
}

// next makes an event as a window would: presses and releases take turns.
func (h *hand) next() Event {
	e := Event{Mods: Mods{Shift: h.IntN(6) == 0, Control: h.IntN(6) == 0}}
	switch n := h.IntN(20); {
	case n == 0:
		e.Kind, e.Key = Typed, Key(h.IntN(int(End)+1))
	case h.down == NoButton && n < 5:
		e.Kind = Hover
		if h.at = h.somewhere(); n == 1 {
			e.Kind = Leave
		}
	case h.down == NoButton:
		e.Kind, h.down = Press, []Button{Primary, Primary, Primary, Primary, Middle, Secondary}[h.IntN(6)]
		if n > 8 {
			h.at = h.somewhere()
		} else if h.down == Primary {
			e.Kind = Double
		}
	case n < 7:
		e.Kind, e.Button, h.down = Release, h.down, NoButton
		e.At = h.at
		return e
	default:
		e.Kind = Drag
		if h.at = h.at.Add(geom.Pt(h.NormFloat64()*40, h.NormFloat64()*20)); n == 19 {
			h.at = h.somewhere()
		}
	}
	e.At, e.Button = h.at, h.down
	return e
}

// wild makes an event that need not follow from what came before.
func (h *hand) wild() Event {
	return Event{Kind: Kind(h.IntN(int(Leave) + 2)), At: h.somewhere(), Button: Button(h.IntN(5)), Key: Key(h.IntN(int(End) + 2)),
		Mods: Mods{Shift: h.IntN(2) == 0, Control: h.IntN(2) == 0}}
}

// Any stream of events leaves a sound project, no preview when the hand is
// at rest, at most one entry a gesture, and undone it is the start.
func TestAnyEvents(t *testing.T) {
	const seed = 7719
	kinds := []model.ZoneKind{model.Heart, model.Sap, model.Flaw, model.Unseen}
	commits := map[string]int{}
	for _, c := range []struct {
		name string
		tool func(h *hand) State
		wild bool
	}{
		{"arrange", func(*hand) State { return Arrange{} }, false},
		{"arrange, wild", func(*hand) State { return Arrange{} }, true},
		{"zones", func(h *hand) State { return NewZones(kinds[h.IntN(4)], 0) }, false},
		{"zones, wild", func(h *hand) State { return NewZones(kinds[h.IntN(4)], 0) }, true},
		{"brush", func(h *hand) State { return NewZones(kinds[h.IntN(4)], 6+h.Float64()*40) }, false},
		{"grain", func(*hand) State { return newGrain() }, false},
		{"grain, wild", func(*hand) State { return newGrain() }, true},
		{"brush, wild", func(h *hand) State { return NewZones(kinds[h.IntN(4)], 6+h.Float64()*40) }, true},
	} {
		for n := range uint64(60) {
			h := &hand{Rand: rand.New(rand.NewPCG(seed, n)), faces: c.name[0] != 'a'}
			b := newBench(t)
			if h.IntN(2) == 0 {
				b.snap = edgeSnap
			}
			start := b.Project()
			rest := b.Project() // when the hand was last at rest
			s := c.tool(h)
			for k := range 150 {
				e := h.next()
				if c.wild {
					e = h.wild()
				}
				before := b.commits
				s = s.Handle(b, e)
				if over := e.Kind == Release || e.Kind == Typed && e.Key == Escape || !s.Busy(); over && b.preview != nil {
					t.Fatalf("%s, seed %d, stream %d, event %d %+v: a preview stands in %T", c.name, seed, n, k, e, s)
				}
				if b.commits > before+1 {
					t.Fatalf("%s, seed %d, stream %d, event %d: %d commits at once", c.name, seed, n, k, b.commits-before)
				}
				if b.commits > before && s.Busy() {
					t.Fatalf("%s, seed %d, stream %d, event %d: committed within a gesture: %T", c.name, seed, n, k, s)
				}
				if s.Busy() && b.Project() != rest {
					t.Fatalf("%s, seed %d, stream %d, event %d: %T changed the project", c.name, seed, n, k, s)
				}
				rest = b.Project()
			}
			commits[c.name] += b.commits - b.refused
			b.play(s, typed(Escape))
			if err := model.Validate(b.Project()); err != nil {
				t.Fatalf("%s, seed %d, stream %d: %v", c.name, seed, n, err)
			}
			end := b.Project()
			steps, _ := b.hist.Depth()
			for b.hist.Undo() {
			}
			if b.Project() != start || !reflect.DeepEqual(start, table()) {
				t.Fatalf("%s, seed %d, stream %d: undone it is not the start", c.name, seed, n)
			}
			for range steps {
				b.hist.Redo()
			}
			if b.Project() != end {
				t.Fatalf("%s, seed %d, stream %d: made again it is not the end", c.name, seed, n)
			}
		}
	}
	for _, name := range []string{"arrange", "arrange, wild", "zones", "brush", "grain"} {
		if commits[name] < 30 {
			t.Errorf("%s: only %d changes in 60 streams, too few to tell", name, commits[name])
		}
	}
	t.Logf("seed %d, changes %v", seed, commits)
}
