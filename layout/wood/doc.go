// Package wood reads the log out of a board: where the pith lies, how wide
// the heartwood is, and whether two photographed faces belong together.
//
// The section of a board is drawn as (across, depth): across from the marked
// edge, 0 to the width; depth below face 1, 0 to the thickness. The pith may
// lie outside it: a negative depth is beyond face 1, one greater than the
// thickness beyond face 2.
//
// A face is given in its own coordinates: x from the marked end, y up from its
// own lower edge, face 2 as seen after rolling the board about its long axis.
// Point (x, y) of face 1 lies over (x, width - y) of face 2.
//
// Lengths are mm.
package wood
