package session

import (
	"encoding/binary"
	"image"
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// lookMark begins a look kept on disk: its number goes up with its form and
// with every change of how colours are made.
const lookMark = "HSL1"

var le = binary.LittleEndian

// text returns a look as it is kept on disk.
func (l *look) text() []byte {
	w, h := l.small.Pix.Rect.Dx(), l.small.Pix.Rect.Dy()
	p := make([]byte, 0, 128+len(l.note)+6*len(l.field.Coded)+3*w*h)
	p = append(p, lookMark...)
	num := func(v float64) { p = le.AppendUint64(p, math.Float64bits(v)) }
	num(l.left)
	for _, c := range [2]*colour.Lab{l.heart, l.sap} {
		if c == nil {
			c = &colour.Lab{L: math.NaN()}
		}
		num(c.L)
		num(c.A)
		num(c.B)
	}
	p = le.AppendUint32(p, uint32(len(l.note)))
	p = append(p, l.note...)
	p = le.AppendUint32(p, uint32(l.field.NX))
	p = le.AppendUint32(p, uint32(l.field.NY))
	for _, c := range l.field.Coded {
		for _, v := range c {
			p = le.AppendUint16(p, uint16(v))
		}
	}
	p = le.AppendUint32(p, uint32(w))
	p = le.AppendUint32(p, uint32(h))
	for y := range h {
		for row := l.small.Pix.Pix[y*l.small.Pix.Stride:][:4*w]; len(row) > 0; row = row[4:] {
			p = append(p, row[0], row[1], row[2])
		}
	}
	return p
}

// lookReader takes values off a kept look; too short, it is bad.
type lookReader struct {
	p   []byte
	bad bool
}

func (r *lookReader) take(n int) []byte {
	if r.bad || n < 0 || n > len(r.p) {
		r.bad = true
		return make([]byte, 8)
	}
	q := r.p[:n]
	r.p = r.p[n:]
	return q
}

func (r *lookReader) num() float64 { return math.Float64frombits(le.Uint64(r.take(8))) }
func (r *lookReader) count() int   { return int(le.Uint32(r.take(4))) }

// parseLook reads what text wrote of a face of a length and width; false where
// it is none.
func parseLook(p []byte, length, width float64) (*look, bool) {
	r := &lookReader{p: p}
	if string(r.take(len(lookMark))) != lookMark {
		return nil, false
	}
	l := &look{left: r.num()}
	for _, to := range [2]**colour.Lab{&l.heart, &l.sap} {
		if c := (colour.Lab{L: r.num(), A: r.num(), B: r.num()}); c.Known() {
			*to = &c
		}
	}
	l.note = string(r.take(r.count()))
	f := &colour.Field{Step: fieldStep, NX: r.count(), NY: r.count()}
	if r.bad || f.NX != cells(length) || f.NY != cells(width) {
		return nil, false
	}
	q := r.take(6 * f.NX * f.NY)
	if r.bad {
		return nil, false
	}
	f.Coded = make([]colour.Coded, f.NX*f.NY)
	for i := range f.Coded {
		f.Coded[i] = colour.Coded{int16(le.Uint16(q[6*i:])), int16(le.Uint16(q[6*i+2:])), int16(le.Uint16(q[6*i+4:]))}
	}
	w, h := r.count(), r.count()
	if r.bad || w < 1 || h < 1 || w > len(r.p) || h > len(r.p) || 3*w*h != len(r.p) {
		return nil, false
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for at, q := 0, r.p; len(q) > 0; at, q = at+4, q[3:] {
		o := img.Pix[at : at+4 : at+4]
		o[0], o[1], o[2], o[3] = q[0], q[1], q[2], 255
	}
	l.field = f
	l.small = &photo.Squared{Pix: img, PxPerMM: float64(w) / length, Length: length, Width: width}
	return l, true
}

// cells is how many cells of a field cover a length; see photo.Squared.Field.
func cells(mm float64) int { return int(math.Ceil(mm/fieldStep - 1e-9)) }
