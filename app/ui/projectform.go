package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/unit"
)

func systems() []unit.System { return []unit.System{unit.MM, unit.Inch} }

func systemWords(s unit.System) string {
	if s == unit.Inch {
		return "Inches and fractions"
	}
	return "Millimetres"
}

// setting is one length of the settings dialog.
type setting struct {
	name  string
	at    *float64 // where it stands in the copy being edited
	usual float64
	in    *field
}

// projectAsk changes the settings of the project.
func (w *Window) projectAsk() {
	p := w.ses.Project()
	name := w.newField(p.Name, "Hall table")
	units := choice(systems(), systemWords, p.Units)
	a, m, l := p.Allowances, p.Machines, p.Limits
	ua, um, ul := model.DefaultAllowances(), model.DefaultMachines(), model.DefaultLimits()
	work := []setting{
		{"Saw cut (kerf)", &a.Kerf, ua.Kerf, nil}, {"Left on each long edge of a blank", &a.Rest, ua.Rest, nil},
		{"Taken off each edge when jointed", &a.Joint, ua.Joint, nil}, {"Left at each end of a blank", &a.Ends, ua.Ends, nil},
		{"Over at each panel edge", &a.PanelEdge, ua.PanelEdge, nil}, {"Taken off the panel after glue-up", &a.AfterGlue, ua.AfterGlue, nil},
		{"Snipe at a board's ends", &a.Snipe, ua.Snipe, nil}, {"Clear of a flaw", &a.FlawMargin, ua.FlawMargin, nil},
	}
	shop := []setting{
		{"Widest to flatten", &m.Flatten, um.Flatten, nil}, {"Widest to thickness", &m.Thickness, um.Thickness, nil},
		{"Shortest that is safe", &m.Shortest, um.Shortest, nil}, {"Narrowest that is safe", &m.Narrowest, um.Narrowest, nil},
	}
	streak := w.newField(session.Percent(l.Streak), "12 %")
	mix := [2]*field{w.newField(session.Percent(l.Mix[0]), "25 %"), w.newField(session.Percent(l.Mix[1]), "60 %")}
	body := container.NewVBox(pairs(named("Name"), name, named("Lengths shown in"), units),
		bold("Allowances"), w.settingRows(work),
		bold("Your machines"), wrapped("The limit is the one in the machine's manual. 0 means no limit.", widget.LowImportance), w.settingRows(shop),
		bold("Limits of the warnings"),
		wrapped("Engineering choices: no source is published for them. Usual: streak "+session.Percent(ul.Streak)+", even mix "+session.Percent(ul.Mix[0])+" to "+session.Percent(ul.Mix[1])+".", widget.LowImportance),
		pairs(named("A streak stands alone where other unwanted wood is under"), streak,
			named("Even mix from"), mix[0], named("Even mix to"), mix[1]))
	w.ask(question{title: "Project settings", body: body, yes: "Keep", focus: name, size: fyne.NewSize(620, 600),
		do: func() error {
			if err := readSettings(append(work, shop...)); err != nil {
				return err
			}
			var errs [3]error
			for i, r := range []struct {
				f    *field
				name string
				to   *float64
			}{{streak, "lone streak", &l.Streak}, {mix[0], "even mix from", &l.Mix[0]}, {mix[1], "even mix to", &l.Mix[1]}} {
				if r.f.Text != session.Percent(*r.to) {
					*r.to, errs[i] = r.f.share(r.name)
				}
			}
			if err := first(errs[:]...); err != nil {
				return err
			}
			return w.commitAll(
				model.SetDetails{Name: name.Text, Units: chosen(units, systems())},
				model.SetAllowances{Allowances: a}, model.SetMachines{Machines: m}, model.SetLimits{Limits: l})
		}})
}

// commitAll makes several edits, each its own step to take back. All are tried
// first, so that none is made where one is refused.
func (w *Window) commitAll(edits ...model.Edit) error {
	p := w.ses.Committed()
	for _, e := range edits {
		q, err := model.Apply(p, e)
		if err != nil {
			return err
		}
		p = q
	}
	for _, e := range edits {
		if err := w.ses.Commit(e); err != nil {
			return err
		}
	}
	return nil
}

func (w *Window) settingRows(list []setting) fyne.CanvasObject {
	var rows []fyne.CanvasObject
	for i := range list {
		s := &list[i]
		s.in = w.lengthField(*s.at, true)
		rows = append(rows, named(s.name), container.NewBorder(nil, nil, nil, widget.NewLabel("usual "+w.ses.Len(s.usual)), s.in))
	}
	return pairs(rows...)
}

// readSettings takes the lengths over into the copy being edited.
func readSettings(list []setting) error {
	got := make([]float64, len(list))
	for i, s := range list {
		v, err := s.in.kept(s.name, *s.at)
		if err != nil {
			return err
		}
		if v < 0 {
			return fmt.Errorf("%s: %s is less than nothing; write 0 or more", s.name, s.in.Text)
		}
		got[i] = v
	}
	for i, s := range list {
		*s.at = got[i]
	}
	return nil
}
