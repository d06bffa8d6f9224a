package sheet

import (
	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/model"
)

// Input is what a sheet is made from. Nothing in it is changed.
type Input struct {
	Project *model.Project
	Panels  []Panel       // in the order of the project
	Boards  []*face.Board // in the order of the project, as the readings see them
	Spares  []face.Strip  // strips in no panel, still cut from boards
	Solid   []face.Strip  // cuttings for solid parts, by ids of the session
	Loose   []Note        // warnings that concern no panel, worst first

	// Number returns what is chalked on a strip; nil takes its id.
	Number func(panel, strip string) string

	Pages Pages  // what to print; the zero value is everything
	Date  string // printed as it is; "" leaves a line to write on
	// Author stands in the document's properties and on the client's page; "" is
	// nobody.
	Author string
	Paper  Paper
	Faces  *render.Faces
}

// Panel is one panel with what is read of it.
type Panel struct {
	Panel    *face.Panel
	Finished *face.Panel // with its strips on their boards as planed; nil: worked out
	Reading  *face.Reading
	Notes    []Note // worst first

	Behaviour *session.Behaviour // nil: not worked out
	Ends      []End              // in the seasons
	Flat      *session.EndView   // the end as it is glued; nil: not worked out

	// Shift are how the colours of the woods will have changed after one year and
	// after ten; nil: not known.
	Shift [2]func(b *face.Board, f int, k face.Kind) colour.Lab
}

// finished is the panel as planed.
func (p *Panel) finished() *face.Panel {
	if p.Finished == nil {
		p.Finished = p.Panel.Finished()
	}
	return p.Finished
}

// Note is one warning in words.
type Note struct {
	Title string   // one line
	Text  string   // why
	Under []string // milder things said of the same place
	Fix   string   // the least change that mends it, "" for none

	Strips []string // ids of the strips it is about, the one at fault first
	Boards []string // ids of the boards it is about
}

// number returns what is chalked on a strip.
func (in *Input) number(panel, strip string) string {
	if in.Number == nil {
		return strip
	}
	if n := in.Number(panel, strip); n != "" {
		return n
	}
	return strip
}

// place is a strip on a board, with the panel it is for.
type place struct {
	strip  *face.Strip
	planed *face.Strip  // the same on its board as planed; nil: nothing is known below the sawn faces
	panel  *model.Panel // nil: a spare, or for a solid part
	part   *model.Part  // nil: a strip
	number string
	label  string // the number, with the panel where the number alone is not clear
}

// lying is the strip on its board as far planed as is known.
func (p *place) lying() *face.Strip {
	if p.planed != nil {
		return p.planed
	}
	return p.strip
}

// stripsOf leaves the cuttings for solid parts out.
func stripsOf(parts []place) []place {
	var out []place
	for _, p := range parts {
		if p.part == nil {
			out = append(out, p)
		}
	}
	return out
}

// placesOn returns what is cut from a board: strips of the panels in their
// order, spares, solid parts.
func (in *Input) placesOn(board string) []place {
	var out []place
	add := func(p *model.Panel, id string, list, planed []face.Strip) {
		for i := range list {
			if s := &list[i]; s.Board != nil && s.Board.ID == board {
				q := place{strip: s, panel: p, number: in.number(id, s.ID)}
				if planed != nil && planed[i].Board != s.Board {
					q.planed = &planed[i]
				}
				out = append(out, q)
			}
		}
	}
	for i := range in.Panels {
		fp := in.Panels[i].Panel
		add(in.Project.Panel(fp.ID), fp.ID, fp.Strips, in.Panels[i].finished().Strips)
	}
	add(nil, "", in.Spares, nil)
	from := len(out)
	add(nil, "", in.Solid, nil)
	for i := from; i < len(out); i++ {
		if part, _, ok := session.CuttingOf(in.Project, out[i].strip.ID); ok {
			out[i].part = &part
		}
	}
	count := map[string]int{}
	for _, p := range out {
		count[p.number]++
	}
	for i := range out {
		p := &out[i]
		p.label = p.number
		if count[p.number] > 1 && p.panel != nil {
			p.label += " " + p.panel.ID
		}
	}
	return out
}
