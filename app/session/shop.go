package session

import (
	"math"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// Within is what a rule tells from another width with certainty, mm: what was
// measured farther off is told. Common practice, no source.
const Within = 3.0

// BenchStrip is a strip of a panel as the maker works on it.
type BenchStrip struct {
	Panel, Strip, Number, Board string
	Stage                       model.Stage
	Turned                      bool // the marked end lies at the right
	Width                       float64
	// Expected are the sapwood widths of the finished face that shows, along the
	// front and the back edge as it lies in the panel, from the left: at both ends
	// and the middle of the whole strip, before the panel is trimmed.
	Expected [2]model.Tape
	Known    bool           // the faces of its board were looked at
	Measured *[2]model.Tape // likewise, nil where nothing was
	Below    bool           // it was measured on the face that lies down now
	Diffs    []string       // in words, where more than Within apart
}

// Bench returns the strips of a panel that lie on boards, front to back.
func (s *Session) Bench(panel string) []BenchStrip {
	m, fp := s.Project().Panel(panel), s.Panel(panel)
	if m == nil || fp == nil {
		return nil
	}
	bare := *fp
	bare.Strips = append([]face.Strip(nil), fp.Strips...)
	for i := range bare.Strips {
		bare.Strips[i].Planed = nil // expected is what was known before it was measured
	}
	done := bare.Finished()
	w := s.words(panel)
	var out []BenchStrip
	for i := range m.Strips {
		st := &m.Strips[i]
		if fp.Strips[i].Board == nil {
			continue
		}
		b := BenchStrip{Panel: panel, Strip: st.ID, Number: s.Number(panel, st.ID), Board: st.Board, Stage: stageNow(st.Stage),
			Turned: st.Turned, Width: st.W}
		b.Known = !fp.Strips[i].Board.Faces[fp.Strips[i].UpFace()-1].Guessed
		b.Expected = wholeWidths(&done.Strips[i])
		switch {
		case st.MeasuredAsShown():
			got := asItLies(st, st.Planed.Near, st.Planed.Far)
			b.Measured = &got
			b.Diffs = w.apart(m.Role, &b)
		case st.Planed != nil:
			b.Below = true
		}
		out = append(out, b)
	}
	return out
}

// stageNow names the stage of a strip of which nothing was said.
func stageNow(s model.Stage) model.Stage {
	if s == "" {
		return model.Planned
	}
	return s
}

// wholeWidths are the sapwood widths along the edges of a strip by itself, as
// it lies: what a rule finds on it before the panel is trimmed.
func wholeWidths(st *face.Strip) [2]model.Tape {
	alone := *st
	alone.Shift = 0
	p := &face.Panel{ID: st.ID, Length: st.L, Width: st.W, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits, Strips: []face.Strip{alone}}
	if st.Board != nil {
		p.Thickness = st.Board.Thickness
	}
	var r face.Reader
	x := r.Read(p).Strips[0]
	return [2]model.Tape{model.Tape(x.Front), model.Tape(x.Rear)}
}

// asItLies turns widths along t = 0 and t = W of a strip, from s = 0, into those
// along its front and its back edge in the panel, from the left.
func asItLies(st *model.Strip, near, far model.Tape) [2]model.Tape {
	if st.Turned != (st.Up == 2) {
		near, far = far, near
	}
	if st.Turned {
		near[0], near[2] = near[2], near[0]
		far[0], far[2] = far[2], far[0]
	}
	return [2]model.Tape{near, far}
}

// MeasureEdit records what was measured on a strip after planing, along its
// front and back edge as it lies, from the left.
func MeasureEdit(p *model.Project, panel, strip string, lying [2]model.Tape) model.Edit {
	e := model.SetPlaned{Panel: panel, Strip: strip}
	n := p.Panel(panel)
	if n == nil {
		return e
	}
	st, ok := n.Strip(strip)
	if !ok {
		return e
	}
	own := asItLies(&st, lying[0], lying[1]) // the same way round and back
	e.Planed = &model.PlanedSap{Near: own[0], Far: own[1], Face: max(st.Up, 1)}
	return e
}

// apart tells where a strip's widths are more than Within from what was
// expected: "6 mm more than expected at the marked end of its front edge".
func (w words) apart(role model.Role, b *BenchStrip) []string {
	sides := role.Sides()
	var out []string
	for e := range b.Measured {
		for i := range b.Measured[e] {
			d := b.Measured[e][i] - b.Expected[e][i]
			if math.Abs(d) <= Within+1e-9 {
				continue
			}
			more := say.T("more")
			if d < 0 {
				more = say.T("less")
			}
			out = append(out, say.F("%s %s than expected %s of its %s", w.len(math.Abs(d)), more, b.Place(i), sides[e].Name))
		}
	}
	return out
}

// Place names where along a strip a width is measured, 0 to 2 from the left.
func (b *BenchStrip) Place(i int) string {
	switch {
	case i == 1:
		return say.T("in the middle")
	case (i == 2) == b.Turned:
		return say.T("at the marked end")
	}
	return say.T("at the other end")
}

// Stages are the steps of the bench in their order.
func Stages() []model.Stage {
	return []model.Stage{model.Planned, model.Sawn, model.Planed, model.Jointed, model.Glued}
}

// StepEdit moves strips one stage on, by 1, or back, by -1; nil where none can
// move. It is one entry of the history.
func StepEdit(p *model.Project, list []BenchStrip, by int) model.Edit {
	return stageEdit(p, list, func(now int) int { return now + by })
}

// StageEdit brings strips to a stage; nil where all are there.
func StageEdit(p *model.Project, list []BenchStrip, to model.Stage) model.Edit {
	at := 0
	for i, s := range Stages() {
		if s == to {
			at = i
		}
	}
	return stageEdit(p, list, func(int) int { return at })
}

func stageEdit(p *model.Project, list []BenchStrip, to func(now int) int) model.Edit {
	stages := Stages()
	type key struct{ panel, strip string }
	want := map[key]model.Stage{}
	var one model.SetStage
	for _, b := range list {
		now := 0
		for i, s := range stages {
			if s == b.Stage {
				now = i
			}
		}
		if next := min(max(to(now), 0), len(stages)-1); next != now {
			want[key{b.Panel, b.Strip}] = stages[next]
			one = model.SetStage{Panel: b.Panel, Strip: b.Strip, Stage: stages[next]}
		}
	}
	switch len(want) {
	case 0:
		return nil
	case 1:
		return one
	}
	plan := model.SetPlan{Verb: say.F("Mark the stage of %s", howMany(len(want), stripNoun()))}
	for _, n := range p.Panels {
		strips, any := append([]model.Strip(nil), n.Strips...), false
		for i := range strips {
			if s, ok := want[key{n.ID, strips[i].ID}]; ok {
				strips[i].Stage, any = s, true
			}
		}
		if any {
			plan.Panels = append(plan.Panels, model.PlanPanel{Panel: n.ID, Strips: strips})
		}
	}
	return plan
}
