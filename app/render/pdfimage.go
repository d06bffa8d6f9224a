package render

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"

	"codeberg.org/go-pdf/fpdf"

	"heartside/layout/geom"
)

// pictureQuality is that of the JPEG data opaque pictures are kept as.
const pictureQuality = 88

// Image implements Canvas. Opaque pictures are kept as JPEG, others as PNG;
// the same picture drawn again is kept once.
func (p *PDF) Image(img *image.RGBA, m geom.Affine, clip Path) {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	if w == 0 || h == 0 || !p.ready() {
		return
	}
	pic, err := p.keep(img)
	if err != nil {
		p.err = err
		return
	}
	p.Push(Ring(m.ApplyTo(geom.R(0, 0, float64(w), float64(h)).Polygon())))
	if clip != nil {
		p.Push(clip)
	}
	p.opacity(255)
	// The library places a picture on the unit square of a page frame whose
	// y points up; a placement of one point a unit leaves the rest to the map.
	const unit = 1 / perMM
	o, x, y := m.Apply(geom.Pt(0, 0)), geom.Pt(m.A, m.D).Mul(float64(pic.wide)), geom.Pt(m.B, m.E).Mul(float64(h))
	low := o.Add(y) // the picture's lower left corner
	p.write(fmt.Sprintf("q %s %s %s %s %s %s cm", coord(x.X*perMM), coord(-x.Y*perMM),
		coord(-y.X*perMM), coord(y.Y*perMM), coord(low.X*perMM), coord((p.height-low.Y)*perMM)))
	p.doc.ImageOptions(pic.name, 0, p.height-unit, unit, unit, false, fpdf.ImageOptions{AllowNegativePosition: true}, 0, "")
	p.write("Q")
	if clip != nil {
		p.Pop()
	}
	p.Pop()
}

// kept is a picture in the document.
type kept struct {
	name string
	wide int // pixels, with the columns added
}

// keep registers img once. The library orders pictures by width, so those of
// one width would come in an order left to chance: a picture as wide as
// another gets a few columns more, which the frame cuts off.
func (p *PDF) keep(img *image.RGBA) (kept, error) {
	if k, ok := p.images[img]; ok {
		return k, nil
	}
	k := kept{name: fmt.Sprintf("p%d", len(p.images)), wide: img.Rect.Dx()}
	for p.widths[k.wide] {
		k.wide++
	}
	p.widths[k.wide] = true
	p.images[img] = k
	img = widened(img, k.wide)
	var b bytes.Buffer
	kind := "PNG"
	var err error
	if img.Opaque() {
		kind = "JPG"
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: pictureQuality})
	} else {
		err = png.Encode(&b, img)
	}
	if err != nil {
		return k, fmt.Errorf("picture of %d x %d pixels: %w", img.Rect.Dx(), img.Rect.Dy(), err)
	}
	p.doc.RegisterImageOptionsReader(k.name, fpdf.ImageOptions{ImageType: kind}, &b)
	return k, nil
}

// widened returns img with its last column repeated up to the given width.
func widened(img *image.RGBA, wide int) *image.RGBA {
	w := img.Rect.Dx()
	if w == wide {
		return img
	}
	out := image.NewRGBA(image.Rect(0, 0, wide, img.Rect.Dy()))
	for y := 0; y < img.Rect.Dy(); y++ {
		o := img.PixOffset(img.Rect.Min.X, img.Rect.Min.Y+y)
		row := out.Pix[y*out.Stride : (y+1)*out.Stride]
		for x := copy(row, img.Pix[o:o+4*w]); x < len(row); x += 4 {
			copy(row[x:], row[x-4:x])
		}
	}
	return out
}
