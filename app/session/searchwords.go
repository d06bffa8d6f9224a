package session

import (
	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/model/say"
)

// term says what speaks against an arrangement.
func (w words) term(t *looks.Term) string {
	wood, share := say.F("%s wood", w.tone()), Percent(t.Measure)
	who := w.strips(t.Strips)
	joint := say.F("joint of %s", who)
	switch t.Kind {
	case looks.JointBorder:
		return say.F("%s on one side only of the %s, along %s of it", say.Upper(wood), joint, share)
	case looks.JointStep:
		return say.F("%s on both sides of the %s, the widths %s apart", say.Upper(wood), joint, share)
	case looks.ColourStep:
		return say.F("Colours differ over the %s (CIEDE2000 %.1f)", joint, t.Measure)
	case looks.PlanesApart:
		return say.F("%s plane in opposite ways", say.Upper(who))
	case looks.RingsWrong:
		if len(t.Strips) > 1 {
			return say.F("%s lie the same way up; rings are to alternate", say.Upper(who))
		}
		return say.F("%s lies against the growth rings asked for", say.Upper(who))
	case looks.Moisture:
		return say.F("Moisture of %s differs by %.1f %%, over %.0f %%", who, t.Measure, t.Limit)
	case looks.FigureStep:
		return say.F("The grain runs %.0f° apart over the %s", t.Measure, joint)
	case looks.FigureCut:
		return say.F("An arch of the figure is cut off at the %s", joint)
	case looks.FigureApart:
		return say.F("Arches of %s point opposite ways", who)
	case looks.FigureOrder:
		return say.F("%s come from one log, but were not neighbours in it", say.Upper(who))
	case looks.OnShow:
		return say.F("%s of %s shows: %s of the face", say.Upper(wood), who, share)
	case looks.Astray:
		return say.F("%s of %s lies away from %s: %s of the face", say.Upper(wood), who, w.where(), share)
	case looks.EdgeBare:
		return say.F("The outside edge of %s has no %s along %s", who, wood, share)
	case looks.EdgeLight:
		return say.F("The outside edge of %s has %s along %s that meets nothing", who, wood, share)
	case looks.LoneStreak:
		return say.F("One %s streak alone: %s", w.tone(), who)
	case looks.Warned:
		return w.warned(t)
	case looks.Mirror:
		return say.F("%s of the %s has nothing mirroring it about the middle", share, wood)
	case looks.Away:
		return say.F("The %s lies %s of half the width from %s, in the mean", wood, share, w.where())
	case looks.Uneven:
		return say.F("The %s is unevenly spread: %s of the width to move", wood, share)
	case looks.OffMix:
		return say.F("%s %s of the face, outside the mix asked", say.Upper(wood), share)
	case looks.MiddleBare:
		return say.F("The middle has too little %s", wood)
	case looks.Stripes:
		return say.F("%.0f bands at even distances look like stripes", t.Measure)
	}
	return string(t.Kind) + " " + who
}

// where is where the look asked wants the unwanted wood.
func (w words) where() string {
	if w.look == looks.SapIn {
		return say.T("the middle")
	}
	return say.T("the outside edges")
}

// warned names a warning in a few words; the column says more once the panel
// lies so.
func (w words) warned(t *looks.Term) string {
	who := w.strips(t.Strips)
	switch face.WarningKind(t.Why) {
	case face.SliverKind:
		return say.F("A sliver of %s wood: %s", w.tone(), who)
	case face.OneSidedJoint:
		return say.F("A %s edge meets none: %s", w.tone(), who)
	case face.OneSidedEdge:
		return say.F("Only one outside edge is %s: %s", w.tone(), who)
	case face.Lopsided:
		return say.F("The %s wood lies to one side", w.tone())
	case face.OverLimit:
		return say.F("%s unwanted, over the limit of %s", Percent(t.Measure), Percent(t.Limit))
	case face.FlawOnShow:
		return say.F("A flaw shows: %s", who)
	case face.FlawInEdge:
		return say.F("A flaw in an edge: %s", who)
	case face.PanelTooSmall:
		return say.T("The strips do not cover the finished panel")
	}
	return t.Why + ": " + who
}
