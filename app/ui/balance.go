package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// balancing is the work that makes the colours of photographs agree.
type balancing struct {
	stop context.CancelFunc // nil: none is under way
}

// addBalanceActions lists what makes colours agree.
func (w *Window) addBalanceActions() {
	w.acts.add(&Action{ID: "balance", Label: say.T("Make the colours of the photographs agree…"), Short: say.T("Colours agree…"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyL)},
		Hint: say.T("By the ground the boards lie on, or by a grey card or a white sheet."), Can: func() bool { return len(w.photographed()) > 0 }, Do: w.balanceAsk})
}

// photographed lists the faces that have a photograph and its corners: those
// whose colours can be made to agree.
func (w *Window) photographed() []intake.Place {
	var out []intake.Place
	for _, b := range w.ses.Committed().Boards {
		for i := range b.Faces {
			if b.Faces[i].Photo != "" && b.Faces[i].Corners != nil {
				out = append(out, intake.Place{Board: b.ID, Part: intake.Part(i + 1)})
			}
		}
	}
	return out
}

// faceAtPlace returns the face at a place, nil where there is none.
func faceAtPlace(p *model.Project, at intake.Place) *model.Face {
	b := p.Board(at.Board)
	if b == nil || at.Part.Face() == 0 {
		return nil
	}
	return &b.Faces[at.Part.Face()-1]
}

// shortPlace names a face in a list.
func shortPlace(p intake.Place) string { return say.F("%s face %s", p.Board, itoa(p.Part.Face())) }

// balanceAsk asks by what the colours are to agree.
func (w *Window) balanceAsk() { w.balanceAskWith(nil, "") }

// balanceAskWith asks with some faces left out, and says what went wrong
// before.
func (w *Window) balanceAskWith(out map[intake.Place]bool, trouble string) {
	if w.rack.balance.stop != nil {
		w.ask(question{title: say.T("Colours are being measured"), yes: say.T("Stop it"), no: say.T("Let it go on"), plain: true,
			body: wrapped(say.T("The photographs are looked at one after another. Stopping leaves all as it was."), widget.MediumImportance),
			do: func() error {
				if stop := w.rack.balance.stop; stop != nil {
					stop()
				}
				return nil
			}})
		return
	}
	list := newPlaceTicks(w, w.photographed(), func(p intake.Place) bool { return !out[p] })
	body := container.New(stackLayout{})
	if trouble != "" {
		body.Add(wrapped(trouble, widget.DangerImportance))
	}
	body.Add(wrapped(say.T("Photographs taken in different light make one wood look like two. Make them agree before colours are compared."), widget.MediumImportance))
	body.Add(wrapped(say.T("By the ground: all boards were photographed on the same floor, bench or sheet. By a card: one photograph shows a grey card or a white sheet; others taken in the same light follow it."), widget.LowImportance))
	body.Add(bold(say.T("By the ground, for these faces")))
	body.Add(list.box)
	w.ask(question{title: say.T("Make the colours agree"), yes: say.T("By the ground"), other: say.T("By a card or sheet…"), plain: true, size: fyne.NewSize(640, 520), body: body,
		do: func() error {
			places := list.chosen()
			if len(places) < 2 {
				return say.Error("the ground compares two photographs or more: tick them, or use a card")
			}
			w.post(func() { w.balanceByGround(places) })
			return nil
		},
		also: func() { w.post(w.showBalance) }})
}

// balanceByGround makes the colours agree by what lies about the boards.
func (w *Window) balanceByGround(places []intake.Place) {
	out := map[intake.Place]bool{}
	for _, p := range w.photographed() {
		out[p] = true
	}
	for _, p := range places {
		delete(out, p)
	}
	w.balanceWork(say.F("Measuring the ground in %s…", say.Count(len(places), say.T("photograph"), say.T("photographs"))),
		func(ctx context.Context, done func(session.Balanced, error)) {
			w.ses.BalanceByBackground(ctx, places, done)
		},
		func(got session.Balanced, err error) {
			if err != nil {
				text := sentence(say.Err(err)) + "."
				if odd := namedIn(err, places); len(odd) > 0 && len(places)-len(odd) > 1 {
					for _, p := range odd {
						out[p] = true
					}
					text += say.T(" They are unticked here.")
				}
				w.balanceAskWith(out, text)
				return
			}
			w.tellBalanced(say.T("by the ground they lie on"), got)
		})
}

// namedIn lists the places that an error names.
func namedIn(err error, places []intake.Place) []intake.Place {
	var out []intake.Place
	for _, p := range places {
		if strings.Contains(err.Error(), p.String()) {
			out = append(out, p)
		}
	}
	return out
}

// balanceWork runs a balance beside the window; it can be stopped. Then is
// told what came of it, unless it was stopped.
func (w *Window) balanceWork(what string, work func(context.Context, func(session.Balanced, error)), then func(session.Balanced, error)) {
	w.nudge.settle()
	ctx, stop := context.WithCancel(w.work)
	w.rack.balance.stop = stop
	what += say.F(" %s stops it.", w.acts.byID["balance"].keyNames())
	w.say(what)
	w.rack.tell(what)
	work(ctx, func(got session.Balanced, err error) {
		stopped := err != nil && ctx.Err() != nil
		stop()
		if w.work.Err() != nil {
			return
		}
		w.rack.balance.stop = nil
		w.rack.tell("")
		switch {
		case stopped:
			w.say(say.T("Stopped. The colours are as they were."))
		default:
			w.say("")
			then(got, err)
		}
	})
}

// tellBalanced says what was done.
func (w *Window) tellBalanced(how string, got session.Balanced) {
	names := placeList(got.Done)
	text := say.F("The colours of %s agree %s.", names, how)
	if len(got.Done) == 1 {
		text = say.F("The colours of %s are mended %s.", names, how)
	}
	if len(got.Left) > 0 {
		text += say.F(" Left out: %s.", strings.Join(got.Left, "; "))
	}
	if rest := tintWords(w.ses.Committed()); rest != "" {
		text += " " + rest
	}
	text += say.F(" %s takes it back in one step.", w.acts.byID["undo"].keyNames())
	w.say(say.F("%s made to agree %s.", say.Count(len(got.Done), say.T("face"), say.T("faces")), how))
	w.ask(question{title: say.T("Colours made to agree"), size: fyne.NewSize(560, 320), body: wrapped(text, widget.MediumImportance)})
}

// placeList names faces, those of one board together.
func placeList(list []intake.Place) string {
	var out []string
	for i := 0; i < len(list); i++ {
		p := list[i]
		if i+1 < len(list) && list[i+1].Board == p.Board {
			out = append(out, p.Board)
			i++
			continue
		}
		out = append(out, shortPlace(p))
	}
	if n := len(out); n > 1 {
		return say.F("%s and %s", strings.Join(out[:n-1], ", "), out[n-1])
	}
	return strings.Join(out, "")
}
