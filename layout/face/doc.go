// Package face reads the faces of a panel from its strips: shares, contrast,
// bands and their excuses, joints, lone streaks.
//
// Panels, boards and strips here are plain values with no file, clock or
// screen behind them. Coordinates are those of the project: a board's x from
// its marked end, y from its marked edge, each face in its own coordinates; a
// panel's X along the grain from the left and Y from the front edge.
package face
