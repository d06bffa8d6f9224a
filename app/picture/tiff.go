package picture

import (
	"encoding/binary"
	"errors"
	"image"

	"golang.org/x/image/tiff"

	"heartside/model/say"
)

// lookTIFF reads the first directory (TIFF 6.0).
func lookTIFF(s *source, lim Limits) (raw, error) {
	var out raw
	h, err := s.part(0, min(s.size, 12))
	if err != nil {
		return out, err
	}
	if len(h) < 8 {
		return out, truncated(formatTIFF, nil)
	}
	var order binary.ByteOrder = le
	if h[0] == 'M' {
		order = be
	}
	if len(h) >= 10 && string(h[8:10]) == "CR" {
		return out, unsupported(say.T("a camera's raw file"), nil)
	}
	at := int64(order.Uint32(h[4:]))
	n, err := s.part(at, 2)
	if err != nil {
		return out, err
	}
	dir, err := s.part(at+2, 12*int64(order.Uint16(n)))
	if err != nil {
		return out, err
	}
	ink := uint32(1)
	for ; len(dir) >= 12; dir = dir[12:] {
		e := dir[:12]
		v := order.Uint32(e[8:])
		if order.Uint16(e[2:]) == 3 {
			v = uint32(order.Uint16(e[8:]))
		}
		switch order.Uint16(e) {
		case 254: // a raw file's first picture is a small copy
			if v&1 != 0 {
				return out, unsupported(say.T("a camera's raw file"), nil)
			}
		case 50706:
			return out, unsupported(say.T("a camera's raw file (DNG)"), nil)
		case 256:
			out.w = int(v)
		case 257:
			out.h = int(v)
		case 262:
			ink = v
		case 34675:
			if c := int64(order.Uint32(e[4:])); c <= mostProfile {
				out.profile, _ = s.part(int64(order.Uint32(e[8:])), c)
			}
		}
	}
	if err := lim.size(formatTIFF, int64(out.w), int64(out.h)); err != nil {
		return out, err
	}
	switch ink {
	case 0, 1, 2, 3:
		return out, nil
	case 5:
		return out, unsupported(say.T("a TIFF in printing colours (CMYK)"), nil)
	case 6:
		return out, unsupported(say.T("a TIFF that is compressed as JPEG"), nil)
	case 32803, 34892:
		return out, unsupported(say.T("a camera's raw file"), nil)
	}
	return out, unsupported(say.F("a TIFF of a rare kind (colours of type %d)", ink), nil)
}

func decodeTIFF(s *source) (image.Image, error) {
	img, err := tiff.Decode(s.whole())
	var not tiff.UnsupportedError
	if errors.As(err, &not) {
		return nil, unsupported(say.F("a TIFF of a rare kind (%s)", string(not)), err)
	}
	return img, err
}
