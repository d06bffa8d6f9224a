package ui

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/unit"
)

// boardForm is the dialog that a board begins and is changed with: identity,
// then sizes, then the sapwood widths taken with a tape.
type boardForm struct {
	w        *Window
	was      *model.Board // as it was, nil for a new one
	letter   *field
	chalk    *widget.Label
	species  *widget.Select
	about    *widget.Label
	size     [3]*field // length, width, thickness
	moisture *field
	wanted   *widget.Select
	bark     *widget.Select
	planes   *widget.Select
	seen2    *widget.Check
	tape     [2][2][3]*field // face, marked edge or other edge, station
	drawing  *boardDrawing
}

func woods() []model.Wanted { return []model.Wanted{model.WantHeart, model.WantSap, model.WantBoth} }

func wantedWords(v model.Wanted) string {
	switch v {
	case model.WantSap:
		return "Sapwood (light)"
	case model.WantBoth:
		return "Both"
	case model.WantDefault:
		return "As its boards"
	}
	return "Heartwood (dark)"
}

func barks() []model.Bark {
	return []model.Bark{model.BarkUnknown, model.BarkFace1, model.BarkFace2, model.BarkNone}
}

func barkWords(v model.Bark) string {
	switch v {
	case model.BarkFace1:
		return "Face 1 was nearer the bark"
	case model.BarkFace2:
		return "Face 2 was nearer the bark"
	case model.BarkNone:
		return "Neither, quarter-sawn"
	}
	return "Not known"
}

func planings() []model.Planes {
	return []model.Planes{model.PlanesUnknown, model.PlanesFromMarked, model.PlanesToMarked, model.PlanesMixed}
}

func planesWords(v model.Planes) string {
	switch v {
	case model.PlanesFromMarked:
		return "Cleanly from the marked end"
	case model.PlanesToMarked:
		return "Cleanly to the marked end"
	case model.PlanesMixed:
		return "Mixed"
	}
	return "Not known"
}

// newBoardAsk begins a board.
func (w *Window) newBoardAsk() {
	p := w.ses.Project()
	species := "walnut-black"
	if n := len(p.Boards); n > 0 {
		species = p.Boards[n-1].Species
	}
	b := &model.Board{ID: model.NextBoardID(p), Species: species}
	f := newBoardForm(w, b, nil)
	w.ask(question{title: "New board", body: f.body(), yes: "Add the board", size: fyne.NewSize(880, 640), focus: f.letter,
		do: func() error {
			out, err := f.board()
			if err != nil {
				return err
			}
			if err := w.ses.Commit(model.AddBoard{Board: out}); err != nil {
				return err
			}
			w.ses.Select(session.Selection{Panel: w.ses.Selected().Panel, Strip: w.ses.Selected().Strip, Board: out.ID, Zone: -1})
			w.say("Chalk " + out.ID + " on the board now: marked end, corner of the marked edge, face-1 side.")
			return nil
		}})
}

// editBoardAsk changes the board in hand.
func (w *Window) editBoardAsk() {
	b := w.board()
	f := newBoardForm(w, b, b)
	w.ask(question{title: "Board " + b.ID, body: f.body(), yes: "Keep", size: fyne.NewSize(880, 640), focus: f.size[0],
		do: func() error {
			out, err := f.board()
			if err != nil {
				return err
			}
			if out.ID != b.ID {
				to := out.ID
				out.ID = b.ID
				if err := w.ses.Commit(model.RenameBoard{From: b.ID, To: to}); err != nil {
					return err
				}
				out.ID = to
				w.holdBoard(to)
			}
			return w.ses.Commit(model.SetBoard{Board: out})
		}})
}

