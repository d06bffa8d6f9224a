package ui

import (
	"context"
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// faceThumb is a face drawn small.
type faceThumb struct {
	img *image.RGBA // nil: still being drawn
}

// faceThumbs draws faces small in the background and keeps what was drawn.
type faceThumbs struct {
	post  func(func())
	ready func()
	got   map[[2]string]*faceThumb // by board and face: the last one
	want  map[[2]string]thumbKey
	gate  chan struct{}
}

// thumbKey is all that a small face depends on.
type thumbKey struct {
	board *model.Board
	pic   *photo.Squared
	scale float64
	dark  bool
}

func newFaceThumbs(post func(func())) *faceThumbs {
	return &faceThumbs{post: post, got: map[[2]string]*faceThumb{}, want: map[[2]string]thumbKey{}, gate: make(chan struct{}, 1)}
}

func (t *faceThumbs) forget() { t.want = map[[2]string]thumbKey{} }

// of returns the small picture of a face, the last one until a new one is
// drawn.
func (t *faceThumbs) of(w *Window, b *model.Board, face int, scale float64) *faceThumb {
	at := [2]string{b.ID, itoa(face)}
	px := scale * max(w.surf.pixels, 1)
	k := thumbKey{board: b, pic: w.ses.Small(b.ID, face), scale: px, dark: w.dark()}
	if t.want[at] == k {
		return t.got[at]
	}
	t.want[at] = k
	look := thumbLook{dark: paper().ink, ink: charcoalOrPaper(k.dark).border, ground: charcoalOrPaper(k.dark).button, line: charcoalOrPaper(k.dark).ink}
	ctx := w.work
	go func() {
		select {
		case t.gate <- struct{}{}:
		case <-ctx.Done():
			return
		}
		img := smallFace(ctx, b, face, k.pic, px, look)
		<-t.gate
		t.post(func() {
			if t.want[at] == k {
				t.got[at] = &faceThumb{img: img}
				t.ready()
			}
		})
	}()
	return t.got[at]
}

func charcoalOrPaper(dark bool) palette {
	if dark {
		return charcoal()
	}
	return paper()
}

// thumbLook are the colours a small face is drawn in.
type thumbLook struct{ ink, ground, line, dark color.NRGBA }

// smallFace draws a face at px pixels a mm: its photograph or plain ground,
// sapwood hatched with a line round it, and the border of the board.
func smallFace(ctx context.Context, b *model.Board, face int, pic *photo.Squared, px float64, look thumbLook) *image.RGBA {
	w, h := max(int(math.Round(b.Length*px)), 2), max(int(math.Round(b.Width*px)), 2)
	w, h = min(w, 2000), min(h, 1000)
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	f := &b.Faces[face-1]
	if pic != nil {
		shrink(out, pic.Pix)
	} else if f.Photo != "" || len(f.Zones) > 0 {
		draw.Draw(out, out.Rect, image.NewUniform(look.ground), image.Point{}, draw.Src)
	}
	if ctx.Err() == nil && !f.Open() {
		line := look.line
		if pic != nil {
			line = look.dark // light wood under it, whatever the theme
		}
		hatchSap(out, f, b, line)
	}
	for x := range w {
		if pic != nil || f.Photo != "" || x/3%2 == 0 { // a face without a picture has a broken border
			out.Set(x, 0, look.ink)
			out.Set(x, h-1, look.ink)
		}
	}
	for y := range h {
		if pic != nil || f.Photo != "" || y/3%2 == 0 {
			out.Set(0, y, look.ink)
			out.Set(w-1, y, look.ink)
		}
	}
	return out
}

// hatchSap lays lines over the sapwood of a face and draws its border.
func hatchSap(out *image.RGBA, f *model.Face, b *model.Board, line color.NRGBA) {
	w, h := out.Rect.Dx(), out.Rect.Dy()
	sap := image.NewAlpha(out.Rect)
	if f.Base == model.Sap {
		draw.Draw(sap, sap.Rect, image.Opaque, image.Point{}, draw.Src)
	}
	for _, z := range f.Zones {
		var to uint8
		if z.Kind == model.Sap {
			to = 255
		}
		if len(z.Polygon) < 3 {
			continue
		}
		r := vector.NewRasterizer(w, h)
		at := func(p geom.Point) (float32, float32) {
			return float32(p.X / b.Length * float64(w)), float32((1 - p.Y/b.Width) * float64(h))
		}
		x, y := at(z.Polygon[0])
		r.MoveTo(x, y)
		for _, p := range z.Polygon[1:] {
			x, y = at(p)
			r.LineTo(x, y)
		}
		r.ClosePath()
		mask := image.NewAlpha(out.Rect)
		r.Draw(mask, mask.Rect, image.Opaque, image.Point{})
		for i, a := range mask.Pix {
			if a > 127 {
				sap.Pix[i] = to
			}
		}
	}
	in := func(x, y int) bool { return sap.AlphaAt(min(max(x, 0), w-1), min(max(y, 0), h-1)).A > 127 }
	for y := range h {
		for x := range w {
			edge := in(x, y) != in(x+1, y) || in(x, y) != in(x, y+1)
			if edge || in(x, y) && (x+y)%7 == 0 {
				out.Set(x, y, line)
			}
		}
	}
}

// shrink fills out with the mean colours of a picture.
func shrink(out, src *image.RGBA) {
	w, h := out.Rect.Dx(), out.Rect.Dy()
	sw, sh := src.Rect.Dx(), src.Rect.Dy()
	for y := range h {
		y0 := y * sh / h
		y1 := max((y+1)*sh/h, y0+1)
		for x := range w {
			x0 := x * sw / w
			x1 := max((x+1)*sw/w, x0+1)
			var sum [3]int
			for j := y0; j < y1; j++ {
				row := src.Pix[j*src.Stride+4*x0 : j*src.Stride+4*x1]
				for i := 0; i < len(row); i += 4 {
					sum[0] += int(row[i])
					sum[1] += int(row[i+1])
					sum[2] += int(row[i+2])
				}
			}
			n := (y1 - y0) * (x1 - x0)
			o := out.PixOffset(x, y)
			out.Pix[o], out.Pix[o+1], out.Pix[o+2], out.Pix[o+3] = uint8(sum[0]/n), uint8(sum[1]/n), uint8(sum[2]/n), 255
		}
	}
}
