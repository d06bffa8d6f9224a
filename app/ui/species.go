package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
)

// speciesField takes the name of a wood: typing any parts of it finds it, the
// up and down arrows go through what was found, the button lists it.
type speciesField struct {
	*field
	was   string // id the form began with, kept where the table has no such wood
	found string // id of the wood meant, "" for none
	typed string // what the arrows go through
	told  func()
}

func newSpeciesField(w *Window, id string, told func()) *speciesField {
	s := &speciesField{field: w.newField(speciesName(id), say.T("type part of a name")), was: id, found: id, told: told}
	s.OnChanged = func(text string) {
		w.mended()
		s.typed = text
		s.meant()
	}
	s.keys = s.key
	s.left = s.settle
	s.ActionItem = newTapIcon(theme.MenuDropDownIcon(), s.list)
	return s
}

// tapIcon is an icon that answers a click and is no stop for the Tab key.
type tapIcon struct {
	widget.Icon
	do func()
}

func newTapIcon(r fyne.Resource, do func()) *tapIcon {
	t := &tapIcon{do: do}
	t.Resource = r
	t.ExtendBaseWidget(t)
	return t
}

// Tapped implements fyne.Tappable.
func (t *tapIcon) Tapped(*fyne.PointEvent) { t.do() }

// Cursor implements desktop.Cursorable.
func (t *tapIcon) Cursor() desktop.Cursor { return desktop.PointerCursor }

// speciesName is the catalogue's name of a wood.
func speciesName(id string) string {
	if s := catalog.Find(id); s.Known() {
		return say.Of(s.Name)
	}
	return strings.ReplaceAll(id, "-", " ")
}

// woodsLike lists the woods whose name or Latin name holds words beginning
// with each word typed; names that begin as typed come first.
func woodsLike(typed string) []catalog.Species {
	cut := func(s string) []string {
		return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" ,()-", r) })
	}
	asked := cut(typed)
	var first, later []catalog.Species
	for _, s := range catalog.All() {
		has := cut(say.Of(s.Name) + " " + s.Name + " " + s.Latin)
		all := true
		for _, a := range asked {
			all = all && slices.ContainsFunc(has, func(h string) bool { return strings.HasPrefix(h, a) })
		}
		switch {
		case !all:
		case len(asked) > 0 && strings.HasPrefix(has[0], asked[0]):
			first = append(first, s)
		default:
			later = append(later, s)
		}
	}
	return append(first, later...)
}

// meant follows what is typed.
func (s *speciesField) meant() {
	s.found = ""
	text := strings.TrimSpace(s.Text)
	if text == speciesName(s.was) {
		s.found = s.was
	} else if list := woodsLike(text); text != "" && len(list) > 0 {
		s.found = list[0].ID
		for _, w := range list {
			if say.Of(w.Name) == text {
				s.found = w.ID
			}
		}
	}
	s.told()
}

// put writes a wood's whole name, what the arrows go through stays.
func (s *speciesField) put(id string) {
	typed := s.typed
	s.SetText(speciesName(id))
	s.typed, s.found = typed, id
	s.told()
}

// settle writes the name in full once the field is left.
func (s *speciesField) settle() {
	if s.found != "" && s.Text != speciesName(s.found) {
		s.put(s.found)
	}
}

// key goes through what was found.
func (s *speciesField) key(ev *fyne.KeyEvent) bool {
	by := 1
	switch ev.Name {
	case fyne.KeyUp:
		by = -1
	case fyne.KeyDown:
	default:
		return false
	}
	list := s.offered()
	at := slices.IndexFunc(list, func(w catalog.Species) bool { return w.ID == s.found })
	if s.Text != speciesName(s.found) {
		at -= by // the one meant first
	}
	s.put(list[(at+by+len(list))%len(list)].ID)
	return true
}

// offered is what fits the letters typed, all where a whole name stands there.
func (s *speciesField) offered() []catalog.Species {
	if list := woodsLike(s.typed); s.typed != "" && len(list) > 1 {
		return list
	}
	return catalog.All()
}

// list opens the woods as a menu.
func (s *speciesField) list() {
	var items []*fyne.MenuItem
	for _, w := range s.offered() {
		it := fyne.NewMenuItem(say.Of(w.Name), func() { s.put(w.ID) })
		it.Checked = w.ID == s.found
		items = append(items, it)
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.field)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), s.w.win.Canvas(), at.AddXY(0, s.Size().Height))
}

// wood reads the field.
func (s *speciesField) wood() (string, error) {
	if s.found == "" {
		return "", say.Errorf("species: no wood in the list is called “%s”; type part of a name, such as maple", strings.TrimSpace(s.Text))
	}
	return s.found, nil
}

// usuallyWanted is the wood of a species that makers as a rule want on show:
// the sapwood of maple, ash and birch (common practice, no source), of all
// others the heartwood.
func usuallyWanted(species string) model.Wanted {
	for _, kind := range []string{"maple-", "ash-", "birch-"} {
		if strings.HasPrefix(species, kind) {
			return model.WantSap
		}
	}
	return model.WantHeart
}
