package file

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"heartside/model"
	"heartside/model/say"
)

// Error is one fault of a file: where it is, what is wrong and what to do.
type Error struct {
	File  string
	Line  int    // counted from 1; 0 where no line can be named
	Field string // "boards[A].faces.1.zones[0].polygon"
	What  string
	Hint  string

	cause error
}

// Error implements error.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d", e.Line)
	}
	b.WriteString(": ")
	if e.Field != "" {
		b.WriteString(e.Field + ": ")
	}
	b.WriteString(e.What)
	if e.Hint != "" {
		b.WriteString("; " + e.Hint)
	}
	return b.String()
}

// Unwrap returns the broken rule of the project, where it is one.
func (e *Error) Unwrap() error { return e.cause }

// Errors are the faults of one file, in the order of its lines; more than 20
// are not told at once.
type Errors []*Error

// Error implements error, one fault a line.
func (l Errors) Error() string {
	s := make([]string, len(l))
	for i, e := range l {
		s[i] = e.Error()
	}
	return strings.Join(s, "\n")
}

// Unwrap returns the faults one by one.
func (l Errors) Unwrap() []error {
	out := make([]error, len(l))
	for i, e := range l {
		out[i] = e
	}
	return out
}

// VersionError tells of a file written by a later program.
type VersionError struct {
	File       string
	Have, Want int // the file's version; the latest that can be read
}

// Error implements error.
func (e *VersionError) Error() string {
	return say.F("%s: the file has version %d and this program reads versions up to %d; open it with a newer Heartside",
		e.File, e.Have, e.Want)
}

// Notice is a remark on a file that could be read.
type Notice struct {
	File  string
	Line  int        // 0 where no line can be named
	Field string     // "" where it is about no one field
	Text  string     // what, and what to do
	Rule  model.Rule // of the project that it is about, "" none
}

// String returns the notice in one line.
func (n Notice) String() string {
	return (&Error{File: n.File, Line: n.Line, Field: n.Field, What: n.Text}).Error()
}

// Cause drops the paths that an error of the file system repeats.
func Cause(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		err = path.Err
	case errors.As(err, &link):
		err = link.Err
	}
	if err != nil && strings.HasSuffix(err.Error(), ".") {
		return unended{err}
	}
	return err
}

// unended is an error of a system that ends its messages with a full stop, to
// stand in the middle of a sentence.
type unended struct{ error }

func (e unended) Error() string { return strings.TrimRight(e.error.Error(), ".") }

func (e unended) Unwrap() error { return e.error }
