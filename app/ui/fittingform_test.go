package ui

import (
	"reflect"
	"testing"

	"fyne.io/fyne/v2/theme"

	"heartside/model"
)

func builtIn(t *testing.T) stage {
	p := model.NewProject()
	p.Panels = []*model.Panel{model.NewPanel("top", model.RoleTop, 900, 450, 20), model.NewPanel("left side", model.RoleSide, 700, 380, 20)}
	return open(t, p, 100)
}

// How a panel is built in is kept as typed, in one step, and the form gives
// back what it was given.
func TestFittingIsKept(t *testing.T) {
	s := builtIn(t)
	f := newFittingForm(s.Window, s.ses.Project().Panel("top"))
	f.held.SetSelected(heldWords(model.HeldSlots))
	f.line.SetSelected("Back edge")
	f.rows.SetText("400 mm; 50 ;")
	f.kind[0].SetSelected("Bevelled")
	f.across[0].SetText("12")
	f.down[0].SetText("8 mm")
	out, err := f.panel()
	if err != nil {
		t.Fatal(err)
	}
	want := &model.Fitting{Held: model.HeldSlots, Line: model.LineBack, Rows: []float64{50, 400}}
	if !reflect.DeepEqual(out.Fitting, want) || out.Profiles[0] != (model.Profile{Kind: model.ProfileBevel, Across: 12, Down: 8}) {
		t.Errorf("kept %+v and %+v", out.Fitting, out.Profiles)
	}
	again, err := newFittingForm(s.Window, out).panel()
	if err != nil || !reflect.DeepEqual(again, out) {
		t.Errorf("opened and kept again: %v\n%+v\n%+v", err, again, out)
	}
	f.held.SetSelected(heldWords(model.HeldFree))
	f.line.SetSelected("The middle")
	f.rows.SetText("")
	f.kind[0].SetSelected("Square")
	if out, err = f.panel(); err != nil || out.Fitting != nil || out.Profiles.Any() {
		t.Errorf("nothing said: %v, %+v", err, out)
	}
}

// What cannot be is told with the field's name.
func TestFittingRefuses(t *testing.T) {
	s := builtIn(t)
	for name, type_ := range map[string]func(*fittingForm){
		"rows: “500” misses the panel, which is 450 mm wide": func(f *fittingForm) { f.rows.SetText("50; 500") },
		"front edge: say how far it is worked into the face and into the thickness": func(f *fittingForm) {
			f.kind[0].SetSelected("Rounded over")
			f.across[0].SetText("3")
			f.down[0].SetText("0")
		},
	} {
		f := newFittingForm(s.Window, s.ses.Project().Panel("top"))
		type_(f)
		if _, err := f.panel(); err == nil || err.Error() != name {
			t.Errorf("said %v, want %s", err, name)
		}
	}
}

// Two panels are joined by name and edge, changed and parted again.
func TestPanelsAreJoined(t *testing.T) {
	s := builtIn(t)
	f := newJoinForm(s.Window, model.Joined{})
	f.edges[0].SetSelected("Left end")
	if _, err := f.joined(); err == nil {
		t.Error("an edge of one panel alone was taken")
	}
	f.edges[1].SetSelected("Top end")
	j, err := f.joined()
	if want := (model.Joined{Panels: [2]string{"top", "left side"}, How: "fixed", Edges: [2]string{"left", "top"}}); err != nil || j != want {
		t.Fatalf("%v, %+v", err, j)
	}
	f.panels[1].SetSelected("top")
	if _, err := f.joined(); err == nil {
		t.Error("a panel was joined to itself")
	}
	if got := f.edges[1].Options[1]; got != "Front edge" {
		t.Errorf("the edges of the panel chosen begin with %q", got)
	}
}

// A place fills in what wood reads there; what is typed over it stays.
func TestPlacesFillTheAir(t *testing.T) {
	s := builtIn(t)
	f := newAirForm(s.Window, s.ses.Project().Climate, s.ses.Units())
	f.places.SetSelected("Indoors, dry Southwest of the United States")
	f.read[2].SetText("9.5")
	c, err := f.climate()
	// 4 to 9, usually 6: Wood Handbook, Table 13-2 and Fig. 13-1.
	if err != nil || c.Now.MC != 6 || c.Dry.MC != 4 || c.Wet.MC != 9.5 {
		t.Errorf("%v, %+v", err, c)
	}
	f.read[1].SetText("12")
	if _, err := f.climate(); err == nil {
		t.Error("a dry season damper than the damp one was taken")
	}
	f.read[1].SetText("45")
	if _, err := f.climate(); err == nil {
		t.Error("green wood was taken for a season")
	}
	f.places.SetSelected("From the figures below")
	if c, err = f.climate(); err != nil || c != s.ses.Project().Climate {
		t.Errorf("%v, %+v", err, c)
	}
}

// The heads of columns are there to be read: a size that the theme does not
// know would draw them as nothing.
func TestHeadsOfColumnsAreSeen(t *testing.T) {
	builtIn(t)
	if h := head("humidity, %"); theme.Size(h.SizeName) <= 0 {
		t.Errorf("the head of a column is written in size %q, which is %v", h.SizeName, theme.Size(h.SizeName))
	}
}
