//go:build !noheic

package picture

// reading takes numbers off the front of a table.
type reading struct {
	p     []byte
	short bool
}

func (r *reading) err() error {
	if r.short {
		return errShort
	}
	return nil
}

func (r *reading) take(n int) []byte {
	if n > len(r.p) {
		r.short, r.p = true, nil
		return nil
	}
	b := r.p[:n]
	r.p = r.p[n:]
	return b
}

func (r *reading) skip(n int) { r.take(n) }

// num reads a number of n bytes, up to 8.
func (r *reading) num(n int) (v uint64) {
	if n > 8 {
		r.short = true
		return 0
	}
	for _, b := range r.take(n) {
		v = v<<8 | uint64(b)
	}
	return v
}

func (r *reading) id(wide bool) uint32 {
	if wide {
		return uint32(r.num(4))
	}
	return uint32(r.num(2))
}

func (r *reading) full() uint64 {
	v, _ := r.fullFlags()
	return v
}

func (r *reading) fullFlags() (version, flags uint64) {
	v := r.num(4)
	return v >> 24, v & 0xffffff
}
