package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/layout/geom"
	"heartside/model/say"
)

// arrangeGallery shows a tile an arrangement. One is in hand; arrows move it.
type arrangeGallery struct {
	widget.BaseWidget
	p         *arrangePage
	all       fyne.CanvasObject
	box       *fyne.Container
	scroll    *container.Scroll
	tiles     []*arrangeTile
	pics      *woodPics
	at        int // which of shown is in hand
	id        string
	has       bool // the keys are here
	comparing bool
	shown     []*layEntry
	marks     []geom.Rect // places of the panel in hand that are pointed out
	laid      string
}

func newArrangeGallery(p *arrangePage) *arrangeGallery {
	g := &arrangeGallery{p: p, id: "now"}
	g.pics = newWoodPics(p.w, p.ctx, p.gone, g.drawn)
	g.box = container.New(tileRows{g})
	var room *fyne.Container
	room, g.scroll = down(g.box, nil)
	g.ExtendBaseWidget(g)
	g.all = container.NewStack(g, room) // under what takes clicks
	return g
}

// CreateRenderer implements fyne.Widget: the gallery itself only takes the
// keys; what is seen lies over it.
func (g *arrangeGallery) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// forget makes the tiles anew, after a change of look or size of text.
func (g *arrangeGallery) forget() {
	g.tiles, g.box.Objects, g.laid = nil, nil, ""
}

// show brings the tiles up to date.
func (g *arrangeGallery) show() {
	p := g.p
	g.shown = p.entries
	if g.comparing {
		g.shown = nil
		for _, e := range p.entries {
			if p.isTicked(e.id) {
				g.shown = append(g.shown, e)
			}
		}
		if len(g.shown) < 2 { // what was compared is gone
			g.comparing, g.shown = false, p.entries
		}
	}
	old := g.at
	g.at = -1
	for i, e := range g.shown {
		if e.id == g.id {
			g.at = i
		}
	}
	if g.at < 0 {
		g.at = min(max(old, 0), max(len(g.shown)-1, 0))
		g.marks = nil
		if len(g.shown) > 0 {
			g.id = g.shown[g.at].id
		}
	}
	key := ""
	for len(g.tiles) < len(g.shown) {
		t := newArrangeTile(g, len(g.tiles))
		g.tiles = append(g.tiles, t)
		g.box.Objects = append(g.box.Objects, t)
	}
	for i, t := range g.tiles {
		setShown(t, i < len(g.shown))
		if i < len(g.shown) {
			t.show(g.shown[i])
			key += g.shown[i].id + t.texts() + "\x00"
		}
	}
	if key != g.laid {
		g.laid = key
		settled(g.scroll)
	}
	g.drawn()
}

// drawn shows pictures that are ready and marks which tile is in hand.
func (g *arrangeGallery) drawn() {
	for i, t := range g.tiles {
		if i < len(g.shown) {
			t.picture()
			t.mark(i == g.at, g.has)
		}
	}
}

// hand is the arrangement in hand, nil none.
func (g *arrangeGallery) hand() *layEntry {
	if g.at < 0 || g.at >= len(g.shown) {
		return nil
	}
	return g.shown[g.at]
}

// take takes an arrangement in hand.
func (g *arrangeGallery) take(i int) {
	if i < 0 || i >= len(g.shown) {
		return
	}
	if g.id != g.shown[i].id {
		g.marks = nil
	}
	g.at, g.id = i, g.shown[i].id
	g.reveal()
	g.drawn()
	g.p.side.show()
	g.p.w.say("")
}

// reveal scrolls so that the tile in hand is in sight.
func (g *arrangeGallery) reveal() {
	if g.at < len(g.tiles) {
		into(g.scroll, g.tiles[g.at])
	}
}

// point points places of the panel in hand out, none where there are none.
func (g *arrangeGallery) point(marks []geom.Rect) {
	g.marks = marks
	if g.at < len(g.tiles) {
		g.tiles[g.at].picture()
	}
}

