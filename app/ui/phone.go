package ui

import (
	"context"
	"path/filepath"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/app/phone"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// addPhoneActions lists what takes photographs straight from a telephone.
func (w *Window) addPhoneActions() {
	w.acts.add(&Action{ID: "rack-phone", Label: say.T("Photographs from the phone…"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyI)},
		Hint: say.T("A page for the phone, over the network of the shop, that sends pictures for the boards of the rack."),
		Do:   func() { w.pastDraft(w.phoneBegin) }})
}

// phoneBegin sees to boards and a file first: pictures need both to be kept.
func (w *Window) phoneBegin() {
	if len(w.ses.Project().Boards) == 0 {
		w.rack.content()
		w.rack.step = stepBoards
		w.rack.tell(say.T("Photographs from the phone are sent for a board. First give the boards their letters and sizes."))
		w.showRack()
		return
	}
	if w.ses.Path() == "" || w.ses.LookOnly() {
		w.ask(question{title: say.T("Save the project first"), yes: say.T("Save…"), plain: true,
			body: wrapped(say.T("Pictures from the phone are kept in the folder photos beside the project. It has no file of its own yet."), widget.MediumImportance),
			do: func() error {
				w.post(func() { w.saveAs(w.phoneBegin) })
				return nil
			}})
		return
	}
	list, err := phone.Addresses()
	if err == nil && len(list) == 0 {
		err = say.Error("this computer is in no private network. Join it and the phone to the same wireless network, then try again. Pictures can also be copied by cable and chosen in the rack")
	}
	if err != nil {
		w.fail(say.T("No page for the phone"), err)
		return
	}
	w.phoneAsk(list)
}

// phoneCaution is said before anything listens, and while it does.
const phoneCaution = "Only on a network you trust: the pictures travel unencrypted (plain HTTP), and who listens on the network can see them."

// phoneAsk asks which network, and for a yes to the caution.
func (w *Window) phoneAsk(list []phone.Address) {
	which := choice(w, list, phone.Address.String, list[0])
	rows := []fyne.CanvasObject{wrapped(say.T(phoneCaution), widget.WarningImportance),
		wrapped(say.F("A page is open until you press Stop or nothing was sent for %s. One browser can use it; it can only send pictures. The phone has to be in the same network.", phone.DefaultLimits().IdleWords()), widget.MediumImportance)}
	rows = append(rows, pairs(widget.NewLabel(say.T("Network")), which))
	over := newTick(w, say.T("Replace what was entered by hand"), false, nil)
	if n := handMadeFaces(w.ses.Project()); n > 0 {
		rows = append(rows, wrapped(say.F("%s entered by hand, without a photograph. A picture would replace that, one undo a picture; without the tick none is taken there.",
			say.Count(n, say.T("face was"), say.T("faces were"))), widget.MediumImportance), over)
	}
	w.ask(question{title: say.T("Photographs from the phone"), yes: say.T("Open the page"), plain: true, body: container.New(stackLayout{}, rows...), size: fyne.NewSize(560, 460),
		do: func() error {
			s, err := phone.Start(phone.Options{IP: chosen(which, list).IP, Boards: phoneBoards(w.ses.Project(), over.Checked), Take: w.phoneTake(w.ses.Path(), over.Checked)})
			if err != nil {
				return err
			}
			w.post(func() { w.phoneShow(s) })
			return nil
		}})
}

// handMade reports whether a face without a photograph has wood that was taped or
// drawn: work that a picture would replace.
func handMade(f *model.Face) bool {
	return f.Photo == "" && (byHand(f) || len(f.Outline) > 0 || len(f.Grain) > 0)
}

// handMadeFaces counts such faces.
func handMadeFaces(p *model.Project) (n int) {
	for _, b := range p.Boards {
		for i := range b.Faces {
			if handMade(&b.Faces[i]) {
				n++
			}
		}
	}
	return n
}

// phoneBoards are the boards of the rack and what of them takes no picture: what has
// one, and, unless over, faces entered by hand.
func phoneBoards(p *model.Project, over bool) []phone.Board {
	var out []phone.Board
	for i := range p.Boards {
		b := phone.Board{ID: p.Boards[i].ID}
		for _, part := range intake.Parts() {
			if f := part.Face(); f > 0 && (p.Boards[i].Faces[f-1].Photo != "" || !over && handMade(&p.Boards[i].Faces[f-1])) ||
				f == 0 && p.Boards[i].Ends[int(part-intake.EndA)].Photo != "" {
				b.Have = append(b.Have, part)
			}
		}
		out = append(out, b)
	}
	return out
}

// phoneTake keeps a picture beside the project, whatever the setting for
// copies, and takes it into the project, one edit a picture. What a face has been
// read from already is not replaced from afar, nor, unless over, what was entered by hand.
func (w *Window) phoneTake(project string, over bool) func(context.Context, phone.Picture) error {
	return func(_ context.Context, p phone.Picture) error {
		err := w.phoneDo(project, func() error {
			switch {
			case !phoneHas(w.ses.Project(), p.Place, over):
			case phoneHas(w.ses.Project(), p.Place, true):
				return say.Errorf("board %s, %s has a photograph already: take that off in the rack first, or choose another face", p.Place.Board, p.Place.Part.String())
			default:
				return say.Errorf("board %s, %s was entered by hand, and the picture would replace that: choose another face, or press Stop and open the page again with the tick that lets it", p.Place.Board, p.Place.Part.String())
			}
			return nil
		})
		if err != nil {
			return err
		}
		name, err := intake.CopyBeside(filepath.Dir(project), p.Path)
		if err != nil {
			return err
		}
		return w.phoneDo(project, func() error {
			w.nudge.settle()
			return w.ses.TakeIn([]session.Taking{{Place: p.Place, Name: name}})
		})
	}
}

// phoneHas reports whether a place takes no picture, see phoneBoards.
func phoneHas(p *model.Project, at intake.Place, over bool) bool {
	for _, b := range phoneBoards(p, over) {
		if b.ID == at.Board {
			return slices.Contains(b.Have, at.Part)
		}
	}
	return false
}

// phoneDo does something on the window's goroutine, as long as the project is the
// one the page was opened for, and waits for it.
func (w *Window) phoneDo(project string, do func() error) error {
	done := make(chan error, 1)
	w.post(func() {
		if w.ses.Path() != project {
			done <- say.Error("another project is open now: press Stop there and open the page anew")
			return
		}
		done <- do()
	})
	select {
	case err := <-done:
		return err
	case <-w.work.Done():
		return say.Error("the program ends; what was copied is in the folder photos beside the project")
	case <-time.After(time.Minute):
		return say.Error("the program is busy; what was copied is in the folder photos beside the project")
	}
}
