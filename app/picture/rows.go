package picture

import (
	"image"
	"image/color"
)

// rowsOf returns a function that writes the pixels of a row of img, counted
// from its top, as red, green, blue; what is transparent lies over white.
func rowsOf(img image.Image, ycc *matrix) func(y int, dst []uint8) {
	b := img.Bounds()
	switch m := img.(type) {
	case *image.YCbCr:
		return yccRows(m, ycc)
	case *image.NYCbCrA:
		below := yccRows(&m.YCbCr, ycc)
		return func(y int, dst []uint8) {
			below(y, dst)
			for x := 0; x < b.Dx(); x++ {
				over(dst[3*x:3*x+3], m.A[m.AOffset(b.Min.X+x, b.Min.Y+y)])
			}
		}
	case *image.Gray:
		return func(y int, dst []uint8) {
			for x, v := range m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:b.Dx()] {
				dst[3*x], dst[3*x+1], dst[3*x+2] = v, v, v
			}
		}
	case *image.RGBA: // premultiplied: white shows by what is missing
		return func(y int, dst []uint8) {
			row := m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:4*b.Dx()]
			for x := 0; x < b.Dx(); x++ {
				rest := 255 - row[4*x+3]
				for c := 0; c < 3; c++ {
					dst[3*x+c] = uint8(min(255, int(row[4*x+c])+int(rest)))
				}
			}
		}
	case *image.NRGBA:
		return func(y int, dst []uint8) {
			row := m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:4*b.Dx()]
			for x := 0; x < b.Dx(); x++ {
				copy(dst[3*x:3*x+3], row[4*x:4*x+3])
				over(dst[3*x:3*x+3], row[4*x+3])
			}
		}
	case *image.CMYK:
		return func(y int, dst []uint8) {
			row := m.Pix[m.PixOffset(b.Min.X, b.Min.Y+y):][:4*b.Dx()]
			for x := 0; x < b.Dx(); x++ {
				p := row[4*x : 4*x+4]
				dst[3*x], dst[3*x+1], dst[3*x+2] = color.CMYKToRGB(p[0], p[1], p[2], p[3])
			}
		}
	}
	at := img.At
	if deep, ok := img.(image.RGBA64Image); ok { // spares an allocation a pixel
		at = func(x, y int) color.Color { return deep.RGBA64At(x, y) }
	}
	return func(y int, dst []uint8) {
		for x := 0; x < b.Dx(); x++ {
			r, g, bl, a := at(b.Min.X+x, b.Min.Y+y).RGBA()
			for c, v := range [3]uint32{r, g, bl} {
				dst[3*x+c] = uint8((min(0xffff, v+0xffff-a)*255 + 0x7fff) / 0xffff)
			}
		}
	}
}

// over lays a colour of opacity a over white.
func over(rgb []uint8, a uint8) {
	if a == 255 {
		return
	}
	for c, v := range rgb {
		rgb[c] = uint8((uint32(v)*uint32(a) + 255*uint32(255-a) + 127) / 255)
	}
}

func yccRows(m *image.YCbCr, ycc *matrix) func(y int, dst []uint8) {
	b := m.Rect
	toRGB := color.YCbCrToRGB
	if ycc != nil {
		toRGB = ycc.rgb
	}
	// Chroma lies closer together along a row by a power of two.
	shift := map[image.YCbCrSubsampleRatio]uint{
		image.YCbCrSubsampleRatio422: 1, image.YCbCrSubsampleRatio420: 1,
		image.YCbCrSubsampleRatio411: 2, image.YCbCrSubsampleRatio410: 2,
	}[m.SubsampleRatio]
	if b.Min.X == 0 {
		return func(y int, dst []uint8) {
			ys := m.Y[m.YOffset(0, b.Min.Y+y):][:b.Dx()]
			at := m.COffset(0, b.Min.Y+y)
			cbs, crs := m.Cb[at:], m.Cr[at:]
			for x, v := range ys {
				p := dst[3*x : 3*x+3 : 3*x+3]
				p[0], p[1], p[2] = toRGB(v, cbs[x>>shift], crs[x>>shift])
			}
		}
	}
	return func(y int, dst []uint8) {
		for x := 0; x < b.Dx(); x++ {
			c := m.COffset(b.Min.X+x, b.Min.Y+y)
			dst[3*x], dst[3*x+1], dst[3*x+2] = toRGB(m.Y[m.YOffset(b.Min.X+x, b.Min.Y+y)], m.Cb[c], m.Cr[c])
		}
	}
}

// matrix turns luma and chroma into red, green and blue in a way that is not
// that of JFIF.
type matrix struct {
	y         [256]int32 // luma, 16.16
	rv, gu    [256]int32
	gv, bu    [256]int32
	identical bool // the planes are green, blue and red themselves
}

// matrixOf returns the conversion with the luma weights kr of red and kb of
// blue; full says that the values fill 0 to 255, else luma runs from 16 to 235
// and chroma from 16 to 240 (ITU-T H.273, 8.3).
func matrixOf(kr, kb float64, full bool) *matrix {
	ys, y0, cs := 1.0, 0.0, 1.0
	if !full {
		ys, y0, cs = 255.0/219, 16, 255.0/224
	}
	m, kg := &matrix{}, 1-kr-kb
	for i := range m.y {
		c := (float64(i) - 128) * cs * 65536
		m.y[i] = int32((float64(i)-y0)*ys*65536) + 1<<15
		m.rv[i] = int32(2 * (1 - kr) * c)
		m.bu[i] = int32(2 * (1 - kb) * c)
		m.gv[i] = int32(-2 * kr * (1 - kr) / kg * c)
		m.gu[i] = int32(-2 * kb * (1 - kb) / kg * c)
	}
	return m
}

func (m *matrix) rgb(y, cb, cr uint8) (r, g, b uint8) {
	if m.identical {
		return cr, y, cb
	}
	l := m.y[y]
	return top(l + m.rv[cr]), top(l + m.gu[cb] + m.gv[cr]), top(l + m.bu[cb])
}

func top(v int32) uint8 { return uint8(min(max(v>>16, 0), 255)) }
