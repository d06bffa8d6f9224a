package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/model"
	"heartside/model/say"
)

// apartBoards lists the boards whose photographs share no reference with most
// of the others, in the order of the stack; all of them where no two share
// one. One photographed face alone has nothing to be compared with.
func apartBoards(p *model.Project) []string {
	faces, of := 0, map[string]int{}
	for _, b := range p.Boards {
		for i := range b.Faces {
			if f := &b.Faces[i]; f.Photo != "" && f.Corners != nil {
				faces++
				if f.Reference != "" {
					of[f.Reference]++
				}
			}
		}
	}
	if faces < 2 {
		return nil
	}
	most, best := 1, ""
	for _, b := range p.Boards { // in order, so that equals are settled alike
		for i := range b.Faces {
			if r := b.Faces[i].Reference; r != "" && of[r] > most {
				most, best = of[r], r
			}
		}
	}
	var out []string
	for _, b := range p.Boards {
		for i := range b.Faces {
			if f := &b.Faces[i]; f.Photo != "" && f.Corners != nil && (best == "" || f.Reference != best) {
				out = append(out, b.ID)
				break
			}
		}
	}
	return out
}

// mostNamed is how many boards a line names.
const mostNamed = 6

// tintWords say whose colours cannot be compared, "" where all can.
func tintWords(p *model.Project) string {
	list := apartBoards(p)
	switch n := len(list); {
	case n == 0:
		return ""
	case n == 1:
		return say.F("The colours of board %s cannot be compared with the others yet.", list[0])
	case n > mostNamed:
		return say.F("The colours of %s boards cannot be compared yet: %s and others.", itoa(n), strings.Join(list[:mostNamed], ", "))
	default:
		return say.F("The colours of %s and %s cannot be compared yet.", strings.Join(list[:n-1], ", "), list[n-1])
	}
}

// balanceLine is the line in the head of the rack that says whose colours
// cannot be compared, with the way to mend it.
type balanceLine struct {
	w    *Window
	box  *fyne.Container
	text *widget.Label
}

func newBalanceLine(w *Window) *balanceLine {
	l := &balanceLine{w: w, text: wrapped("", widget.WarningImportance)}
	text := least(46, l.text)
	b := newPageButton(w, say.T("Make them agree…"), func() { w.act("balance") })
	l.box = flow([]fyne.CanvasObject{text, b}, text)
	l.box.Hide()
	return l
}

// show brings the line up to date and reports what the head is laid out for.
func (l *balanceLine) show(on bool) string {
	text := tintWords(l.w.ses.Committed())
	if text != "" {
		text = "⚠ " + text
	}
	if text != l.text.Text {
		l.text.SetText(text)
	}
	setShown(l.box, on && text != "")
	if !l.box.Visible() {
		return ""
	}
	return text
}

// placeTicks is a list of faces to tick.
type placeTicks struct {
	box    *fyne.Container
	places []intake.Place
	ticks  []*tick
}

func newPlaceTicks(w *Window, places []intake.Place, on func(intake.Place) bool) *placeTicks {
	l := &placeTicks{places: places}
	var objs []fyne.CanvasObject
	for _, p := range places {
		t := newTick(w, shortPlace(p), on(p), nil)
		l.ticks = append(l.ticks, t)
		objs = append(objs, t)
	}
	l.box = container.New(stackLayout{}, flow(objs))
	return l
}

// chosen lists the faces ticked.
func (l *placeTicks) chosen() []intake.Place {
	var out []intake.Place
	for i, t := range l.ticks {
		if t.Checked {
			out = append(out, l.places[i])
		}
	}
	return out
}
