package ui

import (
	"path/filepath"
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/session"
	"heartside/app/tool"
	"heartside/model/say"
)

// menus is the menu bar, and what it was last shown with.
type menus struct {
	main   *fyne.MainMenu
	items  map[string]*fyne.MenuItem
	recent *fyne.MenuItem
	shown  string
}

// menuLists are the menus of the bar by the ids of their actions; "" is a
// line, "recent", "look" and "text" are menus of their own.
func menuLists() []struct {
	name string
	ids  []string
} {
	return []struct {
		name string
		ids  []string
	}{
		{say.T("File"), []string{"new", "open", "recent", "demo", "examples", "", "save", "save-as", "", "sheet", "sheet-save", "sheet-print", "", "project", "", "quit"}},
		{say.T("Edit"), []string{"undo", "redo", "", "roll", "turn", "swap", "forward", "backward", "", "place", "lift", "pin", "", "size", "planed", "remove-strip"}},
		{say.T("Boards"), []string{"rack", "rack-photos", "rack-phone", "read-waiting", "stop-reading", "balance", "", "yard", "terms", "left", "", "new-board", "edit-board", "photo", "remove-board", "", "cut-part", "cuttings", "cut-end", "spoiled", "mend", "", "next-board", "prev-board", "", "zones", "zone-sap", "zone-heart", "zone-flaw", "zone-unseen", "zone-polygon", "zone-brush", "zone-become", "zone-through", "", "grain", "grain-read"}},
		{say.T("Panels"), []string{"new-panel", "edit-panel", "remove-panel", "", "arrange", "match", "row", "propose", "plan", "keep-trim", "fill", "add-strip", "", "sets", "parts", "joined", "fitting", "plane", "behave", "bench", "record", "", "next-panel", "prev-panel", "next-strip", "prev-strip"}},
		{say.T("View"), []string{"zoom-in", "zoom-out", "fit", "true", "split-more", "split-less", "", "hatch", "before", "back", "depth", "", "look", "text", "language"}},
		{say.T("Help"), []string{"help", "keys", "explain", "next-warning", "apply-fix", "", "hint-away", "hints-again", "", "about"}},
	}
}

func (w *Window) buildMenus() {
	m := &w.menus
	m.items = map[string]*fyne.MenuItem{}
	var bar []*fyne.Menu
	for _, list := range menuLists() {
		menu := fyne.NewMenu(list.name)
		for _, id := range list.ids {
			var it *fyne.MenuItem
			switch id {
			case "":
				it = fyne.NewMenuItemSeparator()
			case "recent":
				it = fyne.NewMenuItem(say.T("Open recent"), nil)
				m.recent = it
			case "look":
				it = w.lookMenu()
			case "text":
				it = w.textMenu()
			case "language":
				it = w.languageMenu()
			default:
				it = w.menuItem(id)
				m.items[id] = it
			}
			menu.Items = append(menu.Items, it)
		}
		bar = append(bar, menu)
	}
	if it := m.items["quit"]; it != nil {
		it.IsQuit = true
	}
	m.main = fyne.NewMainMenu(bar...)
	w.fillRecent()
	w.win.SetMainMenu(m.main)
	// A second chord for redo, which a menu item cannot carry.
	w.win.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift},
		func(fyne.Shortcut) { w.fromMenu("redo") })
}

// systemMenus is where menus are the system's, which writes the keys itself.
const systemMenus = runtime.GOOS == "darwin"

// inMenu is what a menu says of an action, with its key.
func (a *Action) inMenu(words string) string {
	if len(a.Keys) == 0 || systemMenus && !a.Keys[0].byItself() {
		return words
	}
	return words + " (" + a.Keys[0].String() + ")"
}

// menuItem makes the menu item of an action.
func (w *Window) menuItem(id string) *fyne.MenuItem {
	a := w.acts.byID[id]
	it := fyne.NewMenuItem(a.inMenu(a.Label), func() { w.fromMenu(id) })
	it.Icon = a.Icon
	if len(a.Keys) > 0 && !a.Keys[0].byItself() { // a key by itself comes to the surface or to a text
		it.Shortcut = a.Keys[0].typed()
		if !systemMenus {
			it.Shortcut = unshown(it.Shortcut.ShortcutName())
		}
	}
	it.Disabled = !a.can()
	if a.On != nil {
		it.Checked = a.On()
	}
	return it
}

// fromMenu does an action asked for by menu or shortcut. Shortcuts of the menu
// come before the widget that has the focus, and come too while a dialog is
// up: text fields get their own undo and redo, and a dialog is left alone.
func (w *Window) fromMenu(id string) {
	if f, ok := w.win.Canvas().Focused().(fyne.Shortcutable); ok && f != fyne.Shortcutable(w.surf) {
		switch id {
		case "undo":
			f.TypedShortcut(&fyne.ShortcutUndo{})
			return
		case "redo":
			f.TypedShortcut(&fyne.ShortcutRedo{})
			return
		}
	}
	if w.asks != nil || w.win.Canvas().Overlays().Top() != nil {
		return
	}
	w.act(id)
}

// show greys and checks the items; the bar is made anew only where something
// differs, which costs more than a frame.
func (m *menus) show(w *Window) {
	if m.main == nil || w.ses.Previewing() {
		return
	}
	key := ""
	for _, list := range menuLists() {
		for _, id := range list.ids {
			a := w.acts.byID[id]
			if a == nil {
				continue
			}
			it := m.items[id]
			it.Disabled = !a.can()
			if a.On != nil {
				it.Checked = a.On()
			}
			switch {
			case id == "undo" && w.ses.CanUndo():
				it.Label = a.inMenu(say.F("Undo: %s", w.ses.UndoLabel()))
			case id == "redo" && w.ses.CanRedo():
				it.Label = a.inMenu(say.F("Redo: %s", w.ses.RedoLabel()))
			case id == "undo" || id == "redo":
				it.Label = a.inMenu(a.Label)
			}
			key += it.Label
			if it.Disabled {
				key += "-"
			}
			if it.Checked {
				key += "+"
			}
		}
	}
	if key != m.shown {
		m.shown = key
		m.main.Refresh()
	}
}

