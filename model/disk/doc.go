// Package disk is what the program needs of a file system, as an interface, so
// that every step can be made to fail in a test, and the one way files are
// written: a new file beside the old one, brought to disk, then renamed. At any
// moment the name leads to the old or the new file, whole.
//
// Package faulty holds the file systems that fail.
package disk
