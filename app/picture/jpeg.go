package picture

import (
	"bufio"
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"io"

	"heartside/model/say"
)

// mostScans bounds the passes of a progressive JPEG: real ones have about
// ten, and each can cost time for the whole picture while taking a few bytes
// of the file. An engineering choice.
const mostScans = 100

// lookJPEG walks the segments up to the pixels (ITU-T T.81, annex B).
func lookJPEG(s *source, lim Limits) (raw, error) {
	var out raw
	var parts iccParts
	var frame byte
	at := int64(2)
	for {
		h, err := s.part(at, 4)
		if err != nil {
			return out, err
		}
		if h[0] != 0xff {
			return out, say.Errorf("no marker at byte %d", at)
		}
		marker := h[1]
		if marker == 0xff { // filling
			at++
			continue
		}
		if marker == 0x01 || marker >= 0xd0 && marker <= 0xd8 { // without a length
			at += 2
			continue
		}
		if marker == 0xd9 {
			return out, say.Error("it ends without a picture")
		}
		n := int64(be.Uint16(h[2:]))
		if n < 2 {
			return out, say.Errorf("a segment of %d bytes", n)
		}
		switch {
		case marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc:
			if frame != 0 {
				return out, say.Error("two frames")
			}
			frame = marker
			if err := out.frame(s, at+4, marker); err != nil {
				return out, err
			}
			if err := lim.size(formatJPEG, int64(out.w), int64(out.h)); err != nil {
				return out, err
			}
		case marker == 0xe2:
			seg, err := s.part(at+4, n-2)
			if err != nil {
				return out, err
			}
			parts.add(seg)
		case marker == 0xda:
			if frame == 0 {
				return out, say.Error("a scan without a frame")
			}
			out.profile = parts.joined()
			return out, fits(s, &out, frame, at)
		}
		at += 2 + n
	}
}

// frame reads the size from a frame's segment, and refuses what is not
// decoded.
func (r *raw) frame(s *source, at int64, marker byte) error {
	f, err := s.part(at, 6)
	if err != nil {
		return err
	}
	r.h, r.w = int(be.Uint16(f[1:])), int(be.Uint16(f[3:]))
	switch {
	case marker > 0xc2:
		return unsupported(say.T("a JPEG of a rare kind (lossless, or coded arithmetically)"), nil)
	case f[0] != 8:
		return unsupported(say.F("a JPEG of %d bits", f[0]), nil)
	case r.h == 0 && r.w > 0:
		return unsupported(say.T("a JPEG that says its height at the end"), nil)
	}
	if f[5] == 4 {
		r.space = "CMYK"
	}
	return nil
}

// fits checks that the rest of the file can hold the picture, before memory is
// taken for it: each block of 8 x 8 pixels takes at least two codes of a bit
// where there is one scan, one where there are more.
func fits(s *source, r *raw, frame byte, at int64) error {
	blocks := int64(r.w/8) * int64(r.h/8)
	bits := int64(2)
	if frame == 0xc2 {
		bits = 1
	}
	if s.size-at < blocks*bits/8 {
		return io.ErrUnexpectedEOF
	}
	if frame != 0xc2 {
		return nil
	}
	in := buffered(s)
	if _, err := in.Discard(int(at)); err != nil {
		return err
	}
	scans := 0
	for {
		// Within coded pixels 0xff comes with 0 or a restart after it.
		_, err := in.ReadSlice(0xff)
		for err != nil {
			if err == io.EOF {
				return nil // the decoder will say where it ends
			}
			if !errors.Is(err, bufio.ErrBufferFull) {
				return err
			}
			_, err = in.ReadSlice(0xff)
		}
		b, err := in.ReadByte()
		switch {
		case err == io.EOF || b == 0xd9:
			return nil
		case err != nil:
			return err
		case b == 0xff:
			if err := in.UnreadByte(); err != nil {
				return err
			}
		case b == 0xda:
			if scans++; scans > mostScans {
				return unsupported(say.F("a JPEG of more than %d passes", mostScans), nil)
			}
		}
	}
}

func decodeJPEG(s *source) (image.Image, error) {
	img, err := jpeg.Decode(s.whole())
	var not jpeg.UnsupportedError
	if errors.As(err, &not) {
		return nil, unsupported(say.F("a JPEG of a rare kind (%s)", string(not)), err)
	}
	return img, err
}

// iccParts collects a profile that is cut over several segments (ICC.1:2022,
// annex B.4).
type iccParts struct {
	got  [256][]byte
	size int
}

func (p *iccParts) add(seg []byte) {
	rest, ok := bytes.CutPrefix(seg, []byte("ICC_PROFILE\x00"))
	if !ok || len(rest) < 2 || p.got[rest[0]] != nil || p.size+len(rest) > mostProfile {
		return
	}
	p.got[rest[0]] = rest[2:]
	p.size += len(rest) - 2
}

func (p *iccParts) joined() []byte {
	var all []byte
	for _, part := range p.got {
		all = append(all, part...)
	}
	return all
}
