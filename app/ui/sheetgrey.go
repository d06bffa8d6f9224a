package ui

import "image"

// Tones that a laser printer in a shop does not hold apart from bare paper or
// full black, of 255: the faintest 4 % vanish, the darkest 8 % run together.
// Common practice, no source.
const (
	greyPaper = 245
	greyInk   = 20
)

// greyed turns a page into what a printer without colours makes of it: its
// brightness alone, by the weights of ITU-R BT.601, faint and deep tones lost.
func greyed(img *image.RGBA) {
	var tone [256]uint8
	for i := range tone {
		v := (i - greyInk) * 255 / (greyPaper - greyInk)
		tone[i] = uint8(min(max(v, 0), 255))
	}
	for i := 0; i+3 < len(img.Pix); i += 4 {
		p := img.Pix[i : i+3 : i+3]
		y := (299*int(p[0]) + 587*int(p[1]) + 114*int(p[2]) + 500) / 1000
		p[0], p[1], p[2] = tone[y], tone[y], tone[y]
	}
}
