package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// tapeTable is where the sapwood widths of a face are typed.
func (f *boardForm) tapeTable(face int) fyne.CanvasObject {
	head := func(s string) fyne.CanvasObject {
		l := widget.NewLabel(s)
		l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	g := container.NewGridWithColumns(4, head(say.F("Face %s", itoa(face+1))), head(say.In("column", "marked end")), head(say.T("middle")), head(say.In("column", "other end")))
	for edge, name := range [2]string{say.T("marked edge"), say.T("other edge")} {
		g.Add(head(name))
		for i := range f.tape[face][edge] {
			g.Add(f.tape[face][edge][i])
		}
	}
	return g
}

// face puts the tape's widths onto a face. Where they say what the zones say
// already, drawn zones stay as they are; otherwise the sapwood is drawn anew
// and all else kept.
func (f *boardForm) face(b *model.Board, i int) error {
	face := b.Faces[i] // the list of zones is shared with the board as it was
	face.Known = i == 0 || f.seen2.Checked
	var tape [2]model.Tape
	for edge, name := range [2]string{say.T("marked edge"), say.T("other edge")} {
		for k, e := range f.tape[i][edge] {
			if strings.TrimSpace(e.Text) == "" {
				continue
			}
			v, err := e.length(say.F("face %d, %s", i+1, name))
			if err != nil {
				return err
			}
			if v < 0 || v > b.Width {
				return say.Errorf("face %d, %s: a sapwood width of %s does not fit a board %s wide", i+1, name, e.Text, f.w.ses.Len(b.Width))
			}
			tape[edge][k] = v
		}
	}
	if f.was != nil && f.sameTape(i) && f.was.Length == b.Length && f.was.Width == b.Width {
		b.Faces[i] = face
		return nil
	}
	if !face.Known {
		b.Faces[i] = face
		return nil
	}
	zones := model.FaceTapeZones(i+1, b.Length, b.Width, tape[0], tape[1])
	for _, z := range face.Zones {
		if z.Kind != model.Sap {
			zones = append(zones, z)
		}
	}
	face.Zones = zones
	b.Faces[i] = face
	return nil
}

// sameTape reports whether the widths are those shown when the dialog opened.
func (f *boardForm) sameTape(i int) bool {
	marked, other := model.FaceTape(f.was, i+1)
	for edge, tape := range [2]model.Tape{marked, other} {
		for k, v := range tape {
			text := ""
			if v != 0 {
				text = f.w.ses.Len(v)
			}
			if f.tape[i][edge][k].Text != text {
				return false
			}
		}
	}
	return true
}
