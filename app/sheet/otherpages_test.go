package sheet

import (
	"slices"
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/app/render/rendertest"
)

// A name no typeface holds stands as numbers, and every legend says so.
func TestMissingLettersAreSaid(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	p := *in.Project
	p.Name = "木"
	in.Project = &p
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	for i := range d.Pages {
		if text := flat(look(t, d, i, in.Faces)); !strings.Contains(text, "by its Unicode number") {
			t.Errorf("page %d does not say what the number is", i+1)
		}
	}
}

// What the pages of other kinds must say, and that each knows what it is of.
func TestOtherPagesSay(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	in.Pages = every(t)
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	said := map[Kind]string{}
	for i, p := range d.Pages {
		said[p.Kind] += flat(look(t, d, i, in.Faces)) + " "
		if (p.Panel == "") == (p.Kind == KindPanel || p.Kind == KindFit || p.Kind == KindClient || p.Kind == KindJoints) || (p.Board == "") == (p.Kind == KindBoards) {
			t.Errorf("page %d, %s, is of panel %q and board %q", i+1, p.Kind, p.Panel, p.Board)
		}
	}
	for kind, wants := range map[Kind][]string{
		KindLabels: {"never on faces", "marked end, left", "other end, right", "top, 1 of 4 from the front", "50 mm if printed"},
		KindClient: {"Now", "What is natural", "Signature", "In ten years"},
		KindYard:   {"What the job needs", "Keep", "Leave", "Price", "panel top"},
		KindJoints: {"Joint 1,", "1a", "piece 2 of 5", "drawn full size"},
		KindRecord: {"Panel top", "marked end left", "Colour and finish", "Sapwood that shows", "No step is recorded", "oily rags"},
		KindBoards: {"square off past the checks, measure from here", "expected", "found"},
	} {
		for _, want := range wants {
			if !strings.Contains(said[kind], want) {
				t.Errorf("%s does not say %q", kind, want)
			}
		}
	}
	if strings.Contains(said[KindClient], "joint") {
		t.Error("the client is told of joints")
	}
}

func TestMoreGoldens(t *testing.T) {
	f := faces(t)
	for name, path := range map[string]string{"maple": project(t, "maple-door.yaml"), "block": project(t, "block-thirty-strips.yaml")} {
		in := load(t, path, A4, f)
		in.Panels = slices.Clone(in.Panels)
		for i := range in.Panels {
			in.Panels[i].Notes = nil // what is said is others' to pin
		}
		in.Pages = Pages{Panel: true, Boards: true, Labels: true, Client: true, Yard: true}
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		for i, p := range d.Pages {
			if i < 2 || p.Kind != KindBoards && i < 40 && !p.Again {
				var rec render.Recorder
				p.Draw(&rec)
				all.WriteString("page " + p.Title + "\n" + rec.String())
			}
		}
		rendertest.Golden(t, "sheet/"+name+".txt", all.String())
	}
}

// Pictures of a panel's and a board's page, at few dots.
func TestPictureGoldens(t *testing.T) {
	f := faces(t)
	for name, path := range map[string]string{"shelf": project(t, "shelf-one-strip.yaml"), "maple": project(t, "maple-door.yaml")} {
		in := load(t, path, A4, f)
		in.Pages = Pages{Panel: true, Boards: true}
		in.Panels = slices.Clone(in.Panels)
		for i := range in.Panels {
			in.Panels[i].Notes = nil
		}
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range d.Pages {
			if i > 1 {
				break
			}
			img, err := d.Raster(i, 50)
			if err != nil {
				t.Fatal(err)
			}
			rendertest.Image(t, "sheet/"+name+"-"+string(p.Kind)+".png", img, 4, 40)
		}
	}
}
