package sheet

import (
	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// gone draws what was cut off the ends of the board: its outline broken, crossed
// by one line, so that nobody measures from there.
func (d *boardDrawing) gone() {
	from, to := d.bd.Left()
	for _, x := range [2][2]float64{{0, from}, {to, d.bd.Length}} {
		if x[1] <= x[0] {
			continue
		}
		r := geom.Polygon(d.m.ApplyTo(geom.R(x[0], 0, x[1], d.bd.Width).Polygon())).Bounds()
		d.k.stroke(render.Box(r), 0.2, black, 0.8, 0.8)
		d.k.line(r.Min.X, r.Min.Y, r.Max.X, r.Max.Y, 0.2, black, 0.8, 0.8)
		d.k.line(r.Min.X, r.Max.Y, r.Max.X, r.Min.Y, 0.2, black, 0.8, 0.8)
	}
}

// goneFacts tell what was cut off the ends of a board.
func (b *builder) goneFacts(bd *face.Board) []string {
	var out []string
	for i, name := range [2]string{say.T("marked end"), say.T("other end")} {
		if bd.Cut[i] > 0 {
			out = append(out, say.F("%s cut off the %s already", b.say.len(bd.Cut[i]), name))
		}
	}
	return out
}
