// Package look says what speaks against an arrangement of strips, for each
// look a maker may want of a panel: points, each term naming the joint or the
// strips it speaks of. None at all is the best there is.
//
// Looks are about the unwanted wood, sapwood where heartwood is wanted and the
// other way round: none of it on show, at the outside edges, in the middle,
// like to like at every joint, or evenly mixed. All weights are engineering
// choices with no published source; a lone streak weighs more than any joint.
//
// Terms of single strips and of neighbours are local: they depend on the strip,
// how it lies and its place, and on the strip beside it, so that the best order
// by them can be found exactly. All others are at least 0, so that the local
// sum is a bound of the whole.
//
// What is judged is what is seen: the panel's shape less what is hidden. A strip
// by itself does not know where across the panel it comes to lie, so that local
// terms count only what shows anywhere and terms of the whole add the rest. At
// a joint, what is not seen yet speaks neither for nor against.
package look
