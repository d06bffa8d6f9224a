package session

import (
	"slices"
	"strings"

	"heartside/model"
	"heartside/model/say"
)

// Printed remembers that pages of the layout sheet were printed or written to a
// file. It is kept with the project, since the papers are the project's; it is no
// step of the history.
func (s *Session) Printed(pages []model.PrintedPage) {
	if len(pages) > 0 {
		s.amend(model.Print(pages))
	}
}

// ThrownAway forgets pages that were printed.
func (s *Session) ThrownAway(pages []model.PrintedPage) {
	if len(pages) > 0 {
		s.amend(model.Unprint(pages))
	}
}

func (s *Session) amend(f func(*model.Project) *model.Project) {
	if s.preview != nil {
		s.preview = nil
		s.hold(false)
	}
	s.hist.Amend(f)
	s.renew()
	s.changed()
}

// Papers compares the pages that were printed with those of the sheet now.
type Papers struct {
	Again []model.PrintedPage // printed, and different now; as printed
	Fresh []model.PrintedPage // of a kind that was printed, and not there then
	Gone  []model.PrintedPage // printed, and not on the sheet any more
}

// ComparePapers tells which of the pages printed are out of date. now is the
// sheet with pages of every kind that was printed.
func ComparePapers(printed, now []model.PrintedPage) Papers {
	var out Papers
	same := func(a model.PrintedPage) func(model.PrintedPage) bool {
		return func(b model.PrintedPage) bool { return a.Page == b.Page && a.Of == b.Of && a.Part == b.Part }
	}
	for _, k := range printed {
		switch i := slices.IndexFunc(now, same(k)); {
		case i < 0:
			out.Gone = append(out.Gone, k)
		case now[i].Mark != k.Mark:
			out.Again = append(out.Again, k)
		}
	}
	for _, k := range now {
		kind := func(p model.PrintedPage) bool { return p.Page == k.Page }
		if slices.ContainsFunc(printed, kind) && !slices.ContainsFunc(printed, same(k)) {
			out.Fresh = append(out.Fresh, k)
		}
	}
	return out
}

// Words tells what is to be done about the papers, a sentence each; nothing
// where all are up to date.
func (p Papers) Words() []string {
	var out []string
	if n := len(p.Again); n > 0 {
		have, pages := say.T("has"), say.T("this page")
		names := pageNames(p.Again)
		if len(names) > 1 {
			have = say.T("have")
		}
		if n > 1 {
			pages = say.F("these %d pages", n)
		}
		out = append(out, say.F("%s %s changed since %s: print %s again.", say.Upper(say.List(names)), have, sheetCodes(p.Again), pages))
	}
	if n := len(p.Fresh); n > 0 {
		pages := say.T("1 page")
		if n > 1 {
			pages = say.F("%d pages", n)
		}
		out = append(out, say.F("Not printed yet: %s (%s).", say.List(pageNames(p.Fresh)), pages))
	}
	if n := len(p.Gone); n > 0 {
		is, its := say.T("is"), say.T("its page")
		names := pageNames(p.Gone)
		if len(names) > 1 {
			is = say.T("are")
		}
		if n > 1 {
			its = say.F("the %d pages", n)
		}
		out = append(out, say.F("%s %s not on the sheet any more: throw %s away.", say.Upper(say.List(names)), is, its))
	}
	return out
}

// pageNames names what pages are of, each once.
func pageNames(list []model.PrintedPage) []string {
	var out []string
	for _, k := range list {
		if name := pageName(k); !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func pageName(k model.PrintedPage) string {
	switch k.Page {
	case "panel":
		return say.F("panel %s", k.Of)
	case "boards":
		return say.F("board %s", k.Of)
	case "fit":
		return say.F("glue-up and fit of %s", k.Of)
	case "joints":
		return say.F("the joints of %s", k.Of)
	case "client":
		return say.F("the client's page of %s", k.Of)
	case "sources":
		return say.F("the sources of %s", k.Of)
	case "labels":
		return say.T("the labels")
	case "yard":
		return say.T("the tally for the yard")
	}
	return strings.TrimSpace(k.Page + " " + k.Of)
}

func sheetCodes(list []model.PrintedPage) string {
	var codes []string
	for _, k := range list {
		if k.Sheet != "" && !slices.Contains(codes, k.Sheet) {
			codes = append(codes, k.Sheet)
		}
	}
	switch len(codes) {
	case 0:
		return say.T("they were printed")
	case 1:
		return say.F("the sheet %s", codes[0])
	}
	return say.F("the sheets %s", say.List(codes))
}
