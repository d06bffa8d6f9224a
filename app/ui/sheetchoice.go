package ui

import (
	"slices"
	"strings"

	"heartside/app/sheet"
	"heartside/model/say"
	"heartside/model/unit"
)

// sheetAsk is what a maker chose of the layout sheet.
type sheetAsk struct {
	paper sheet.Paper
	pages sheet.Pages
	left  map[string]bool // panels left out, by id
	grey  bool            // seen as a shop printer gives it
}

// kindOfPages names a kind of pages in a list to tick.
func kindOfPages(k sheet.Kind) string {
	switch k {
	case sheet.KindPanel:
		return say.T("Panels")
	case sheet.KindBoards:
		return say.T("Boards and cuts")
	case sheet.KindFit:
		return say.T("Glue-up and fit")
	case sheet.KindLabels:
		return say.T("Labels for ends")
	case sheet.KindClient:
		return say.T("For the client")
	case sheet.KindYard:
		return say.T("Yard tally")
	case sheet.KindJoints:
		return say.T("Joints in full size")
	case sheet.KindRecord:
		return say.T("Record")
	case sheet.KindSources:
		return say.T("Sources")
	}
	return title(string(k))
}

// keySheetKinds keeps the kinds of pages a maker prints.
const keySheetKinds = "sheet-pages"

// usualSheet is what is chosen to begin with: the paper last used with these
// units, and the kinds of pages printed last.
func (w *Window) usualSheet() sheetAsk {
	units := w.ses.Units()
	a := sheetAsk{paper: sheet.A4, left: map[string]bool{}}
	if units == unit.Inch {
		a.paper = sheet.Letter
	}
	for _, p := range sheet.Papers() {
		if p.Name() == w.set.paper(string(units)) {
			a.paper = p
		}
	}
	pages, err := sheet.ParsePages(w.set.p.String(keySheetKinds))
	if err != nil { // kept by another version
		pages, _ = sheet.ParsePages("")
	}
	a.pages = pages
	return a
}

// keepSheet remembers what was written or printed.
func (w *Window) keepSheet(a *sheetAsk) {
	w.set.keepPaper(string(w.ses.Units()), a.paper.Name())
	var kinds []string
	for _, k := range sheet.Kinds() {
		if *a.pages.Of(k) {
			kinds = append(kinds, string(k))
		}
	}
	w.set.p.SetString(keySheetKinds, strings.Join(kinds, ","))
}

// some reports whether panels of a project are left out, and whether any is
// not.
func (a *sheetAsk) some(in *sheet.Input) (left, any bool) {
	for i := range in.Panels {
		if a.left[in.Panels[i].Panel.ID] {
			left = true
		} else {
			any = true
		}
	}
	return left, any
}

// boardsOf leaves out the boards from which nothing is cut for the panels that
// are wanted. What is cut from the others is drawn whole, also for panels left
// out: wood spoken for must not look free.
func (a *sheetAsk) boardsOf(in sheet.Input) sheet.Input {
	used := map[string]bool{}
	for i := range in.Panels {
		if a.left[in.Panels[i].Panel.ID] {
			continue
		}
		for _, s := range in.Panels[i].Panel.Strips {
			if s.Board != nil {
				used[s.Board.ID] = true
			}
		}
	}
	boards := in.Boards
	in.Boards = nil
	for _, b := range boards {
		if used[b.ID] {
			in.Boards = append(in.Boards, b)
		}
	}
	return in
}

// without takes the pages of panels left out off a sheet. The pages keep the
// numbers they have in the whole sheet.
func (a *sheetAsk) without(d *sheet.Document) {
	d.Pages = slices.DeleteFunc(d.Pages, func(p *sheet.Page) bool { return p.Panel != "" && a.left[p.Panel] })
}
