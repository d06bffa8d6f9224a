//go:build !noheic

package picture

import (
	"io"
	"math"

	"heartside/model/say"
)

// mostTables bounds the tables of a HEIC file. Those of telephones take some
// kB, and up to a colour profile more.
const mostTables = 8 << 20

// heif is what the tables of a HEIC file say.
type heif struct {
	primary uint32
	items   map[uint32]*heifItem
	props   []heifBox // from 1 on; entry 0 is empty
	inside  []byte    // the idat box
}

type heifBox struct {
	kind string
	data []byte
}

type heifItem struct {
	kind   string
	props  []int    // indices into heif.props
	made   []uint32 // items it is made from
	inside bool     // its data lie in the tables
	parts  [][2]int64
}

// boxes calls f with every box in p (ISO/IEC 14496-12, 4.2).
func boxes(p []byte, f func(kind string, data []byte) error) error {
	for len(p) > 0 {
		if len(p) < 8 {
			return io.ErrUnexpectedEOF
		}
		n, head := uint64(be.Uint32(p)), uint64(8)
		switch {
		case n == 1:
			if len(p) < 16 {
				return io.ErrUnexpectedEOF
			}
			n, head = be.Uint64(p[8:]), 16
		case n == 0:
			n = uint64(len(p))
		}
		if n < head || n > uint64(len(p)) {
			return say.Errorf("a table of %d bytes where %d are left", n, len(p))
		}
		if err := f(string(p[4:8]), p[head:n]); err != nil {
			return err
		}
		p = p[n:]
	}
	return nil
}

// readHEIF finds the meta box and reads it.
func readHEIF(s *source) (*heif, error) {
	for at := int64(0); at < s.size; {
		h, err := s.part(at, min(16, s.size-at))
		if err != nil {
			return nil, err
		}
		if len(h) < 8 {
			return nil, io.ErrUnexpectedEOF
		}
		n, head := int64(be.Uint32(h)), int64(8)
		if n == 1 {
			if len(h) < 16 || be.Uint64(h[8:]) > math.MaxInt64 {
				return nil, io.ErrUnexpectedEOF
			}
			n, head = int64(be.Uint64(h[8:])), 16
		} else if n == 0 {
			n = s.size - at
		}
		if n < head {
			return nil, say.Errorf("a table of %d bytes", n)
		}
		if string(h[4:8]) == "moov" {
			return nil, unsupported(say.T("a film, or a row of pictures"), nil)
		}
		if string(h[4:8]) == "meta" {
			if n > mostTables {
				return nil, &Error{TooLarge, say.T("the HEIC file has tables of unusual size"), saveJPEG(), nil}
			}
			p, err := s.part(at+head, n-head)
			if err != nil {
				return nil, err
			}
			return parseMeta(p)
		}
		if n > s.size-at {
			return nil, io.ErrUnexpectedEOF
		}
		at += n
	}
	return nil, io.ErrUnexpectedEOF
}

var errShort = say.Later("a table is shorter than it says")

// parseMeta reads a meta box: which items there are, where, and with what
// properties.
func parseMeta(p []byte) (*heif, error) {
	if len(p) < 4 {
		return nil, errShort
	}
	f := &heif{items: map[uint32]*heifItem{}, props: make([]heifBox, 1)}
	var later []func() error // tables that speak of items, which may come after them
	err := boxes(p[4:], func(kind string, d []byte) error {
		r := &reading{p: d}
		switch kind {
		case "pitm":
			f.primary = r.id(r.full() > 0)
		case "iinf":
			return f.infos(r)
		case "iloc":
			later = append(later, func() error { return f.places(r) })
		case "iref":
			later = append(later, func() error { return f.references(r) })
		case "idat":
			f.inside = d
		case "iprp":
			return boxes(d, func(kind string, d []byte) error {
				r := &reading{p: d}
				switch kind {
				case "ipco":
					return boxes(d, func(kind string, d []byte) error {
						if least[kind] > len(d) {
							return errShort
						}
						f.props = append(f.props, heifBox{kind, d})
						return nil
					})
				case "ipma":
					later = append(later, func() error { return f.associations(r) })
				}
				return nil
			})
		}
		return r.err()
	})
	for _, l := range later {
		if err == nil {
			err = l()
		}
	}
	return f, err
}

