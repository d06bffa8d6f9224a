package command

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"heartside/app/session"
)

// check prints the readings and warnings of every panel.
func check(args []string, out io.Writer) (int, error) {
	o, err := parse(args, "project", "", "json")
	if err != nil {
		return Failed, err
	}
	s, err := open(o.project)
	if err != nil {
		return Failed, err
	}
	defer s.Close()
	r := report(s)
	if o.flags["json"] != "" {
		e := json.NewEncoder(out)
		e.SetIndent("", "  ")
		if err := e.Encode(r); err != nil {
			return Failed, fmt.Errorf("write readings: %w", err)
		}
	} else if err := printReport(out, s, r); err != nil {
		return Failed, fmt.Errorf("write readings: %w", err)
	}
	if len(r.Warnings) > 0 {
		return Warnings, nil
	}
	for _, p := range r.Panels {
		if len(p.Warnings) > 0 {
			return Warnings, nil
		}
	}
	return Done, nil
}

// printReport writes the readings for a person.
func printReport(out io.Writer, s *session.Session, r reportJSON) error {
	w := &lines{out: out}
	w.printf("%s\n", r.Name)
	for _, n := range r.Notices {
		w.printf("  note: %s\n", n)
	}
	for _, p := range r.Panels {
		m := s.Panel(p.ID)
		w.printf("\n%s: %s x %s x %s, %s\n", p.ID, s.Len(m.Length), s.Len(m.Width), s.Len(m.Thickness), count(len(p.Strips), "strip"))
		if p.Empty > 0 {
			w.printf("  %s empty: not ready to cut\n", count(p.Empty, "place"))
		}
		if p.Empty == len(p.Strips) {
			continue
		}
		w.face("show face", p.Face)
		w.face("back", p.Back)
		n := s.Project().Panel(p.ID).Role.Sides()
		w.printf("  light on the edges: %s %s, %s %s; on the ends: %s %s, %s %s\n",
			n[0].Word, share(p.Edges.Front), n[1].Word, share(p.Edges.Back), n[2].Word, share(p.Ends.Left), n[3].Word, share(p.Ends.Right))
		w.profiles(s, s.Project().Panel(p.ID), p.Profiles)
		if p.SawnFace {
			w.printf("  read on the sawn faces: planing will move the sap line\n")
		}
		if len(p.Warnings) == 0 {
			w.printf("  no warnings\n")
		}
		for _, x := range p.Warnings {
			w.warning(x)
		}
	}
	for _, x := range r.Sets {
		w.set(s, x)
	}
	if len(r.Warnings) > 0 {
		w.printf("\nSolid parts and spares\n")
	}
	for _, x := range r.Warnings {
		w.warning(x)
	}
	return w.err
}

// lines writes and remembers the first error.
type lines struct {
	out io.Writer
	err error
}

func (w *lines) printf(format string, a ...any) {
	if w.err == nil {
		_, w.err = fmt.Fprintf(w.out, format, a...)
	}
}

func (w *lines) warning(x warningJSON) {
	w.printf("  ! %s\n    %s\n", x.Title, strings.TrimPrefix(x.Text, x.Title+". "))
	for _, f := range x.Fixes {
		w.printf("    %s: %s (%s)\n", f.Cost, f.Text, f.AfterText)
	}
}

func (w *lines) face(name string, f faceJSON) {
	w.printf("  %s: %s light", name, share(f.Light))
	if f.LightRange[0] != f.LightRange[1] {
		w.printf(" (%s to %s while not all is seen)", share(f.LightRange[0]), share(f.LightRange[1]))
	}
	w.printf(", %s unwanted, contrast coverage %s", share(f.Unwanted), share(f.Coverage))
	if f.Contrast != nil {
		w.printf(", contrast %.1f", *f.Contrast)
		if f.ContrastAssumed {
			w.printf(" assumed")
		}
	}
	w.printf("\n")
}

// count says how many there are.
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func share(v float64) string { return session.Percent(v) }
