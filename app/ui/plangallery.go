package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// planGallery shows a tile a plan, the best for what was asked first. One is
// in hand; arrows move it.
type planGallery struct {
	widget.BaseWidget
	p      *planPage
	all    fyne.CanvasObject
	box    *fyne.Container
	scroll *container.Scroll
	tiles  []*planTile
	cols   int
	at     int
	id     string
	has    bool // the keys are here
	laid   string
}

func newPlanGallery(p *planPage) *planGallery {
	g := &planGallery{p: p, cols: 1}
	g.ExtendBaseWidget(g)
	g.forget()
	var room *fyne.Container
	room, g.scroll = down(g.box, nil)
	g.all = container.NewStack(g, room) // under what takes clicks
	return g
}

// CreateRenderer implements fyne.Widget: the gallery itself only takes the
// keys; what is seen lies over it.
func (g *planGallery) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// forget makes what is shown anew, after a change of look or size of text.
func (g *planGallery) forget() {
	g.tiles, g.laid = nil, ""
	if g.box == nil {
		g.box = container.New(planRows{g})
	}
	g.box.Objects = nil
}

// show brings the tiles up to date.
func (g *planGallery) show() {
	list := g.p.plans
	found := -1
	for i := range list {
		if list[i].ID == g.id {
			found = i
		}
	}
	if found >= 0 {
		g.at = found
	}
	g.at = min(max(g.at, 0), max(len(list)-1, 0))
	g.id = ""
	if len(list) > 0 {
		g.id = list[g.at].ID
	}
	for len(g.tiles) < len(list) {
		t := newPlanTile(g, len(g.tiles))
		g.tiles = append(g.tiles, t)
		g.box.Objects = append(g.box.Objects, t)
	}
	key := ""
	for i, t := range g.tiles {
		setShown(t, i < len(list))
		if i < len(list) {
			t.show(&list[i])
			key += t.texts() + "\x00"
		}
	}
	if key != g.laid {
		g.laid = key
		settled(g.scroll)
	}
	g.drawn()
}

// drawn shows pictures that are ready and marks which tile is in hand.
func (g *planGallery) drawn() {
	for i, t := range g.tiles {
		if i < len(g.p.plans) {
			t.picture()
			t.mark(i == g.at, g.has)
		}
	}
}

// hand is the plan in hand, nil none.
func (g *planGallery) hand() *session.Planned {
	if g.at < 0 || g.at >= len(g.p.plans) {
		return nil
	}
	return &g.p.plans[g.at]
}

// take takes a plan in hand.
func (g *planGallery) take(i int) {
	if i < 0 || i >= len(g.p.plans) {
		return
	}
	g.at, g.id = i, g.p.plans[i].ID
	if i < len(g.tiles) {
		into(g.scroll, g.tiles[i])
	}
	g.drawn()
	g.p.side.show()
	g.p.w.say("")
}

// planLetters is the least width of a tile, in letters.
const planLetters = 46

// columns is how many tiles stand side by side.
func (g *planGallery) columns(width float32) int {
	return min(max(int(width/(planLetters*letterWidth*theme.TextSize())), 1), 3)
}

// longest is the length of the longest piece of any picture, mm, so that all
// are of one scale.
func (g *planGallery) longest() float32 {
	l := 1.0
	for i := range g.p.plans {
		e := &g.p.plans[i]
		if g.p.panels {
			for _, n := range e.Panels {
				l = max(l, n.Length)
			}
			continue
		}
		for _, b := range e.Boards {
			l = max(l, b.Board.Length)
		}
	}
	return float32(l)
}

// FocusGained implements fyne.Focusable.
func (g *planGallery) FocusGained() { g.has = true; g.drawn() }

// FocusLost implements fyne.Focusable.
func (g *planGallery) FocusLost() { g.has = false; g.drawn() }

// TypedKey implements fyne.Focusable.
func (g *planGallery) TypedKey(ev *fyne.KeyEvent) { g.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (g *planGallery) TypedRune(r rune) { g.p.sign(r) }

// AccessibilityLabel says what is in hand.
func (g *planGallery) AccessibilityLabel() string {
	if e := g.hand(); e != nil {
		return say.F("Plans from the boards. %s. %s", e.Title, planText(g.p.w, e))
	}
	return say.F("Plans from the boards. %s", g.p.status())
}

// AccessibilityRole implements fyne.Accessible.
func (g *planGallery) AccessibilityRole() fyne.AccessibleRole {
	return fyne.AccessibleRoleContainer
}

// planRows sets the tiles in rows, all of a row as high as its highest.
type planRows struct{ g *planGallery }

// place lays everything out in a width and returns the height of all.
func (l planRows) place(width float32, move bool) float32 {
	g := l.g
	most := g.columns(width)
	for g.cols = 1; g.cols < most && l.rows(width, false) > g.scroll.Size().Height; g.cols++ {
	}
	return l.rows(width, move)
}

// rows lays the tiles out in the columns there are: as few as show all plans,
// so that pictures are large.
func (l planRows) rows(width float32, move bool) float32 {
	g, air := l.g, 2*pad()
	wide := (width - float32(g.cols-1)*air) / float32(g.cols)
	n := min(len(g.p.plans), len(g.tiles))
	var y float32
	for i := 0; i < n; i += g.cols {
		end, high := min(i+g.cols, n), float32(0)
		for k := i; k < end; k++ {
			high = fyne.Max(high, g.tiles[k].fit(wide))
		}
		for k := i; k < end && move; k++ {
			g.tiles[k].Move(fyne.NewPos(float32(k-i)*(wide+air), y))
			g.tiles[k].Resize(fyne.NewSize(wide, high))
		}
		y += high + air
	}
	return fyne.Max(y-air, 0)
}

// MinSize implements fyne.Layout.
func (l planRows) MinSize([]fyne.CanvasObject) fyne.Size {
	width := l.g.box.Size().Width
	if width < 100 {
		width = 600
	}
	return fyne.NewSize(160, l.place(width, false))
}

// Layout implements fyne.Layout.
func (l planRows) Layout(_ []fyne.CanvasObject, size fyne.Size) { l.place(size.Width, true) }
