package render

import (
	"image"
	"math"

	"heartside/layout/geom"
)

// Text implements Canvas. Level text stands on whole pixels of height, for
// sharp stems; turned text is drawn from its outlines.
func (r *Raster) Text(at geom.Point, s string, st Style) {
	size := st.Size * r.scale
	if st.Color.A == 0 || !(size > 0.5) || size > 4000 {
		return
	}
	s = r.faces.Printable(s, st)
	x := st.start(r.faces.Width(s, st))
	if math.Mod(st.Turn, 360) == 0 {
		p := r.device().Apply(geom.Pt(at.X+x, at.Y))
		r.levelText(p, s, st, size)
		return
	}
	r.turnedText(at, x, s, st)
}

func (r *Raster) levelText(p geom.Point, s string, st Style, size float64) {
	c := st.cut()
	t, box := r.faces.font[c], r.clip().box
	if p.X > float64(box.Max.X) || p.Y < float64(box.Min.Y) || p.Y-2*size > float64(box.Max.Y) {
		return
	}
	paint := r.solid(st.Color)
	y := round(p.Y)
	for _, ch := range s {
		i := t.Index(ch)
		q := math.Floor(p.X * 4)
		k := maskKey{cut: c, index: i, size: int32(math.Round(size * 64)), sub: uint8(int64(q) & 3)}
		r.stamp(r.faces.mask(k, &r.fill), image.Pt(int(math.Floor(q/4)), y), paint)
		p.X += r.faces.advance(c, i) * size
	}
}

// stamp lays a glyph down with the pen at the given pixel.
func (r *Raster) stamp(m *mask, pen image.Point, paint *solidPainter) {
	o := pen.Add(m.off)
	b := image.Rect(o.X, o.Y, o.X+m.w, o.Y+m.h).Intersect(paint.clip.box)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		row := r.img.Pix[r.img.PixOffset(b.Min.X, y):]
		cover := m.a[(y-o.Y)*m.w+b.Min.X-o.X:]
		under := paint.clip.row(y, b.Min.X, b.Max.X)
		for x := 0; x < b.Dx(); x++ {
			k := uint32(cover[x])
			if k == 0 {
				continue
			}
			if under != nil {
				k = k * uint32(under[x]) / 255
			}
			paint.over(row[4*x:4*x+4], k)
		}
	}
}

func (r *Raster) turnedText(at geom.Point, x float64, s string, st Style) {
	c := st.cut()
	t := r.faces.font[c]
	// Anticlockwise as seen is a turn the other way where y points down.
	m := geom.Rotate(-st.Turn).Then(geom.Translate(at.X, at.Y)).Then(r.device())
	var rings [][]geom.Point
	for _, ch := range s {
		i := t.Index(ch)
		g := geom.Scale(st.Size, st.Size).Then(geom.Translate(x, 0)).Then(m)
		for _, ring := range r.faces.outline(outlineKey{c, i}) {
			rings = append(rings, g.ApplyTo(ring))
		}
		x += r.faces.advance(c, i) * st.Size
	}
	r.fill.fill(rings, true, r.clip().box, r.solid(st.Color))
}
