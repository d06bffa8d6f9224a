package ui

import (
	"image"
	"image/color"
	"math"

	"heartside/app/scene"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
	eyes "heartside/layout/seen"
	"heartside/model"
	"heartside/model/say"
)

// seeing is how the pictures of arrangements are seen. Each takes away what
// the eye has grown used to.
type seeing int

const (
	seenPlain seeing = iota
	seenGrey
	seenBlurred
	seenMirrored
	seenChair // from where one sits or stands
	seenTen   // in the colours of ten years on
)

func seeings() []seeing {
	return []seeing{seenPlain, seenGrey, seenBlurred, seenMirrored, seenChair, seenTen}
}

// String implements fmt.Stringer.
func (s seeing) String() string {
	switch s {
	case seenGrey:
		return say.T("In grey")
	case seenBlurred:
		return say.T("Out of focus")
	case seenMirrored:
		return say.T("In a mirror")
	case seenChair:
		return say.T("From the chair")
	case seenTen:
		return say.T("In ten years")
	}
	return say.T("As it is")
}

// ageing is how colours will have changed in ten years, for a project as it is.
type ageing struct {
	of *model.Project
	by func(b *face.Board, f int, k face.Kind) colour.Lab
}

// aged returns by how much colours change in ten years.
func (p *arrangePage) aged() func(b *face.Board, f int, k face.Kind) colour.Lab {
	if of := p.w.ses.Project(); p.shift.of != of {
		p.shift = ageing{of, p.w.ses.AgeShift(p.panel, 10)}
	}
	return p.shift.by
}

// standsUpright reports whether a panel stands with its length upright.
func standsUpright(r model.Role) bool { return r == model.RoleSide || r == model.RoleDoor }

// eyeFor is where a panel is looked at from in its place.
func eyeFor(r model.Role, length, width float64) eyes.Eye {
	switch {
	case standsUpright(r):
		return eyes.Standing(length)
	case r == model.RoleDrawerFront: // straight before it
		return eyes.Eye{Along: length / 2, Across: width / 2, Out: 1500}
	}
	return eyes.Seated(length)
}

// blurShare is the standard deviation of the blur by the length of the picture:
// about as without one's glasses. An engineering choice.
const blurShare = 0.012

// sitter is all that the picture of an arrangement is made from.
type sitter struct {
	panel *face.Panel
	role  model.Role
	sit   scene.Sitting
	seen  seeing
	w, h  int           // pixels at most
	marks []geom.Rect   // of the panel, mm, drawn into it
	parts []*face.Panel // of a set: what is drawn, panel being their frame
	at    []geom.Rect   // where each stands in it, mm
}

// paint makes the picture.
func (s *sitter) paint() *image.RGBA {
	switch s.seen {
	case seenChair:
		return s.fromChair()
	case seenGrey:
		return eyes.Grey(s.portrait(s.w, s.h))
	case seenMirrored:
		return eyes.Mirrored(s.portrait(s.w, s.h))
	case seenBlurred:
		img := s.portrait(s.w, s.h)
		return eyes.Blurred(img, blurShare*float64(max(img.Rect.Dx(), img.Rect.Dy())))
	}
	return s.portrait(s.w, s.h)
}

// fromChair is the panel in its place, seen from where one is.
func (s *sitter) fromChair() *image.RGBA {
	big := 2 * max(s.w, s.h)
	img := s.portrait(big, big)
	for _, m := range s.marks {
		markInto(img, m, s.panel)
	}
	out, err := eyes.From(img, s.panel.Length, s.panel.Width, eyeFor(s.role, s.panel.Length, s.panel.Width), s.w, s.h)
	if err != nil { // nothing is seen from there
		return s.portrait(s.w, s.h)
	}
	return out
}

// markInto draws a light line in a dark one round a place of a panel.
func markInto(img *image.RGBA, place geom.Rect, p *face.Panel) {
	w, h := float64(img.Rect.Dx()), float64(img.Rect.Dy())
	x0, x1 := int(place.Min.X/p.Length*w), int(place.Max.X/p.Length*w)-1
	y0, y1 := int((1-place.Max.Y/p.Width)*h), int((1-place.Min.Y/p.Width)*h)-1
	t := max(int(math.Round(w/160)), 1)
	if y1-y0 < 8*t { // a joint
		m := (y0 + y1) / 2
		y0, y1 = m-4*t, m+4*t
	}
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			d := min(x-x0, x1-x, y-y0, y1-y)
			switch {
			case d >= 3*t || !(image.Point{X: x, Y: y}).In(img.Rect):
			case d >= t && d < 2*t:
				img.SetRGBA(x, y, color.RGBA{255, 255, 255, 255})
			default:
				img.SetRGBA(x, y, color.RGBA{0, 0, 0, 255})
			}
		}
	}
}

// chairShape is how high a picture seen from the chair is for its width.
func chairShape(r model.Role, p *face.Panel) float64 {
	if standsUpright(r) {
		return 1
	}
	return 0.3
}

// shape is how high a picture is for its width.
func (p *arrangePage) shape(e *layEntry) float64 {
	if e.panel == nil || !(e.panel.Length > 0) {
		return 0.4
	}
	if p.seen == seenChair {
		return chairShape(p.role(), e.panel)
	}
	return e.panel.Width / e.panel.Length
}

// role is what the panel is for.
func (p *arrangePage) role() model.Role {
	if n := p.w.ses.Project().Panel(p.panel); n != nil {
		return n.Role
	}
	return model.RoleTop
}
