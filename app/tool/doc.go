// Package tool turns pointer and key events on the drawing surface into edits
// of the project. Each tool is a small state machine: an event comes in, the
// state answers with the next state and tells its Host what to preview, commit
// or drop. Nothing here knows a window, so tables of events test it.
//
// A gesture previews from the project as it was when the gesture began, every
// time anew, so that a drag cannot drift; it commits once, at release; Escape
// drops it.
//
// Places on the surface are in surface units, y down. Places on boards and
// panels are millimetres in their own axes.
package tool
