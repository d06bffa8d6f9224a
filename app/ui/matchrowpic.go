package ui

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// rowSitter is all that the pictures of a row are made from.
type rowSitter struct {
	board  *face.Panel
	strips []face.Strip
	across bool
	sit    scene.Sitting
}

// rowWide is how wide the pictures of a row are, pixels.
const rowWide = 900

func (w *Window) rowSitter(b *face.Board, wish session.RowWish, strips []face.Strip) *rowSitter {
	pic := w.ses.PictureAt(b.ID, wish.Up, rowWide/b.Length)
	s := &rowSitter{board: wholeBoard(b, wish.Up, wish.Turned), strips: strips, across: wish.Across,
		sit: scene.Sitting{Faces: w.faces, Theme: w.sceneTheme(), Textures: scene.NewTextures(nil, nil)}}
	s.sit.Picture = func(string, int, float64) *photo.Squared { return pic }
	return s
}

// rowPainted paints the board with the fronts outlined, and under it the fronts
// as they hang with their gaps.
func rowPainted(s *rowSitter, gaps []float64) (img *image.RGBA) {
	defer func() {
		if recover() != nil {
			img = image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
	}()
	board := scene.Portrait(s.board, s.sit, rowWide, rowWide)
	k := float64(board.Rect.Dx()) / s.board.Length
	var boxes []image.Rectangle
	for i := range s.strips {
		boxes = append(boxes, s.box(&s.strips[i], k, board.Rect))
	}
	hung := hang(board, boxes, gaps, k, s.across)
	air := 12
	out := image.NewRGBA(image.Rect(0, 0, max(board.Rect.Dx(), hung.Rect.Dx()), board.Rect.Dy()+air+hung.Rect.Dy()))
	draw.Draw(out, board.Rect, board, image.Point{}, draw.Src)
	for _, b := range boxes {
		frame(out, b)
	}
	draw.Draw(out, hung.Rect.Add(image.Pt(0, board.Rect.Dy()+air)), hung, image.Point{}, draw.Src)
	return out
}

// box is where a strip lies in the picture of its board as it lies.
func (s *rowSitter) box(st *face.Strip, k float64, in image.Rectangle) image.Rectangle {
	to, _ := s.board.Strips[0].FromPlace().Inverse()
	r := to.ApplyTo(geom.R(st.X, st.Y, st.X+st.L, st.Y+st.W).Polygon()).Bounds()
	px := func(v float64) int { return int(math.Round(v)) }
	return image.Rect(px(r.Min.X*k), in.Dy()-px(r.Max.Y*k), px(r.Max.X*k), in.Dy()-px(r.Min.Y*k)).Intersect(in)
}

// hang sets the fronts side by side, or one above another, with their gaps.
func hang(board *image.RGBA, boxes []image.Rectangle, gaps []float64, k float64, across bool) *image.RGBA {
	size := image.Point{}
	at := make([]image.Point, len(boxes))
	for i, b := range boxes {
		gap := 0
		if i > 0 {
			gap = max(int(math.Round(gaps[i-1]*k)), 1)
		}
		if across {
			size.Y += gap
			at[i] = image.Pt(0, size.Y) // from the bottom
			size = image.Pt(max(size.X, b.Dx()), size.Y+b.Dy())
		} else {
			size.X += gap
			at[i] = image.Pt(size.X, 0)
			size = image.Pt(size.X+b.Dx(), max(size.Y, b.Dy()))
		}
	}
	out := image.NewRGBA(image.Rectangle{Max: size})
	for i, b := range boxes {
		p := image.Pt(at[i].X, size.Y-at[i].Y-b.Dy()) // they stand on one line
		draw.Draw(out, image.Rectangle{Min: p, Max: p.Add(b.Size())}, board, b.Min, draw.Src)
	}
	return out
}

// frame draws a light line in a dark one, so that it is seen on any wood.
func frame(img *image.RGBA, r image.Rectangle) {
	for d, c := range []color.RGBA{{A: 255}, {255, 255, 255, 255}, {A: 255}} {
		in := r.Inset(d)
		for x := in.Min.X; x < in.Max.X; x++ {
			img.SetRGBA(x, in.Min.Y, c)
			img.SetRGBA(x, in.Max.Y-1, c)
		}
		for y := in.Min.Y; y < in.Max.Y; y++ {
			img.SetRGBA(in.Min.X, y, c)
			img.SetRGBA(in.Max.X-1, y, c)
		}
	}
}
