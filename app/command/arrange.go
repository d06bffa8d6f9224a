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

// arrange searches for arrangements of a panel.
func arrange(args []string, out io.Writer) (int, error) {
	o, err := parse(args, "project", "panel look seconds seed o", "json spares no-roll no-turn set")
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
	set, err := askedSet(s, wish)
	if err != nil {
		return Failed, err
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
		if err := writeArranged(s, wish.Panel, set, &f, to); err != nil {
			return Failed, err
		}
	}
	if o.flags["json"] != "" {
		e := json.NewEncoder(out)
		e.SetIndent("", "  ")
		return Done, e.Encode(foundOf(wish, set, &f))
	}
	return Done, printFound(out, s, wish.Panel, set, &f, o.flags["o"])
}

// wished reads what is asked of the search and how long it may take.
func wished(o *options) (session.Wish, time.Duration, error) {
	w := session.Wish{
		Panel: o.flags["panel"], Look: model.Look(o.flags["look"]), Seed: 1,
		Spares: o.flags["spares"] != "", NoRoll: o.flags["no-roll"] != "", NoTurn: o.flags["no-turn"] != "",
		Whole: o.flags["set"] != "",
	}
	if w.Whole && w.Spares {
		return w, 0, errors.New("--set and --spares do not go together: a set is arranged with the strips it has")
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

// askedSet is the set that is to be arranged, nil where the panel alone is.
func askedSet(s *session.Session, wish session.Wish) (*model.Set, error) {
	if !wish.Whole {
		return nil, nil
	}
	for _, set := range s.Project().Sets {
		if slices.Contains(set.Panels, wish.Panel) {
			return &set, nil
		}
	}
	if s.Project().Panel(wish.Panel) == nil {
		return nil, nil // the search says so
	}
	return nil, fmt.Errorf("panel %s is in no set, so --set has nothing to arrange: leave it out, or name the set under sets in the project", wish.Panel)
}

// writeArranged saves the project with the best answer laid and the others
// kept beside it.
func writeArranged(s *session.Session, panel string, set *model.Set, f *session.Found, to string) error {
	for i := range f.Answers {
		if set != nil {
			if err := writeSet(s, *set, f, i); err != nil {
				return err
			}
			continue
		}
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

// writeSet lays the first answer for a set, and keeps another.
func writeSet(s *session.Session, set model.Set, f *session.Found, i int) error {
	lay := f.Answers[i].Edit
	if i == 0 {
		return s.Commit(lay)
	}
	return s.Commit(session.KeepSet(set, fmt.Sprintf("%s %d", f.Look, i+1), lay))
}
