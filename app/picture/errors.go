package picture

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"syscall"

	"heartside/model/say"
)

// Kind sorts the reasons for which a file is refused.
type Kind int

// The reasons.
const (
	NotAPicture Kind = iota // something else: a text, a film, nothing at all
	Truncated               // the file ends before the picture does
	Damaged                 // the picture breaks the rules of its format
	TooLarge                // more pixels or bytes than Limits allow
	Unsupported             // a picture of a kind that is not read
	Unreadable              // the file could not be opened or read
)

// String names the kind, for tests and traces.
func (k Kind) String() string {
	names := [...]string{"not a picture", "truncated", "damaged", "too large", "unsupported", "unreadable"}
	if k < 0 || int(k) >= len(names) {
		return fmt.Sprintf("Kind(%d)", int(k))
	}
	return names[k]
}

// Error says why a file gives no picture.
type Error struct {
	Kind Kind
	What string // what is wrong, a clause: "this is a PDF document"
	Do   string // what to do about it, a clause: "save the picture as JPEG"
	Err  error  // the cause, or nil
}

// Error implements error: what it is, and what to do.
func (e *Error) Error() string { return e.What + "; " + e.Do }

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// What to do, in words used more than once.
func saveJPEG() string  { return say.T("save the picture as JPEG and choose that file") }
func copyAgain() string { return say.T("copy it from the camera or telephone again") }

func truncated(format string, err error) *Error {
	return &Error{Truncated, say.F("the %s file ends before the picture does", format), copyAgain(), err}
}

func damaged(format string, err error) *Error {
	line, _, _ := strings.Cut(err.Error(), "\n") // some tell where in the decoder it was
	return &Error{Damaged, say.F("the %s file is damaged (%s)", format, line), say.F("%s, or %s", copyAgain(), saveJPEG()), err}
}

func unsupported(what string, err error) *Error {
	return &Error{Unsupported, say.F("this is %s, which is not read here", what), saveJPEG(), err}
}

// explain turns what a decoder said into an *Error. What ended by its context
// stays as it is.
func explain(format string, err error) error {
	var known *Error
	switch {
	case err == nil:
		return nil
	case errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) || errors.As(err, &known):
		return err
	case errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF):
		return truncated(format, err)
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return unreadable(err)
	}
	return damaged(format, err)
}

// unreadable explains an error of the file system.
func unreadable(err error) *Error {
	e := &Error{Unreadable, say.F("the file cannot be read (%v)", bare(err)), say.F("try again, or %s", copyAgain()), err}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.What, e.Do = say.T("there is no such file"), say.T("choose it again: it was moved, renamed or deleted")
	case errors.Is(err, fs.ErrPermission):
		e.What, e.Do = say.T("the file may not be read"), say.T("change its permissions, or copy it to a folder of your own")
	case errors.Is(err, syscall.ENOTDIR), errors.Is(err, syscall.ENAMETOOLONG), errors.Is(err, syscall.EINVAL):
		e.What, e.Do = say.T("this is not the name of a file"), say.T("choose the file again")
	}
	return e
}

// bare returns the cause of a path error without the path.
func bare(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// guard calls f and turns a panic of a decoder into an error.
func guard(format string, f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = damaged(format, say.Errorf("decoder: %v", r))
		}
	}()
	return explain(format, f())
}
