//go:build !noheic

package picture

import "heartside/model/say"

// sequenceSet is the kind of unit that holds a sequence parameter set (ITU-T
// H.265, table 7-1).
const sequenceSet = 33

var errSet = say.Later("its parameter set cannot be read")

// sizeOfSet returns the size of the pictures a sequence parameter set is for,
// cropped as they are shown (ITU-T H.265, 7.3.2.2). unit begins with the two
// bytes of its header.
func sizeOfSet(unit []byte) (w, h int, err error) {
	b := &bitsReader{p: unescaped(unit[2:])}
	b.bits(4)
	layers := b.bits(3)
	b.bits(1)
	// profile_tier_level: 88 bits, the level, and the same of lower layers.
	b.skip(88 + 8)
	var profile, level [8]bool
	for i := range layers {
		profile[i], level[i] = b.bits(1) == 1, b.bits(1) == 1
	}
	if layers > 0 {
		b.skip(2 * int(8-layers))
	}
	for i := range layers {
		if profile[i] {
			b.skip(88)
		}
		if level[i] {
			b.skip(8)
		}
	}
	b.golomb()
	chroma := b.golomb()
	if chroma == 3 {
		b.bits(1)
	}
	width, height := int64(b.golomb()), int64(b.golomb())
	if b.bits(1) == 1 {
		// The window is in units of the chroma's pixels.
		ux, uy := int64(1), int64(1)
		if chroma == 1 || chroma == 2 {
			ux = 2
		}
		if chroma == 1 {
			uy = 2
		}
		left, right, top, bottom := int64(b.golomb()), int64(b.golomb()), int64(b.golomb()), int64(b.golomb())
		width -= ux * (left + right)
		height -= uy * (top + bottom)
	}
	if b.short || width <= 0 || height <= 0 || chroma > 3 {
		return 0, 0, errSet
	}
	return int(width), int(height), nil
}

// unescaped takes out the bytes that keep start codes from appearing (ITU-T
// H.265, 7.3.1.1). Only the front of a set is needed.
func unescaped(p []byte) []byte {
	out, zeros := make([]byte, 0, 256), 0
	for _, v := range p[:min(len(p), 1024)] {
		if zeros >= 2 && v == 3 {
			zeros = 0
			continue
		}
		if v == 0 {
			zeros++
		} else {
			zeros = 0
		}
		out = append(out, v)
	}
	return out
}

type bitsReader struct {
	p     []byte
	at    int
	short bool
}

func (b *bitsReader) bits(n int) (v uint32) {
	for range n {
		if b.at>>3 >= len(b.p) {
			b.short = true
			return 0
		}
		v = v<<1 | uint32(b.p[b.at>>3]>>(7-b.at&7)&1)
		b.at++
	}
	return v
}

func (b *bitsReader) skip(n int) { b.at += n }

// golomb reads an Exp-Golomb code (ITU-T H.265, 9.2).
func (b *bitsReader) golomb() uint32 {
	n := 0
	for b.bits(1) == 0 {
		if n++; n > 31 || b.short {
			b.short = true
			return 0
		}
	}
	return 1<<n - 1 + b.bits(n)
}
