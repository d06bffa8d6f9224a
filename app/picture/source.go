package picture

import (
	"bytes"
	"context"
	"encoding/binary"
	"io"
	"io/fs"
	"os"

	"heartside/model/say"
)

// Limits bound what is read. Zero fields take the values of DefaultLimits.
type Limits struct {
	Pixels int   // of a picture, stored width times height
	Bytes  int64 // of a file
}

// The limits where none are given are engineering choices: telephones make
// pictures of up to 50 million pixels, and a 16-bit TIFF of 30 million takes
// 180 MB.
const (
	defaultPixels = 64_000_000
	defaultBytes  = 200_000_000
)

// DefaultLimits returns the limits that hold where none are given.
func DefaultLimits() Limits { return Limits{Pixels: defaultPixels, Bytes: defaultBytes} }

func (l Limits) filled() Limits {
	if l.Pixels <= 0 {
		l.Pixels = defaultPixels
	}
	if l.Bytes <= 0 {
		l.Bytes = defaultBytes
	}
	return l
}

// size holds a picture's size against the limits.
func (l Limits) size(format string, w, h int64) error {
	switch {
	case w <= 0 || h <= 0:
		return damaged(format, say.Errorf("its size is %d x %d pixels", w, h))
	case w > 1<<20 || h > 1<<20 || w*h > int64(l.Pixels):
		return &Error{TooLarge, say.F("the picture is %d x %d pixels, more than the %d million that can be opened", w, h, l.Pixels/1e6), say.T("save it smaller and choose that file"), nil}
	}
	return nil
}

// Open opens the photograph at a path for Stat or Decode. What is no plain
// file, or cannot be opened, gives an *Error.
func Open(path string) (*os.File, error) {
	// Looked at first: opening a pipe would wait for its other end.
	fi, err := os.Stat(path)
	if err != nil {
		return nil, unreadable(err)
	}
	if err := plain(fi); err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unreadable(err)
	}
	return f, nil
}

// plain refuses folders, pipes and devices.
func plain(fi fs.FileInfo) error {
	m := fi.Mode()
	switch {
	case m.IsRegular():
		return nil
	case m.IsDir():
		return &Error{NotAPicture, say.T("this is a folder"), say.T("choose a photograph in it"), nil}
	case m&fs.ModeNamedPipe != 0, m&fs.ModeSocket != 0:
		return &Error{NotAPicture, say.T("this is a pipe between programs, not a file"), say.T("choose a photograph"), nil}
	}
	return &Error{NotAPicture, say.T("this is a device, not a file"), say.T("choose a photograph"), nil}
}

// source is a file that can be read at any place. Reading stops when its
// context ends.
type source struct {
	ctx  context.Context
	r    io.ReaderAt
	size int64
}

// sourceOf returns r as a source. What cannot be read at any place is read
// whole, as far as the limits let it.
func sourceOf(ctx context.Context, r io.Reader, lim Limits) (*source, error) {
	if f, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if fi, err := f.Stat(); err == nil {
			if err := plain(fi); err != nil {
				return nil, err
			}
		}
	}
	s := &source{ctx: ctx}
	if at, ok := r.(interface {
		io.ReaderAt
		io.Seeker
	}); ok {
		here, err := at.Seek(0, io.SeekCurrent)
		if err == nil {
			s.size, err = at.Seek(0, io.SeekEnd)
		}
		if err == nil {
			_, err = at.Seek(here, io.SeekStart)
		}
		if err != nil {
			return nil, unreadable(err)
		}
		s.r = at
	} else {
		all, err := io.ReadAll(io.LimitReader(stopping{ctx, r}, lim.Bytes+1))
		if err != nil {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			return nil, unreadable(err)
		}
		s.r, s.size = bytes.NewReader(all), int64(len(all))
	}
	switch {
	case s.size == 0:
		return nil, &Error{NotAPicture, say.T("the file is empty"), copyAgain(), nil}
	case s.size > lim.Bytes:
		return nil, &Error{TooLarge, say.F("the file is larger than the %d MB that can be opened", lim.Bytes/1e6), say.T("save the picture as JPEG, or smaller, and choose that file"), nil}
	}
	return s, nil
}

// stopping reads until its context ends.
type stopping struct {
	ctx context.Context
	r   io.Reader
}

func (s stopping) Read(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.r.Read(p)
}

// ReadAt implements io.ReaderAt.
func (s *source) ReadAt(p []byte, off int64) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	if off < 0 {
		return 0, say.Error("a place before the file's start")
	}
	return s.r.ReadAt(p, off)
}

// whole returns a reader of everything, that can be read at any place too.
func (s *source) whole() *io.SectionReader { return io.NewSectionReader(s, 0, s.size) }

// part returns n bytes from off, or io.ErrUnexpectedEOF where the file is
// shorter: nothing is allocated for bytes that are not there.
func (s *source) part(off, n int64) ([]byte, error) {
	if off < 0 || n < 0 || off > s.size || n > s.size-off {
		return nil, io.ErrUnexpectedEOF
	}
	p := make([]byte, n)
	k, err := s.ReadAt(p, off)
	if int64(k) == n {
		return p, nil
	}
	if err == nil || err == io.EOF {
		err = io.ErrUnexpectedEOF
	}
	return nil, err
}

// head returns up to n bytes from the start.
func (s *source) head(n int64) ([]byte, error) { return s.part(0, min(n, s.size)) }

var (
	be = binary.BigEndian
	le = binary.LittleEndian
)
