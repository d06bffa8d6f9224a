package ui

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/stock"
)

// aims are what a plan may be best at.
func aims() []stock.Objective {
	return []stock.Objective{stock.LeastWood, stock.LeastCost, stock.BestLook, stock.FewestJoints, stock.WholeBoards}
}

func aimWords(a stock.Objective) string {
	switch a {
	case stock.LeastCost:
		return "Least cost"
	case stock.BestLook:
		return "Best look"
	case stock.FewestJoints:
		return "Fewest joints"
	case stock.WholeBoards:
		return "Boards kept whole for other panels"
	}
	return "Least wood"
}

// planAsk asks which panels are cut anew from the boards, and to what end.
func (w *Window) planAsk() {
	ids := w.ses.Plannable()
	if len(ids) == 0 {
		w.say("No panel can be planned: there is none, or each has strips that are pinned or sawn.")
		return
	}
	aim := choice(w, aims(), aimWords, stock.LeastWood)
	list := container.NewVBox()
	ticks := map[string]*tick{}
	shown := w.ses.Selected().Panel
	for _, id := range ids {
		n := w.ses.Project().Panel(id)
		empty := true
		for _, st := range n.Strips {
			empty = empty && st.Board == ""
		}
		ticks[id] = newTick(w, headline(n), id == shown || empty, nil)
		list.Add(ticks[id])
	}
	body := container.NewVBox(pairs(named("Best at"), aim), bold("Panels to plan"), list,
		wrapped("All strips of these panels are cut anew; other panels, spares and solid parts keep their places. Pinned and sawn strips stay, so panels that have some are not listed.", widget.LowImportance))
	w.ask(question{title: "Strips from the boards", yes: "Plan", body: body, focus: aim, size: fyne.NewSize(520, 420), do: func() error {
		wish := session.PlanWish{Aim: chosen(aim, aims())}
		for _, id := range ids {
			if ticks[id].Checked {
				wish.Panels = append(wish.Panels, id)
			}
		}
		q, err := w.ses.Plan(wish)
		if err != nil {
			return err
		}
		w.post(func() { w.planRun(q) }) // once this dialog is gone
		return nil
	}})
	w.trace.asking("plan")
}

// planRun makes the plan beside the window; it can be stopped, which keeps the
// best so far.
func (w *Window) planRun(q *session.Planning) {
	ctx, stop := context.WithCancel(w.work)
	from := w.ses.Committed()
	bar := widget.NewProgressBar()
	a := w.ask(question{title: "Planning strips from the boards", body: container.NewVBox(bar, wrapped("Stop keeps the best plan so far.", widget.LowImportance)),
		no: "Stop", plain: true, undo: stop, size: fyne.NewSize(440, 180)})
	go func() {
		got, err := q.Run(ctx, func(part float64) { w.post(func() { bar.SetValue(part) }) })
		stop()
		w.post(func() {
			if w.work.Err() != nil || w.ses.Committed() != from {
				return
			}
			if w.asks == a {
				a.close()
			}
			if err != nil {
				if !errors.Is(err, context.Canceled) {
					w.fail("There is no plan", err)
				}
				return
			}
			w.planShow(got)
		})
	}()
}

// planShow tells what the plan is before it is made.
func (w *Window) planShow(got session.Planned) {
	body := container.NewVBox()
	say := func(head string, lines []string, sign string, how widget.Importance) {
		if len(lines) == 0 {
			return
		}
		body.Add(bold(head))
		for _, l := range lines {
			body.Add(line(sign+sentence(l)+".", how))
		}
	}
	say("Where the strips come from", got.Lines, "", widget.MediumImportance)
	say("Cannot be made from these boards", got.Short, "⚠ ", widget.WarningImportance)
	say("Minded", got.Only, "", widget.LowImportance)
	body.Add(line(sentence(got.Sum)+".", widget.MediumImportance))
	q := question{title: "Strips from the boards", body: body, plain: true, size: fyne.NewSize(620, 440)}
	if got.Edit != nil {
		q.yes = "Lay them so"
		q.do = func() error { return w.ses.Commit(got.Edit) }
	}
	w.ask(q)
	w.trace.line("planned missing=%d", got.Missing)
}
