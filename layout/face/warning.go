package face

import "heartside/layout/geom"

// WarningKind names a warning; the names are those of the file and of JSON.
type WarningKind string

// The kinds of warning. Those about how wood behaves come with that work.
const (
	LoneStreak           WarningKind = "lone-streak"
	SliverKind           WarningKind = "sliver"
	OneSidedJoint        WarningKind = "one-sided-joint"
	OneSidedEdge         WarningKind = "one-sided-edge"
	Lopsided             WarningKind = "lopsided"
	OverLimit            WarningKind = "over-limit"
	FlawOnShow           WarningKind = "flaw-on-show"
	FlawInEdge           WarningKind = "flaw-in-edge"
	NotSeen              WarningKind = "not-seen"
	SapAfterPlaning      WarningKind = "sap-after-planing"
	PlanesBackwards      WarningKind = "planes-backwards"
	StripeRisk           WarningKind = "stripe-risk"
	MoistureDiffers      WarningKind = "moisture-differs"
	OutsideBoard         WarningKind = "outside-board"
	PartsOverlap         WarningKind = "parts-overlap"
	UnderMachineLimit    WarningKind = "under-machine-limit"
	OverMachineWidth     WarningKind = "over-machine-width"
	PanelTooSmall        WarningKind = "panel-too-small"
	ColoursNotComparable WarningKind = "colours-not-comparable"
)

// Warning is one thing a maker should know, as data; words are made above.
type Warning struct {
	Kind   WarningKind
	Side   Side
	Strips []string  // ids, the one at fault first
	Boards []string  // ids, where boards are at fault
	Place  geom.Rect // on that side of the panel; zero where it is not about a place
	Band   string    // id of the band, "" where none

	// Measure is what was found and Limit what it was held against, in the
	// unit of the kind: shares for lopsided and over-limit, mm for sizes,
	// CIEDE2000 for colours, per cent for moisture; for sap-after-planing mm of
	// width, or shares where Why is limit; for stripe-risk turns.
	Measure, Limit float64

	Why     string // a short key that tells variants of a kind apart
	Assumed bool   // rests on assumed colours
	Later   bool   // will appear with age
	Under   []Warning
	Weight  float64 // larger is worse
}
