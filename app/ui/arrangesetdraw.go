package ui

import (
	"image"
	"image/draw"
	"math"
	"strings"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/together"
	"heartside/model"
	"heartside/model/say"
)

// frame fills an entry with the panels of a set as they lie: where each stands,
// and their frame, a panel of the size of all that holds all strips.
func (p *arrangePage) frame(e *layEntry, set model.Set, list []*face.Panel) {
	e.parts, e.lie = list, lieOfAll(list)
	l := together.Layout{Gap: set.Gap}
	if set.Way == model.Along {
		l.Way = together.Along
	}
	f, err := together.Of(list, l)
	if err != nil {
		e.fault = sentence(say.Err(err)) + "."
		e.panel, e.at = list[0], []geom.Rect{geom.R(0, 0, list[0].Length, list[0].Width)}
		e.parts = list[:1]
		return
	}
	e.at = f.Places
	e.panel = &face.Panel{ID: set.Name, Length: f.Panel.Length, Width: f.Panel.Width}
	for _, q := range list {
		e.panel.Strips = append(e.panel.Strips, q.Strips...)
	}
}

// placesOf are the places in the picture that a reason is about.
func (e *layEntry) placesOf(r session.Reason) []geom.Rect {
	if e.parts == nil {
		return reasonPlaces(e.panel, r)
	}
	var out []geom.Rect
	for k, q := range e.parts {
		one := r
		if r.Panel != q.ID {
			if r.Panel != "" {
				continue
			}
			one.Joint = -1
		}
		// Reasons call strips by panel and id.
		named := *q
		named.Strips = nil
		for _, s := range q.Strips {
			if !strings.Contains(s.ID, "/") {
				s.ID = q.ID + "/" + s.ID
			}
			named.Strips = append(named.Strips, s)
		}
		for _, m := range reasonPlaces(&named, one) {
			out = append(out, geom.Rect{Min: m.Min.Add(e.at[k].Min), Max: m.Max.Add(e.at[k].Min)})
		}
	}
	return out
}

// gapPixels is the least gap between two panels of a picture, so that they are
// told apart at any size.
const gapPixels = 2

// portrait is the wood as large as fits into w by h pixels: of a panel, or of
// the panels of a set as they stand.
func (s *sitter) portrait(w, h int) *image.RGBA {
	if s.parts == nil {
		return scene.Portrait(s.panel, s.sit, w, h)
	}
	px := math.Min(float64(w)/s.panel.Length, float64(h)/s.panel.Width)
	out := image.NewRGBA(image.Rect(0, 0, max(int(math.Round(px*s.panel.Length)), 1), max(int(math.Round(px*s.panel.Width)), 1)))
	kx, ky := float64(out.Rect.Dx())/s.panel.Length, float64(out.Rect.Dy())/s.panel.Width
	for k, q := range s.parts {
		at := s.at[k]
		r := image.Rect(int(math.Round(at.Min.X*kx)), int(math.Round((s.panel.Width-at.Max.Y)*ky)),
			int(math.Round(at.Max.X*kx)), int(math.Round((s.panel.Width-at.Min.Y)*ky)))
		if r.Empty() {
			continue
		}
		img := scene.Portrait(q, s.sit, r.Dx()+1, r.Dy()+1)
		draw.Draw(out, r, img, img.Rect.Min, draw.Src)
	}
	s.part(out, kx, ky)
	return out
}

// part clears the gaps where they are thinner than can be seen.
func (s *sitter) part(out *image.RGBA, kx, ky float64) {
	for k := 1; k < len(s.at); k++ {
		a, b := s.at[k-1], s.at[k]
		var r image.Rectangle
		if b.Min.X >= a.Max.X {
			m := int(math.Round((a.Max.X + b.Min.X) / 2 * kx))
			r = image.Rect(m-gapPixels/2, 0, m+gapPixels/2, out.Rect.Dy())
		} else {
			m := int(math.Round((s.panel.Width - (a.Max.Y+b.Min.Y)/2) * ky))
			r = image.Rect(0, m-gapPixels/2, out.Rect.Dx(), m+gapPixels/2)
		}
		draw.Draw(out, r.Intersect(out.Rect), image.Transparent, image.Point{}, draw.Src)
	}
}
