package file

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

const projects = "../../testdata/projects"

// fixtures returns the project files tests read; there must be some.
func fixtures(t testing.TB) map[string][]byte {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(projects, "*.yaml"))
	if err != nil || len(list) < 2 {
		t.Fatalf("found %d project files: %v", len(list), err)
	}
	out := map[string][]byte{}
	for _, name := range list {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(name)] = data
	}
	return out
}

func read(t *testing.T, name string) *model.Project {
	t.Helper()
	p, _, err := Read(fixtures(t)[name], name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The numbers are those written in the file, entered here by hand.
func TestContract(t *testing.T) {
	p, notices, err := Read(fixtures(t)["contract.yaml"], "contract.yaml")
	if err != nil || len(notices) != 0 {
		t.Fatal(err, notices)
	}
	want := &model.Project{
		Name: "Hall table", Units: "mm",
		Climate:    model.Climate{Now: model.Air{RH: 45, Temp: 20}, Dry: model.Air{RH: 30, Temp: 20}, Wet: model.Air{RH: 65, Temp: 22}},
		Limits:     model.Limits{Streak: 0.12, Mix: [2]float64{0.25, 0.6}},
		Allowances: model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5, AfterGlue: 1.5, Snipe: 60, FlawMargin: 10},
		Machines:   model.Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50},
		Behaviour:  model.Behaviour{SapFactor: 1, FaceDifference: 1},
		Boards: []*model.Board{{
			ID: "A", Species: "walnut-black", Length: 2400, Width: 210, Thickness: 26, Moisture: 8.1,
			Price: &model.Price{Amount: 12.5, Per: "board-foot"}, Bark: model.BarkFace2,
			Pith: []model.Pith{{Across: 105, Depth: -60}}, Planes: model.PlanesFromMarked,
			Log: &model.Log{Name: "L1", Order: 2}, Shape: model.Shape{Cup: 1, Bow: 4, Crook: 2, Twist: 1}, Wanted: model.WantHeart,
			Faces: [2]model.Face{
				{Photo: "photos/a1.jpg", Corners: &[4]geom.Point{{X: 130, Y: 450}, {X: 3880, Y: 460}, {X: 3900, Y: 95}, {X: 120, Y: 80}},
					Base: model.Heart, Known: true,
					Zones: []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 2400, Y: 0}, {X: 2400, Y: 38}, {X: 0, Y: 52}}}}},
				{Known: true,
					Zones: []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 150}, {X: 2400, Y: 168}, {X: 2400, Y: 210}, {X: 0, Y: 210}}}}},
			},
			Ends: [2]model.End{{Photo: "photos/a-a.jpg"}, {}},
		}},
		Panels: []*model.Panel{
			{ID: "top", Role: model.RoleTop, Length: 900, Width: 450, Thickness: 20, Shape: model.Rectangle, Look: model.SapOut,
				Wanted: model.WantHeart, UnwantedLimit: [2]float64{0.3, 1},
				Strips: []model.Strip{{ID: "A1", Board: "A", X: 40, Y: 8, L: 930, W: 92, Up: 1, Stage: model.Planned}}},
			{ID: "side", Role: model.RoleOther, Length: 700, Width: 380, Thickness: 20, Shape: model.Rectangle, Look: model.AsLaid,
				UnwantedLimit: [2]float64{1, 1}},
		},
		Joined: []model.Joined{{Panels: [2]string{"top", "side"}, How: "fixed", Edges: [2]string{"left", "top"}}},
	}
	if !reflect.DeepEqual(p, want) {
		t.Errorf("got  %+v\nwant %+v", p, want)
	}
}

func TestEverything(t *testing.T) {
	p, notices, err := Read(fixtures(t)["everything.yaml"], "everything.yaml")
	if err != nil {
		t.Fatal(err)
	}
	a, s := p.Boards[0], p.Panels[0].Strips[0]
	switch {
	case p.Units != "inch" || p.Allowances.FlawMargin != 12.5 || p.Machines.Thickness != 0:
		t.Errorf("%+v", p)
	case len(a.Pith) != 2 || !a.Pith[1].HasX || a.Pith[1].X != 2000 || a.Pith[1].Across != -45.5:
		t.Errorf("pith %+v", a.Pith)
	case a.Note != "first line\nsecond \"line\" # not a comment" || a.Bark != model.BarkNone || a.Wanted != model.WantSap:
		t.Errorf("board %+v", a)
	case a.Faces[0].Reference != "grey card" || len(a.Faces[0].Outline) != 4 || !a.Faces[1].Known || p.Boards[1].Faces[0].Known:
		t.Errorf("faces %+v", a.Faces)
	case s.Off == nil || *s.Off != [2]float64{4, 2.5} || s.Planed == nil || s.Planed.Near != model.Tape{70, 71, 72} || s.Planed.Face != 2 || s.Angle != -2.25:
		t.Errorf("strip %+v", s)
	case p.Panels[0].Strips[1].Up != 1 || p.Panels[0].Strips[1].Board != "" || p.Spares[0].Board != "7":
		t.Errorf("strips %+v", p.Panels[0].Strips)
	case !p.Panels[0].BothShow || !p.Panels[0].FrontNamed || len(p.Panels[0].Hidden) != 2 || len(p.Panels[0].Points) != 5:
		t.Errorf("panel %+v", p.Panels[0])
	case len(p.Kept) != 1 || !p.Kept[0].Strips[0].Turned || len(p.Colours) != 2 || p.Colours[1].Heart != nil || p.Colours[1].Sap.L != 82.5:
		t.Errorf("kept %+v, colours %+v", p.Kept, p.Colours)
	}
	if len(notices) != 1 || notices[0].Field != "boards[7].species" || notices[0].Line != 38 {
		t.Errorf("notices %v", notices)
	}
}

