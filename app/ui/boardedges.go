package ui

import (
	"strings"

	"heartside/model"
	"heartside/model/say"
)

// edgeKinds are what the long edges of a board may be.
func edgeKinds() []model.Edges {
	return []model.Edges{model.EdgesSawn, model.EdgesWaney, model.EdgesMeasured}
}

func edgesWords(e model.Edges) string {
	switch e {
	case model.EdgesWaney:
		return say.T("Waney; the width is the greatest")
	case model.EdgesMeasured:
		return say.T("Waney; width by its photographs")
	}
	return say.T("Sawn")
}

// guessedWidth is how wide a waney board is taken to be until a photograph of
// it is read. An engineering choice.
func guessedWidth(length float64) float64 { return min(max(length/6, 100), 300, length) }

// edges reads what a row says of the long edges: a waney board may leave its
// width to the photographs.
func (r *entryRow) edges(b *model.Board) (measured bool) {
	if !r.waney.Checked {
		return false
	}
	b.Edges = model.EdgesWaney
	if strings.TrimSpace(r.size[1].Text) != "" {
		return false
	}
	b.Edges, b.Width = model.EdgesMeasured, guessedWidth(b.Length)
	return true
}

// edgesTicked shows in the row that the width of a waney board may be left out.
func (r *entryRow) edgesTicked() {
	hint := r.widthHint
	if r.waney.Checked {
		hint = say.T("greatest, or none")
	}
	if r.size[1].PlaceHolder != hint {
		r.size[1].SetPlaceHolder(hint)
	}
	r.mend()
}
