// Package match finds wood that goes together: long edges whose unwanted wood
// has one width all along the joint, so that two strips make one band; book
// and slip matches from boards sawn from one another; panels whose sap lines
// meet over the gap between them; rows of drawer fronts from one board.
//
// Widths, places and coordinates are those of package face: mm, a strip's own
// (s, t), its place (u, v) as seen on the show face. Unwanted wood is what
// face.Wanted does not want; where both kinds are welcome there is none and no
// pairs. Everything is read from the zones of the sawn faces, or from the
// planed face of a strip that has one.
//
// Limits and tolerances are engineering choices with no published source.
package match
