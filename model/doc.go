// Package model is the project: boards, panels, strips, limits and climate as
// one immutable value, the closed set of edits that make a new one, the
// history of them, and the rules a project must keep.
//
// A *Project and everything it points to is never changed once published.
// Edits copy what they touch and share the rest, so an unchanged board or
// panel keeps its pointer; readers use that to know what is new. Lengths are
// millimetres, angles degrees anticlockwise.
package model
