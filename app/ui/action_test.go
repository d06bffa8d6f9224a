package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

func TestEveryActionHasAKeyOfItsOwn(t *testing.T) {
	s := demo(t, 100)
	seen := map[Chord]string{}
	for _, a := range s.acts.list {
		if len(a.Keys) == 0 {
			t.Errorf("%s (%s) has no key: it cannot be done without a pointer", a.ID, a.Label)
		}
		for _, c := range a.Keys {
			if other, twice := seen[c]; twice {
				t.Errorf("%s is the key of %s and of %s", c, other, a.ID)
			}
			seen[c] = a.ID
			if c.Mod&fyne.KeyModifierAlt != 0 {
				t.Errorf("%s uses Alt, which window managers take", a.ID)
			}
		}
		if a.Label == "" || a.Do == nil || a.Group == "" {
			t.Errorf("action %s lacks a label, a group or something to do", a.ID)
		}
	}
}

func TestMenusNameActionsOnce(t *testing.T) {
	s := demo(t, 100)
	seen := map[string]bool{"recent": true, "look": true, "text": true, "language": true}
	for _, m := range menuLists() {
		for _, id := range m.ids {
			if id == "" || id == "recent" || id == "look" || id == "text" || id == "language" {
				continue
			}
			if s.acts.byID[id] == nil {
				t.Errorf("menu %s names %q, which is no action", m.name, id)
			}
			if seen[id] {
				t.Errorf("%q stands in the menus twice", id)
			}
			seen[id] = true
		}
	}
	if len(s.menus.items) < 40 {
		t.Errorf("the menus hold %d actions", len(s.menus.items))
	}
}

// A disabled menu item's shortcut still fires; the action itself must refuse.
func TestActionsRefuseWhatMakesNoSense(t *testing.T) {
	s := open(t, modelWithPanel(), 100)
	for _, id := range []string{"roll", "turn", "swap", "lift", "pin", "place", "edit-board", "remove-board", "zones", "redo", "undo", "fill"} {
		if s.act(id) {
			t.Errorf("%s was done on a project with nothing in hand", id)
		}
	}
	if s.asks != nil || s.steps() != 0 {
		t.Errorf("a refused action opened a dialog or made %d changes", s.steps())
	}
}

func TestChordNames(t *testing.T) {
	for c, want := range map[Chord]string{
		ctrl(fyne.KeyS): "Ctrl+S", ctrlShift(fyne.KeyZ): "Ctrl+Shift+Z", plain(fyne.KeyPageUp): "PgUp",
		shifted(fyne.KeyReturn): "Shift+Enter", plain(fyne.KeyLeftBracket): "[",
	} {
		if got := c.String(); got != want {
			t.Errorf("%v prints %q, want %q", c, got, want)
		}
	}
}

// Menus show a key as the list of keys does, beside the words: the toolkit's own
// writing of it is English and too pale. Keys by themselves stay with the surface
// and texts; others are known by what is typed.
func TestMenusShowKeysAsTheListDoes(t *testing.T) {
	if systemMenus {
		t.Skip("menus are the system's")
	}
	s := demo(t, 100)
	for id, want := range map[string]string{"save": "Save (Ctrl+S)", "roll": "Roll over (R)", "undo": "Undo (Ctrl+Z)", "remove-strip": "Take the strip out of the panel (Shift+Del)"} {
		it := s.menuItem(id)
		if it.Label != want {
			t.Errorf("%s: the menu says %q, want %q", id, it.Label, want)
		}
		c := s.acts.byID[id].Keys[0]
		if _, drawn := it.Shortcut.(fyne.KeyboardShortcut); drawn || (it.Shortcut == nil) != c.byItself() {
			t.Errorf("%s: the menu has the shortcut %v", id, it.Shortcut)
		}
		if it.Shortcut != nil && it.Shortcut.ShortcutName() != c.typed().ShortcutName() {
			t.Errorf("%s: %s is typed, the menu knows %s", id, c.typed().ShortcutName(), it.Shortcut.ShortcutName())
		}
	}
}
