//go:build !noheic

package picture

import (
	"image"

	"github.com/gen2brain/heic"

	"heartside/model/say"
)

const withHEIC = true

// lookHEIC reads the tables of a still picture (ISO/IEC 23008-12) and checks
// every size in them, down to those in the coded pictures: the decoder sets no
// bounds of its own.
func lookHEIC(s *source, lim Limits) (raw, error) {
	var out raw
	f, err := readHEIF(s)
	if err != nil {
		return out, err
	}
	main, ok := f.items[f.primary]
	if !ok {
		return out, say.Error("it has no main picture")
	}
	switch main.kind {
	case "hvc1", "grid":
	case "av01":
		return out, unsupported(say.T("an AVIF picture"), nil)
	default:
		return out, unsupported(say.F("a HEIC picture of a rare kind (%s)", main.kind), nil)
	}
	if err := f.check(s, lim); err != nil {
		return out, err
	}
	size, ok := f.prop(main, "ispe")
	if !ok {
		return out, say.Error("it does not say its size")
	}
	out.w, out.h = int(be.Uint32(size[4:])), int(be.Uint32(size[8:]))
	if main.kind == "grid" {
		if err := f.checkGrid(s, main, lim); err != nil {
			return out, err
		}
	}
	// The decoder turns the picture as these say, and what EXIF says of the
	// same turn no longer holds.
	out.turn, out.turned = 1, 1
	for _, i := range main.props {
		switch p := f.props[i]; p.kind {
		case "clap":
			if out.w, out.h = cropped(p.data, out.w, out.h); out.w <= 0 || out.h <= 0 {
				return out, errSize
			}
		case "irot":
			for range p.data[0] & 3 {
				out.turned = turnLeft[out.turned]
				out.w, out.h = out.h, out.w
			}
		case "imir":
			if p.data[0]&1 == 0 { // top and bottom change places: half a turn, and mirrored
				out.turned = turnLeft[turnLeft[out.turned]]
			}
			out.turned = flop[out.turned]
		case "colr":
			out.colour(p.data)
		}
	}
	if out.w < leastAcross {
		return out, unsupported(say.F("a HEIC picture less than %d pixels wide", leastAcross), nil)
	}
	return out, nil
}

// leastAcross is the width from which on rows lie in the decoder's memory as
// its Go side takes them to: libheif stores none shorter than 64 values, and
// chroma has half as many as there are pixels.
const leastAcross = 128

// cropped returns the size that a clap box leaves (ISO/IEC 14496-12, 12.1.4).
func cropped(d []byte, w, h int) (int, int) {
	nw, dw, nh, dh := be.Uint32(d), be.Uint32(d[4:]), be.Uint32(d[8:]), be.Uint32(d[12:])
	if dw == 0 || dh == 0 || int64(nw/dw) > int64(w) || int64(nh/dh) > int64(h) {
		return 0, 0
	}
	return int(nw / dw), int(nh / dh)
}

// turnLeft and flop are the orientations, as EXIF numbers them, of a picture
// that is to be turned further: a quarter anticlockwise, or mirrored left to
// right. Entry 0 is not used.
var (
	turnLeft = [9]int{0, 8, 5, 6, 7, 4, 1, 2, 3}
	flop     = [9]int{0, 2, 1, 4, 3, 6, 5, 8, 7}
)

// colour reads a colr box (ISO/IEC 14496-12, 12.1.5).
func (r *raw) colour(d []byte) {
	switch {
	case len(d) >= 4 && (string(d[:4]) == "prof" || string(d[:4]) == "rICC"):
		r.profile = d[4:]
	case len(d) >= 11 && string(d[:4]) == "nclx":
		primaries, weights, full := be.Uint16(d[4:]), be.Uint16(d[8:]), d[10]&0x80 != 0
		switch primaries {
		case 1, 2, 5, 6:
		case 12:
			r.space = say.T("Display P3")
		default:
			r.space = say.F("H.273 primaries %d", primaries)
		}
		switch weights {
		case 0:
			r.ycc = &matrix{identical: true}
		case 1:
			r.ycc = matrixOf(0.2126, 0.0722, full)
		case 9:
			r.ycc = matrixOf(0.2627, 0.0593, full)
		default:
			if !full {
				r.ycc = matrixOf(0.299, 0.114, false)
			}
		}
	}
}

// decodeHEIC decodes with libheif and libde265, compiled to WebAssembly and
// run in a sandbox: faults of theirs become errors.
func decodeHEIC(s *source) (image.Image, error) {
	if err := s.ctx.Err(); err != nil {
		return nil, err
	}
	return heic.Decode(s.whole())
}
