package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/keep"
	"heartside/app/render"
	"heartside/app/scene"
	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// Window is the program's one window on one session.
type Window struct {
	app      fyne.App
	win      fyne.Window
	ses      *session.Session
	set      settings
	look     *Theme
	faces    *render.Faces
	acts     actions
	surf     *surface
	column   *column
	tabs     *tabRow
	depth    *depthBar
	middle   fyne.CanvasObject // panel, boards and readings
	stack    *fyne.Container   // holds them or the page that is up
	page     page              // nil: none
	plans    *planPage         // the plans looked for last, nil none
	rack     *rack
	watch    readWatch
	row      *actionRow
	status   *statusLine
	menus    menus
	nudge    nudger
	hints    *hints
	kept     *keeping
	asks     *asked         // the dialog that is up, nil none
	said     string         // of the last act, "" none
	saidOver *model.Project // as it stood then
	trace    *tracer
	post     func(func()) // runs a function on the toolkit's goroutine, soon
	work     context.Context
	stop     context.CancelFunc
}

// Parts are what a window is built from.
type Parts struct {
	App     fyne.App
	Session *session.Session
	Look    *Theme
	Faces   *render.Faces
	Post    func(func()) // runs a function on the toolkit's goroutine; the session's too
	Start   Start
	Keep    keep.Options // without a Disk nothing is kept
}

// New builds the window.
func New(p Parts) *Window {
	w := &Window{app: p.App, ses: p.Session, set: settings{p.App.Preferences()}, look: p.Look, faces: p.Faces, post: p.Post, trace: newTracer(p.Start)}
	w.work, w.stop = context.WithCancel(context.Background())
	w.win = p.App.NewWindow(say.T("Heartside"))
	ses := w.ses
	w.nudge.w = w
	w.kept = newKeeping(w, p.Keep)
	w.addActions()
	w.hints = newHints(w)
	w.surf = newSurface(w)
	w.column = newColumn(w)
	w.depth = newDepthBar(w)
	w.tabs = newTabRow(w)
	w.row = newActionRow(w)
	w.status = newStatusLine(w)

	work := container.NewBorder(container.NewVBox(w.tabs.box, w.depth.box), w.hints.box, nil, nil, w.surf)
	w.hints.room = func() { relay(work) }
	w.middle = container.New(sideLayout{column: w.columnWidth}, work, w.column.box)
	w.stack = container.NewStack(w.middle)
	w.rack = newRack(w)
	top := container.NewVBox(w.row.box, widget.NewSeparator())
	foot := container.NewVBox(widget.NewSeparator(), w.status.box)
	w.win.SetContent(container.NewBorder(top, foot, nil, nil, w.stack))
	w.win.SetPadded(false)
	w.win.SetMaster()
	w.win.Resize(fyne.NewSize(1280, 800))
	w.win.SetCloseIntercept(w.close)
	w.win.SetOnDropped(w.dropped)
	w.buildMenus()
	w.win.Canvas().SetOnTypedKey(w.typedUnfocused)
	w.win.Canvas().SetOnTypedRune(w.typedRuneUnfocused)
	ses.OnChange(w.changed)
	ses.OnDepth(w.surf.stale)
	w.changed()
	return w
}

// columnWidth is what the readings want.
func (w *Window) columnWidth() float32 {
	k := float32(w.look.TextPercent()) / 100
	return 330 * (0.35 + 0.65*k)
}

// large reports whether text is so large that what stands side by side
// otherwise goes one under the other.
func (w *Window) large() bool { return w.look.TextPercent() > 150 }

// changed shows what the session holds now.
func (w *Window) changed() {
	w.watch.follow(w)
	w.kept.follow()
	w.surf.stale()
	w.tabs.show()
	w.depth.show()
	w.column.show()
	w.row.show()
	w.hints.follow()
	w.menus.show(w)
	if w.page != nil {
		w.page.show()
	}
	if w.said != "" && w.saidOver != w.ses.Committed() {
		w.unsay()
	}
	if t := say.F("%s — Heartside", w.ses.Title()); w.win.Title() != t {
		w.win.SetTitle(t)
	}
	w.trace.state(w)
}

// say puts one line into the status line, until the next act.
func (w *Window) say(text string) {
	w.said, w.saidOver = text, w.ses.Committed()
	if text == "" && w.page != nil {
		text = w.page.hint()
	}
	if text == "" && len(w.ses.Project().Boards) == 0 {
		text = say.F("%s enters a board, %s opens the demo, %s is the help.", w.acts.byID["new-board"].keyNames(), w.acts.byID["demo"].keyNames(), w.acts.byID["help"].keyNames())
	}
	w.status.say(text)
}

// unsay takes what was said of an act away.
func (w *Window) unsay() {
	if w.said != "" {
		w.say("")
	}
}

// commit makes an edit part of the project, or says what speaks against it.
func (w *Window) commit(e model.Edit) bool {
	w.nudge.settle()
	if err := w.ses.Commit(e); err != nil {
		w.fail(say.T("This cannot be done"), err)
		return false
	}
	return true
}

// panel returns the panel on screen as the project has it, nil for none.
func (w *Window) panel() *model.Panel { return w.ses.Project().Panel(w.ses.Selected().Panel) }

// strip returns the strip in hand and its panel's id.
func (w *Window) strip() (panel string, s model.Strip, ok bool) {
	sel := w.ses.Selected()
	n := w.ses.Project().Panel(sel.Panel)
	if n == nil || sel.Strip == "" {
		return "", model.Strip{}, false
	}
	s, ok = n.Strip(sel.Strip)
	return n.ID, s, ok
}

// board returns the board in hand, nil for none.
func (w *Window) board() *model.Board { return w.ses.Project().Board(w.ses.Selected().Board) }

// dark reports whether the dark variant shows.
func (w *Window) dark() bool { return w.look.IsDark(w.app.Settings().ThemeVariant()) }

// sceneTheme is the drawing surface's colours.
func (w *Window) sceneTheme() scene.Theme {
	if w.dark() {
		return scene.Charcoal()
	}
	return scene.Paper()
}

// restyle shows the window with another look or text size and keeps both for
// the next start.
func (w *Window) restyle(look Look, percent int) {
	w.set.keepLook(look, percent)
	w.look = w.look.With(look, percent)
	w.app.Settings().SetTheme(w.look)
	w.surf.restyled()
	w.column.rebuild()
	w.depth.rebuild()
	w.rack.restyled()
	if w.page != nil && w.page != page(w.rack) {
		w.page.restyled()
	}
	w.changed()
}

// pad is the theme's gap, for layouts.
func pad() float32 { return theme.Padding() }
