package ui

import (
	"fmt"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/layout/face"
)

// planStrip is the pictures of a plan, one under another: boards with what is
// cut from them, or panels.
type planStrip struct {
	box    *fyne.Container
	images []*canvas.Image
	over   *fyne.Container // outlines and names
	drawn  string
}

func newPlanStrip() *planStrip {
	s := &planStrip{over: container.NewWithoutLayout()}
	s.box = container.NewWithoutLayout(s.over)
	return s
}

// planLaid is where the pictures of a plan lie.
type planLaid struct {
	high  float32
	k     float32 // of the scale, a mm
	items []planItem
}

type planItem struct {
	panel *face.Panel // the board as a whole, or a panel
	board *session.PlannedBoard
	name  string
	at    fyne.Position
	size  fyne.Size
}

// mostHigh is the share of the room for all tiles that the pictures of one may
// be high. An engineering choice.
const mostHigh = 0.55

// lay sets the pictures out in a width: boards with their letters at the left,
// all plans at one scale.
func (s *planStrip) lay(g *planGallery, e *session.Planned, width float32) planLaid {
	var out planLaid
	left := 1.5 * theme.TextSize()
	if g.p.panels {
		left = 0
		for _, n := range e.Panels {
			out.items = append(out.items, planItem{panel: n, name: title(n.ID)})
		}
	} else {
		for i := range e.Boards {
			b := &e.Boards[i]
			out.items = append(out.items, planItem{panel: wholeBoard(b.Board, 1, false), board: b, name: b.Board.ID})
		}
	}
	gap := 1.5 * pad()
	sum := float32(0)
	for _, it := range out.items {
		sum += float32(it.panel.Width)
	}
	out.k = (width - left) / g.longest()
	room := fyne.Max(mostHigh*g.scroll.Size().Height, 8*theme.TextSize())
	if g.p.panels {
		for k, n := out.k, 0; n < 12; n++ { // smaller until they are not too high
			if out = layPanels(out.items, k, width, gap); out.high <= room {
				break
			}
			k *= 0.88
		}
		return out
	}
	if room -= float32(len(out.items)) * gap; sum*out.k > room {
		out.k = fyne.Max(room/sum, 0.6*out.k) // boards that are many need the height
	}
	for i := range out.items {
		it := &out.items[i]
		it.at = fyne.NewPos(left, out.high)
		it.size = fyne.NewSize(float32(it.panel.Length)*out.k, float32(it.panel.Width)*out.k)
		out.high += fyne.Max(it.size.Height, 1.3*theme.TextSize()) + gap
	}
	return out
}

// layPanels sets panels in rows at a scale, each under its name.
func layPanels(items []planItem, k, width, gap float32) planLaid {
	out := planLaid{k: k, items: items}
	caption := theme.CaptionTextSize() * 1.5
	x, row := float32(0), float32(0)
	for i := range out.items {
		it := &out.items[i]
		it.size = fyne.NewSize(float32(it.panel.Length)*out.k, float32(it.panel.Width)*out.k)
		if x > 0 && x+it.size.Width > width+0.5 {
			x, out.high, row = 0, out.high+row+gap, 0
		}
		it.at = fyne.NewPos(x, out.high+caption)
		x += it.size.Width + 2*gap
		row = fyne.Max(row, caption+it.size.Height)
	}
	out.high += row + gap
	return out
}

