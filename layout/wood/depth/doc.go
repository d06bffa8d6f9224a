// Package depth knows a board below its sawn faces: where heartwood meets
// sapwood once stock is taken off.
//
// Sap lines run along a board, so it is read in sections across it, one about
// every millimetre. Where both faces are known and the pith is not, wood at depth
// z of a board T thick is sap where
//
//	(1 - z/T) d1 + (z/T) d2 > 0
//
// with d1 and d2 how far the place lies into the sapwood of face 1 and of face 2,
// measured across the board and held to 40 mm. Where both faces show a line it
// goes from one to the other, bent outward as the arc of a log is; where one has
// run off its face it lies as far beyond the edge as the sections beside it say.
// The rule is an engineering choice, no source.
//
// A line that stands upright through the board is left as the nearer face shows
// it, whether the pith is told or not.
//
// Where the pith is told, the heartwood of a section is one stretch and its line
// is drawn about the pith: angle and radius go over from what one face shows to
// what the other does, so it runs through both sawn lines and is a circle's arc
// where the radii agree. Where one face shows no heartwood it closes between
// them; where the line has run off the edge of one it goes on as a ring beyond
// that edge. Near a face it follows the ring which that face shows. What is no
// one stretch (islands, streaks) follows the rule of distances, held to half the
// island's width.
//
// Knots and other flaws, and places not seen, are those of the nearer sawn face:
// a knot is taken to go straight in as far as half the thickness. Outlines go
// straight from face to face.
//
// A section is drawn as (across, depth), as in package wood; a face is in its
// own coordinates. Lengths are mm.
package depth
