package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// matchGallery shows a tile a pair, those of edges first, then the book and slip
// matches of the strip in hand. One is in hand; arrows move it.
type matchGallery struct {
	widget.BaseWidget
	p      *matchPage
	all    fyne.CanvasObject
	box    *fyne.Container
	scroll *container.Scroll
	tiles  []*matchTile
	none   *widget.Label // in the place of the first group where it is empty
	near   *pageButton   // shows the nearest miss
	leaves *widget.Label // over the second group
	why    *widget.Label // in its place where it is empty
	rows   [][]int       // tiles as they are laid out
	at     int
	id     string
	has    bool // the keys are here
	laid   string
}

func newMatchGallery(p *matchPage) *matchGallery {
	g := &matchGallery{p: p}
	g.ExtendBaseWidget(g)
	g.forget()
	var room *fyne.Container
	room, g.scroll = down(g.box, nil)
	g.all = container.NewStack(g, room) // under what takes clicks
	return g
}

// CreateRenderer implements fyne.Widget: the gallery itself only takes the
// keys; what is seen lies over it.
func (g *matchGallery) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// forget makes what is shown anew, after a change of look or size of text.
func (g *matchGallery) forget() {
	g.none, g.leaves, g.why = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	g.near = g.p.button("", g.p.nearest)
	g.leaves.TextStyle.Bold = true
	g.tiles, g.laid = nil, ""
	if g.box == nil {
		g.box = container.New(matchRows{g})
	}
	g.box.Objects = []fyne.CanvasObject{g.none, g.near, g.leaves, g.why}
}

// show brings the tiles up to date.
func (g *matchGallery) show() {
	list := g.p.entries
	old := g.at
	g.at = -1
	for i, e := range list {
		if e.id == g.id {
			g.at = i
		}
	}
	if g.at < 0 {
		g.at = min(max(old, 0), max(len(list)-1, 0))
		g.id = ""
		if len(list) > 0 {
			g.id = list[g.at].id
		}
	}
	for len(g.tiles) < len(list) {
		t := newMatchTile(g, len(g.tiles))
		g.tiles = append(g.tiles, t)
		g.box.Objects = append(g.box.Objects, t)
	}
	head, why := g.p.leafWords()
	none, near := "", ""
	if len(g.p.edges.List) == 0 && !g.p.running {
		none = g.p.edges.Why
		if g.p.edges.Need > 0 {
			near = say.T("Show the nearest miss (N)")
		}
	}
	put(g.none, none)
	setShown(g.none, none != "")
	g.near.SetText(near)
	setShown(g.near, near != "")
	put(g.leaves, head)
	put(g.why, why)
	setShown(g.leaves, head != "")
	setShown(g.why, why != "")
	key := head + why + none + near
	for i, t := range g.tiles {
		setShown(t, i < len(list))
		if i < len(list) {
			t.show(list[i])
			key += t.texts() + "\x00"
		}
	}
	if key != g.laid {
		g.laid = key
		settled(g.scroll)
	}
	g.drawn()
}

