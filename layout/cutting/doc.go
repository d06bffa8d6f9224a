// Package cutting lays rectangles on boards: the blanks that are sawn out for
// strips, whether they fit, what stays free between them, the cuts in order,
// and where a strip under the hand snaps to.
//
// Places on a board are in face-1 coordinates: x from the marked end, y from
// the marked edge, mm. Nothing here reads a face for its looks; that is
// package face.
package cutting