func newBoardForm(w *Window, b, was *model.Board) *boardForm {
	f := &boardForm{w: w, was: was}
	known := was != nil
	f.letter = w.newField(b.ID, "A")
	f.chalk = wrapped("", widget.MediumImportance)
	f.about = wrapped("", widget.LowImportance)
	var names []string
	at := 0
	for i, s := range catalog.All() {
		names = append(names, s.Name)
		if s.ID == b.Species {
			at = i
		}
	}
	f.species = widget.NewSelect(names, func(string) { f.changed() })
	f.size = [3]*field{w.lengthField(b.Length, known), w.lengthField(b.Width, known), w.lengthField(b.Thickness, known)}
	f.size[2].PlaceHolder = "26 mm, or 4/4"
	f.moisture = w.newField("", "not measured")
	if b.Moisture > 0 {
		f.moisture.Text = fmt.Sprintf("%g", b.Moisture)
	}
	wanted := b.Wanted
	if wanted == model.WantDefault {
		wanted = model.WantHeart
	}
	f.wanted = choice(woods(), wantedWords, wanted)
	f.bark = choice(barks(), barkWords, b.Bark)
	f.planes = choice(planings(), planesWords, b.Planes)
	f.seen2 = widget.NewCheck("I have looked at face 2", func(bool) { f.changed() })
	f.seen2.Checked = b.Faces[1].Known
	for face := range f.tape {
		var marked, other model.Tape
		if known {
			marked, other = model.FaceTape(b, face+1)
		}
		for edge, tape := range [2]model.Tape{marked, other} {
			for i, v := range tape {
				f.tape[face][edge][i] = w.lengthField(v, known && v != 0)
				f.tape[face][edge][i].PlaceHolder, f.tape[face][edge][i].narrow = "0", true
				f.tape[face][edge][i].OnChanged = func(string) { f.changed() }
			}
		}
	}
	f.drawing = newBoardDrawing(w)
	f.letter.OnChanged = func(string) { f.changed() }
	for _, e := range f.size {
		e.OnChanged = func(string) { f.changed() }
	}
	f.species.SetSelectedIndex(at)
	f.changed()
	return f
}

// body lays the form out.
func (f *boardForm) body() fyne.CanvasObject {
	identity := container.NewVBox(bold("1  Its letter"), pairs(named("Letter"), f.letter), f.chalk)
	sizes := container.NewVBox(bold("2  What it is"), pairs(
		named("Species"), f.species,
		named("Length"), f.size[0], named("Width"), f.size[1], named("Thickness"), f.size[2],
		named("Moisture, %"), f.moisture,
		named("Wanted"), f.wanted, named("Bark side"), f.bark, named("Planes"), f.planes), f.about)
	left := container.NewVBox(identity, widget.NewSeparator(), sizes)
	right := container.NewVBox(bold("3  Sapwood widths, with a tape"),
		wrapped("Width of the sapwood from each edge, at the marked end, in the middle and at the other end. Leave empty where there is none.", widget.LowImportance),
		f.tapeTable(0), f.seen2, f.tapeTable(1), f.drawing)
	if f.w.look.TextPercent() > 125 {
		return container.NewVBox(left, widget.NewSeparator(), right)
	}
	return container.NewGridWithColumns(2, left, container.NewBorder(nil, nil, widget.NewSeparator(), nil, right))
}

