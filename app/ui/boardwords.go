package ui

import "heartside/model"

func woods() []model.Wanted { return []model.Wanted{model.WantHeart, model.WantSap, model.WantBoth} }

func wantedWords(v model.Wanted) string {
	switch v {
	case model.WantSap:
		return "Sapwood (light)"
	case model.WantBoth:
		return "Both"
	case model.WantDefault:
		return "As its boards"
	}
	return "Heartwood (dark)"
}

func barks() []model.Bark {
	return []model.Bark{model.BarkUnknown, model.BarkFace1, model.BarkFace2, model.BarkNone}
}

func barkWords(v model.Bark) string {
	switch v {
	case model.BarkFace1:
		return "Face 1 was nearer the bark"
	case model.BarkFace2:
		return "Face 2 was nearer the bark"
	case model.BarkNone:
		return "Neither, quarter-sawn"
	}
	return "Not known"
}

func planings() []model.Planes {
	return []model.Planes{model.PlanesUnknown, model.PlanesFromMarked, model.PlanesToMarked, model.PlanesMixed}
}

func planesWords(v model.Planes) string {
	switch v {
	case model.PlanesFromMarked:
		return "Cleanly from the marked end"
	case model.PlanesToMarked:
		return "Cleanly to the marked end"
	case model.PlanesMixed:
		return "Mixed"
	}
	return "Not known"
}

// pricings are what a price may be for.
func pricings() []string { return []string{"board-foot", "cubic-foot", "cubic-metre", "board"} }

func pricingWords(per string) string {
	switch per {
	case "board-foot":
		return "a board foot"
	case "cubic-foot":
		return "a cubic foot"
	case "cubic-metre":
		return "a cubic metre"
	}
	return "the whole board"
}
