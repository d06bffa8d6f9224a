package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"

	"heartside/app/sheet"
	"heartside/layout/geom"
	"heartside/model/say"
)

// sheetView shows the page in hand as large as there is room, or larger. The
// page is drawn beside the window, at the size it is seen; until that comes the
// last picture of it is stretched.
type sheetView struct {
	widget.BaseWidget
	p       *sheetPage
	out     *image.RGBA
	view    cornerView // of the page with its air, mm
	pixels  float64    // device pixels a unit
	of      *sheet.Page
	img     *image.RGBA // of the page, nil none yet
	imgOf   viewJob
	draws   viewDrawer
	last    geom.Point // of the pointer
	held    bool
	wheel   float32 // turned so far towards another page
	focused bool
}

var (
	_ desktop.Mouseable   = (*sheetView)(nil)
	_ desktop.Hoverable   = (*sheetView)(nil)
	_ fyne.Draggable      = (*sheetView)(nil)
	_ fyne.DoubleTappable = (*sheetView)(nil)
	_ fyne.Scrollable     = (*sheetView)(nil)
	_ fyne.Focusable      = (*sheetView)(nil)
)

// sheetAir is left round a page, mm.
const sheetAir = 4

// longestPage is the most pixels a page is drawn with on its longer side: an
// A4 page at 300 dots an inch takes 35 MB. An engineering choice.
const longestPage = 3600

func newSheetView(p *sheetPage) *sheetView {
	v := &sheetView{p: p, pixels: max(p.w.surf.pixels, 1)}
	v.view = cornerView{pic: geom.Pt(1, 1), zoom: 1}
	v.ExtendBaseWidget(v)
	return v
}

// put shows a page, nil none.
func (v *sheetView) put(page *sheet.Page) {
	other := page != v.of
	if other {
		size := v.view.pic
		v.of = page
		if page != nil {
			v.view.pic = geom.Pt(page.W+2*sheetAir, page.H+2*sheetAir)
		}
		if v.view.pic != size {
			v.view.zoom = 1
		}
		if v.view.zoom > 1 { // on with the top of the next page
			v.view.at = geom.Pt(v.view.at.X, 0)
		}
		if v.view.room.X > 0 {
			v.view.hold()
		}
	}
	v.wants()
	if other {
		v.Refresh()
	}
}

// rough reports whether the page in hand is not drawn for the view yet.
func (v *sheetView) rough() bool {
	return v.img == nil || v.of == nil || v.imgOf.doc.Pages[v.imgOf.page] != v.of
}

// dots is how many dots an inch the page is seen at.
func (v *sheetView) dots() float64 {
	return min(max(v.view.scale()*v.pixels*mmPerInch, leastDPI), v.mostDots())
}

// mostDots is the finest the page in hand is drawn.
func (v *sheetView) mostDots() float64 {
	if v.of == nil {
		return mostDPI
	}
	return min(longestPage/max(v.of.W, v.of.H)*mmPerInch, mostDPI)
}

// wants has the page drawn as it is seen now.
func (v *sheetView) wants() {
	doc := v.p.m.doc
	if v.of == nil || doc == nil || v.view.room.X < 2 || v.p.at >= len(doc.Pages) || doc.Pages[v.p.at] != v.of {
		return
	}
	j := viewJob{doc: doc, page: v.p.at, dots: v.dots(), grey: v.p.ask.grey}
	if j == v.imgOf && v.img != nil {
		return
	}
	v.draws.want(j, func(j viewJob, img *image.RGBA) {
		v.p.w.post(func() {
			if v.p.gone() || v.of == nil || j.page >= len(j.doc.Pages) || j.doc.Pages[j.page] != v.of {
				return
			}
			v.img, v.imgOf = img, j
			v.Refresh()
		})
	})
}

// picture is what there is to show of the page now: drawn for it, else small.
func (v *sheetView) picture() *image.RGBA {
	if !v.rough() {
		return v.img
	}
	if m := &v.p.m; m.doc != nil && v.p.at < len(m.small) && m.doc.Pages[v.p.at] == v.of {
		return m.small[v.p.at]
	}
	return nil
}

// zoom enlarges the page about a place of the widget.
func (v *sheetView) zoom(at geom.Point, by float64) {
	if v.of == nil {
		return
	}
	most := v.mostDots() / (mmPerInch * v.pixels) // units a mm
	if now := v.view.scale(); by > 1 && now*by > most {
		by = max(most/now, 1)
	}
	v.view.zoomed(at, by)
	v.wants()
	v.Refresh()
}

// fit shows all of the page.
func (v *sheetView) fit() {
	v.view.zoom = 1
	v.view.hold()
	v.wants()
	v.Refresh()
}

// trueSize shows a millimetre of paper as about a millimetre.
func (v *sheetView) trueSize() {
	v.zoom(v.view.room.Mul(0.5), v.p.w.surf.unitsPerMM()/v.view.scale())
}

// larger reports whether more of the page lies beyond the widget.
func (v *sheetView) larger() bool { return v.view.zoom > 1.001 }

// move pans by units.
func (v *sheetView) move(by geom.Point) {
	v.view.moved(by)
	v.Refresh()
}

