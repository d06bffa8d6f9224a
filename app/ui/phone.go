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
		wrapped(say.T("A page is open until you press Stop or nothing was sent for 10 minutes. One browser can use it; it can only send pictures. The phone has to be in the same network."), widget.MediumImportance)}
	rows = append(rows, pairs(widget.NewLabel(say.T("Network")), which))
	w.ask(question{title: say.T("Photographs from the phone"), yes: say.T("Open the page"), plain: true, body: container.New(stackLayout{}, rows...), size: fyne.NewSize(560, 340),
		do: func() error {
			s, err := phone.Start(phone.Options{IP: chosen(which, list).IP, Boards: phoneBoards(w.ses.Project()), Take: w.phoneTake(w.ses.Path())})
			if err != nil {
				return err
			}
			w.post(func() { w.phoneShow(s) })
			return nil
		}})
}

// phoneBoards are the boards of the rack and what they have pictures of.
func phoneBoards(p *model.Project) []phone.Board {
	var out []phone.Board
	for i := range p.Boards {
		b := phone.Board{ID: p.Boards[i].ID}
		for _, part := range intake.Parts() {
			if f := part.Face(); f > 0 && p.Boards[i].Faces[f-1].Photo != "" ||
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
// read from already is not replaced from afar.
func (w *Window) phoneTake(project string) func(context.Context, phone.Picture) error {
	return func(_ context.Context, p phone.Picture) error {
		err := w.phoneDo(project, func() error {
			if phoneHas(w.ses.Project(), p.Place) {
				return say.Errorf("board %s, %s has a photograph already: take that off in the rack first, or choose another face", p.Place.Board, p.Place.Part.String())
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

// phoneHas reports whether a place has a photograph.
func phoneHas(p *model.Project, at intake.Place) bool {
	for _, b := range phoneBoards(p) {
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
