// Package wane finds the outline of a board with waney edges: one whose long
// sides are as the tree grew, so that no rectangle can be laid on them.
//
// A rectangle is put about the board instead, its short sides on the two sawn
// ends: by the maker, or by Frame. Its width follows from the perspective
// (Width), so that only the length need be measured. In the squared picture of
// that rectangle and what lies about it (Surround), Trace follows both edges
// from end to end: colours and texture of wood and of ground are learned from
// the middle and from what lies beyond the rectangle, as mixtures of normal
// distributions, and each edge is the cheapest path along the board.
//
// Pixels, corners and the face are those of package photo.
package wane
