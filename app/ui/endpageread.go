package ui

import (
	"context"
	"image"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/layout/photo/rings"
	"heartside/model/say"
)

// endMeans are the long works of the page.
type endMeans struct {
	open func(ctx context.Context, path string) (image.Image, error)
	find func(ctx context.Context, img image.Image, length, width float64) (*outline.Found, error)
	read func(ctx context.Context, img image.Image, a endAsk) (endAnswer, error)
}

func realEndMeans() endMeans {
	return endMeans{open: realMeans().open, find: outline.Find, read: readEnd}
}

// endAsk is what pith and heartwood are read from.
type endAsk struct {
	corners          [4]geom.Point
	bow              float64
	width, thickness float64
	rings            []rings.Ring // whole ones, mm
	border           []geom.Point // mm; fewer than three do not count
	faces            []geom.Point // where the sap lines of the faces meet the end, mm
	none             bool         // no border of the heartwood is seen
	had              endAnswer    // of what stays as it was
}

// endAnswer is what was read. What is nil was not read yet.
type endAnswer struct {
	section *rings.End
	pith    *rings.Pith
	heart   *rings.Heart
}

// readEnd reads the pith and the heartwood of an end; what an earlier answer
// has is not read again.
func readEnd(ctx context.Context, img image.Image, a endAsk) (out endAnswer, err error) {
	out = a.had
	if out.section == nil {
		if out.section, err = rings.Square(ctx, img, a.corners, a.bow, a.width, a.thickness, rings.DefaultScale); err != nil {
			return out, err
		}
	}
	if out.pith == nil {
		if out.pith, err = rings.Find(ctx, out.section, rings.Clicks{Rings: a.rings}); err != nil {
			return out, err
		}
	}
	switch {
	case a.none || !out.pith.Found:
		out.heart = nil
	case len(a.border) >= leastClicks:
		out.heart, err = rings.HeartFromClicks(out.pith.At, a.border)
	case out.heart == nil:
		out.heart, err = rings.FindHeartKnown(ctx, out.section, out.pith, a.faces)
	}
	return out, err
}

// open reads the photograph, then looks for the section or reads its pith.
func (p *endPage) open() {
	path, ctx, w := p.w.photoPath(p.base.Photo), p.ctx, p.w
	p.wait(say.T("Opening the photograph…"))
	go func() {
		var img image.Image
		var small *image.RGBA
		err := guarded(func() (err error) {
			if img, err = p.means.open(ctx, path); err == nil {
				small = smallOf(img)
			}
			return err
		})
		w.post(func() {
			if ctx.Err() != nil {
				return
			}
			p.wait("")
			if err != nil {
				p.trouble = say.F("The photograph cannot be opened: %s.", say.Err(err))
				w.say(p.trouble)
				p.show()
				return
			}
			p.img = img
			p.pic.put(img, small)
			if len(p.now.lie.at) != 4 {
				p.find()
				return
			}
			p.turn(endPith)
		})
	}()
}

// wait tells what is being made ready, "" nothing.
func (p *endPage) wait(what string) {
	p.making = what
	p.show()
	if p.w.page == page(p) {
		p.w.say("")
	}
}

// find looks for the section in the picture.
func (p *endPage) find() {
	if p.img == nil || p.making != "" {
		return
	}
	p.turn(endCorners)
	img, from, ctx := p.img, p.now, p.ctx
	p.wait(say.T("Looking for the end of the board in the picture…"))
	go func() {
		var f *outline.Found
		err := guarded(func() (err error) { f, err = p.means.find(ctx, img, p.width, p.thickness); return err })
		p.w.post(func() {
			if ctx.Err() != nil {
				return
			}
			p.wait("")
			switch {
			case err != nil:
				p.w.say(say.F("The end was not found: %s.", say.Err(err)))
			case !from.lie.same(p.now.lie):
				p.w.say(say.T("The corners were moved meanwhile; what was found is dropped."))
			default:
				d := p.now
				d.lie = foundEnd(f, p.end, d.faceDown(), d.mirrored(p.end))
				p.do(d)
			}
		})
	}()
}

