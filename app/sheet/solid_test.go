package sheet

import (
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/app/render/rendertest"
	"heartside/model"
)

// The pages of the boards that solid parts are cut from.
func TestGoldenLegs(t *testing.T) {
	d, err := Build(load(t, project(t, "legs-and-doors.yaml"), A4, faces(t)))
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, p := range d.Pages {
		if p.Title == "Board C" || p.Title == "Board D" {
			var rec render.Recorder
			p.Draw(&rec)
			all.WriteString("page " + p.Title + "\n" + rec.String())
		}
	}
	rendertest.Golden(t, "sheet/legs.txt", all.String())
}

// By hand: a leg of 740 x 55 has a blank of 740 + 2 x 25 by 55 + 2 x 4.5. Its
// corner at (60, 40) puts the rip lines at 35.5 and 99.5, the ends at 35 and 825;
// the board is squared off at 35, so 0 and 790 from there.
func TestPartsStandOnTheBoardPages(t *testing.T) {
	in := load(t, project(t, "legs-and-doors.yaml"), A4, faces(t))
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]string{}
	for i, p := range d.Pages {
		said[p.Title] += " " + flat(look(t, d, i, in.Faces))
	}
	for page, wants := range map[string][]string{
		"Board C": {"leg 1, leg 2, leg 3 and leg 4 are solid parts", "Solid parts", "leg 4 leg 790 × 64 740 × 55 720 × 50 50 mm heartwood",
			"3 rip leg 1 0 35.5 790 35.5", "4 rip leg 1 0 99.5 790 99.5", "strip or part as jointed"},
		"Board A":     {"rail 1 is a solid part", "rail 1 rail 610 × 75 560 × 66 540 × 60 22 mm heartwood"},
		"Board D":     {"SPOILED", "! Board D is spoiled: part rail 2 is still to be cut from it."},
		"Panel right": {"seen together with left (Doors)", "Board D is spoiled: strip D1 is still to be cut from it."},
		"Board B":     {"strip as jointed"},
	} {
		for _, want := range wants {
			if !strings.Contains(said[page], want) {
				t.Errorf("%s does not say %q", page, want)
			}
		}
	}
	if strings.Contains(said["Board C"], "After planing") {
		t.Error("a board of parts alone asks for the sapwood of strips")
	}
	if strings.Contains(said["Board B"], "Solid parts") || strings.Contains(said["Board B"], "SPOILED") {
		t.Error("a board without parts speaks of them")
	}
}

// A leg of a board thinner than it is says that it is glued up.
func TestLaminatedPart(t *testing.T) {
	in := load(t, project(t, "legs-and-doors.yaml"), A4, faces(t))
	b := newBuilder(&in)
	parts := in.placesOn("C")
	thin := *in.Boards[2]
	thin.Thickness = 26
	strip := *parts[0].strip
	strip.Board = &thin
	parts[0].strip = &strip
	tab := b.solidTable(parts)
	if tab == nil || !strings.Contains(tab.name, "glued up of layers") || tab.rows[0][5] != "50 mm *" || tab.rows[1][5] != "50 mm" {
		t.Errorf("%+v", tab)
	}
	if b.solidTable(in.placesOn("B")) != nil {
		t.Error("a board without parts has a table of them")
	}
}

// The code changes with solid parts, where they are cut, and with sets; and
// stays as it was for a project without.
func TestCodeChangesWithPartsAndSets(t *testing.T) {
	in := load(t, project(t, "legs-and-doors.yaml"), A4, faces(t))
	seen := map[string]string{}
	try := func(what string, e model.Edit) {
		p := in.Project
		if e != nil {
			var err error
			if p, err = model.Apply(p, e); err != nil {
				t.Fatal(err)
			}
		}
		if was, ok := seen[Code(p)]; ok {
			t.Errorf("%s has the code of %s", what, was)
		}
		seen[Code(p)] = what
	}
	try("the project", nil)
	leg, _ := in.Project.Part("leg")
	moved := append([]model.PartPlace(nil), leg.Places...)
	moved[0].X++
	try("a leg moved", model.PlacePart{Part: "leg", Places: moved})
	try("a leg less", model.PlacePart{Part: "leg", Places: moved[1:]})
	thick := leg
	thick.Thickness++
	try("thicker legs", model.PutPart{Part: thick})
	try("no rail", model.DropPart{ID: "rail"})
	set, _ := in.Project.Set("Doors")
	set.Match = model.MatchSlipped
	try("another match", model.PutSet{Set: set})
	try("no set", model.DropSet{Name: "Doors"})
}
