// Package depth knows a board below its sawn faces: where heartwood meets
// sapwood once stock is taken off.
//
// Sap lines run along a board, so it is read in sections across it, one about
// every millimetre. In a section the heartwood of a face is one stretch. The
// line between the two faces is drawn about the pith: angle and radius go over
// from what one face shows to what the other does, so it runs through both
// sawn lines and is a circle's arc where the radii agree. Where one face shows
// no heartwood it closes between them; where the line has run off the edge of
// one it goes on as a ring beyond that edge. Near a face it follows the ring
// which that face shows.
//
// The pith is the one told, else the likeliest by package wood. Where the faces
// do not say on which side of the board it lies, a line that both show goes
// straight from one to the other: (1 - z/T) d1 + (z/T) d2 = 0, with d1 and d2
// the distances to the two lines.
//
// What is no one stretch (islands, streaks) follows that rule with distances
// taken across the board, held to half the island's width and 40 mm. Knots and
// other flaws, and places not seen, are those of the nearer sawn face: a knot
// is taken to go straight in as far as half the thickness. Outlines go straight
// from face to face.
//
// A section is drawn as (across, depth), as in package wood; a face is in its
// own coordinates. Lengths are mm.
package depth
