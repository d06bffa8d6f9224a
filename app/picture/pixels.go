package picture

import (
	"context"
	"image"
)

// upright copies a decoded picture as its tables say: turned, in sRGB.
func upright(ctx context.Context, img image.Image, o *opened) (*image.RGBA, error) {
	w, h := o.w, o.h
	t, uw, uh := turningOf(o.turn, w, h)
	out := image.NewRGBA(image.Rect(0, 0, uw, uh))
	read, row := rowsOf(img, o.ycc), make([]uint8, 3*w)
	for y := 0; y < h; y++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		read(y, row)
		if o.conv != nil {
			o.conv.row(row)
		}
		at := 4 * (t.at + y*t.dy)
		for x := 0; x < w; x++ {
			p := out.Pix[at : at+4 : at+4]
			p[0], p[1], p[2], p[3] = row[3*x], row[3*x+1], row[3*x+2], 255
			at += 4 * t.dx
		}
	}
	return out, nil
}

// reduce averages a decoded picture down to w x h pixels, before turning, and
// turns it. Every stored pixel counts by the share of it under a new one, as
// light: averages of coded values would be too dark.
func reduce(ctx context.Context, img image.Image, o *opened, w, h int) (*image.RGBA, error) {
	conv := o.conv
	if conv == nil {
		conv = plainSRGB()
	}
	t, uw, uh := turningOf(o.turn, w, h)
	out := image.NewRGBA(image.Rect(0, 0, uw, uh))
	read, row := rowsOf(img, o.ycc), make([]uint8, 3*o.w)
	across := sharesOf(o.w, w)
	thin, sum := make([]float32, 3*w), make([]float32, 3*w)
	norm := float32(w) / float32(o.w) * float32(h) / float32(o.h)
	flush := func(j int) {
		for i := 0; i < w; i++ {
			at := 4 * (t.at + i*t.dx + j*t.dy)
			r, g, b := conv.encode(sum[3*i]*norm, sum[3*i+1]*norm, sum[3*i+2]*norm)
			out.Pix[at], out.Pix[at+1], out.Pix[at+2], out.Pix[at+3] = r, g, b, 255
		}
		clear(sum)
	}
	add := func(k float32) {
		for i, v := range thin {
			sum[i] += k * v
		}
	}
	j := 0
	for y, s := range sharesOf(o.h, h) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		read(y, row)
		clear(thin)
		for x, a := range across {
			r, g, b := conv.light[0][row[3*x]], conv.light[1][row[3*x+1]], conv.light[2][row[3*x+2]]
			p := thin[3*a.first : 3*a.first+3 : 3*a.first+3]
			p[0] += a.share * r
			p[1] += a.share * g
			p[2] += a.share * b
			if a.share < 1 && int(a.first)+1 < w {
				rest := 1 - a.share
				q := thin[3*a.first+3 : 3*a.first+6 : 3*a.first+6]
				q[0] += rest * r
				q[1] += rest * g
				q[2] += rest * b
			}
		}
		if int(s.first) > j {
			flush(j)
			j = int(s.first)
		}
		add(s.share)
		if s.share < 1 && j+1 < h {
			flush(j)
			j++
			add(1 - s.share)
		}
	}
	flush(j)
	return out, nil
}

// share says how an old pixel spreads over the new ones, which are larger:
// share of it lies in the first, the rest in the next.
type share struct {
	first int32
	share float32
}

func sharesOf(from, to int) []share {
	s := make([]share, from)
	for i := range s {
		// In units of 1/to old pixel: pixel i covers i*to to (i+1)*to, the
		// new ones begin at multiples of from.
		a, b := int64(i)*int64(to), int64(i+1)*int64(to)
		j := a / int64(from)
		edge := min((j+1)*int64(from), b)
		s[i] = share{int32(j), float32(edge-a) / float32(to)}
	}
	return s
}