// MouseDown implements desktop.Mouseable.
func (v *sheetView) MouseDown(ev *desktop.MouseEvent) {
	v.p.w.win.Canvas().Focus(v)
	v.last, v.held = point(ev.Position), true
}

// MouseUp implements desktop.Mouseable.
func (v *sheetView) MouseUp(*desktop.MouseEvent) { v.held = false }

// Dragged implements fyne.Draggable.
func (v *sheetView) Dragged(ev *fyne.DragEvent) { v.drag(point(ev.Position)) }

// DragEnd implements fyne.Draggable; the release came before it.
func (v *sheetView) DragEnd() {}

// DoubleTapped shows the page at true size, or all of it again.
func (v *sheetView) DoubleTapped(ev *fyne.PointEvent) {
	if v.larger() {
		v.fit()
		return
	}
	v.zoom(point(ev.Position), max(v.p.w.surf.unitsPerMM()/v.view.scale(), 1.5))
}

// MouseIn implements desktop.Hoverable.
func (v *sheetView) MouseIn(*desktop.MouseEvent) {}

// MouseMoved pans with the right button held.
func (v *sheetView) MouseMoved(ev *desktop.MouseEvent) {
	if v.held {
		v.drag(point(ev.Position))
	}
}

// MouseOut implements desktop.Hoverable.
func (v *sheetView) MouseOut() {}

func (v *sheetView) drag(to geom.Point) {
	if v.held {
		v.move(to.Sub(v.last))
	}
	v.last = to
}

// wheelPage is how far the wheel turns for another page.
const wheelPage = 40

// Scrolled implements fyne.Scrollable: the wheel moves a page that is larger
// than the widget, and turns the pages of one that is not. With Ctrl it zooms.
func (v *sheetView) Scrolled(ev *fyne.ScrollEvent) {
	switch {
	case v.p.w.surf.mods().Control:
		by := 1.2
		if ev.Scrolled.DY < 0 {
			by = 1 / by
		}
		v.zoom(point(ev.Position), by)
	case v.larger():
		v.move(geom.Pt(2*float64(ev.Scrolled.DX), 2*float64(ev.Scrolled.DY)))
	default:
		if v.wheel += ev.Scrolled.DY; v.wheel >= wheelPage {
			v.wheel = 0
			v.p.take(v.p.at - 1)
		} else if v.wheel <= -wheelPage {
			v.wheel = 0
			v.p.take(v.p.at + 1)
		}
	}
}

// FocusGained implements fyne.Focusable.
func (v *sheetView) FocusGained() { v.focused = true; v.Refresh() }

// FocusLost implements fyne.Focusable.
func (v *sheetView) FocusLost() { v.focused = false; v.Refresh() }

// TypedKey implements fyne.Focusable.
func (v *sheetView) TypedKey(ev *fyne.KeyEvent) { v.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (v *sheetView) TypedRune(r rune) { v.p.sign(r) }

// AccessibilityLabel says which page is seen.
func (v *sheetView) AccessibilityLabel() string { return say.F("Layout sheet. %s", v.p.pageWords()) }

// AccessibilityRole implements fyne.Accessible.
func (v *sheetView) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// paint draws the page on its ground.
func (v *sheetView) paint(w, h int) image.Image {
	if v.out == nil || v.out.Rect.Dx() != w || v.out.Rect.Dy() != h {
		v.out = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	look := charcoalOrPaper(v.p.w.dark())
	draw.Draw(v.out, v.out.Rect, image.NewUniform(look.ground), image.Point{}, draw.Src)
	if v.of == nil || v.view.room.X < 2 {
		return v.out
	}
	px := float64(v.out.Rect.Dx()) / v.view.room.X
	if px != v.pixels && px > 0 {
		v.pixels = px
		v.wants()
	}
	k := v.view.scale() * px
	o := v.view.toRoom(geom.Pt(sheetAir, sheetAir)).Mul(px)
	box := image.Rect(int(o.X+0.5), int(o.Y+0.5), int(o.X+0.5)+int(v.of.W*k+0.5), int(o.Y+0.5)+int(v.of.H*k+0.5))
	draw.Draw(v.out, box.Inset(-1), image.NewUniform(look.border), image.Point{}, draw.Src)
	img := v.picture()
	switch {
	case img == nil || img.Rect.Dx() < 2:
		draw.Draw(v.out, box, image.NewUniform(color.White), image.Point{}, draw.Src)
	case near(img.Rect.Dx(), box.Dx()) && near(img.Rect.Dy(), box.Dy()):
		draw.Draw(v.out, img.Rect.Add(box.Min), img, image.Point{}, draw.Src)
	default:
		draw.ApproxBiLinear.Scale(v.out, box, img, img.Rect, draw.Src, nil)
	}
	return v.out
}

// near reports whether two sizes differ by rounding alone.
func near(a, b int) bool { return a-b <= 1 && b-a <= 1 }

// CreateRenderer implements fyne.Widget.
func (v *sheetView) CreateRenderer() fyne.WidgetRenderer {
	return newRinged(v.paint, fyne.NewSize(160, 120), func() bool { return v.focused }, func(size fyne.Size) {
		v.view.room = geom.Pt(float64(size.Width), float64(size.Height))
		v.view.hold()
		v.wants()
	})
}
