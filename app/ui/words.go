package ui

import (
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// jointWords says what meets at a joint.
func jointWords(k face.JointKind) string {
	switch k {
	case face.HeartHeart:
		return say.T("heartwood to heartwood")
	case face.SapSap:
		return say.T("sapwood to sapwood")
	case face.SapHeart:
		return say.T("sapwood to heartwood")
	}
	return say.T("not judged, a place is empty")
}

// kindWords says what a zone is.
func kindWords(k model.ZoneKind) string {
	switch k {
	case model.Sap:
		return say.T("sapwood")
	case model.Flaw:
		return say.T("flaw")
	case model.Unseen:
		return say.T("wood not seen yet")
	}
	return say.T("heartwood")
}

// classWords is the class of a contrast, short enough for a column.
func classWords(de float64) string {
	switch colour.ClassOf(de) {
	case colour.OneColour:
		return say.T("very small")
	case colour.Medium:
		return say.T("small")
	case colour.Large:
		return say.T("large")
	}
	return say.T("strong")
}

// lookWords names the looks, in the terms of the wood that is not wanted.
func lookWords(l model.Look, wantSap bool) string {
	tone := say.T("light")
	if wantSap {
		tone = say.T("dark")
	}
	switch l {
	case model.HeartOnly:
		return say.F("None of the %s wood on show", tone)
	case model.SapOut:
		return say.F("%s wood to both outside edges", title(tone))
	case model.SapIn:
		return say.F("%s wood to the middle", title(tone))
	case model.SapToSap:
		return say.T("Like meets like at every joint")
	case model.EvenMix:
		return say.T("An even mix")
	}
	return say.T("As I lay it: only judge")
}

func looks() []model.Look {
	return model.Looks()
}

func roles() []model.Role {
	return []model.Role{model.RoleTop, model.RoleSide, model.RoleDoor, model.RoleDrawerFront, model.RoleShelf, model.RoleOther}
}

func roleWords(r model.Role) string {
	switch r {
	case model.RoleTop:
		return say.T("Top")
	case model.RoleSide:
		return say.T("Side")
	case model.RoleDoor:
		return say.T("Door")
	case model.RoleDrawerFront:
		return say.T("Drawer front")
	case model.RoleShelf:
		return say.T("Shelf")
	}
	return say.T("Other")
}
