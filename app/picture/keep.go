package picture

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"
	"image/png"

	"heartside/model/say"
)

// Coding is how a store keeps a picture.
type Coding int

// The codings.
const (
	Plain Coding = iota // the pixels as they are, without opacity: fast, large
	JPEG                // small; colours change a little
	PNG                 // between the two; colours stay
)

// thumbQuality is that of a JPEG kept: no difference is seen at the size
// thumbnails have. An engineering choice.
const thumbQuality = 88

// plainMark begins a picture kept as its pixels.
const plainMark = "HSPX"

// PutImage keeps a picture under a key; see Put. Plain takes opaque pictures.
func (s *Store) PutImage(key string, img image.Image, c Coding) error {
	if img == nil || img.Bounds().Empty() {
		return say.Error("an empty picture is not kept")
	}
	var b bytes.Buffer
	var err error
	switch c {
	case JPEG:
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: thumbQuality})
	case PNG:
		err = (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, img)
	default:
		b.Write(plainPixels(img))
	}
	if err != nil {
		return err
	}
	return s.Put(key, b.Bytes())
}

// GetImage returns the picture under a key, its top left corner at (0, 0);
// see Get.
func (s *Store) GetImage(key string) (*image.RGBA, bool) {
	p, ok := s.Get(key)
	if !ok {
		return nil, false
	}
	if rest, ok := bytes.CutPrefix(p, []byte(plainMark)); ok {
		return fromPlain(rest)
	}
	// Of our own making, by its checksum; the name of the format is not asked.
	img, err := png.Decode(bytes.NewReader(p))
	if err != nil {
		img, err = jpeg.Decode(bytes.NewReader(p))
	}
	if err != nil {
		return nil, false
	}
	return asRGBA(img), true
}

func asRGBA(img image.Image) *image.RGBA {
	if m, ok := img.(*image.RGBA); ok && m.Rect.Min == (image.Point{}) {
		return m
	}
	b := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Rect, img, b.Min, draw.Src)
	return out
}

func plainPixels(img image.Image) []byte {
	m := asRGBA(img)
	w, h := m.Rect.Dx(), m.Rect.Dy()
	p := make([]byte, 0, len(plainMark)+8+3*w*h)
	p = append(p, plainMark...)
	p = be.AppendUint32(p, uint32(w))
	p = be.AppendUint32(p, uint32(h))
	for y := range h {
		for row := m.Pix[y*m.Stride:][:4*w]; len(row) > 0; row = row[4:] {
			p = append(p, row[0], row[1], row[2])
		}
	}
	return p
}

func fromPlain(p []byte) (*image.RGBA, bool) {
	if len(p) < 8 {
		return nil, false
	}
	w, h := int64(be.Uint32(p)), int64(be.Uint32(p[4:]))
	p = p[8:]
	if w < 1 || h < 1 || w > int64(len(p)) || h > int64(len(p)) || 3*w*h != int64(len(p)) {
		return nil, false
	}
	m := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	for at := 0; len(p) > 0; at, p = at+4, p[3:] {
		q := m.Pix[at : at+4 : at+4]
		q[0], q[1], q[2], q[3] = p[0], p[1], p[2], 255
	}
	return m, true
}
