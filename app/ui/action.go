package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/model/say"
)

// Chord is a key with what is held down beside it.
type Chord struct {
	Key fyne.KeyName
	Mod fyne.KeyModifier
}

// ctrl is a chord with the shortcut key of the system.
func ctrl(k fyne.KeyName) Chord { return Chord{k, fyne.KeyModifierShortcutDefault} }

// ctrlShift is a chord with the shortcut key and Shift.
func ctrlShift(k fyne.KeyName) Chord {
	return Chord{k, fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
}

// plain is a key by itself.
func plain(k fyne.KeyName) Chord { return Chord{Key: k} }

// shifted is a key with Shift.
func shifted(k fyne.KeyName) Chord { return Chord{k, fyne.KeyModifierShift} }

// String returns the chord as it is printed on keys.
func (c Chord) String() string {
	var parts []string
	if c.Mod&fyne.KeyModifierControl != 0 {
		parts = append(parts, say.T("Ctrl"))
	}
	if c.Mod&fyne.KeyModifierSuper != 0 {
		parts = append(parts, say.T("Cmd"))
	}
	if c.Mod&fyne.KeyModifierShift != 0 {
		parts = append(parts, say.T("Shift"))
	}
	return strings.Join(append(parts, keyCap(c.Key)), "+")
}

// keyCap is what is printed on a key.
func keyCap(k fyne.KeyName) string {
	switch k {
	case fyne.KeyPageUp:
		return say.T("PgUp")
	case fyne.KeyPageDown:
		return say.T("PgDn")
	case fyne.KeyReturn:
		return say.T("Enter")
	case fyne.KeyEnter:
		return say.T("keypad Enter")
	case fyne.KeyEscape:
		return say.T("Esc")
	case fyne.KeyLeftBracket:
		return "["
	case fyne.KeyRightBracket:
		return "]"
	case fyne.KeyDelete:
		return say.T("Del")
	case fyne.KeyBackspace:
		return say.T("Backspace")
	case fyne.KeyInsert:
		return say.T("Insert")
	case fyne.KeyHome:
		return say.T("Home")
	case fyne.KeyEnd:
		return say.In("key", "End")
	case fyne.KeyUp:
		return "↑"
	case fyne.KeyDown:
		return "↓"
	case fyne.KeyLeft:
		return "←"
	case fyne.KeyRight:
		return "→"
	}
	return string(k)
}

// byItself reports whether the chord can be typed into a text: it then works
// only while no text field has the keys.
func (c Chord) byItself() bool { return c.Mod&^fyne.KeyModifierShift == 0 }

// typed is what the toolkit makes of the chord when it is typed.
func (c Chord) typed() fyne.Shortcut {
	def := fyne.KeyModifierShortcutDefault
	switch c {
	case Chord{fyne.KeyZ, def}:
		return &fyne.ShortcutUndo{}
	case Chord{fyne.KeyY, def}:
		return &fyne.ShortcutRedo{}
	}
	return &desktop.CustomShortcut{KeyName: c.Key, Modifier: c.Mod}
}

// unshown is a shortcut that a menu does what it is for, but does not write: the
// toolkit writes it in English and too pale to be read.
type unshown string

// ShortcutName implements fyne.Shortcut.
func (u unshown) ShortcutName() string { return string(u) }

// Action is one thing a maker can ask the window for. Menu, action row, keys
// and the list of keys all come from it.
type Action struct {
	ID    string
	Label string        // sentence case, as in a menu
	Long  func() string // on the list of keys, where it depends on the project; nil = Label
	Short string        // on the action row; "" = Label
	Hint  string        // one line on what it does
	Group string        // heading in the list of keys
	Keys  []Chord
	Icon  fyne.Resource
	Can   func() bool // nil: always
	On    func() bool // nil: not a switch
	Do    func()
}

// can reports whether the action makes sense now.
func (a *Action) can() bool { return a.Can == nil || a.Can() }

// run does the action if it makes sense now; a shortcut of a greyed menu item
// still comes through here.
func (a *Action) run() bool {
	if !a.can() {
		return false
	}
	a.Do()
	return true
}

// name is what the list of keys calls the action.
func (a *Action) name() string {
	if a.Long != nil {
		return a.Long()
	}
	return a.Label
}

// keyNames returns the chords in words, "" for none.
func (a *Action) keyNames() string {
	var out []string
	for _, c := range a.Keys {
		out = append(out, c.String())
	}
	return strings.Join(out, say.T(" or "))
}

// actions is all a window offers, in the order of the list of keys.
type actions struct {
	list []*Action
	byID map[string]*Action
}

func (a *actions) add(list ...*Action) {
	if a.byID == nil {
		a.byID = map[string]*Action{}
	}
	for _, x := range list {
		a.list = append(a.list, x)
		a.byID[x.ID] = x
	}
}

// find returns the action that a chord asks for, nil for none.
func (a *actions) find(c Chord) *Action {
	for _, x := range a.list {
		for _, k := range x.Keys {
			if k == c {
				return x
			}
		}
	}
	return nil
}
