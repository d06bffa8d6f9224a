package face

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

// edit makes one random change and returns a new panel; the old one stays.
func edit(rng *rand.Rand, p *Panel) *Panel {
	q := *p
	q.Strips = slices.Clone(p.Strips)
	i := rng.IntN(len(q.Strips))
	s := &q.Strips[i]
	switch rng.IntN(15) {
	case 0:
		s.X += rng.Float64()*10 - 5
	case 1:
		s.Y += rng.Float64()*6 - 3
	case 2:
		s.Angle += rng.Float64()*2 - 1
	case 3:
		s.Up = 3 - s.Up
	case 4:
		s.Turned = !s.Turned
	case 5:
		s.Shift += rng.Float64()*10 - 5
	case 6:
		k := rng.IntN(len(q.Strips))
		q.Strips[i], q.Strips[k] = q.Strips[k], q.Strips[i]
	case 7:
		s.W += rng.Float64()*10 - 5
	case 8:
		s.Board = nil
	case 9:
		if len(q.Strips) > 2 {
			q.Strips = slices.Delete(q.Strips, i, i+1)
		}
	case 10:
		if s.Board != nil {
			b := *s.Board
			b.Faces[0].Zones = append(slices.Clone(b.Faces[0].Zones), Zone{Kind(rng.IntN(4)), blob(rng, s.X+100, s.Y+20, 8+rng.Float64()*10, 9)})
			s.Board = &b
		}
	case 11:
		s.Planed = &PlanedFace{Zones: []Zone{{Sap, blob(rng, 80, 20, 15, 9)}}}
	case 12:
		q.Wanted = Wanted(rng.IntN(3))
	case 13:
		switch rng.IntN(3) {
		case 0:
			q.Shape = geom.Ellipse(geom.R(0, 0, q.Length, q.Width), 40)
		case 1:
			q.Hidden = []geom.Polygon{rect(20, 20, 90, 60)}
		default:
			q.Shape, q.Hidden = nil, nil
		}
	case 14:
		q.Profiles[rng.IntN(4)] = Profile{Round: rng.IntN(2) == 1, Across: 25 * rng.Float64(), Down: 15 * rng.Float64()}
	}
	return &q
}

// What a reader reads after any edits must be, to the last bit, what a reader
// that has seen nothing reads.
func TestIncrementalEqualsFull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 3))
		p := randomPanel(rng)
		r := NewReader()
		for n := range rapid.IntRange(1, 12).Draw(t, "edits") {
			r.Read(p)
			p = edit(rng, p)
			if got, want := r.Read(p), ReadFull(p); !same(got, want) {
				t.Fatalf("after %d edits: %s", n+1, difference(got, want))
			}
		}
	})
}

// same compares readings; empty and nil lists are the same.
func same(a, b *Reading) bool { return fmt.Sprintf("%+v", *a) == fmt.Sprintf("%+v", *b) }

func difference(a, b *Reading) string {
	x, y := reflect.ValueOf(*a), reflect.ValueOf(*b)
	out := ""
	for i := range x.NumField() {
		if p, q := fmt.Sprintf("%+v", x.Field(i)), fmt.Sprintf("%+v", y.Field(i)); p != q {
			out += fmt.Sprintf("%s:\n  %s\nwant\n  %s\n", x.Type().Field(i).Name, p, q)
		}
	}
	return out
}

// Two edits that do not touch the same thing give the same reading in either
// order.
func TestOrderOfEditsDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 3))
	for range 20 {
		p := randomPanel(rng)
		move := func(p *Panel) *Panel { return dragged(p, 0, 4, -2) }
		flip := func(p *Panel) *Panel {
			q := dragged(p, 1, 0, 0)
			q.Strips[1].Up, q.Strips[1].Turned = 3-q.Strips[1].Up, !q.Strips[1].Turned
			return q
		}
		a, b := NewReader(), NewReader()
		a.Read(p)
		a.Read(move(p))
		b.Read(flip(p))
		if got, want := a.Read(flip(move(p))), b.Read(move(flip(p))); !same(got, want) {
			t.Fatal(difference(got, want))
		}
	}
}

func TestTwiceFlippedOrTurnedChangesNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 3))
	changed := 0
	for range 20 {
		p := randomPanel(rng)
		r := NewReader()
		want := r.Read(p).Clone()
		for _, change := range []func(*Strip){
			func(s *Strip) { s.Up = 3 - s.Up }, func(s *Strip) { s.Turned = !s.Turned },
		} {
			once := dragged(p, 1, 0, 0)
			change(&once.Strips[1])
			if !same(r.Read(once), want) {
				changed++
			}
			twice := dragged(once, 1, 0, 0)
			change(&twice.Strips[1])
			if got := r.Read(twice); !same(got, want) {
				t.Fatal(difference(got, want))
			}
		}
	}
	if changed < 30 {
		t.Errorf("only %d of 40 single changes were seen in a reading: the drawings are too plain to test with", changed)
	}
}

func TestCloneOutlivesTheReader(t *testing.T) {
	p := wideTop(5)
	r := NewReader()
	got := r.Read(p).Clone()
	want := fmt.Sprintf("%+v", *got)
	for k := range 5 {
		r.Read(edit(rand.New(rand.NewPCG(uint64(k), 1)), p))
	}
	if fmt.Sprintf("%+v", *got) != want {
		t.Error("a cloned reading changed")
	}
}

// A drag step must not allocate; so a panel of any size costs no garbage.
func TestDragAllocatesNothing(t *testing.T) {
	p := wideTop(1)
	steps := []*Panel{dragged(p, 11, 3, 0), dragged(p, 11, 4, 0.5), dragged(p, 11, 5, 0.2)}
	r := NewReader()
	r.Begin()
	for k := range 30 {
		r.Read(steps[k%3])
	}
	k := 0
	if n := testing.AllocsPerRun(30, func() { r.Read(steps[k%3]); k++ }); n > 0 {
		t.Errorf("%v allocations a step", n)
	}
}