// picture shows the pictures as far as they are made, and over the boards what
// is cut from them.
func (s *planStrip) picture(t *planTile, l planLaid) {
	p := t.g.p
	px := float32(max(p.w.surf.pixels, 1))
	for len(s.images) < len(l.items) {
		img := canvas.NewImageFromImage(nil)
		img.FillMode, img.ScaleMode = canvas.ImageFillStretch, canvas.ImageScaleFastest
		s.images = append(s.images, img)
		s.box.Objects = append(s.box.Objects[:len(s.box.Objects)-1], img, s.over)
	}
	for i, img := range s.images {
		setShown(img, i < len(l.items))
		if i >= len(l.items) {
			continue
		}
		it := &l.items[i]
		if img.Position() != it.at {
			img.Move(it.at)
		}
		if img.Size() != it.size {
			img.Resize(it.size)
		}
		got := p.pics.of(t.i*1000+i, sitter{panel: it.panel, w: int(it.size.Width * px), h: int(math.Ceil(float64(it.size.Height * px))),
			sit: scene.Sitting{Faces: p.w.faces, Theme: p.w.sceneTheme(), Joints: p.panels}}, fmt.Sprint("plan", p.w.dark()))
		if got != nil && img.Image != got {
			img.Image = got
			img.Refresh()
		} else if got == nil && img.Image != nil {
			img.Image = nil
			img.Refresh()
		}
	}
	key := fmt.Sprint(t.e.ID, l.k, l.high, p.panels, p.w.dark(), theme.TextSize())
	if key == s.drawn {
		return
	}
	s.drawn = key
	s.over.Objects = nil
	for i := range l.items {
		s.marks(&l.items[i], l.k)
	}
	s.over.Resize(s.box.Size())
	s.over.Refresh()
}

// marks draws the letter of a board and what is cut from it, or the name of a
// panel.
func (s *planStrip) marks(it *planItem, k float32) {
	name := canvas.NewText(it.name, theme.Color(theme.ColorNameForeground))
	if it.board == nil {
		name.TextSize = theme.CaptionTextSize()
		name.Move(fyne.NewPos(it.at.X, it.at.Y-name.MinSize().Height))
		s.over.Add(name)
		return
	}
	name.TextStyle.Bold = true
	name.Move(fyne.NewPos(0, it.at.Y+(it.size.Height-name.MinSize().Height)/2))
	s.over.Add(name)
	for i := range it.board.Old {
		s.cut(it, &it.board.Old[i], k, "", color.NRGBA{0, 0, 0, 0x90})
	}
	for i := range it.board.New {
		s.cut(it, &it.board.New[i], k, it.board.Names[i], color.Transparent)
	}
}

// cut outlines a strip on its board, a light line in a dark one so that it is
// seen on any wood, with its name where there is room.
func (s *planStrip) cut(it *planItem, st *face.Strip, k float32, name string, fill color.Color) {
	sin, cos := math.Sincos(st.Angle * math.Pi / 180)
	at := func(u, v float64) fyne.Position {
		x, y := st.X+u*cos-v*sin, st.Y+u*sin+v*cos
		return fyne.NewPos(it.at.X+float32(x)*k, it.at.Y+it.size.Height-float32(y)*k)
	}
	a, b, c, d := at(0, 0), at(st.L, 0), at(st.L, st.W), at(0, st.W)
	if st.Angle == 0 {
		over := outlined(a.X, c.Y, b.X, a.Y, 3, color.NRGBA{0, 0, 0, 0xff})
		over.FillColor = fill
		s.over.Add(over)
		if name != "" {
			s.over.Add(outlined(a.X+1, c.Y+1, b.X-1, a.Y-1, 1.2, color.White))
		}
	} else {
		for _, pen := range [2]struct {
			width float32
			c     color.Color
		}{{3, color.Black}, {1.2, color.White}} {
			for _, e := range [4][2]fyne.Position{{a, b}, {b, c}, {c, d}, {d, a}} {
				l := canvas.NewLine(pen.c)
				l.StrokeWidth, l.Position1, l.Position2 = pen.width, e[0], e[1]
				s.over.Add(l)
			}
		}
	}
	if name == "" {
		return
	}
	text := canvas.NewText(name, color.White)
	text.TextSize = theme.CaptionTextSize()
	size := text.MinSize()
	if size.Width+8 > float32(st.L)*k || size.Height > float32(st.W)*k {
		return
	}
	mid := at(st.L/2, st.W/2)
	back := canvas.NewRectangle(color.NRGBA{0, 0, 0, 0xb0})
	back.CornerRadius = 3
	back.Move(fyne.NewPos(mid.X-size.Width/2-3, mid.Y-size.Height/2+1))
	back.Resize(fyne.NewSize(size.Width+6, size.Height-2))
	text.Move(fyne.NewPos(mid.X-size.Width/2, mid.Y-size.Height/2))
	s.over.Add(back)
	s.over.Add(text)
}
