package ui

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/model"
)

// balancing is the work that makes the colours of photographs agree.
type balancing struct {
	stop context.CancelFunc // nil: none is under way
}

// addBalanceActions lists what makes colours agree.
func (w *Window) addBalanceActions() {
	w.acts.add(&Action{ID: "balance", Label: "Make the colours of the photographs agree…", Short: "Colours agree…", Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyL)},
		Hint: "By the ground the boards lie on, or by a grey card or a white sheet.", Can: func() bool { return len(w.photographed()) > 0 }, Do: w.balanceAsk})
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
func shortPlace(p intake.Place) string { return p.Board + " face " + itoa(p.Part.Face()) }

// balanceAsk asks by what the colours are to agree.
func (w *Window) balanceAsk() { w.balanceAskWith(nil, "") }

// balanceAskWith asks with some faces left out, and says what went wrong
// before.
func (w *Window) balanceAskWith(out map[intake.Place]bool, trouble string) {
	if w.rack.balance.stop != nil {
		w.ask(question{title: "Colours are being measured", yes: "Stop it", no: "Let it go on", plain: true,
			body: wrapped("The photographs are looked at one after another. Stopping leaves all as it was.", widget.MediumImportance),
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
	body.Add(wrapped("Photographs taken in different light make one wood look like two. Make them agree before colours are compared.", widget.MediumImportance))
	body.Add(wrapped("By the ground: all boards were photographed on the same floor, bench or sheet. By a card: one photograph shows a grey card or a white sheet; others taken in the same light follow it.", widget.LowImportance))
	body.Add(bold("By the ground, for these faces"))
	body.Add(list.box)
	w.ask(question{title: "Make the colours agree", yes: "By the ground", other: "By a card or sheet…", plain: true, size: fyne.NewSize(640, 520), body: body,
		do: func() error {
			places := list.chosen()
			if len(places) < 2 {
				return errors.New("the ground compares two photographs or more: tick them, or use a card")
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
	w.balanceWork("Measuring the ground in "+count(len(places), "photograph", "photographs")+"…",
		func(ctx context.Context, done func(session.Balanced, error)) {
			w.ses.BalanceByBackground(ctx, places, done)
		},
		func(got session.Balanced, err error) {
			if err != nil {
				text := sentence(err.Error()) + "."
				if odd := namedIn(err, places); len(odd) > 0 && len(places)-len(odd) > 1 {
					for _, p := range odd {
						out[p] = true
					}
					text += " They are unticked here."
				}
				w.balanceAskWith(out, text)
				return
			}
			w.tellBalanced("by the ground they lie on", got)
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
	what += " " + w.acts.byID["balance"].keyNames() + " stops it."
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
			w.say("Stopped. The colours are as they were.")
		default:
			w.say("")
			then(got, err)
		}
	})
}

// tellBalanced says what was done.
func (w *Window) tellBalanced(how string, got session.Balanced) {
	names := placeList(got.Done)
	text := "The colours of " + names + " agree " + how + "."
	if len(got.Done) == 1 {
		text = "The colours of " + names + " are mended " + how + "."
	}
	if len(got.Left) > 0 {
		text += " Left out: " + strings.Join(got.Left, "; ") + "."
	}
	if rest := tintWords(w.ses.Committed()); rest != "" {
		text += " " + rest
	}
	text += " " + w.acts.byID["undo"].keyNames() + " takes it back in one step."
	w.say(count(len(got.Done), "face", "faces") + " made to agree " + how + ".")
	w.ask(question{title: "Colours made to agree", size: fyne.NewSize(560, 320), body: wrapped(text, widget.MediumImportance)})
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
		return strings.Join(out[:n-1], ", ") + " and " + out[n-1]
	}
	return strings.Join(out, "")
}