func TestALittleFileGetsTheDefaults(t *testing.T) {
	p, _, err := Read([]byte("heartside: 1\n"), "x")
	if err != nil {
		t.Fatal(err)
	}
	want := model.NewProject()
	want.Name = ""
	if !reflect.DeepEqual(p, want) {
		t.Errorf("%+v", p)
	}
	// One key of a group leaves the others as they are.
	p, _, err = Read([]byte("heartside: 1\nallowances: {kerf: 1.2}\nclimate: {dry: {rh: 20}}\n"), "x")
	if err != nil || p.Allowances.Kerf != 1.2 || p.Allowances.Ends != 25 || p.Climate.Dry.RH != 20 || p.Climate.Dry.Temp != 20 || p.Climate.Wet.RH != 65 {
		t.Errorf("%+v %v", p, err)
	}
}

func TestTheDirectionUnknownMayBeSaid(t *testing.T) {
	p, _, err := Read([]byte("heartside: 1\nboards: [{id: A, species: teak, length: 1, width: 1, thickness: 1, planes: unknown}]\n"), "x")
	if err != nil || p.Boards[0].Planes != model.PlanesUnknown {
		t.Errorf("%v", err)
	}
}

func TestNotices(t *testing.T) {
	for text, want := range map[string]string{
		"species: black-walnut":                                 "x:4: boards[A].species: the species \"black-walnut\" is not in the table, so its colours are assumed plain; did you mean walnut-black?",
		"species: teak\n    ends: {a: {photo: /home/me/a.jpg}}": "x:5: boards[A].ends.a.photo: the photo path /home/me/a.jpg is absolute",
	} {
		_, n, err := Read([]byte("heartside: 1\nboards:\n  - id: A\n    "+text+"\n    length: 100\n    width: 100\n    thickness: 20\n"), "x")
		if err != nil || len(n) != 1 || !strings.HasPrefix(n[0].String(), want) {
			t.Errorf("%s: %v %v", text, n, err)
		}
	}
	text := `heartside: 1
boards:
  - {id: A, species: teak, length: 1000, width: 100, thickness: 20}
  - {id: B, species: teak, length: 1000, width: 100, thickness: 20, wanted: sap}
panels:
  - {id: top, length: 900, width: 190, thickness: 18, strips: [
      {id: A1, board: A, length: 930, width: 95}, {id: B1, board: B, length: 930, width: 95}]}
`
	_, n, err := Read([]byte(text), "x")
	if err != nil || len(n) != 1 || n[0].Field != "panels[top]" || n[0].Line != 6 || !strings.Contains(n[0].Text, "A wants heart and B wants sap") {
		t.Errorf("%v %v", n, err)
	}
}

func TestMissingPhotos(t *testing.T) {
	dir := t.TempDir()
	p := read(t, "contract.yaml")
	if err := os.MkdirAll(filepath.Join(dir, "photos"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "photos", "a1.jpg"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	n := MissingPhotos(p, dir)
	if len(n) != 1 || !strings.HasPrefix(n[0].String(), "photos/a-a.jpg: board A, marked end: ") {
		t.Errorf("%v", n)
	}
	p.Boards[0].Faces[0].Photo = filepath.Join(dir, "photos", "a1.jpg")
	if n := MissingPhotos(p, t.TempDir()); len(n) != 1 {
		t.Errorf("an absolute path is not found: %v", n)
	}
}

func TestNewerVersion(t *testing.T) {
	_, _, err := Read([]byte("heartside: 2\nnews: &x [*x]\n"), "new.yaml")
	var v *VersionError
	if !errors.As(err, &v) || v.Have != 2 || v.Want != Version || !strings.Contains(err.Error(), "newer") {
		t.Errorf("%v", err)
	}
}

func TestMigrationsAreContiguous(t *testing.T) {
	for i, m := range migrations() {
		if m.From != i+1 || m.Lift == nil {
			t.Errorf("step %d lifts from version %d", i, m.From)
		}
	}
	if n := len(migrations()); n != Version-1 {
		t.Errorf("%d steps lead to version %d", n, Version)
	}
}
