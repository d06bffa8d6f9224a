package session

import (
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// ProfileKind says what is worked at an edge or end, "" where it is square.
func ProfileKind(p model.Profile) string {
	switch p.Kind {
	case model.ProfileBevel:
		return say.T("bevel")
	case model.ProfileRound:
		return say.T("round-over")
	}
	return ""
}

// ProfileWords says what is worked at a side of a panel (front, back, left, right)
// and how much light wood it brings to light; "" where it is square. Lengths are
// written by len.
func ProfileWords(n *model.Panel, r *face.Reading, side int, len func(mm float64) string) string {
	p, q := n.Profiles[side], r.Profiles[side]
	kind := ProfileKind(p)
	if kind == "" || !q.Worked {
		return ""
	}
	text := say.F("%s, %s into the face, %s into the thickness: %s light", kind, len(p.Across), len(p.Down), Percent(q.Light.Value))
	if q.Guessed {
		text += say.T(" (the wood below the face is not known)")
	}
	return text
}
