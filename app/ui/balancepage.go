package ui

import (
	"context"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo/light"
	"heartside/model/say"
)

// cardKinds are what colours are balanced by.
type cardKind struct {
	name      string
	lightness float64 // CIELAB L
}

func cardKinds() []cardKind {
	return []cardKind{{say.T("Grey card (18 %)"), light.GreyCard}, {say.T("White paper"), light.WhitePaper}}
}

// balancePage is the page on which a grey card or a white sheet is pointed out
// in one photograph; faces taken in the same light follow it.
type balancePage struct {
	w      *Window
	from   page
	open   func(ctx context.Context, path string) (image.Image, error)
	ctx    context.Context
	stop   context.CancelFunc
	places []intake.Place
	at     int // which of places is shown
	kind   int // which of cardKinds
	alike  map[intake.Place]bool
	img    image.Image
	said   string // what is being done, or went wrong
	opens  context.CancelFunc
	pic    *cardCanvas
	all    fyne.CanvasObject
	scroll *container.Scroll
	foot   *fyne.Container
	note   *widget.Label
	use    *pageButton
	shot   *pick
	what   *pick
	list   *placeTicks
}

// showBalance shows the page for a card in the photograph of the board in
// hand.
func (w *Window) showBalance() { w.showBalanceWith(realMeans().open) }

func (w *Window) showBalanceWith(open func(context.Context, string) (image.Image, error)) *balancePage {
	p := &balancePage{w: w, from: w.page, open: open, places: w.photographed(), alike: map[intake.Place]bool{}}
	if len(p.places) == 0 {
		return nil
	}
	sel := w.ses.Selected()
	for i, at := range p.places {
		if at.Board == sel.Board && (at.Part.Face() == 1 || p.places[p.at].Board != sel.Board) {
			p.at = i
			break
		}
	}
	p.ctx, p.stop = context.WithCancel(w.work)
	p.pic = newCardCanvas(p)
	p.build()
	w.turnTo(p)
	p.load()
	return p
}

// build makes what stands round the picture, for the size of text there is.
func (p *balancePage) build() {
	w := p.w
	p.note = wrapped("", widget.MediumImportance)
	p.note.TextStyle.Bold = true
	kinds := cardKinds()
	p.shot = choice(w, p.places, shortPlace, p.places[p.at])
	p.shot.changed = func() {
		p.at = max(p.shot.SelectedIndex(), 0)
		p.build()
		w.turnTo(p)
		p.load()
	}
	p.what = choice(w, kinds, func(k cardKind) string { return k.name }, kinds[p.kind])
	p.what.changed = func() { p.kind = max(p.what.SelectedIndex(), 0); p.show(); w.takeKeys() }
	var others []intake.Place
	for i, at := range p.places {
		if i != p.at {
			others = append(others, at)
		}
	}
	p.list = newPlaceTicks(w, others, func(at intake.Place) bool { return p.alike[at] })
	for i, t := range p.list.ticks {
		t.OnChanged = func(on bool) { p.alike[others[i]] = on; p.show() }
		t.enter = p.apply
	}
	p.use = newPageButton(w, say.T("Use it (Enter)"), p.apply)
	p.use.Importance = widget.SuccessImportance
	leave := newPageButton(w, say.T("Back (Esc)"), w.leavePage)
	leave.Importance = widget.LowImportance
	head := wrapped(say.T("Card or sheet in a photograph"), widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	all := newPageButton(w, say.T("Tick all"), func() { p.tickAll(true) })
	none := newPageButton(w, say.T("None"), func() { p.tickAll(false) })
	body := container.New(columnLayout{}, snug(head), snug(bold(say.T("Photograph"))), p.shot, snug(bold(say.T("What lies in it"))), p.what,
		snug(bold(say.T("Taken in the same light"))), snug(wrapped(say.T("Tick the faces photographed at the same place and hour, with the camera's colours set alike. They get the same balance."), widget.LowImportance)),
		container.NewHBox(all, none), p.list.box, snug(bold(say.T("Keys"))),
		snug(wrapped(say.T("Arrows: cursor, with Shift further. Space: corner of the patch there. Del: begin anew. + and −: zoom. 0: all of the picture."), widget.LowImportance)))
	p.scroll = container.NewVScroll(body)
	p.foot = container.New(stackLayout{}, widget.NewSeparator(), p.note, container.NewPadded(container.NewBorder(nil, nil, nil, leave, p.use)))
	side := container.NewBorder(nil, p.foot, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, p.scroll))
	p.all = container.New(sideLayout{column: w.columnWidth}, container.NewPadded(p.pic), side)
	p.show()
}

