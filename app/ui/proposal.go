package ui

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/cutting"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// proposing is the dialog that shows a first list of strips.
type proposing struct {
	w      *Window
	panel  *model.Panel
	places []cutting.Place
	number *field
	list   *widget.Label
	why    string
}

// proposeAsk proposes strips for a panel of the project.
func (w *Window) proposeAsk(id string) {
	if n := w.ses.Project().Panel(id); n != nil {
		w.proposal(n, false)
	}
}

// proposal looks for a first list of strips, which may take longer than a
// frame, and shows it. A new panel is added with its strips as one change.
func (w *Window) proposal(n *model.Panel, fresh bool) {
	fp := w.facePanel(n)
	boards := w.ses.Sound()
	used := w.used(n.ID, "", "")
	a, m := w.ses.Allowances(), w.ses.Machines()
	grid := w.grid()
	w.background(say.F("Working out strips for %s…", n.ID), func() func() {
		out := cutting.Propose(fp, boards, used, a, m, grid)
		return func() { w.showProposal(n, out, fresh) }
	})
}

func (w *Window) showProposal(n *model.Panel, out cutting.Proposal, fresh bool) {
	q := &proposing{w: w, panel: n, places: out.Places, why: reasons(w, out.Reasons)}
	q.number = w.newField(itoa(len(out.Places)), "5")
	q.number.follow(q.renumber)
	q.list = wrapped("", widget.MediumImportance)
	sides := n.Role.Sides()
	q.tell()
	body := container.NewVBox(
		pairs(named(say.T("Strips")), q.number), q.list, wrapped(q.why, widget.LowImportance), widget.NewSeparator(),
		bold(say.T("How it lies")),
		wrapped(say.F("On screen and on the sheet %s is at the bottom and %s at the top, %s at the left and %s at the right. Strips are counted from %[1]s. Lay the panel on the bench so that you stand there.", sides[0].The, sides[1].The, sides[2].The, sides[3].The), widget.MediumImportance))
	yes := say.T("Take these strips")
	if !fresh && placed(n) > 0 {
		yes = say.T("Begin again with these")
		body.Add(wrapped(say.F("%s on boards already and would be lifted off. Undo brings them back.", say.Count(placed(n), say.T("strip of this panel lies"), say.T("strips of this panel lie"))), widget.WarningImportance))
	}
	w.ask(question{title: say.F("Strips for “%s”", title(n.ID)), body: body, yes: yes, focus: q.number, size: fyne.NewSize(560, 480),
		do: func() error { return q.keep(fresh) }})
}

func placed(n *model.Panel) int {
	k := 0
	for _, s := range n.Strips {
		if !s.Empty() {
			k++
		}
	}
	return k
}

// tell writes the list: widths front to back.
func (q *proposing) tell() {
	if len(q.places) == 0 {
		q.list.SetText(say.T("Type how many strips to make it of."))
		return
	}
	var widths []string
	sum := 0.0
	for _, p := range q.places {
		widths = append(widths, q.w.ses.Len(p.W))
		sum += p.W
	}
	q.list.SetText(say.F("%s, each %s long as glued. Widths from the front: %s; together %s for a panel of %s.",
		say.Count(len(q.places), say.T("strip"), say.T("strips")), q.w.ses.Len(q.places[0].L), strings.Join(widths, ", "), q.w.ses.Len(sum), q.w.ses.Len(q.panel.Width)))
}

// mostStrips keeps a slip of the finger from making thousands.
const mostStrips = 60

// renumber shares the same width and length out between another number.
func (q *proposing) renumber() {
	k, err := strconv.Atoi(strings.TrimSpace(q.number.Text))
	if err != nil || k < 1 || k > mostStrips || len(q.places) == 0 {
		return
	}
	sum := 0.0
	for _, p := range q.places {
		sum += p.W
	}
	q.places = evenPlaces(k, q.places[0].L, sum, q.w.grid())
	q.tell()
}

