package command

import (
	"fmt"
	"io"
	"strings"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
)

// mostReasons is how many are printed for an answer; --json gives all.
const mostReasons = 4

func printFound(out io.Writer, s *session.Session, panel string, set *model.Set, f *session.Found, to string) error {
	w := &lines{out: out}
	what := panel
	if set != nil {
		what = fmt.Sprintf("set %s (%s) as one face", set.Name, strings.Join(set.Panels, ", "))
	}
	w.printf("%s, %s: %d arrangements read", what, f.Look, f.Tried)
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
		if set == nil {
			w.printf("  front to back: %s\n", orderWords(s, a.Panel, panel))
		}
		for _, p := range a.Panels {
			w.printf("  %s, front to back: %s\n", p.ID, orderWords(s, p, p.ID))
		}
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

// orderWords says how the strips of a panel lie; those of a set are called by the
// panel they are from.
func orderWords(s *session.Session, p *face.Panel, panel string) string {
	var order []string
	for i := range p.Strips {
		st := &p.Strips[i]
		how := ""
		if st.UpFace() == 2 {
			how += " face 2 up"
		}
		if st.Turned {
			how += " turned"
		}
		from, id, named := strings.Cut(st.ID, "/")
		if !named {
			from, id = panel, st.ID
		}
		number := s.Number(from, id)
		if from != panel {
			number += " of " + from
		}
		order = append(order, number+how)
	}
	return strings.Join(order, ", ")
}

func first(f *session.Found) float64 {
	if len(f.Answers) == 0 {
		return f.Now.Points
	}
	return f.Answers[0].Points
}
