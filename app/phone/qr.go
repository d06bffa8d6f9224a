package phone

import (
	"image"
	"image/color"

	"heartside/model/say"

	"rsc.io/qr"
)

// quiet is the white rim of a code, in modules: ISO/IEC 18004 asks for 4.
const quiet = 4

// Code draws a text as a QR code, black on white with its quiet zone, at least
// least pixels a side. Every module is a whole number of pixels.
func Code(text string, least int) (image.Image, error) {
	c, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil, say.Errorf("the address gives no QR code: %w", err)
	}
	n := c.Size + 2*quiet
	k := max(1, (least+n-1)/n)
	img := image.NewPaletted(image.Rect(0, 0, n*k, n*k), color.Palette{color.White, color.Black})
	for y := range n * k {
		for x := range n * k {
			if c.Black(x/k-quiet, y/k-quiet) { // false outside
				img.Pix[y*img.Stride+x] = 1
			}
		}
	}
	return img, nil
}