// put writes a text where it differs.
func put(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

// leafWords are what stands over the second group, and why it is empty.
func (p *matchPage) leafWords() (head, why string) {
	if p.strip == "" || p.running && len(p.leaves.List) == 0 {
		return "", ""
	}
	return say.F("Book and slip matches of strip %s", p.w.ses.Number(p.panel, p.strip)), p.leaves.Why
}

// drawn shows pictures that are ready and marks which tile is in hand.
func (g *matchGallery) drawn() {
	for i, t := range g.tiles {
		if i < len(g.p.entries) {
			t.picture()
			t.mark(i == g.at, g.has)
		}
	}
}

// hand is the pair in hand, nil none.
func (g *matchGallery) hand() *matchEntry {
	if g.at < 0 || g.at >= len(g.p.entries) {
		return nil
	}
	return g.p.entries[g.at]
}

// take takes a pair in hand.
func (g *matchGallery) take(i int) {
	if i < 0 || i >= len(g.p.entries) {
		return
	}
	g.at, g.id = i, g.p.entries[i].id
	if i < len(g.tiles) {
		into(g.scroll, g.tiles[i])
	}
	g.drawn()
	g.p.side.show()
	g.p.w.say("")
}

// step goes a row up or down, in the same column where there is one.
func (g *matchGallery) step(by int) {
	for r, row := range g.rows {
		for c, i := range row {
			if to := r + by; i == g.at && to >= 0 && to < len(g.rows) {
				g.take(g.rows[to][min(c, len(g.rows[to])-1)])
				return
			}
		}
	}
}

// pairLetters is the least width of a tile, in letters.
const pairLetters = 40

// columns is how many tiles stand side by side.
func (g *matchGallery) columns(width float32) int {
	return min(max(int(width/(pairLetters*letterWidth*theme.TextSize())), 1), 3)
}

// FocusGained implements fyne.Focusable.
func (g *matchGallery) FocusGained() { g.has = true; g.drawn() }

// FocusLost implements fyne.Focusable.
func (g *matchGallery) FocusLost() { g.has = false; g.drawn() }

// TypedKey implements fyne.Focusable.
func (g *matchGallery) TypedKey(ev *fyne.KeyEvent) { g.p.w.pageTyped(ev) }

// TypedRune implements fyne.Focusable.
func (g *matchGallery) TypedRune(r rune) { g.p.sign(r) }

// AccessibilityLabel says what is in hand.
func (g *matchGallery) AccessibilityLabel() string {
	if e := g.hand(); e != nil {
		return say.F("Edges that match. %s. %s %s", e.m.Title, e.m.Text, e.change())
	}
	return say.F("Edges that match. %s", g.p.status())
}

// AccessibilityRole implements fyne.Accessible.
func (g *matchGallery) AccessibilityRole() fyne.AccessibleRole {
	return fyne.AccessibleRoleContainer
}

// matchRows sets the tiles of each group in rows, all of a row as high as its
// highest.
type matchRows struct{ g *matchGallery }

// place lays everything out in a width and returns the height of all.
func (l matchRows) place(width float32, move bool) float32 {
	g := l.g
	cols, air := g.columns(width), 2*pad()
	wide := (width - float32(cols-1)*air) / float32(cols)
	first := 0 // of the second group
	n := min(len(g.p.entries), len(g.tiles))
	for first < n && !g.p.entries[first].leaf {
		first++
	}
	var y float32
	var rows [][]int
	tiles := func(from, to int) {
		for i := from; i < to; i += cols {
			end := min(i+cols, to)
			high := float32(0)
			var row []int
			for k := i; k < end; k++ {
				high = fyne.Max(high, g.tiles[k].fit(wide))
				row = append(row, k)
			}
			rows = append(rows, row)
			for k := i; k < end && move; k++ {
				g.tiles[k].Move(fyne.NewPos(float32(k-i)*(wide+air), y))
				g.tiles[k].Resize(fyne.NewSize(wide, high))
			}
			y += high + air
		}
	}
	words := func(o fyne.CanvasObject, wide float32) {
		if !o.Visible() {
			return
		}
		for range 2 { // lines break in the width they were given
			o.Resize(fyne.NewSize(wide, o.MinSize().Height))
		}
		if move {
			o.Move(fyne.NewPos(0, y))
		}
		y += o.MinSize().Height + air
	}
	words(g.none, width)
	words(g.near, fyne.Min(g.near.MinSize().Width, width))
	tiles(0, first)
	words(g.leaves, width)
	words(g.why, width)
	tiles(first, n)
	g.rows = rows
	return fyne.Max(y-air, 0)
}

// MinSize implements fyne.Layout.
func (l matchRows) MinSize([]fyne.CanvasObject) fyne.Size {
	width := l.g.box.Size().Width
	if width < 100 {
		width = 600
	}
	return fyne.NewSize(160, l.place(width, false))
}

// Layout implements fyne.Layout.
func (l matchRows) Layout(_ []fyne.CanvasObject, size fyne.Size) { l.place(size.Width, true) }
