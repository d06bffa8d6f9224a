//go:build unix

package picture

import (
	"errors"
	"path/filepath"
	"syscall"
	"testing"
)

// Opening a pipe that nobody writes to would wait for ever.
func TestPipeIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "photo.jpg")
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skip(err)
	}
	_, err := Open(path)
	var e *Error
	if !errors.As(err, &e) || e.Kind != NotAPicture {
		t.Errorf("%v", err)
	}
}
