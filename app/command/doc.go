// Package command is the program without a window: check reads a project and
// says what is there, sheet writes the layout sheet. Exit codes: 0 done, 1
// done with warnings (check), 2 error. Errors go to stderr: what, where, what
// to do.
package command

// Exit codes of every command.
const (
	Done     = 0
	Warnings = 1
	Failed   = 2
)
