// Package grain draws the surface of a sawn board: growth rings round a pith
// cut by the face, fibre, pores, heartwood and sapwood, knots, and the rough
// of what no one has looked at yet. It is an illustration, for boards without
// a photograph: it shows where the zones lie, not what the board looks like.
//
// The rings are those of one solid, so that the two faces of a board belong
// together: cathedral arches where the face lies flat to the rings, straight
// lines where it stands across them. The same specification always gives the
// same picture.
package grain
