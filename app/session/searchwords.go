package session

import (
	"fmt"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
)

// term says what speaks against an arrangement.
func (w words) term(t *looks.Term) string {
	wood, share := w.tone()+" wood", Percent(t.Measure)
	who := w.strips(t.Strips)
	joint := "joint of " + who
	switch t.Kind {
	case looks.JointBorder:
		return fmt.Sprintf("%s on one side only of the %s, along %s of it", capital(wood), joint, share)
	case looks.JointStep:
		return fmt.Sprintf("%s on both sides of the %s, the widths %s apart", capital(wood), joint, share)
	case looks.ColourStep:
		return fmt.Sprintf("Colours differ over the %s (CIEDE2000 %.1f)", joint, t.Measure)
	case looks.PlanesApart:
		return capital(who) + " plane in opposite ways"
	case looks.RingsWrong:
		if len(t.Strips) > 1 {
			return capital(who) + " lie the same way up; rings are to alternate"
		}
		return capital(who) + " lies against the growth rings asked for"
	case looks.Moisture:
		return fmt.Sprintf("Moisture of %s differs by %.1f %%, over %.0f %%", who, t.Measure, t.Limit)
	case looks.FigureStep:
		return fmt.Sprintf("The grain runs %.0f° apart over the %s", t.Measure, joint)
	case looks.FigureCut:
		return "An arch of the figure is cut off at the " + joint
	case looks.FigureApart:
		return "Arches of " + who + " point opposite ways"
	case looks.FigureOrder:
		return capital(who) + " come from one log, but were not neighbours in it"
	case looks.OnShow:
		return fmt.Sprintf("%s of %s shows: %s of the face", capital(wood), who, share)
	case looks.Astray:
		return fmt.Sprintf("%s of %s lies away from %s: %s of the face", capital(wood), who, w.where(), share)
	case looks.EdgeBare:
		return fmt.Sprintf("The outside edge of %s has no %s along %s", who, wood, share)
	case looks.EdgeLight:
		return fmt.Sprintf("The outside edge of %s has %s along %s that meets nothing", who, wood, share)
	case looks.LoneStreak:
		return "One " + w.tone() + " streak alone: " + who
	case looks.Warned:
		return w.warned(t)
	case looks.Mirror:
		return fmt.Sprintf("%s of the %s has nothing mirroring it about the middle", share, wood)
	case looks.Away:
		return fmt.Sprintf("The %s lies %s of half the width from %s, in the mean", wood, share, w.where())
	case looks.Uneven:
		return fmt.Sprintf("The %s is unevenly spread: %s of the width to move", wood, share)
	case looks.OffMix:
		return fmt.Sprintf("%s %s of the face, outside the mix asked", capital(wood), share)
	case looks.MiddleBare:
		return fmt.Sprintf("The middle has too little %s", wood)
	case looks.Stripes:
		return fmt.Sprintf("%.0f bands at even distances look like stripes", t.Measure)
	}
	return string(t.Kind) + " " + who
}

// where is where the look asked wants the unwanted wood.
func (w words) where() string {
	if w.look == looks.SapIn {
		return "the middle"
	}
	return "the outside edges"
}

// warned names a warning in a few words; the column says more once the panel
// lies so.
func (w words) warned(t *looks.Term) string {
	who := w.strips(t.Strips)
	switch face.WarningKind(t.Why) {
	case face.SliverKind:
		return "A sliver of " + w.tone() + " wood: " + who
	case face.OneSidedJoint:
		return "A " + w.tone() + " edge meets none: " + who
	case face.OneSidedEdge:
		return "Only one outside edge is " + w.tone() + ": " + who
	case face.Lopsided:
		return fmt.Sprintf("The %s wood lies to one side", w.tone())
	case face.OverLimit:
		return fmt.Sprintf("%s unwanted, over the limit of %s", Percent(t.Measure), Percent(t.Limit))
	case face.FlawOnShow:
		return "A flaw shows: " + who
	case face.FlawInEdge:
		return "A flaw in an edge: " + who
	case face.PanelTooSmall:
		return "The strips do not cover the finished panel"
	}
	return t.Why + ": " + who
}
