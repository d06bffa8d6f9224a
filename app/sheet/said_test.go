package sheet

import (
	"strings"
	"testing"

	"heartside/model/unit"
)

// flat joins the lines of a page, so that a sentence is found across a break.
func flat(v *probe) string { return strings.Join(strings.Fields(v.all()), " ") }

func TestWarningsAreSaid(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	in.Panels[0].Notes = []Note{
		{Title: "One light streak: strip B1", Text: "Nothing balances it.", Under: []string{"Light wood on one side of a joint only"}, Fix: "Roll strip B1 over (free)", Strips: []string{"t2"}},
		{Title: "Photographs share no grey reference", Text: "Colours are not compared."},
	}
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	v := look(t, d, 0, in.Faces)
	text := flat(v)
	for i := 1; d.Pages[i].Title == d.Pages[0].Title; i++ {
		text += " " + flat(look(t, d, i, in.Faces))
	}
	for _, want := range []string{
		"2 warnings", "1. One light streak: strip B1. Nothing balances it. Also: Light wood on one side of a joint only. Mend: Roll strip B1 over (free).",
		"2. Photographs share no grey reference. Colours are not compared.",
	} {
		if !strings.Contains(text, want) && !strings.Contains(strings.ReplaceAll(text, " 1. ", " "), want) {
			t.Errorf("the page does not say %q:\n%s", want, text)
		}
	}
	// The sign of warning 1 stands on strip t2, second from the front.
	s := in.Panels[0].Panel.Strips
	var sign written
	for _, w := range v.texts {
		if w.s == "!1" && w.at.Y < d.Pages[0].H*0.7 {
			sign = w
		}
	}
	first, second := v.one(in.number("top", s[0].ID), bigNumber), v.one(in.number("top", s[1].ID), bigNumber)
	third := v.one(in.number("top", s[2].ID), bigNumber)
	if !(sign.at.Y < first.at.Y && sign.at.Y > third.at.Y) || sign.at.X < second.rect.Max.X {
		t.Errorf("the sign stands at %v, the strip's number at %v", sign.at, second.at)
	}
}

func TestNoWarnings(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	in.Panels[0].Notes = nil
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	if text := flat(look(t, d, 0, in.Faces)); !strings.Contains(text, "No warnings.") {
		t.Error("a panel without warnings does not say so")
	}
}

// Cautions stand where they apply and not elsewhere.
func TestCautions(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	b := newBuilder(&in)
	walnut := b.panelCautions(&view{Panel: &in.Panels[0]})
	if !strings.Contains(walnut, "never to horses") || strings.Contains(walnut, "Weighs") {
		t.Errorf("a small walnut top: %s", walnut)
	}
	square := b.boardCautions(in.Boards[0], in.placesOn("A"))
	if strings.Contains(square, "riving knife") || !strings.Contains(square, "extraction") {
		t.Errorf("a square-edged board: %s", square)
	}
	desk := load(t, project(t, "desk-inch-waney.yaml"), A4, in.Faces)
	b = newBuilder(&desk)
	waney := b.boardCautions(desk.Boards[0], desk.placesOn("AA"))
	if !strings.Contains(waney, "riving knife") {
		t.Errorf("a waney board with strips at an angle: %s", waney)
	}
	cherry := b.panelCautions(&view{Panel: &desk.Panels[0]})
	if strings.Contains(cherry, "horses") {
		t.Errorf("a cherry top: %s", cherry)
	}
	short := []place{{strip: &in.Panels[0].Panel.Strips[0]}}
	s := *short[0].strip
	s.L = 200
	short[0].strip = &s
	if got := b.boardCautions(in.Boards[0], short); !strings.Contains(got, "machine's manual") {
		t.Errorf("a short strip: %s", got)
	}
}

// Weight by hand: 1150 x 360 x 20 mm of walnut of specific gravity 0.55 at 12
// per cent (Wood Handbook) are 8.28 litres, oven-dry 4.554 kg, with 12 per
// cent of water 5.10 kg. A heavy one says so.
func TestWeight(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	b := newBuilder(&in)
	kg, ok := b.weight(in.Panels[0].Panel)
	if d := kg - 5.10; !ok || d > 0.005 || d < -0.005 {
		t.Errorf("%g kg, %v; by hand 5.10", kg, ok)
	}
	block := load(t, project(t, "block-thirty-strips.yaml"), A4, in.Faces)
	if got := newBuilder(&block).fitCautions(&view{Panel: &block.Panels[0]}); !strings.Contains(got, "Weighs about") {
		t.Errorf("a bench top of 86 litres: %s", got)
	}
	if _, ok := b.weight(in.Panels[2].Panel); ok {
		t.Error("a panel with empty places has a weight")
	}
}

// What is assumed is said.
func TestRestsOn(t *testing.T) {
	in := load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t))
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	text := flat(look(t, d, 0, in.Faces))
	for _, want := range []string{"that of the finished faces", "Colours are assumed"} {
		if !strings.Contains(text, want) {
			t.Errorf("the shelf's page does not say %q", want)
		}
	}
}

// A panel 20 thick with 1.5 left until it is glued is planed to 21.5, 4.5 off a
// board of 26. With 4 and 0.5 taken off it is 21.5 as well; with 2.5 and 1 the
// 1 that is over comes off both alike, 3 and 1.5. In inches: 3/4 and 1.5 mm are 20.55 mm,
// 25.9 of a 32nd, so 26: 13/16. Off a board of 26 mm come 5.45 mm, 6.9 of them: 7/32.
func TestPlaneTo(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	b := newBuilder(&in)
	p := in.placesOn("A")[0]
	if got, want := b.planeTo(in.Boards[0], p), "4.5 mm, half from each side, to 21.5 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	m := *p.panel
	m.Strips = append(m.Strips[:0:0], m.Strips...)
	m.Strips[m.StripIndex(p.strip.ID)].Off = &[2]float64{4, 0.5}
	p.panel = &m
	if got, want := b.planeTo(in.Boards[0], p), "bark side 4 mm, heart side 0.5 mm, to 21.5 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	m.Strips[m.StripIndex(p.strip.ID)].Off = &[2]float64{2.5, 1}
	if got, want := b.planeTo(in.Boards[0], p), "bark side 3 mm, heart side 1.5 mm, to 21.5 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	other := *in.Boards[0]
	other.BarkFace = 2 // the bark side is named first
	if got, want := b.planeTo(&other, p), "bark side 1.5 mm, heart side 3 mm, to 21.5 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	m.Thickness = 30
	p.panel.Strips[m.StripIndex(p.strip.ID)].Off = nil
	if got := b.planeTo(in.Boards[0], p); got != "nothing off" {
		t.Errorf("a board thinner than its panel: %q", got)
	}
}

func TestPlaneToInInches(t *testing.T) {
	in := load(t, demo(t), A4, faces(t))
	project := *in.Project
	project.Units = unit.Inch
	in.Project = &project
	b := newBuilder(&in)
	p := in.placesOn("A")[0]
	m := *p.panel
	m.Thickness = 0.75 * 25.4
	p.panel = &m
	if got, want := b.planeTo(in.Boards[0], p), `7/32", half from each side, to 13/16"`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestTriangleSpansAllStrips(t *testing.T) {
	k := ink{faces: faces(t)}
	k.triangle(50, 10, 20, 60)
	if got := k.calls.String(); !strings.Contains(got, "ring 40,60 50,20 60,60") {
		t.Errorf("triangle: %s", got)
	}
}