// columns is how many tiles stand side by side.
func (g *arrangeGallery) columns(width float32) int {
	if g.comparing {
		return 1
	}
	return min(max(int(width/(tileLetters*letterWidth*theme.TextSize())), 1), 3)
}

// tileLetters is the least width of a tile, in letters.
const tileLetters = 26

// sitter is what the picture of an arrangement is made from, for a room of
// units.
func (g *arrangeGallery) sitter(e *layEntry, room fyne.Size, marks []geom.Rect) (s sitter, look string) {
	p := g.p
	px := float32(max(p.w.surf.pixels, 1))
	s = sitter{panel: e.panel, role: p.role(), seen: p.seen, w: int(room.Width * px), h: int(room.Height * px),
		sit: scene.Sitting{Faces: p.w.faces, Theme: p.w.sceneTheme(), Hatch: p.hatch, Joints: true}}
	s.parts, s.at = e.parts, e.at
	switch p.seen {
	case seenChair:
		s.marks = marks
	case seenTen:
		s.sit.Aged = p.aged()
	}
	if p.w.dark() {
		look = say.T("dark")
	}
	if e.parts != nil {
		look += fmt.Sprint(e.at)
	}
	return s, look
}

// FocusGained implements fyne.Focusable.
func (g *arrangeGallery) FocusGained() { g.has = true; g.drawn() }

// FocusLost implements fyne.Focusable.
func (g *arrangeGallery) FocusLost() { g.has = false; g.drawn() }

// TypedKey implements fyne.Focusable.
func (g *arrangeGallery) TypedKey(ev *fyne.KeyEvent) { g.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (g *arrangeGallery) TypedRune(r rune) { g.p.sign(r) }

// AccessibilityLabel says what is in hand.
func (g *arrangeGallery) AccessibilityLabel() string {
	if e := g.hand(); e != nil {
		return say.F("Arrangements. %s, %s. %s", e.title(), e.against(), e.text())
	}
	return say.T("Arrangements")
}

// AccessibilityRole implements fyne.Accessible.
func (g *arrangeGallery) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// tileRows sets the tiles in rows, all of a row as high as its highest.
type tileRows struct{ g *arrangeGallery }

// place lays the tiles out in a width and returns the height of all.
func (l tileRows) place(width float32, move bool) float32 {
	g := l.g
	cols, air := g.columns(width), 2*pad()
	wide := (width - float32(cols-1)*air) / float32(cols)
	var y float32
	for i := 0; i < len(g.shown) && i < len(g.tiles); i += cols {
		end := min(i+cols, len(g.shown), len(g.tiles))
		high := float32(0)
		for _, t := range g.tiles[i:end] {
			high = fyne.Max(high, t.fit(wide))
		}
		for k, t := range g.tiles[i:end] {
			if move {
				t.Move(fyne.NewPos(float32(k)*(wide+air), y))
				t.Resize(fyne.NewSize(wide, high))
			}
		}
		y += high + air
	}
	return fyne.Max(y-air, 0)
}

// MinSize implements fyne.Layout.
func (l tileRows) MinSize([]fyne.CanvasObject) fyne.Size {
	width := l.g.box.Size().Width
	if width < 100 {
		width = 600
	}
	return fyne.NewSize(160, l.place(width, false))
}

// Layout implements fyne.Layout.
func (l tileRows) Layout(_ []fyne.CanvasObject, size fyne.Size) { l.place(size.Width, true) }

// room is the room for the picture of a tile of a width, of which text takes
// some of the height where arrangements are compared.
func (g *arrangeGallery) room(e *layEntry, width, text float32) fyne.Size {
	high := width * float32(g.p.shape(e))
	most := 0.5 * g.scroll.Size().Height
	if g.comparing {
		n := float32(len(g.shown))
		most = (g.scroll.Size().Height-(n-1)*2*pad())/n - text
	}
	return fyne.NewSize(width, fyne.Max(fyne.Min(high, most), 5*theme.TextSize()))
}