func (p *balancePage) tickAll(on bool) {
	for i, t := range p.list.ticks {
		p.alike[p.list.places[i]] = on
		t.set(on)
	}
	p.show()
	p.w.takeKeys()
}

// load opens the photograph.
func (p *balancePage) load() {
	f := faceAtPlace(p.w.ses.Committed(), p.places[p.at])
	if f == nil {
		return
	}
	if p.opens != nil {
		p.opens()
	}
	ctx, stop := context.WithCancel(p.ctx)
	p.opens = stop
	path, open, w := p.w.photoPath(f.Photo), p.open, p.w
	p.img, p.said = nil, say.T("Opening the photograph…")
	p.pic.put(nil, nil)
	p.show()
	go func() {
		var img image.Image
		var small *image.RGBA
		err := guarded(func() (err error) {
			if img, err = open(ctx, path); err == nil {
				small = smallOf(img)
			}
			return err
		})
		w.post(func() {
			if ctx.Err() != nil {
				return
			}
			p.said = ""
			if err != nil {
				p.said = say.F("The photograph cannot be opened: %s.", say.Err(err))
			} else {
				p.img = img
				p.pic.put(img, small)
			}
			p.show()
			w.say("")
		})
	}()
}

// ring is the patch pointed out, nil until both corners are set.
func (p *balancePage) ring() geom.Polygon {
	c := p.pic.corners
	if len(c) != 2 {
		return nil
	}
	return geom.R(c[0].X, c[0].Y, c[1].X, c[1].Y).Polygon()
}

// fault says what speaks against the patch, "" nothing.
func (p *balancePage) fault() string {
	if p.img == nil || p.ring() == nil {
		return ""
	}
	if _, err := light.Card(p.img, p.ring(), cardKinds()[p.kind].lightness); err != nil {
		return sentence(say.Err(err)) + "."
	}
	return ""
}

// apply balances the face and those that follow it.
func (p *balancePage) apply() {
	ring := p.ring()
	switch why := p.fault(); {
	case p.img == nil:
		p.w.say(p.said)
		return
	case ring == nil:
		p.w.say(say.T("Point out the card first: click two corners of it across from one another."))
		return
	case why != "":
		p.w.say(why)
		return
	}
	w, from, to := p.w, p.places[p.at], p.list.chosen()
	kind := cardKinds()[p.kind]
	p.stop()
	w.turnTo(p.from)
	w.balanceByCard(from, to, ring, kind)
}

// content implements page.
func (p *balancePage) content() fyne.CanvasObject { return p.all }

// home implements page.
func (p *balancePage) home() fyne.Focusable { return p.pic }

// row implements page.
func (p *balancePage) row() []string { return nil }

// reveal implements page.
func (p *balancePage) reveal(o fyne.CanvasObject) {
	for _, t := range p.list.ticks {
		if o == fyne.CanvasObject(t) {
			into(p.scroll, o)
		}
	}
}

// restyled implements page.
func (p *balancePage) restyled() {
	p.build()
	p.pic.Refresh()
	p.w.turnTo(p)
}

// hint implements page.
func (p *balancePage) hint() string {
	if p.said != "" {
		return p.said
	}
	return []string{say.T("Click one corner of the card, inside its border."), say.T("Click the corner across."), say.T("Drag a corner to move it. Enter uses the patch. Esc goes back.")}[len(p.pic.corners)]
}

// show implements page.
func (p *balancePage) show() {
	text := p.said
	if text == "" {
		text = []string{say.T("Click two corners of the card, across from one another: inside its border, clear of shadow and glare."), say.T("Now click the corner across."), say.T("✓ This patch will be made neutral.")}[len(p.pic.corners)]
		if why := p.fault(); why != "" {
			text = "⚠ " + why
		} else if n := len(p.list.chosen()); n > 0 && len(p.pic.corners) == 2 {
			text += say.F(" %s it.", say.Count(n, say.T("other face follows"), say.T("other faces follow")))
		}
	}
	if p.note.Text != text {
		p.note.SetText(text)
		if p.all != nil {
			p.all.Refresh()
		}
	}
	if p.use != nil {
		p.use.greyed(p.ring() == nil || p.img == nil || p.fault() != "")
	}
	if p.w.page == page(p) && len(p.w.photographed()) != len(p.places) { // another project, or faces gone
		p.w.post(func() {
			if p.w.page == page(p) {
				p.stop()
				p.w.turnTo(p.from)
			}
		})
	}
}

// back implements page: Escape drops the patch, then leaves.
func (p *balancePage) back() (page, bool) {
	if len(p.pic.corners) > 0 {
		p.pic.again()
		return nil, true
	}
	p.stop()
	return p.from, false
}
