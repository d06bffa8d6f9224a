package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// notices is the part of the column that tells, each in full, what was noticed
// when the file was read, which photographs cannot be shown, and what should
// be put right before anything is judged. Remarks on the file can be
// dismissed; the rest goes once it is mended.
type notices struct {
	w         *Window
	box       *fyne.Container
	shown     string
	dismissed string // the remarks that were
}

func newNotices(w *Window) *notices {
	n := &notices{w: w, box: container.New(stackLayout{})}
	n.box.Hide()
	return n
}

// show brings the notices up to date and reports whether they changed.
func (n *notices) show() bool {
	remarks := n.w.ses.Notices()
	if strings.Join(remarks, "\n") == n.dismissed {
		remarks = nil
	}
	problems, photos, kept := n.w.ses.Problems(), n.w.ses.PhotoTrouble(), n.w.kept.trouble()
	key := strings.Join([]string{strings.Join(problems, "\n"), strings.Join(remarks, "\n"), strings.Join(photos, "\n"), strings.Join(kept, "\n")}, "\x00")
	if key == n.shown {
		return false
	}
	n.shown = key
	n.box.RemoveAll()
	n.add(kept, say.T("Keeping your work"), theme.ColorNameWarning, func() {
		n.w.kept.dismiss()
		n.w.win.Canvas().Focus(n.w.surf)
	})
	n.add(problems, say.T("To put right"), theme.ColorNameError, nil)
	n.add(remarks, say.T("From the file"), theme.ColorNameWarning, func() {
		n.dismissed = strings.Join(n.w.ses.Notices(), "\n")
		n.w.column.showNotes()
		n.w.win.Canvas().Focus(n.w.surf)
	})
	n.add(photos, say.T("Photographs"), theme.ColorNameWarning, nil)
	n.box.Hidden = len(n.box.Objects) == 0
	n.box.Refresh()
	return true
}

// add lists notices of one kind under a heading.
func (n *notices) add(list []string, name string, hue fyne.ThemeColorName, dismiss func()) {
	if len(list) == 0 {
		return
	}
	title := wrapped(name, widget.MediumImportance)
	title.TextStyle.Bold = true
	head := fyne.CanvasObject(snug(title))
	if dismiss != nil {
		b := widget.NewButtonWithIcon(say.T("Dismiss"), theme.CancelIcon(), dismiss)
		b.Importance = widget.LowImportance
		head = container.NewBorder(nil, nil, nil, b, head)
	}
	body := container.New(stackLayout{}, head)
	for _, s := range list {
		body.Add(line(ended(sentence(s)), widget.MediumImportance))
	}
	bar := canvas.NewRectangle(theme.Color(hue))
	bar.SetMinSize(fyne.NewSize(4, 4))
	ground := canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))
	ground.CornerRadius = 4
	n.box.Add(container.NewStack(ground, container.NewBorder(nil, nil, bar, nil, container.NewPadded(body))))
}

// ended puts a full stop behind a message that has no end.
func ended(s string) string {
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "…") || strings.HasSuffix(s, "!") {
		return s
	}
	return s + "."
}
