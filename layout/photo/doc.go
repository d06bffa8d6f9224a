// Package photo turns a photograph of a board into a picture of its face that
// is true to scale.
//
// Pixels of a photograph count from its top left corner, the first pixel's
// centre at (0.5, 0.5), y down. The four corners are those of the face's own
// (0, 0), (length, 0), (length, width) and (0, width), anticlockwise as seen.
// A squared picture shows the face as seen: its row 0 lies at y = width.
package photo
