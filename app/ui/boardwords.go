package ui

import (
	"heartside/model"

	"heartside/model/say"
)

func woods() []model.Wanted { return []model.Wanted{model.WantHeart, model.WantSap, model.WantBoth} }

func wantedWords(v model.Wanted) string {
	switch v {
	case model.WantSap:
		return say.T("Sapwood (light)")
	case model.WantBoth:
		return say.T("Both")
	case model.WantDefault:
		return say.T("As its boards")
	}
	return say.T("Heartwood (dark)")
}

func barks() []model.Bark {
	return []model.Bark{model.BarkUnknown, model.BarkFace1, model.BarkFace2, model.BarkNone}
}

func barkWords(v model.Bark) string {
	switch v {
	case model.BarkFace1:
		return say.T("Face 1 was nearer the bark")
	case model.BarkFace2:
		return say.T("Face 2 was nearer the bark")
	case model.BarkNone:
		return say.T("Neither, quarter-sawn")
	}
	return say.T("Not known")
}

func planings() []model.Planes {
	return []model.Planes{model.PlanesUnknown, model.PlanesFromMarked, model.PlanesToMarked, model.PlanesMixed}
}

func planesWords(v model.Planes) string {
	switch v {
	case model.PlanesFromMarked:
		return say.T("Cleanly from the marked end")
	case model.PlanesToMarked:
		return say.T("Cleanly to the marked end")
	case model.PlanesMixed:
		return say.T("Mixed")
	}
	return say.T("Not known")
}

// pricings are what a price may be for.
func pricings() []string { return []string{"board-foot", "cubic-foot", "cubic-metre", "board"} }

func pricingWords(per string) string {
	switch per {
	case "board-foot":
		return say.T("a board foot")
	case "cubic-foot":
		return say.T("a cubic foot")
	case "cubic-metre":
		return say.T("a cubic metre")
	}
	return say.T("the whole board")
}
