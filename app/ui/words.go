package ui

import (
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/model"
)

// jointWords says what meets at a joint.
func jointWords(k face.JointKind) string {
	switch k {
	case face.HeartHeart:
		return "heartwood to heartwood"
	case face.SapSap:
		return "sapwood to sapwood"
	case face.SapHeart:
		return "sapwood to heartwood"
	}
	return "not judged, a place is empty"
}

// kindWords says what a zone is.
func kindWords(k model.ZoneKind) string {
	switch k {
	case model.Sap:
		return "sapwood"
	case model.Flaw:
		return "flaw"
	case model.Unseen:
		return "wood not seen yet"
	}
	return "heartwood"
}

// classWords is the class of a contrast, short enough for a column.
func classWords(de float64) string {
	switch colour.ClassOf(de) {
	case colour.OneColour:
		return "very small"
	case colour.Medium:
		return "small"
	case colour.Large:
		return "large"
	}
	return "strong"
}

// lookWords names the looks, in the terms of the wood that is not wanted.
func lookWords(l model.Look, wantSap bool) string {
	tone := "light"
	if wantSap {
		tone = "dark"
	}
	switch l {
	case model.HeartOnly:
		return "None of the " + tone + " wood on show"
	case model.SapOut:
		return title(tone) + " wood to both outside edges"
	case model.SapIn:
		return title(tone) + " wood to the middle"
	case model.SapToSap:
		return "Like meets like at every joint"
	case model.EvenMix:
		return "An even mix"
	}
	return "As I lay it: only judge"
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
		return "Top"
	case model.RoleSide:
		return "Side"
	case model.RoleDoor:
		return "Door"
	case model.RoleDrawerFront:
		return "Drawer front"
	case model.RoleShelf:
		return "Shelf"
	}
	return "Other"
}
