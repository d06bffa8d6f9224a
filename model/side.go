package model

import (
	"strings"

	"heartside/model/say"
)

// A SideName is what an edge or end of a panel is called.
type SideName struct {
	Key  string // in a project's file: English whatever is spoken
	Word string // where it is plain that edges or ends are meant: "closing"
	Name string // "closing edge"
	The  string // in a sentence: "the closing edge"
}

// Sides are what the front edge (Y = 0), the back edge, the left end (X = 0)
// and the right end of a panel of this role are called.
func (r Role) Sides() [4]SideName {
	left := SideName{"left", say.In("end", "left"), say.T("left end"), say.T("the left end")}
	right := SideName{"right", say.In("end", "right"), say.T("right end"), say.T("the right end")}
	front := SideName{"front", say.In("edge", "front"), say.T("front edge"), say.T("the front edge")}
	back := SideName{"back", say.In("edge", "back"), say.T("back edge"), say.T("the back edge")}
	switch r {
	case RoleDrawerFront:
		right.Key = "right end"
		return [4]SideName{
			{"bottom", say.In("edge", "bottom"), say.T("bottom edge"), say.T("the bottom edge")},
			{"top edge", say.In("edge", "top"), say.T("top edge"), say.T("the top edge")},
			left, right}
	case RoleSide:
		back.Key = "back edge"
	case RoleDoor:
		front = SideName{"hinge", say.In("edge", "hinge"), say.T("hinge edge"), say.T("the hinge edge")}
		back = SideName{"closing edge", say.In("edge", "closing"), say.T("closing edge"), say.T("the closing edge")}
	default:
		return [4]SideName{front, back, left, right}
	}
	return [4]SideName{front, back,
		{"top", say.In("end", "top"), say.T("top end"), say.T("the top end")},
		{"bottom end", say.In("end", "bottom"), say.T("bottom end"), say.T("the bottom end")}}
}

// Side returns which edge or end of a panel of this role a word names: 0 the
// front edge, 1 the back edge, 2 the left end, 3 the right end. The words of
// the role come first, then front, back, left and right; "edge" and "end" may
// be left out of English.
func (r Role) Side(word string) (side int, ok bool) {
	bare := func(s string) string {
		s = strings.ToLower(strings.TrimSpace(s))
		return strings.TrimSuffix(strings.TrimSuffix(s, " edge"), " end")
	}
	w := bare(word)
	if w == "" {
		return 0, false
	}
	for _, names := range [...][4]SideName{r.Sides(), RoleOther.Sides()} {
		for i, n := range names {
			if w == bare(n.Word) || w == bare(n.Name) || w == bare(n.Key) {
				return i, true
			}
		}
	}
	return 0, false
}
