// Package outline finds a board in a photograph: the four corners of its face
// and the bow of the lens. It knows the board's length and width, which the
// maker measured, and uses them as the strongest check of what it finds.
//
// Pixels, corners and the face are those of package photo. A board that lies
// left to right, up to 45 degrees either way, has its left end at x = 0; one
// that stands has the end at the bottom of the picture there.
package outline
