package picture

import (
	"bytes"
	"image"
	"io"

	"golang.org/x/image/webp"

	"heartside/model/say"
)

// lookWebP walks the chunks up to the pixels (WebP container specification).
func lookWebP(s *source, lim Limits) (raw, error) {
	var out raw
	h, err := s.part(0, 12)
	if err != nil {
		return out, err
	}
	if int64(le.Uint32(h[4:]))+8 > s.size {
		return out, io.ErrUnexpectedEOF
	}
	for at := int64(12); ; {
		h, err := s.part(at, 8)
		if err != nil {
			return out, err
		}
		n, name := int64(le.Uint32(h[4:])), string(h[:4])
		if n > s.size-at-8 {
			return out, io.ErrUnexpectedEOF
		}
		switch name {
		case "VP8X":
			f, err := s.part(at+8, min(n, 10))
			if err != nil || len(f) < 10 {
				return out, io.ErrUnexpectedEOF
			}
			if f[0]&2 != 0 {
				return out, unsupported(say.T("a moving picture"), nil)
			}
		case "ICCP":
			if out.profile, err = s.part(at+8, min(n, mostProfile)); err != nil {
				return out, err
			}
		case "VP8 ", "VP8L":
			if name == "VP8 " {
				// Luma runs from 16 to 235 here, weighed as in ITU-R BT.601.
				out.ycc = matrixOf(0.299, 0.114, false)
			}
			c, err := webp.DecodeConfig(s.whole())
			if err != nil {
				return out, err
			}
			out.w, out.h = c.Width, c.Height
			out.exif = exifOfWebP(s, at+8+n+n&1)
			return out, lim.size(formatWebP, int64(c.Width), int64(c.Height))
		}
		at += 8 + n + n&1
	}
}

// exifOfWebP returns the camera's notes, which follow the pixels, or nil.
func exifOfWebP(s *source, at int64) []byte {
	for {
		h, err := s.part(at, 8)
		if err != nil {
			return nil
		}
		n := int64(le.Uint32(h[4:]))
		if string(h[:4]) == "EXIF" {
			d, err := s.part(at+8, min(n, 1<<20))
			if err != nil {
				return nil
			}
			return bytes.TrimPrefix(d, []byte(say.T("Exif\x00\x00")))
		}
		at += 8 + n + n&1
	}
}

func decodeWebP(s *source) (image.Image, error) { return webp.Decode(buffered(s)) }
