package model

import (
	"fmt"
	"slices"
	"strings"

	"heartside/model/say"
)

// PrintedPage is a page of the layout sheet as it was last printed or written
// to a file. It is kept with the project, as the paper is: whoever opens the
// project, on whichever computer, is told which papers at the bench are out of
// date.
type PrintedPage struct {
	Page  string // its kind: panel, boards, fit and so on
	Of    string // id of the panel or board, "" for a page of neither
	Part  int    // counted from 1 where there are several of a kind
	Paper string // its size, such as a4
	Sheet string // the code of the sheet it was on
	Mark  string // short for all that is drawn on it
}

// same reports whether two pages are each other's later or earlier state.
func (a PrintedPage) same(b PrintedPage) bool {
	return a.Page == b.Page && a.Of == b.Of && a.Part == b.Part
}

// Print returns a function that tells a project that pages were printed; they
// take the place of those that were printed before. It is no change of the work
// and has no entry in the history: undo does not take paper back. A project met
// before gives the same one again.
func Print(pages []PrintedPage) func(*Project) *Project {
	pages = slices.Clone(pages)
	return printing(pages, pages)
}

// Unprint is Print for pages that are thrown away, or are of nothing any more.
func Unprint(pages []PrintedPage) func(*Project) *Project {
	return printing(slices.Clone(pages), nil)
}

// printing takes pages out of those printed and adds others.
func printing(out, in []PrintedPage) func(*Project) *Project {
	projects := map[*Project]*Project{}
	return func(p *Project) *Project {
		if q, ok := projects[p]; ok {
			return q
		}
		q := *p
		q.Printed = slices.DeleteFunc(slices.Clone(p.Printed), func(old PrintedPage) bool {
			return slices.ContainsFunc(out, old.same)
		})
		q.Printed = append(q.Printed, in...)
		if len(q.Printed) == 0 {
			q.Printed = nil
		}
		projects[p] = &q
		return &q
	}
}

func (c *checker) printed(p *Project) {
	for i, k := range p.Printed {
		at := RuleError{Rule: RulePrinted, Where: fmt.Sprintf("printed, entry %d", i+1)}
		switch {
		case strings.TrimSpace(k.Page) == "" || strings.TrimSpace(k.Mark) == "":
			at.Detail = say.T("it has no kind of page or no mark")
		case k.Part < 0:
			at.Detail = say.T("pages are counted from 1")
		case slices.ContainsFunc(p.Printed[:i], k.same):
			at.Detail = say.T("the same page stands twice")
		default:
			continue
		}
		c.fail(at)
	}
}
