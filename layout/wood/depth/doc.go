// Package depth knows a board below its sawn faces: where heartwood meets
// sapwood once stock is taken off.
//
// Sap lines run along a board, so it is read in sections across it, one about
// every millimetre. In a section the heartwood of a face is one stretch. Where
// the pith is known, the line between the two faces is drawn about it: radius
// and angle go evenly from what one face shows to what the other does, so it
// runs through both sawn lines, is a circle's arc where the radii agree, and
// closes between the faces where one of them shows no heartwood. Where the
// pith is not known it goes straight from one line to the other, which is the
// rule (1 - z/T) d1 + (z/T) d2 = 0 on distances d1 and d2 to the two lines.
//
// What is no one stretch (islands, streaks) follows that rule with distances
// taken across the board, held to half the island's width and 40 mm. Knots and other flaws, and places
// not seen, are those of the nearer sawn face: a knot is taken to go straight
// in as far as half the thickness. Outlines go straight from face to face.
//
// A section is drawn as (across, depth), as in package wood; a face is in its
// own coordinates. Lengths are mm.
package depth
