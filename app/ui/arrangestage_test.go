package ui

import (
	"context"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
)

// fakeSearch is a search that the test leads step by step.
type fakeSearch struct {
	wish  session.Wish
	now   session.Arrangement
	steps chan session.Found // told as improvements
	out   chan fakeEnd       // ends it
}

type fakeEnd struct {
	found session.Found
	err   error
}

func (f *fakeSearch) Run(ctx context.Context, improved func(session.Found)) (session.Found, error) {
	best := session.Found{Look: f.wish.Look, Now: f.now}
	if ctx.Err() != nil {
		return best, nil
	}
	for {
		select {
		case best = <-f.steps:
			improved(best)
		case e := <-f.out:
			return e.found, e.err
		case <-ctx.Done():
			return best, nil
		}
	}
}

// arrangeStage is a window with the page that arranges the demo's top.
type arrangeStage struct {
	stage
	p    *arrangePage
	runs []*fakeSearch
	fail error // of the next beginning
}

func arrangeAt(t *testing.T, text int) *arrangeStage {
	t.Helper()
	s := &arrangeStage{stage: demo(t, text)}
	s.p = s.showArrangeWith(s.begin)
	s.q.drain()
	return s
}

func (s *arrangeStage) begin(wish session.Wish) (searcher, error) {
	if s.fail != nil {
		return nil, s.fail
	}
	f := &fakeSearch{wish: wish, steps: make(chan session.Found), out: make(chan fakeEnd)}
	f.now = session.Arrangement{Panel: s.ses.Panel(wish.Panel), Points: 9.5, Looks: someLooks(9.5),
		Reasons: []session.Reason{
			{Text: "One light streak alone: strip B1", Points: 8, Strips: []string{"t2"}, Joint: -1},
			{Text: "Light wood on one side only of the joint of strips B1 and D1, along 84 % of it", Points: 1.5, Strips: []string{"t2", "t3"}, Joint: 1}}}
	s.runs = append(s.runs, f)
	return f, nil
}

func someLooks(points float64) []session.LookScore {
	var out []session.LookScore
	for i, l := range looks() {
		out = append(out, session.LookScore{Look: l, Points: points + float64(i)})
	}
	return out
}

// last is the search begun last.
func (s *arrangeStage) last() *fakeSearch { return s.runs[len(s.runs)-1] }

// answer lays the strips of the panel by number, from 1 at the front as it
// lies now: below 0 rolled over, 10 more turned end for end.
func (s *arrangeStage) answer(points float64, order ...int) session.Arrangement {
	n, fp := s.ses.Project().Panel("top"), *s.ses.Panel("top")
	var strips []model.Strip
	var laid []face.Strip
	for _, k := range order {
		i := k
		roll, turn := i < 0, false
		if roll {
			i = -i
		}
		if i > 10 {
			i, turn = i-10, true
		}
		m, st := n.Strips[i-1], fp.Strips[i-1]
		if roll {
			m.Up, st.Up = 3-m.Up, 3-st.UpFace()
		}
		if turn {
			m.Turned, st.Turned = !m.Turned, !st.Turned
		}
		strips, laid = append(strips, m), append(laid, st)
	}
	fp.Strips = laid
	r := face.ReadFull(&fp)
	return session.Arrangement{Panel: &fp, Points: points, Looks: someLooks(points), After: afterOf(r), Change: "move A1 and B1; roll over A1",
		Edit: model.SetStrips{Panel: "top", Strips: strips, Verb: "Arrange top"}}
}

// five is what a search of these tests ends with.
func (s *arrangeStage) five() session.Found {
	a := []session.Arrangement{s.answer(0, 1, -3, 2, 14), s.answer(2.4, 2, 1, 3, 4), s.answer(3.1, -4, 3, -2, 11), s.answer(4, 13, 2, 1, 4), s.answer(5.5, 4, 13, -1, 2)}
	a[1].Reasons = []session.Reason{{Text: "Strips A1 and B1 plane in opposite ways", Points: 2.4, Strips: []string{"t1", "t2"}, Joint: 0}}
	return session.Found{Look: model.SapOut, Now: s.last().now, Answers: a, Proved: true, Best: true, Least: 0, Tried: 12400}
}

// ends ends the search under way and shows what it found.
func (s *arrangeStage) ends(t *testing.T, f session.Found, err error) {
	t.Helper()
	s.last().out <- fakeEnd{f, err}
	s.q.wait(t, "the end of the search", func() bool { return !s.p.running })
}

// pictures waits until every tile has its picture.
func (s *arrangeStage) pictures(t *testing.T) {
	t.Helper()
	s.q.wait(t, "the pictures", func() bool {
		for i, e := range s.p.gallery.shown {
			if tile := s.p.gallery.tiles[i]; tile.waits || tile.drawn != e.lie {
				return false
			}
		}
		return true
	})
}

func (s *arrangeStage) typed(text string) {
	for _, r := range text {
		s.win.Canvas().Focused().TypedRune(r)
	}
}

func (s *arrangeStage) pressed(keys ...fyne.KeyName) {
	for _, k := range keys {
		s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// lies checks the order of the top's strips from the front.
func (s *arrangeStage) lies(t *testing.T, want ...string) {
	t.Helper()
	var got []string
	for _, st := range s.ses.Committed().Panel("top").Strips {
		got = append(got, st.ID)
	}
	if !slices.Equal(got, want) {
		t.Errorf("the panel lies as %v, want %v", got, want)
	}
}

func endless() float64 { return math.Inf(-1) }

// bang is a search that goes wrong.
type bang struct{}

func (bang) Run(context.Context, func(session.Found)) (session.Found, error) { panic("bang") }

func labelText(o fyne.CanvasObject) string {
	if l, ok := o.(*widget.Label); ok {
		return l.Text
	}
	return ""
}
