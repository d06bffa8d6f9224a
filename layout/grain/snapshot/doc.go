// Package snapshot models boards sawn from a log and the photographs a maker
// takes of them, together with the truth: where the board's corners lie in the
// picture, and which wood every millimetre of a face is. Such pictures try
// what finds boards and sapwood in photographs.
//
// A board is one solid. Its rings, heartwood, knots and bark are fields of
// space round a wandering pith, so that faces, edges and ends agree. The
// photograph is a ray cast into a box on a ground, under modelled light,
// through a pinhole with the bow of photo.Lens, so that the corners told are
// exact.
//
// Lengths are millimetres. On the board x runs from the marked end, y from the
// marked edge and d down from face 1; face 2 is seen after rolling the board
// about its long axis, so that its lower edge is the other edge. The numbers
// of woods, grounds and lights are drawing choices made by eye, unless a
// source stands beside them.
package snapshot
