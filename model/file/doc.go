// Package file reads and writes the project file: YAML that can be written by
// hand, with its version in the first line.
//
//	heartside: 1
//
// Reading is strict. What is not known, has the wrong type, stands twice, is
// missing or breaks a rule of the project is told with file, line, field and
// what to do; several faults are told together. Anchors, aliases and tags are
// not used. A file of a later version gives a VersionError.
//
// Writing keeps the order of keys and trims lengths to 0.001 mm, so that two
// saves can be compared line by line; comments are not kept. A save never
// damages the file it replaces, which stays beside it with .bak added.
//
// Compatibility: keys may be added to version 1, none is renamed, and a file
// that once could be read stays readable.
package file

// Version is the version of the files written.
const Version = 1

// Limits on what is read, checked before memory is taken for it.
const (
	maxBytes = 64 << 20
	maxNodes = 4 << 20 // values and separators
	maxErrs  = 20      // told at once
)
