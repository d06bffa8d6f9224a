// Package rings reads the end of a board: where the pith lies, from clicks on
// rings or from the rings in the picture, and how wide the heartwood is.
//
// Points of a section are (across, depth), mm: X from the marked edge, 0 to
// the width; Y below face 1, 0 to the thickness. The pith may lie outside.
package rings
