package command

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"heartside/app/session"
	"heartside/model"
)

// defaultSeconds is how long a search may take where nothing is said.
const defaultSeconds = 5

// foundJSON is what arrange --json prints. Its keys are documented in the
// README: add, never rename.
type foundJSON struct {
	Panel   string       `json:"panel"`
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
}

// arrange searches for arrangements of a panel.
func arrange(args []string, out io.Writer) (int, error) {
	o, err := parse(args, "project", "panel look seconds seed o", "json spares no-roll no-turn")
	if err != nil {
		return Failed, err
	}
	wish, limit, err := wished(&o)
	if err != nil {
		return Failed, err
	}
	s, err := open(o.project)
	if err != nil {
		return Failed, err
	}
	defer s.Close()
	if wish.Panel == "" {
		if wish.Panel, err = onlyPanel(s.Project()); err != nil {
			return Failed, err
		}
	}
	search, err := s.Search(wish)
	if err != nil {
		return Failed, err
	}
	ctx, stop := context.WithTimeout(context.Background(), limit)
	defer stop()
	f, err := search.Run(ctx, nil)
	if err != nil {
		return Failed, err
	}
	if to := o.flags["o"]; to != "" {
		if err := writeArranged(s, wish.Panel, &f, to); err != nil {
			return Failed, err
		}
	}
	if o.flags["json"] != "" {
		e := json.NewEncoder(out)
		e.SetIndent("", "  ")
		return Done, e.Encode(foundOf(wish, &f))
	}
	return Done, printFound(out, s, wish.Panel, &f, o.flags["o"])
}

// wished reads what is asked of the search and how long it may take.
func wished(o *options) (session.Wish, time.Duration, error) {
	w := session.Wish{
		Panel: o.flags["panel"], Look: model.Look(o.flags["look"]), Seed: 1,
		Spares: o.flags["spares"] != "", NoRoll: o.flags["no-roll"] != "", NoTurn: o.flags["no-turn"] != "",
	}
	if w.Look != "" && !slices.Contains(model.Looks(), w.Look) {
		var names []string
		for _, l := range model.Looks() {
			names = append(names, string(l))
		}
		return w, 0, fmt.Errorf("--look %s is not known: use one of %s", w.Look, strings.Join(names, ", "))
	}
	if text := o.flags["seed"]; text != "" {
		n, err := strconv.ParseUint(text, 10, 64)
		if err != nil {
			return w, 0, fmt.Errorf("--seed %s is no whole number: give one such as 1", text)
		}
		w.Seed = n
	}
	seconds := float64(defaultSeconds)
	if text := o.flags["seconds"]; text != "" {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil || !(v > 0) || v > 3600 {
			return w, 0, fmt.Errorf("--seconds %s is no time: give a number over 0 and up to 3600", text)
		}
		seconds = v
	}
	return w, time.Duration(seconds * float64(time.Second)), nil
}

// onlyPanel names the panel of a project that has one.
func onlyPanel(p *model.Project) (string, error) {
	if len(p.Panels) == 1 {
		return p.Panels[0].ID, nil
	}
	var ids []string
	for _, m := range p.Panels {
		ids = append(ids, m.ID)
	}
	if len(ids) == 0 {
		return "", errors.New("the project has no panels: there is nothing to arrange")
	}
	return "", fmt.Errorf("which panel? Give --panel with one of %s", strings.Join(ids, ", "))
}

// writeArranged saves the project with the best answer laid and the others
// kept beside it.
func writeArranged(s *session.Session, panel string, f *session.Found, to string) error {
	for i := range f.Answers {
		lay, ok := f.Answers[i].Edit.(model.SetStrips)
		if !ok {
			continue
		}
		if i == 0 {
			if err := s.Commit(lay); err != nil {
				return err
			}
			continue
		}
		name := fmt.Sprintf("%s %d", f.Look, i+1)
		if err := s.Commit(model.Keep{Panel: panel, Name: name, Strips: lay.Strips}); err != nil {
			return err
		}
	}
	return s.SaveAs(to)
}

func foundOf(w session.Wish, f *session.Found) foundJSON {
	v := foundJSON{
		Panel: w.Panel, Look: string(f.Look), Seed: w.Seed, Best: f.Best, Proved: f.Proved,
		Least: round(f.Least, 4), Tried: f.Tried, Now: answerOf(&f.Now), Answers: []answerJSON{},
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
	for i := range a.Panel.Strips {
		st := &a.Panel.Strips[i]
		l := laidJSON{ID: st.ID, X: st.X, Y: st.Y, Length: st.L, Width: st.W, Up: st.UpFace(), Turned: st.Turned, Shift: st.Shift}
		if st.Board != nil {
			l.Board = &st.Board.ID
		}
		v.Strips = append(v.Strips, l)
	}
	for _, r := range a.Reasons {
		j := reasonJSON{Text: r.Text, Points: round(r.Points, 4), Strips: r.Strips}
		if j.Strips == nil {
			j.Strips = []string{}
		}
		if r.Joint >= 0 {
			j.Joint = &r.Joint
		}
		v.Reasons = append(v.Reasons, j)
	}
	return v
}

// mostReasons is how many are printed for an answer; --json gives all.
const mostReasons = 4

func printFound(out io.Writer, s *session.Session, panel string, f *session.Found, to string) error {
	w := &lines{out: out}
	w.printf("%s, %s: %d arrangements read", panel, f.Look, f.Tried)
	switch {
	case f.Look == model.AsLaid:
		w.printf("; the panel asks for no look, so it is only judged: give --look\n")
	case f.Best:
		w.printf("; none of these strips is better than the first\n")
	case f.Proved:
		w.printf("; proved best for the joint terms, at most %.1f points better is possible\n", max(first(f)-f.Least, 0))
	default:
		w.printf("; at most %.1f points better is possible\n", max(first(f)-f.Least, 0))
	}
	one := func(name string, a *session.Arrangement) {
		w.printf("\n%s: %.1f points against it; sapwood %s, contrast coverage %s, %s alone\n", name, a.Points,
			share(a.After.Light), share(a.After.Coverage), count(a.After.LoneStreaks, "streak"))
		if a.Change != "" {
			w.printf("  %s\n", a.Change)
		}
		var order []string
		for i := range a.Panel.Strips {
			st := &a.Panel.Strips[i]
			how := ""
			if st.UpFace() == 2 {
				how += " face 2 up"
			}
			if st.Turned {
				how += " turned"
			}
			order = append(order, s.Number(panel, st.ID)+how)
		}
		w.printf("  front to back: %s\n", strings.Join(order, ", "))
		for i, r := range a.Reasons {
			if i == mostReasons {
				w.printf("  and %d more\n", len(a.Reasons)-i)
				break
			}
			w.printf("  %4.1f  %s\n", r.Points, r.Text)
		}
	}
	one("As it lies", &f.Now)
	for i := range f.Answers {
		one(fmt.Sprintf("Answer %d", i+1), &f.Answers[i])
	}
	if to != "" {
		w.printf("\nwritten: %s, laid as answer 1; the others are kept in it\n", to)
	}
	return w.err
}

func first(f *session.Found) float64 {
	if len(f.Answers) == 0 {
		return f.Now.Points
	}
	return f.Answers[0].Points
}
