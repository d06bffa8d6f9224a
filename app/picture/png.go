package picture

import (
	"bytes"
	"compress/zlib"
	"errors"
	"image"
	"image/png"
	"io"
	"strings"

	"heartside/model/say"
)

// lookPNG walks the chunks up to the pixels (PNG, third edition). Texts are
// skipped, compressed or not.
func lookPNG(s *source, lim Limits) (raw, error) {
	var out raw
	h, err := s.part(8, 25)
	if err != nil {
		return out, err
	}
	if string(h[4:8]) != "IHDR" {
		return out, say.Error("its first chunk is not the header")
	}
	w, ht := int64(be.Uint32(h[8:])), int64(be.Uint32(h[12:]))
	if err := lim.size(formatPNG, w, ht); err != nil {
		return out, err
	}
	out.w, out.h = int(w), int(ht)
	samples := map[byte]int64{0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[h[17]]
	// Deflate makes at most 1032 bytes of one (RFC 1951: 258 for two bits).
	if bytes := ht * (1 + (w*samples*int64(h[16])+7)/8); bytes/1032 > s.size {
		return out, io.ErrUnexpectedEOF
	}
	for at := int64(8); ; {
		h, err := s.part(at, 8)
		if err != nil {
			return out, err
		}
		n, name := int64(be.Uint32(h)), string(h[4:])
		switch name {
		case "IDAT":
			return out, nil
		case "iCCP":
			if d, err := s.part(at+8, min(n, mostProfile)); err == nil {
				out.profile = inflated(d)
			}
		case "sRGB":
			out.space = "sRGB"
		case "cICP": // primaries of P3 with the curve of sRGB (ITU-T H.273)
			if d, err := s.part(at+8, n); err == nil && n == 4 && d[0] == 12 && d[1] == 13 {
				out.space = say.T("Display P3")
			}
		}
		at += 12 + n
	}
}

// inflated returns the profile of an iCCP chunk, or nil.
func inflated(d []byte) []byte {
	i := bytes.IndexByte(d, 0)
	if i < 0 || i+2 > len(d) {
		return nil
	}
	z, err := zlib.NewReader(bytes.NewReader(d[i+2:]))
	if err != nil {
		return nil
	}
	p, err := io.ReadAll(io.LimitReader(z, mostProfile))
	if err != nil {
		return nil
	}
	return p
}

func decodePNG(s *source) (image.Image, error) {
	img, err := png.Decode(s.whole())
	var not png.UnsupportedError
	switch {
	case errors.As(err, &not):
		return nil, unsupported(say.F("a PNG of a rare kind (%s)", string(not)), err)
	case err != nil && strings.Contains(err.Error(), "not enough pixel data"):
		return nil, truncated(formatPNG, err)
	}
	return img, err
}