// least are the bytes that properties have at least.
var least = map[string]int{"ispe": 12, "irot": 1, "imir": 1, "hvcC": 23, "clap": 32}

// infos reads iinf: the kinds of the items.
func (f *heif) infos(r *reading) error {
	if r.full() == 0 {
		r.skip(2)
	} else {
		r.skip(4)
	}
	if r.short {
		return errShort
	}
	return boxes(r.p, func(kind string, d []byte) error {
		r := &reading{p: d}
		v := r.full()
		if kind != "infe" || v < 2 {
			return nil
		}
		id := r.id(v > 2)
		r.skip(2)
		kind = string(r.take(4))
		if r.short {
			return errShort
		}
		f.items[id] = &heifItem{kind: kind}
		return nil
	})
}

// places reads iloc: where the data of the items lie.
func (f *heif) places(r *reading) error {
	v := r.full()
	sizes := r.num(2)
	offSize, lenSize, baseSize, indexSize := int(sizes>>12), int(sizes>>8&15), int(sizes>>4&15), int(sizes&15)
	if v == 0 {
		indexSize = 0
	}
	n := r.id(v > 1)
	for ; n > 0 && !r.short; n-- {
		id := r.id(v > 1)
		method := uint64(0)
		if v > 0 {
			method = r.num(2) & 15
		}
		r.skip(2)
		base := r.num(baseSize)
		item := f.items[id]
		for k := r.num(2); k > 0 && !r.short; k-- {
			r.skip(indexSize)
			off, length := r.num(offSize), r.num(lenSize)
			if off > math.MaxInt32<<16 || base > math.MaxInt32<<16 || length > math.MaxInt32<<16 || method > 1 {
				return say.Error("a part of it lies nowhere")
			}
			if item != nil {
				item.inside = method == 1
				item.parts = append(item.parts, [2]int64{int64(base + off), int64(length)})
			}
		}
	}
	return r.err()
}

// associations reads ipma: the properties of the items.
func (f *heif) associations(r *reading) error {
	v, wide := r.fullFlags()
	for n := r.num(4); n > 0 && !r.short; n-- {
		item := f.items[r.id(v > 0)]
		for k := r.num(1); k > 0 && !r.short; k-- {
			var i int
			if wide&1 != 0 {
				i = int(r.num(2) & 0x7fff)
			} else {
				i = int(r.num(1) & 0x7f)
			}
			if item != nil && i > 0 && i < len(f.props) {
				item.props = append(item.props, i)
			}
		}
	}
	return r.err()
}

// references reads iref: what the items are made from.
func (f *heif) references(r *reading) error {
	wide := r.full() > 0
	if r.short {
		return errShort
	}
	return boxes(r.p, func(kind string, d []byte) error {
		r := &reading{p: d}
		item := f.items[r.id(wide)]
		for n := r.num(2); n > 0 && !r.short; n-- {
			if to := r.id(wide); kind == "dimg" && item != nil {
				item.made = append(item.made, to)
			}
		}
		return r.err()
	})
}

// prop returns the first property of a kind.
func (f *heif) prop(item *heifItem, kind string) ([]byte, bool) {
	for _, i := range item.props {
		if f.props[i].kind == kind {
			return f.props[i].data, true
		}
	}
	return nil, false
}

// data returns the bytes of an item, or io.ErrUnexpectedEOF where the file is
// shorter.
func (f *heif) data(s *source, item *heifItem) ([]byte, error) {
	var all []byte
	for _, p := range item.parts {
		off, n := p[0], p[1]
		if item.inside {
			if off > int64(len(f.inside)) || n > int64(len(f.inside))-off {
				return nil, errShort
			}
			all = append(all, f.inside[off:off+n]...)
			continue
		}
		if n == 0 {
			n = s.size - off
		}
		b, err := s.part(off, n)
		if err != nil {
			return nil, err
		}
		if int64(len(all)+len(b)) > s.size {
			return nil, say.Error("parts of it lie over one another")
		}
		all = append(all, b...)
	}
	return all, nil
}
