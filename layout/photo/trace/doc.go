// Package trace goes between a mask of a face and the polygons a project file
// holds, and edits masks by hand.
//
// Polygons are in face mm, y up, and lie in layers: later ones on top, the
// face's base where none lies. Regions are 4-connected: cells that meet only
// at a corner are apart. A hand's edit is absolute: it says what a place is,
// and gives a new mask; the one handed in stays as it was.
package trace