// read has pith and heartwood read for the draft as it is, beside the window.
func (p *endPage) read() {
	if p.img == nil || p.now.bad() != "" {
		return
	}
	m, err := p.section()
	if err != nil {
		p.w.say(sentence(say.Err(err)) + ".")
		return
	}
	a := endAsk{bow: p.now.lie.bow, width: p.width, thickness: p.thickness, none: p.now.none,
		faces: p.w.ses.EndBorders(p.board, p.end)}
	copy(a.corners[:], p.now.lie.at)
	for _, r := range p.now.rings {
		if len(r) >= leastClicks {
			a.rings = append(a.rings, m.sections(r))
		}
	}
	if len(p.now.border) >= leastClicks {
		a.border = m.sections(p.now.border)
	}
	if a.same(p.asked) && (p.reading || p.got.pith != nil) {
		return
	}
	a.had = p.had(a)
	if p.ends != nil {
		p.ends()
	}
	ctx, ends := context.WithCancel(p.ctx)
	p.ends, p.asked, p.got, p.reading = ends, a, a.had, true
	img := p.img
	go func() {
		var got endAnswer
		err := guarded(func() (err error) { got, err = p.means.read(ctx, img, a); return err })
		p.w.post(func() {
			if ctx.Err() != nil {
				return
			}
			p.reading, p.trouble = false, ""
			p.got = got
			if err != nil {
				p.got, p.trouble = endAnswer{}, say.F("The end cannot be read: %s.", say.Err(err))
			}
			p.pic.Refresh()
			p.show()
			p.w.say("")
		})
	}()
}

// same reports whether two asks have the same answer.
func (a *endAsk) same(b endAsk) bool {
	return a.sameSection(&b) && sameRings(a.rings, b.rings) && samePoints(a.border, b.border) && samePoints(a.faces, b.faces) && a.none == b.none
}

func (a *endAsk) sameSection(b *endAsk) bool {
	return a.corners == b.corners && a.bow == b.bow && a.width == b.width && a.thickness == b.thickness
}

func sameRings(a, b []rings.Ring) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !samePoints(a[i], b[i]) {
			return false
		}
	}
	return true
}

func samePoints(a, b []geom.Point) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// had is what an ask need not read again.
func (p *endPage) had(a endAsk) endAnswer {
	out := p.got
	if !a.sameSection(&p.asked) {
		return endAnswer{}
	}
	if !sameRings(a.rings, p.asked.rings) {
		out.pith = nil
	}
	// Clicks on the border are done at once; what was found without is not kept.
	out.heart = nil
	return out
}

// sectionMap takes places of the section, across and depth in mm, to pixels of
// the picture and back.
type sectionMap struct {
	there, back geom.Homography
	lens        photo.Lens
	flip        bool // across runs against the face's x
	width       float64
	thickness   float64
}

// section returns the map of the corners as they are.
func (p *endPage) section() (*sectionMap, error) {
	if p.img == nil {
		return nil, say.Error("the photograph is not open")
	}
	if len(p.now.lie.at) != 4 {
		return nil, say.Error("set all four corners first")
	}
	c := p.now.lie.at
	v := photo.View{Corners: [4]geom.Point{c[3], c[2], c[1], c[0]}, Bow: p.now.lie.bow}
	m := &sectionMap{flip: false, width: p.width, thickness: p.thickness}
	if geom.Polygon(c).SignedArea() < 0 { // the marked edge at the left
		v.Corners, m.flip = [4]geom.Point{c[2], c[3], c[0], c[1]}, true
	}
	var err error
	b := p.img.Bounds()
	if m.there, m.lens, err = v.FromFace(b.Dx(), b.Dy(), p.width, p.thickness); err != nil {
		return nil, err
	}
	var ok bool
	if m.back, ok = m.there.Inverse(); !ok {
		return nil, say.Error("the corners do not make the picture of a section")
	}
	return m, nil
}

// pic returns the pixel of a place of the section.
func (m *sectionMap) pic(q geom.Point) geom.Point {
	x := m.width - q.X
	if m.flip {
		x = q.X
	}
	// across 0 is the marked edge: at the right of the face as laid.
	return m.lens.Bowed(m.there.Apply(geom.Pt(x, m.thickness-q.Y)))
}

// at returns the place of the section at a pixel.
func (m *sectionMap) at(px geom.Point) geom.Point {
	q := m.back.Apply(m.lens.Straight(px))
	x := m.width - q.X
	if m.flip {
		x = q.X
	}
	return geom.Pt(x, m.thickness-q.Y)
}

func (m *sectionMap) sections(list []geom.Point) []geom.Point {
	out := make([]geom.Point, len(list))
	for i, q := range list {
		out[i] = m.at(q)
	}
	return out
}
