package picture

import (
	"bufio"
	"bytes"
	"io"
	"strings"
	"time"

	"github.com/bep/imagemeta"
)

// notes are what a camera writes beside the pixels, as far as they are read.
type notes struct {
	orientation int // 1 to 8; 0: not said
	taken       time.Time
	focal35     float64
	camera      string
}

// wanted are the tags that are read. The place is never among them.
var wanted = map[string]bool{
	"Orientation": true, "DateTimeOriginal": true, "OffsetTimeOriginal": true,
	"FocalLengthIn35mmFormat": true, "Make": true, "Model": true,
}

// readExif reads the notes; what cannot be read is left out, since a picture
// is one without them too. own holds the notes alone where they are known.
func readExif(s *source, format string, own []byte) notes {
	var r io.ReadSeeker = s.whole()
	if own != nil { // written as a TIFF without pixels
		r, format = bytes.NewReader(own), formatTIFF
	}
	kinds := map[string]imagemeta.ImageFormat{
		formatJPEG: imagemeta.JPEG, formatPNG: imagemeta.PNG, formatWebP: imagemeta.WebP,
		formatTIFF: imagemeta.TIFF, formatHEIC: imagemeta.HEIF,
	}
	got := map[string]any{}
	_ = guard(format, func() error {
		_, err := imagemeta.Decode(imagemeta.Options{
			R:           r,
			ImageFormat: kinds[format],
			Sources:     imagemeta.EXIF,
			ShouldHandleTag: func(t imagemeta.TagInfo) bool {
				return wanted[t.Tag] && (t.Namespace == "IFD0" || t.Namespace == "IFD0/ExifIFDP")
			},
			HandleTag: func(t imagemeta.TagInfo) error {
				got[t.Tag] = t.Value
				return nil
			},
		})
		return err
	})
	n := notes{orientation: int(number(got["Orientation"])), focal35: number(got["FocalLengthIn35mmFormat"])}
	if n.orientation < 1 || n.orientation > 8 {
		n.orientation = 0
	}
	// Longer lenses than this are made for the moon.
	if !(n.focal35 > 0 && n.focal35 <= 2000) {
		n.focal35 = 0
	}
	maker, model := text(got["Make"]), text(got["Model"])
	if strings.HasPrefix(strings.ToLower(model), strings.ToLower(maker)) {
		maker = ""
	}
	n.camera = strings.TrimSpace(maker + " " + model)
	n.taken = when(text(got["DateTimeOriginal"]), text(got["OffsetTimeOriginal"]))
	return n
}

// when reads a date as cameras write it, in UTC where no zone is known.
func when(date, zone string) time.Time {
	if t, err := time.Parse("2006:01:02 15:04:05-07:00", date+zone); err == nil {
		return t
	}
	t, err := time.Parse("2006:01:02 15:04:05", date)
	if err != nil {
		return time.Time{}
	}
	return t
}

func number(v any) float64 {
	switch n := v.(type) {
	case uint8:
		return float64(n)
	case uint16:
		return float64(n)
	case uint32:
		return float64(n)
	case int:
		return float64(n)
	case float64:
		return n
	}
	return 0
}

func text(v any) string {
	s, _ := v.(string)
	return clean(s)
}

// buffered reads a source from its start on, a block at a time.
func buffered(s *source) *bufio.Reader { return bufio.NewReaderSize(io.Reader(s.whole()), 1<<16) }
