// Package offcut tells what is left of boards when strips are cut from them, what
// it may be used for, and where on it a test piece lies that holds heartwood and
// sapwood, so that a finish is tried on both.
//
// Offcuts are rectangles square to their board, in face-1 coordinates: x from
// the marked end, y from the marked edge, mm. Those of a board do not overlap:
// the largest is taken first, a saw cut lies between it and the rest, and what
// is smaller than the least useful size is waste.
package offcut
