// Package ui is the window: menu, action row, the drawing surface, readings,
// warnings and dialogs. It is the only package that knows the toolkit.
//
// The voice: labels are in sentence case; a message says what is, where, and
// what to do next; every number carries its unit; "sapwood" is written in full
// where it first appears; a machine is never named by a word that means one
// thing in one country and another elsewhere: say "flatten" and "thickness".
//
// State flows one way. The session holds the project and tells the window of
// each change; the window shows it; widgets ask for edits through actions and
// never keep project state of their own. Everything here runs on the toolkit's
// own goroutine; work that takes longer than a frame runs elsewhere and comes
// back through Window.post.
package ui
