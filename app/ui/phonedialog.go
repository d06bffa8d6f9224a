package ui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/phone"
	"heartside/model/say"
)

// codeSide is the least side of the QR code as shown.
const codeSide = 240

// phoneShow shows the code and what comes in, until it is stopped.
func (w *Window) phoneShow(s *phone.Server) {
	after := context.AfterFunc(w.work, s.Close) // the window closes
	img, err := phone.Code(s.URL(), 2*codeSide)
	if err != nil {
		s.Close()
		w.fail(say.T("No page for the phone"), err)
		return
	}
	code := canvas.NewImageFromImage(img)
	code.FillMode, code.ScaleMode = canvas.ImageFillContain, canvas.ImageScalePixels
	code.SetMinSize(fyne.NewSquareSize(codeSide))
	address := widget.NewLabel(s.URL())
	address.Wrapping, address.Selectable = fyne.TextWrapBreak, true
	address.TextStyle.Monospace = true
	now := wrapped("", widget.MediumImportance)
	now.TextStyle.Bold = true
	last := wrapped("", widget.MediumImportance)
	over := make(chan struct{})
	arrived := 0
	show := func() {
		st := s.State()
		now.SetText(phoneWords(st))
		last.SetText(st.Last)
		if st.Over {
			code.Hide()
			address.Hide()
		}
		arrived = st.Arrived
	}
	show()
	stop := func() {
		close(over)
		after()
		s.Close()
		if arrived > 0 {
			w.rack.content()
			w.rack.tell(say.F("%s came from the phone.", say.Count(arrived, say.T("photograph"), say.T("photographs"))))
			w.rack.step = stepFaces
			w.showRack()
		}
	}
	w.ask(question{title: say.T("Photographs from the phone"), no: say.T("Stop"), undo: stop, size: fyne.NewSize(620, 660),
		body: container.New(stackLayout{},
			wrapped(say.T("Point the camera of the phone at the code, or type the address in its browser."), widget.MediumImportance),
			container.NewCenter(code), address, now, wrapped(say.T(phoneCaution), widget.WarningImportance), container.New(keepLayout{3}, last))})
	go func() {
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		for {
			select {
			case <-over:
				return
			case <-w.work.Done():
				return
			case <-tick.C:
				w.post(func() {
					select {
					case <-over:
					default:
						show()
					}
				})
			}
		}
	}()
}

// phoneWords say how far the page has come.
func phoneWords(st phone.State) string {
	left := st.Left.Round(time.Second)
	if !st.Claimed && !st.Over {
		return say.F("No phone has opened the page yet. It closes by itself in %d:%02d min.", int(left.Minutes()), int(left.Seconds())%60)
	}
	text := say.F("%s arrived", say.Count(st.Arrived, say.T("photograph"), say.T("photographs")))
	if st.Refused > 0 {
		text += say.F(", %s refused", itoa(st.Refused))
	}
	if st.Over {
		return say.F("%s. Closed: %s", text, st.OverWhy)
	}
	return say.F("%s. Closes by itself in %d:%02d min without a picture.", text, int(left.Minutes()), int(left.Seconds())%60)
}
