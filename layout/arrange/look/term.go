package look

import "heartside/layout/figure"

// TermKind names a term.
type TermKind string

// Local terms, of a joint or of a strip in its place.
const (
	JointBorder TermKind = "joint-border" // unwanted wood on one side of a joint only
	JointStep   TermKind = "joint-step"   // on both, but not of one width
	ColourStep  TermKind = "colour-step"
	PlanesApart TermKind = "planes-apart"
	RingsWrong  TermKind = "rings"
	Moisture    TermKind = "moisture"
	FigureStep  TermKind = TermKind(figure.AngleStep)
	FigureCut   TermKind = TermKind(figure.ClippedFig)
	FigureApart TermKind = TermKind(figure.Opposed)
	FigureOrder TermKind = TermKind(figure.OutOfOrder)
	OnShow      TermKind = "on-show"   // unwanted wood shows
	Astray      TermKind = "astray"    // it lies where the look does not want it
	EdgeBare    TermKind = "edge-bare" // an outside edge has none
	EdgeLight   TermKind = "edge-light"
)

// Terms of the whole face.
const (
	LoneStreak TermKind = "lone-streak"
	Warned     TermKind = "warned" // another warning; Why is its kind
	Mirror     TermKind = "mirror"
	Away       TermKind = "away"
	Uneven     TermKind = "uneven"
	OffMix     TermKind = "off-mix"
	MiddleBare TermKind = "middle-bare" // sap-in: the middle third has too little
	Stripes    TermKind = "stripes"
)

// Kinds lists all terms.
var Kinds = [...]TermKind{JointBorder, JointStep, ColourStep, PlanesApart, RingsWrong, Moisture,
	FigureStep, FigureCut, FigureApart, FigureOrder, OnShow, Astray,
	EdgeBare, EdgeLight, LoneStreak, Warned, Mirror, Away, Uneven, OffMix, MiddleBare, Stripes}

// Term is one thing that speaks against an arrangement.
type Term struct {
	Kind   TermKind
	Points float64 // above 0
	Local  bool
	Joint  int      // index of the strip in front of the joint, -1 where it is of none
	Strips []string // ids, front to back; of a warning, those at fault
	// Measure is what was found: shares 0 to 1, CIEDE2000, per cent of
	// moisture; Limit what it was held against, 0 where it was nothing.
	Measure, Limit float64
	Why            string // of a warning: its kind
}

// Score is what speaks against an arrangement for a look.
type Score struct {
	Look        Name
	Points      float64 // the sum of the terms
	LocalPoints float64 // of the local ones
	Terms       []Term  // the gravest first
}