func (w *Window) fillRecent() {
	var items []*fyne.MenuItem
	for _, path := range w.set.recent() {
		items = append(items, fyne.NewMenuItem(filepath.Base(path)+"   "+filepath.Dir(path), func() {
			w.pastDraft(func() { w.guard(say.T("open another project"), func() { w.openOrSay(path) }) })
		}))
	}
	w.menus.recent.Disabled = len(items) == 0
	if len(items) == 0 {
		items = append(items, fyne.NewMenuItem(say.T("None yet"), nil))
	}
	w.menus.recent.ChildMenu = fyne.NewMenu("", items...)
}

func (w *Window) lookMenu() *fyne.MenuItem {
	it := fyne.NewMenuItem(say.T("Colours"), nil)
	it.ChildMenu = fyne.NewMenu("")
	for _, l := range []struct {
		look Look
		name string
	}{{FollowSystem, say.T("As the system")}, {Light, say.T("Light")}, {Dark, say.T("Dark")}} {
		c := fyne.NewMenuItem(l.name, nil)
		c.Checked = w.look.look == l.look
		c.Action = func() { w.restyle(l.look, w.look.TextPercent()); w.remenu() }
		it.ChildMenu.Items = append(it.ChildMenu.Items, c)
	}
	return it
}

func (w *Window) textMenu() *fyne.MenuItem {
	it := fyne.NewMenuItem(say.T("Text size"), nil)
	it.ChildMenu = fyne.NewMenu("")
	for _, v := range TextSizes() {
		c := fyne.NewMenuItem(itoa(v)+" %", nil)
		c.Checked = w.look.TextPercent() == v
		c.Action = func() { w.restyle(w.look.look, v); w.remenu() }
		it.ChildMenu.Items = append(it.ChildMenu.Items, c)
	}
	return it
}

// languageMenu chooses the language; all that is on screen was said in the one
// before, so the next start speaks it.
func (w *Window) languageMenu() *fyne.MenuItem {
	it := fyne.NewMenuItem(say.T("Language"), nil)
	it.ChildMenu = fyne.NewMenu("")
	for _, l := range languages() {
		c := fyne.NewMenuItem(languageName(l), nil)
		c.Checked = w.set.language(nil) == l
		c.Action = func() {
			w.set.keepLanguage(l)
			w.remenu()
			w.say(say.F("From the next start on the program speaks %s.", languageName(l)))
		}
		it.ChildMenu.Items = append(it.ChildMenu.Items, c)
	}
	return it
}

// remenu makes the menu bar anew, for its ticks.
func (w *Window) remenu() {
	w.menus.shown = ""
	w.buildMenus()
	w.menus.show(w)
}

// contextMenu is the menu for a place on the surface.
func (w *Window) contextMenu(t tool.Hit) *fyne.Menu {
	var ids []string
	switch t.Part {
	case tool.PanelStrip:
		ids = []string{"roll", "turn", "swap", "forward", "backward", "", "lift", "pin", "size", "plane", "planed", "", "remove-strip"}
	case tool.BoardStrip, tool.RotateHandle:
		ids = []string{"roll", "turn", "lift", "pin", "size", "planed"}
	case tool.PanelPlace:
		ids = []string{"place", "fill", "", "swap", "forward", "backward", "size", "remove-strip"}
	case tool.PanelGround:
		ids = []string{"edit-panel", "propose", "fill", "add-strip", "plane", "", "back", "depth", "before", "hatch", "fit", "true"}
	case tool.BoardGround, tool.BoardEdge, tool.ZoneEdge, tool.ZoneVertex:
		ids = []string{"place", "edit-board", "photo", "", "cut-part", "cut-end", "spoiled", "", "zones", "zone-become", "zone-through", "grain", "", "hatch", "fit", "true"}
	case tool.Lane:
		ids = []string{"edit-board", "photo", "zones", "", "new-board", "remove-board"}
	default:
		ids = []string{"new-board", "new-panel", "", "fit"}
	}
	var items []*fyne.MenuItem
	for _, id := range ids {
		if id == "" {
			items = append(items, fyne.NewMenuItemSeparator())
			continue
		}
		items = append(items, w.menuItem(id))
	}
	if t.Part == tool.PanelStrip || t.Part == tool.PanelPlace {
		if swap := w.swapMenu(t); swap != nil {
			items = append(items, swap)
		}
	}
	return fyne.NewMenu("", items...)
}

// swapMenu offers every other strip of the panel to change places with.
func (w *Window) swapMenu(t tool.Hit) *fyne.MenuItem {
	n := w.ses.Project().Panel(t.Panel)
	if n == nil || len(n.Strips) < 2 {
		return nil
	}
	it := fyne.NewMenuItem(say.T("Swap with"), nil)
	it.ChildMenu = fyne.NewMenu("")
	for _, s := range n.Strips {
		if s.ID != t.Strip {
			it.ChildMenu.Items = append(it.ChildMenu.Items, fyne.NewMenuItem(say.F("Strip %s", w.ses.Number(n.ID, s.ID)), func() {
				w.commit(swapEdit(n.ID, t.Strip, s.ID))
				w.ses.Select(session.Selection{Panel: n.ID, Strip: t.Strip, Zone: -1})
			}))
		}
	}
	return it
}
