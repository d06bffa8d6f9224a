// Package stock finds the wood for panels and solid parts: which strips come
// from which board, and where on it.
//
// A board is looked at square to itself and, where that helps, turned by a few
// degrees so that strips follow its sap line or its waney edge. In each such
// frame what is clear is kept as rooms: the rectangles in which a strip as glued
// may lie, none of which can grow. Rooms keep within the outlines of both
// faces, a kerf away from other blanks and the margin away from flaws. Strips
// are laid in bundles, some lanes side by side in a corner of a room, and every
// bundle leaves new rooms. Plan searches over sequences of bundles with branch
// and bound: where it comes to the end, no plan made of such bundles is better
// (Result.Proved). Where there are too many, parts of a good plan are taken
// out and laid anew.
//
// Several looks for plans that are clearly different from each other, Scarce
// for boards that a part cannot do without, and Spoiled for the least change
// where wood is lost.
//
// Summed-area tables of both faces tell the wood of any rectangle at once
// (Crow 1984, "Summed-area tables for texture mapping").
//
// Coordinates are those of package face, lengths mm, areas mm2, shares 0 to 1.
package stock
