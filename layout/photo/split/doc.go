// Package split tells heartwood from sapwood on a squared face.
//
// A face is read in cells of 4 mm along the grain and 1 mm across, as the
// logarithm of light: there a shadow adds the same to both sides of the sap
// line, and sapwood adds one step of lightness and hue to heartwood all along
// it. Several guesses at where the sapwood lies (along either long edge, both,
// in the middle, by colour) are fitted, each with the fall of light, by
// expectation maximisation; each is drawn as curves along the grain by dynamic
// programming and judged by the step across them. The best is refined on a
// smooth field that keeps fingers and islands. Where no guess has a step worth
// the name there is no sapwood.
//
// The maker's strokes hold where they are drawn and teach the colours of the
// two woods; elsewhere the face changes only where the evidence is clear.
package split
