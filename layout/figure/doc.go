// Package figure finds how the grain runs on the face of a board, from its
// picture or from lines the maker drew, and what figure a strip shows: straight,
// slanting, or the arches of a flat-sawn board.
//
// Directions are of lines, in degrees from the length, anticlockwise, above -90
// up to 90: on a map from the board's length in the face's own coordinates (y
// up), of a strip from u as it lies. Lengths are mm.
//
// The direction in a picture is that of least change, from the structure tensor
// (Bigun and Granlund 1987, "Optimal orientation detection of linear symmetry";
// Foerstner and Guelch 1987, "A fast operator for detection and precise
// location of distinct points, corners and centres of circular features").
//
// What is called straight, what counts as an arch, and all weights are
// engineering choices with no published source.
package figure