func (f *boardForm) tapeTable(face int) fyne.CanvasObject {
	head := func(s string) fyne.CanvasObject {
		l := widget.NewLabel(s)
		l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	g := container.NewGridWithColumns(4, head("Face "+itoa(face+1)), head("marked end"), head("middle"), head("other end"))
	for edge, name := range [2]string{"marked edge", "other edge"} {
		g.Add(head(name))
		for i := range f.tape[face][edge] {
			g.Add(f.tape[face][edge][i])
		}
	}
	return g
}

// changed follows what is typed: the chalk mark, the species' sources, the
// drawing.
func (f *boardForm) changed() {
	id := strings.TrimSpace(f.letter.Text)
	f.chalk.SetText("Chalk " + id + " on the marked end, at the corner of the marked edge, on the side you call face 1. Everything on screen and on the sheet refers to that mark.")
	if i := f.species.SelectedIndex(); i >= 0 {
		s := catalog.All()[i]
		if t := aboutSpecies(s); f.about.Text != t {
			f.about.SetText(t)
		}
	}
	for edge := range f.tape[1] {
		for _, e := range f.tape[1][edge] {
			if e == nil {
				return // still being made
			}
			if f.seen2.Checked == e.Disabled() {
				if f.seen2.Checked {
					e.Enable()
				} else {
					e.Disable()
				}
			}
		}
	}
	if f.drawing == nil {
		return
	}
	if b, err := f.board(); err == nil {
		f.drawing.show(b)
	}
}

// aboutSpecies tells what the table holds of a wood and where it is from.
func aboutSpecies(s catalog.Species) string {
	t := s.Latin + ". "
	if v := s.Move.Tangential; v.OK {
		t += fmt.Sprintf("Moves %g of its width per 1 %% moisture, tangential (%s). ", v.Value, v.Text())
	}
	return t + "Colours on screen: " + catalog.SwatchText + "."
}

// board reads the form.
func (f *boardForm) board() (*model.Board, error) {
	out := model.Board{}
	if f.was != nil {
		out = *f.was
	}
	out.ID = strings.TrimSpace(f.letter.Text)
	if out.ID == "" {
		return nil, errors.New("letter: every board needs one, such as A; chalk it on the board first")
	}
	if i := f.species.SelectedIndex(); i >= 0 {
		out.Species = catalog.All()[i].ID
	}
	var errs [4]error
	out.Length, errs[0] = f.sized(0, "length", out.Length)
	out.Width, errs[1] = f.sized(1, "width", out.Width)
	if f.was == nil || f.size[2].Text != f.w.ses.Len(f.was.Thickness) {
		out.Thickness, _, errs[2] = unit.ParseThickness(f.size[2].Text, f.w.ses.Units())
		if errs[2] != nil {
			errs[2] = fmt.Errorf("thickness: %w", errs[2])
		}
	}
	out.Moisture, errs[3] = f.moisture.number("moisture")
	if err := first(errs[:]...); err != nil {
		return nil, err
	}
	out.Wanted, out.Bark, out.Planes = chosen(f.wanted, woods()), chosen(f.bark, barks()), chosen(f.planes, planings())
	for i := range out.Faces {
		if err := f.face(&out, i); err != nil {
			return nil, err
		}
	}
	return &out, nil
}

func (f *boardForm) sized(i int, name string, was float64) (float64, error) {
	if f.was != nil && f.size[i].Text == f.w.ses.Len(was) {
		return was, nil
	}
	return f.size[i].size(name)
}

// face puts the tape's widths onto a face. Where they say what the zones say
// already, drawn zones stay as they are; otherwise the sapwood is drawn anew
// and all else kept.
func (f *boardForm) face(b *model.Board, i int) error {
	face := b.Faces[i] // the list of zones is shared with the board as it was
	face.Known = i == 0 || f.seen2.Checked
	var tape [2]model.Tape
	for edge, name := range [2]string{"marked edge", "other edge"} {
		for k, e := range f.tape[i][edge] {
			if strings.TrimSpace(e.Text) == "" {
				continue
			}
			v, err := e.length(fmt.Sprintf("face %d, %s", i+1, name))
			if err != nil {
				return err
			}
			if v < 0 || v > b.Width {
				return fmt.Errorf("face %d, %s: a sapwood width of %s does not fit a board %s wide", i+1, name, e.Text, f.w.ses.Len(b.Width))
			}
			tape[edge][k] = v
		}
	}
	if f.was != nil && f.sameTape(i) && f.was.Length == b.Length && f.was.Width == b.Width {
		b.Faces[i] = face
		return nil
	}
	if !face.Known {
		b.Faces[i] = face
		return nil
	}
	zones := model.FaceTapeZones(i+1, b.Length, b.Width, tape[0], tape[1])
	for _, z := range face.Zones {
		if z.Kind != model.Sap {
			zones = append(zones, z)
		}
	}
	face.Zones = zones
	b.Faces[i] = face
	return nil
}

// sameTape reports whether the widths are those shown when the dialog opened.
func (f *boardForm) sameTape(i int) bool {
	marked, other := model.FaceTape(f.was, i+1)
	for edge, tape := range [2]model.Tape{marked, other} {
		for k, v := range tape {
			text := ""
			if v != 0 {
				text = f.w.ses.Len(v)
			}
			if f.tape[i][edge][k].Text != text {
				return false
			}
		}
	}
	return true
}

// removeBoard takes the board in hand out of the project.
func (w *Window) removeBoard() {
	b := w.board()
	n := 0
	for _, p := range w.ses.Project().Panels {
		for _, s := range p.Strips {
			if s.Board == b.ID {
				n++
			}
		}
	}
	if n == 0 {
		w.commit(model.RemoveBoard{ID: b.ID})
		return
	}
	w.ask(question{title: "Remove board " + b.ID + "?", yes: "Remove",
		body: wrapped(count(n, "strip is", "strips are")+" laid on it; their places in the panels become empty. Undo brings all back.", widget.MediumImportance),
		do:   func() error { return w.ses.Commit(model.RemoveBoard{ID: b.ID}) }})
}
