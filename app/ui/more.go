package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model/say"
)

// moreReadings is the foot of the column: edges, ends and joints.
type moreReadings struct {
	w     *Window
	box   *fyne.Container
	sides *figures
}

func newMoreReadings(w *Window) *moreReadings {
	m := &moreReadings{w: w, sides: newFigures()}
	m.box = container.NewVBox(widget.NewSeparator(), m.sides.box)
	return m
}

func (m *moreReadings) show() {
	ses := m.w.ses
	id := ses.Selected().Panel
	n, r, p := ses.Project().Panel(id), ses.Reading(id), ses.Panel(id)
	if n == nil || r == nil || r.Placed == 0 {
		m.box.Hide()
		return
	}
	if !m.box.Visible() {
		m.box.Show()
	}
	sides := n.Role.Sides()
	rows := []figure{
		{name: say.T("Sapwood on edges"), show: sides[0].Word, back: sides[1].Word, head: true},
		{name: "", show: session.Percent(r.Edges[0].Light.Value), back: session.Percent(r.Edges[1].Light.Value)},
		{name: say.T("Sapwood on ends"), show: sides[2].Word, back: sides[3].Word, head: true},
		{name: "", show: session.Percent(r.Ends[0].Light.Value), back: session.Percent(r.Ends[1].Light.Value)},
	}
	worked := false
	for e, side := range sides {
		kind := session.ProfileKind(n.Profiles[e])
		if kind == "" || !r.Profiles[e].Worked {
			continue
		}
		if !worked {
			rows = append(rows, figure{name: say.T("Sapwood on bevels and round-overs"), head: true})
		}
		worked = true
		f := figure{name: sentence(kind) + ", " + side.Name, show: session.Percent(r.Profiles[e].Light.Value)}
		if r.Profiles[e].Guessed {
			f.back = say.T("guessed")
		}
		rows = append(rows, f)
	}
	if len(r.Joints) > 0 {
		rows = append(rows, figure{name: say.F("Joints, from %s", sides[0].The), show: say.T("meets"), back: say.T("differs on"), head: true})
	}
	for _, j := range r.Joints {
		f := figure{
			name: say.F("%s to %s", ses.Number(id, p.Strips[j.I].ID), ses.Number(id, p.Strips[j.I+1].ID)),
			show: jointShort(j.Kind), back: session.Percent(j.Mismatch),
		}
		if j.Kind == face.Unjudged {
			f.back = "–"
		}
		rows = append(rows, f)
	}
	m.sides.set(rows)
}

// jointShort says what meets at a joint, for a narrow column.
func jointShort(kind face.JointKind) string {
	switch kind {
	case face.HeartHeart:
		return say.T("heart, heart")
	case face.SapSap:
		return say.T("sap, sap")
	case face.SapHeart:
		return say.T("sap, heart")
	}
	return say.T("not judged")
}
