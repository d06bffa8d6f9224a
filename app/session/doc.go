// Package session is the editor without a window: the project on screen, its
// history and selection, the live readings, the warnings in words and the
// fixes found for them.
//
// A Session belongs to one goroutine, the one that draws. Slow work (pictures,
// fixes) runs elsewhere on immutable values and comes back through
// Options.Post; whatever comes back late, about a project no longer on
// screen, is dropped.
package session
