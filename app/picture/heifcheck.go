//go:build !noheic

package picture

import (
	"io"

	"heartside/model/say"
)

// errSize says that a part of a picture is coded at another size than the
// tables tell. The decoder believes both.
var errSize = say.Later("its parts are of another size than it says")

// mostItems bounds the items of a file. A picture of 64 million pixels in the
// usual parts of 512 x 512 has 245.
const mostItems = 4000

// check holds all sizes against the limits: those of the properties, and
// those in the parameter sets that come with the coded pictures.
func (f *heif) check(s *source, lim Limits) error {
	if len(f.items) > mostItems {
		return &Error{TooLarge, say.F("the HEIC picture is cut into %d parts", len(f.items)), saveJPEG(), nil}
	}
	for _, p := range f.props {
		if p.kind == "ispe" {
			if err := lim.size(formatHEIC, int64(be.Uint32(p.data[4:])), int64(be.Uint32(p.data[8:]))); err != nil {
				return err
			}
		}
	}
	var coded int64
	for _, item := range f.items {
		if len(item.parts) > 64 {
			return say.Error("a part of it lies at too many places")
		}
		for _, p := range item.parts {
			if coded += p[1]; !item.inside && (p[0] > s.size || p[1] > s.size-p[0]) {
				return io.ErrUnexpectedEOF
			}
		}
		// One byte used by many items would make much of little.
		if coded > 2*s.size {
			return say.Error("parts of it lie over one another")
		}
		if item.kind == "hvc1" {
			if err := f.checkCoded(s, item); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkCoded compares the size of a coded item with that of its parameter
// sets, wherever they are (ISO/IEC 14496-15, 8.3.3.1).
func (f *heif) checkCoded(s *source, item *heifItem) error {
	size, ok := f.prop(item, "ispe")
	conf, ok2 := f.prop(item, "hvcC")
	if !ok || !ok2 {
		return errSize
	}
	w, h := int(be.Uint32(size[4:])), int(be.Uint32(size[8:]))
	check := func(unit []byte) error {
		if len(unit) < 2 || unit[0]>>1&63 != sequenceSet {
			return nil
		}
		cw, ch, err := sizeOfSet(unit)
		if err != nil {
			return err
		}
		if cw != w || ch != h {
			return errSize
		}
		return nil
	}
	r := &reading{p: conf[22:]}
	found := false
	for arrays := r.num(1); arrays > 0; arrays-- {
		r.skip(1)
		for n := r.num(2); n > 0 && !r.short; n-- {
			unit := r.take(int(r.num(2)))
			if len(unit) > 0 && unit[0]>>1&63 == sequenceSet {
				found = true
			}
			if err := check(unit); err != nil {
				return err
			}
		}
	}
	if r.short || !found {
		return errShort
	}
	data, err := f.data(s, item)
	if err != nil {
		return err
	}
	lengthSize := int(conf[21]&3) + 1
	for r := (&reading{p: data}); len(r.p) > 0; {
		n := r.num(lengthSize)
		if r.short || n > uint64(len(r.p)) {
			return io.ErrUnexpectedEOF
		}
		if err := check(r.take(int(n))); err != nil {
			return err
		}
	}
	return nil
}

// checkGrid checks the parts a picture is laid out from (ISO/IEC 23008-12,
// 6.6.2.3).
func (f *heif) checkGrid(s *source, item *heifItem, lim Limits) error {
	d, err := f.data(s, item)
	if err != nil {
		return err
	}
	r := &reading{p: d}
	r.skip(1)
	width := 2
	if r.num(1)&1 != 0 {
		width = 4
	}
	rows, cols := int64(r.num(1))+1, int64(r.num(1))+1
	w, h := int64(r.num(width)), int64(r.num(width))
	if r.short {
		return errShort
	}
	if err := lim.size(formatHEIC, w, h); err != nil {
		return err
	}
	if size, _ := f.prop(item, "ispe"); size == nil || int64(be.Uint32(size[4:])) != w || int64(be.Uint32(size[8:])) != h {
		return errSize
	}
	if int64(len(item.made)) != rows*cols {
		return say.Errorf("it is laid out from %d x %d parts, and has %d", cols, rows, len(item.made))
	}
	var tw, th int64
	for _, id := range item.made {
		t, ok := f.items[id]
		if !ok || t.kind != "hvc1" {
			return say.Error("a part of it is missing")
		}
		size, _ := f.prop(t, "ispe") // there: it was checked
		w, h := int64(be.Uint32(size[4:])), int64(be.Uint32(size[8:]))
		if tw == 0 {
			tw, th = w, h
		}
		if w != tw || h != th {
			return errSize
		}
	}
	// Parts that stick out are cut, but a whole row beyond the picture is none.
	if tw*cols < w || th*rows < h || tw*(cols-1) >= w || th*(rows-1) >= h {
		return errSize
	}
	return nil
}
