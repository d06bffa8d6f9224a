package ui

import (
	"bytes"
	"encoding/binary"
	"io"
	"os"
	"strings"
	"time"

	"heartside/app/picture"
	"heartside/model/say"
)

// exifWithin is how much of a picture's beginning is searched for the note of
// the camera, bytes: the note is the first part of the file and holds at most
// 64 KB.
const exifWithin = 1 << 17

// takenAt reads when a picture was taken from the camera's note in it, in the
// camera's own time; zero where there is none.
func takenAt(path string) time.Time {
	f, err := os.Open(path)
	if err != nil {
		return time.Time{}
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, exifWithin))
	if err != nil {
		return time.Time{}
	}
	if t := exifTime(data); !t.IsZero() {
		return t
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return time.Time{}
	}
	info, err := picture.Stat(f, picture.Limits{}) // in other formats the note lies elsewhere
	if err != nil {
		return time.Time{}
	}
	return info.Taken
}

// Tags of the note, from the EXIF standard (CIPA DC-008): where the camera's
// own table lies, when the picture was taken, when the file was written.
const (
	tagExif     = 0x8769
	tagOriginal = 0x9003
	tagWritten  = 0x0132
)

// exifTime finds the time in the bytes of a picture.
func exifTime(data []byte) time.Time {
	i := bytes.Index(data, []byte(say.T("Exif\x00\x00")))
	if i < 0 || len(data) < i+14 {
		return time.Time{}
	}
	t := tiff{data: data[i+6:], order: binary.ByteOrder(binary.LittleEndian)}
	if string(t.data[:2]) == "MM" {
		t.order = binary.BigEndian
	}
	at := int(t.order.Uint32(t.data[4:]))
	if sub, _, ok := t.find(at, tagExif); ok {
		if when := t.when(sub, tagOriginal); !when.IsZero() {
			return when
		}
	}
	return t.when(at, tagWritten)
}

// tiff is the table of tags that the note is made as.
type tiff struct {
	data  []byte
	order binary.ByteOrder
}

// find returns the value field of a tag in the table at an offset, and its
// count.
func (t tiff) find(at, tag int) (value, n int, ok bool) {
	if at < 0 || at+2 > len(t.data) {
		return 0, 0, false
	}
	for i := range int(t.order.Uint16(t.data[at:])) {
		e := at + 2 + 12*i
		if e+12 > len(t.data) {
			return 0, 0, false
		}
		if int(t.order.Uint16(t.data[e:])) == tag {
			return int(t.order.Uint32(t.data[e+8:])), int(t.order.Uint32(t.data[e+4:])), true
		}
	}
	return 0, 0, false
}

// when reads a time such as "2031:05:01 09:00:00".
func (t tiff) when(at, tag int) time.Time {
	v, n, ok := t.find(at, tag)
	if !ok || n < 19 || v < 0 || v+19 > len(t.data) {
		return time.Time{}
	}
	out, err := time.Parse("2006:01:02 15:04:05", strings.TrimRight(string(t.data[v:v+19]), "\x00 "))
	if err != nil {
		return time.Time{}
	}
	return out
}
