package command

import (
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
)

// foundJSON is what arrange --json prints. Its keys are documented in the
// README: add, never rename.
type foundJSON struct {
	Panel   string       `json:"panel"`
	Set     *string      `json:"set"`    // null: the panel alone was arranged
	Panels  []string     `json:"panels"` // what was arranged
	Look    string       `json:"look"`
	Seed    uint64       `json:"seed"`
	Best    bool         `json:"best"`
	Proved  bool         `json:"proved_for_joints"`
	Least   float64      `json:"least_points"`
	Tried   int          `json:"tried"`
	Now     answerJSON   `json:"now"`
	Answers []answerJSON `json:"answers"`
}

type answerJSON struct {
	Points   float64            `json:"points"`
	Looks    map[string]float64 `json:"looks"`
	Light    float64            `json:"light_share"`
	Unwanted float64            `json:"unwanted_share"`
	Coverage float64            `json:"contrast_coverage"`
	Streaks  int                `json:"lone_streaks"`
	Change   string             `json:"change"`
	Strips   []laidJSON         `json:"strips"`
	Panels   []partJSON         `json:"panels,omitempty"` // of a set
	Reasons  []reasonJSON       `json:"reasons"`
}

type laidJSON struct {
	ID     string  `json:"id"`
	Board  *string `json:"board"`
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	Length float64 `json:"length_mm"`
	Width  float64 `json:"width_mm"`
	Up     int     `json:"up"`
	Turned bool    `json:"turned"`
	Shift  float64 `json:"shift_mm"`
}

type reasonJSON struct {
	Text   string   `json:"text"`
	Points float64  `json:"points"`
	Strips []string `json:"strips"`
	Joint  *int     `json:"joint"`
	Panel  *string  `json:"panel,omitempty"` // of a set: the panel that the joint is of
}

// partJSON is one panel of a set.
type partJSON struct {
	ID     string     `json:"id"`
	Strips []laidJSON `json:"strips"`
}

func foundOf(w session.Wish, set *model.Set, f *session.Found) foundJSON {
	v := foundJSON{
		Panel: w.Panel, Panels: []string{w.Panel}, Look: string(f.Look), Seed: w.Seed, Best: f.Best, Proved: f.Proved,
		Least: round(f.Least, 4), Tried: f.Tried, Now: answerOf(&f.Now), Answers: []answerJSON{},
	}
	if set != nil {
		v.Set, v.Panels = &set.Name, set.Panels
	}
	for i := range f.Answers {
		v.Answers = append(v.Answers, answerOf(&f.Answers[i]))
	}
	return v
}

func answerOf(a *session.Arrangement) answerJSON {
	v := answerJSON{
		Points: round(a.Points, 4), Looks: map[string]float64{}, Light: a.After.Light, Unwanted: a.After.Unwanted,
		Coverage: a.After.Coverage, Streaks: a.After.LoneStreaks, Change: a.Change,
		Strips: []laidJSON{}, Reasons: []reasonJSON{},
	}
	for _, l := range a.Looks {
		v.Looks[string(l.Look)] = round(l.Points, 4)
	}
	v.Strips = laidOf(a.Panel)
	for _, p := range a.Panels {
		v.Panels = append(v.Panels, partJSON{ID: p.ID, Strips: laidOf(p)})
	}
	for _, r := range a.Reasons {
		j := reasonJSON{Text: r.Text, Points: round(r.Points, 4), Strips: r.Strips}
		if j.Strips == nil {
			j.Strips = []string{}
		}
		if r.Joint >= 0 {
			j.Joint = &r.Joint
		}
		if r.Panel != "" {
			j.Panel = &r.Panel
		}
		v.Reasons = append(v.Reasons, j)
	}
	return v
}

func laidOf(p *face.Panel) []laidJSON {
	out := []laidJSON{}
	for i := range p.Strips {
		st := &p.Strips[i]
		l := laidJSON{ID: st.ID, X: st.X, Y: st.Y, Length: st.L, Width: st.W, Up: st.UpFace(), Turned: st.Turned, Shift: st.Shift}
		if st.Board != nil {
			l.Board = &st.Board.ID
		}
		out = append(out, l)
	}
	return out
}