// grid is what widths are proposed on, mm: what a rule in the project's units
// shows.
func (w *Window) grid() float64 {
	if w.ses.Units() == unit.Inch {
		return unit.InchMM / 16
	}
	return 0.5
}

// evenPlaces shares a width out between k places, in whole steps of a grid but
// for the last.
func evenPlaces(k int, length, width, grid float64) []cutting.Place {
	out := make([]cutting.Place, k)
	w := math.Floor(width/float64(k)/grid+1e-6) * grid
	for i := range out {
		out[i] = cutting.Place{L: length, W: w}
	}
	out[k-1].W += width - w*float64(k)
	return out
}

// keep makes the places part of the project.
func (q *proposing) keep(fresh bool) error {
	k, err := strconv.Atoi(strings.TrimSpace(q.number.Text))
	if err != nil || k < 1 || k > mostStrips {
		return say.Errorf("strips: “%s” is no number of strips; write 1 to %d", q.number.Text, mostStrips)
	}
	n := *q.panel
	n.Strips = nil
	n.FrontNamed = true // the dialog says which side is the front
	taken := idsOf(q.w.ses.Committed())
	next := 1
	for _, p := range q.places {
		for taken[itoa(next)] {
			next++
		}
		n.Strips = append(n.Strips, model.NewPlace(itoa(next), p.L, p.W))
		next++
	}
	var e model.Edit = model.SetPanel{Panel: &n}
	if fresh {
		e = model.AddPanel{Panel: &n}
	}
	if err := q.w.ses.Commit(e); err != nil {
		return err
	}
	sel := q.w.ses.Selected()
	q.w.ses.Select(session.Selection{Panel: n.ID, Board: sel.Board, Zone: -1})
	return nil
}

// idsOf lists the ids of all strips.
func idsOf(p *model.Project) map[string]bool {
	out := map[string]bool{}
	mark := func(list []model.Strip) {
		for _, s := range list {
			out[s.ID] = true
		}
	}
	for _, n := range p.Panels {
		mark(n.Strips)
	}
	for _, k := range p.Kept {
		mark(k.Strips)
	}
	mark(p.Spares)
	return out
}

// reasons says why a proposal came out as it did.
func reasons(w *Window, list []cutting.Reason) string {
	var out []string
	l := w.ses.Len
	for _, r := range list {
		switch r.Key {
		case cutting.ReasonLength:
			out = append(out, say.F("Over-length by %s until the panel is trimmed.", l(r.A-r.B)))
		case cutting.ReasonShort:
			out = append(out, say.F("The longest board gives %s where %s was wished for.", l(r.A), l(r.B)))
		case cutting.ReasonTooShort:
			out = append(out, say.F("The longest board gives only %s, less than the panel's %s.", l(r.A), l(r.B)))
		case cutting.ReasonMachine:
			out = append(out, say.F("No wider than %s, for a machine of %s.", l(r.A), l(r.B)))
		case cutting.ReasonBoards:
			out = append(out, say.F("They come out of %s.", say.Count(int(r.A), say.T("board"), say.T("boards"))))
		case cutting.ReasonNotEnough:
			out = append(out, say.F("Only %.0f of %.0f can be cut from the boards there are.", r.A, r.B))
		case cutting.ReasonNarrow:
			out = append(out, say.F("No narrower than %s, for the machine's %s.", l(r.A), l(r.B)))
		}
	}
	return strings.Join(out, " ")
}

// addPlace puts one more empty place at the back of the panel.
func (w *Window) addPlace() {
	n := w.panel()
	l, wd := n.Length+30, 90.0
	if k := len(n.Strips); k > 0 {
		l, wd = n.Strips[k-1].L, n.Strips[k-1].W
	}
	id := model.NextStripID(w.ses.Committed())
	if w.commit(model.AddStrip{Panel: n.ID, Strip: model.NewPlace(id, l, wd), At: len(n.Strips)}) {
		w.ses.Select(session.Selection{Panel: n.ID, Strip: id, Zone: -1})
	}
}
